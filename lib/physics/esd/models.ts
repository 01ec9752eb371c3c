/**
 * Procedures of electrostatic discharge, as models. For design only: tests follow IEC 61000-4-2 and are made by trained
 * staff; kilovolts and discharges can hurt.
 */
import { curveOutput, defineModel, tableInput } from "../../graph/model";
import { ampere, henry, kPa, kV, mm, nH, ns, ohm, percent, pF, uJ, volt } from "../../units";
import { bodyStrike, type Protection, strike } from "./protection";
import { contactLevels, dischargeCurrent, pulseFigures } from "./waveform";

const analytic = "IEC 61000-4-2:2008, analytic contact-discharge current (constants for 4 kV, scaled with the voltage)";
const solved = `${analytic}; network solved in time by TR-BDF2`;
/** Test voltages of the standard, V, and a third more: what its tolerances allow a generator. */
export const contactVoltages = {
  symbol: "U",
  low: 0,
  high: 20e3,
  text: "0 kV to 20 kV: levels of the standard, and a generator that is strong",
};
const network =
  "a clamp (stub L_st, breakdown V_br, dynamic resistance R_dyn, capacitance C_cl), then a choke in the line (L up to I_sat, L_sat beyond, R_dc, R_p across it; 0 H for none) and a resistor R, then a pin of capacitance C_pin that clamps at V_rail + V_f behind R_pin";
const line = {
  L_st: nH,
  V_br: volt,
  R_dyn: ohm,
  C_cl: pF,
  L: henry,
  L_sat: henry,
  I_sat: ampere,
  R_dc: ohm,
  R_p: ohm,
  R: ohm,
  C_pin: pF,
  V_rail: volt,
  V_f: volt,
  R_pin: ohm,
} as const;
const struck = { I_pin: ampere, I_cl: ampere, V_j: volt, V_pin: volt, E_cl: uJ, E_R: uJ, E_pin: uJ } as const;
const meanings = {
  I_pin: "peak current into the pin's clamp",
  I_cl: "peak current in the clamp",
  V_j: "peak voltage at the connector",
  V_pin: "peak voltage at the pin",
  E_cl: "energy in the clamp",
  E_R: "energy in the resistor of the line",
  E_pin: "energy in the pin's clamp",
} as const;

/** The standard's contact current and its figures. */
export const pulse = defineModel({
  name: "esd.pulse",
  inputs: { U: kV },
  outputs: { I_p: ampere, t_p: ns, t_r: ns, I_30: ampere, I_60: ampere, i: curveOutput(ns, ampere) },
  meaning: "contact-discharge current at the test voltage U: its analytic form, to 120 ns, and the figures that the standard states",
  meanings: {
    I_p: "first peak",
    t_p: "time of the first peak",
    t_r: "time from 10 % to 90 % of the first peak",
    I_30: "current 30 ns after 10 % of the peak",
    I_60: "current 60 ns after 10 % of the peak",
    i: "contact-discharge current against time",
  },
  source: analytic,
  valid: [contactVoltages],
  evaluate: ({ U }) => {
    const x = pulseTimes();
    return { ...pulseFigures(U), i: { x, y: x.map((t) => dischargeCurrent(U, t)) } };
  },
});

/** The contact current at one time. */
export const pulseCurrent = defineModel({
  name: "esd.pulseCurrent",
  inputs: { U: kV, t: ns },
  outputs: { i: ampere },
  meaning: "contact-discharge current i of the test voltage U at the time t after its start",
  source: analytic,
  valid: [contactVoltages],
  evaluate: ({ U, t }) => ({ i: dischargeCurrent(U, t) }),
});

/** What a contact discharge does to a protected pin. */
export const contactDischarge = defineModel({
  name: "esd.contactDischarge",
  inputs: { U: kV, ...line },
  outputs: struck,
  meaning: `peaks and energies when the standard's contact current at the test voltage U is forced into ${network}; V_rail = 0 V is the unpowered product`,
  meanings,
  source: solved,
  valid: [contactVoltages, positive("C_pin")],
  draws: 1000,
  evaluate: ({ U, ...protection }) => ({ ...strike(protection, U) }),
});

/** What a charged capacitor does to a protected pin. */
export const bodyDischarge = defineModel({
  name: "esd.bodyDischarge",
  inputs: { U: kV, C_0: pF, R_0: ohm, L_0: nH, ...line },
  outputs: struck,
  meaning: `peaks and energies when C_0, charged to U, is connected through R_0 and L_0 (150 pF and 330 Ω: the standard's generator without its tip; 100 pF and 1.5 kΩ: human-body model) to ${network}`,
  meanings,
  source: "charged capacitor behind a resistance; network solved in time by TR-BDF2",
  valid: [contactVoltages, positive("C_0"), positive("R_0"), positive("C_pin")],
  draws: 1000,
  evaluate: ({ U, C_0, R_0, L_0, ...protection }) => ({ ...bodyStrike(protection, { U, C_0, R_0, L_0 }) }),
});

/** Margin at the four contact levels, powered and not: eight discharges a call, half a millisecond each, hence its few draws. */
export const levels = defineModel({
  name: "esd.levels",
  inputs: { I_max: ampere, ...line },
  outputs: {
    I_on: curveOutput(kV, ampere),
    I_off: curveOutput(kV, ampere),
    M_on: curveOutput(kV, percent),
    M_off: curveOutput(kV, percent),
  },
  meaning: `peak current into the pin's clamp, and margin to I_max, at the contact voltages of levels 1 to 4 (2, 4, 6, 8 kV), powered at V_rail and unpowered at 0 V, of ${network}`,
  meanings: {
    I_on: "peak pin current against contact voltage, powered",
    I_off: "peak pin current against contact voltage, unpowered",
    M_on: "margin of the pin's current against contact voltage, powered",
    M_off: "margin of the pin's current against contact voltage, unpowered",
  },
  source: solved,
  valid: [positive("I_max"), positive("C_pin")],
  draws: 200,
  evaluate: ({ I_max, ...protection }) => {
    const [I_on, I_off] = [currents(protection), currents({ ...protection, V_rail: 0 })];
    const curve = (y: Float64Array) => ({ x: Float64Array.from(contactLevels), y });
    const margin = (I: Float64Array) => curve(I.map((i) => (I_max - i) / I_max));
    return { I_on: curve(I_on), I_off: curve(I_off), M_on: margin(I_on), M_off: margin(I_off) };
  },
});

/** Pressure that the clearances of the standard's table belong to, Pa: 2000 m above the sea. */
const tablePressure = 80e3;

/** Clearance for a voltage from rows of a standard, at altitude. */
export const leastClearance = defineModel({
  name: "esd.leastClearance",
  inputs: { U: kV, p: kPa, table: tableInput(kV, mm) },
  outputs: { d: mm },
  meaning:
    "least clearance in air that withstands the impulse voltage U at the air pressure p, from rows for 80 kPa (2000 m above the sea), which hold for all lower places; higher up it grows as the air gets thinner",
  source: "IEC 60664-1: clearances against impulse withstand voltage, and altitude correction (from memory); Paschen's law",
  valid: [positive("U"), { symbol: "p", low: 20e3, high: 110e3, text: "20 kPa to 110 kPa" }],
  holds: "for voltages inside the table, an error outside",
  evaluate: ({ U, p, table }) => ({ d: table.at(U) * Math.max(1, tablePressure / p) }),
});

function currents(protection: Protection): Float64Array {
  return Float64Array.from(contactLevels, (U) => strike(protection, U).I_pin);
}

function positive(symbol: string) {
  return { symbol, low: Number.MIN_VALUE, high: Infinity, text: "> 0" };
}

/** Close together about the first peak, wider in the tail, s. */
function pulseTimes(): Float64Array {
  return Float64Array.from({ length: 121 }, (_, k) => (k <= 60 ? k * 0.1e-9 : 6e-9 + (k - 60) * 1.9e-9));
}
