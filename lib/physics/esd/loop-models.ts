/**
 * A discharge into a protected pin as models fast enough for worst cases and sampling. For design only: tests follow
 * IEC 61000-4-2 and are made by trained staff; kilovolts and discharges can hurt.
 */
import { curveOutput, defineModel, type Over } from "../../graph/model";
import { ampere, kV, mV, nH, ns, ohm, uH, uJ, volt } from "../../units";
import { notNegative, positive } from "../model-limits";
import { type LoopStrike, loopStep, loopStrike, loopTimes } from "./loop";
import { contactVoltages } from "./models";
import { dischargeCurrent } from "./waveform";

const inputs = {
  U: kV,
  L_st: nH,
  V_br: volt,
  R_dyn: ohm,
  L: uH,
  L_sat: nH,
  I_sat: ampere,
  R_dc: ohm,
  R: ohm,
  V_rail: volt,
  V_f: mV,
  R_pin: ohm,
} as const;
type Line = { readonly [K in keyof typeof inputs]: number };
const network =
  "a clamp (stub L_st, breakdown V_br, dynamic resistance R_dyn) to ground, then a choke in the line (L up to I_sat, L_sat beyond, R_dc) and a resistor R, then a pin that clamps at V_rail + V_f behind R_pin; V_rail = 0 V is the unpowered product";
const source =
  "IEC 61000-4-2:2008, analytic contact-discharge current; Kirchhoff's law of voltages around clamp, choke, resistor and pin, solved in time by the trapezoidal rule";
const valid = [contactVoltages, ...positive("L", "L_sat", "I_sat"), ...notNegative("L_st", "V_br", "R_dyn", "R_dc", "R", "V_f", "R_pin")];
const holds =
  "for currents above some tenths of an ampere; below, the capacitances of clamp and pin that it leaves out carry a few hundredths more";

/** What a contact discharge does to a protected pin, by its one loop. */
export const pinCurrent = defineModel({
  name: "esd.pinCurrent",
  inputs,
  outputs: { I_pin: ampere, V_j: volt, E_cl: uJ, E_R: uJ },
  meaning: `peak current, voltage and energies when the standard's contact current at the test voltage U is forced into ${network}`,
  meanings: {
    I_pin: "peak current into the pin",
    V_j: "peak voltage at the connector",
    E_cl: "energy in the clamp",
    E_R: "energy in the resistor of the line",
  },
  source,
  valid,
  holds,
  draws: 1000,
  ways: (over) =>
    isSteady(over) ? { I_pin: { V_br: 1, R_dyn: 1, L: -1, L_sat: -1, I_sat: -1, R_dc: -1, R: -1, V_rail: -1, V_f: -1, R_pin: -1 } } : {},
  waysBecause:
    "more of what drives the loop, or less resistance in it, gives more current at every time (comparison of differential equations with ordered right sides); a larger flux of the choke at equal current lags by a mean of what it was before, which at the peak is no more than what it is there",
  evaluate: (args) => {
    const { I_pin, V_j, E_cl, heat } = followed(args);
    return { I_pin, V_j, E_cl, E_R: args.R * heat };
  },
});

/** The currents of the same loop against time. */
export const pinCurrentCurve = defineModel({
  name: "esd.pinCurrentCurve",
  inputs,
  outputs: { i_p: curveOutput(ns, ampere), i_c: curveOutput(ns, ampere) },
  meaning: `currents against time when the standard's contact current at the test voltage U is forced into ${network}`,
  meanings: { i_p: "current into the pin against time", i_c: "current in the clamp against time" },
  source,
  valid,
  holds,
  evaluate: (args) => {
    const i = new Float64Array(loopTimes.length);
    followed(args, i);
    const pin = i.slice(1, drawn.length + 1);
    const clamp = pin.map((into, k) => dischargeCurrent(args.U, drawn[k] as number) - into);
    return { i_p: { x: drawn, y: pin }, i_c: { x: drawn, y: clamp } };
  },
});

/** Without the first, at which nothing flows: a logarithmic axis has no place for 0, s. */
const drawn = loopTimes.filter((t) => t > 0 && t <= 120e-9);

function followed({ U, R_dc, R, R_pin, V_rail, V_f, ...line }: Line, i?: Float64Array): LoopStrike {
  return loopStrike({ ...line, R: R_dc + R + R_pin, V_pin: V_rail + V_f }, U, i);
}

/** Whether every step of the solution, as the equation itself, is the larger the larger what went before, and the choke never gains by saturation. */
function isSteady({ L_st, L, L_sat, R_dyn, R_dc, R, R_pin }: Over<typeof inputs>): boolean {
  const most = R_dyn.high + R_dc.high + R.high + R_pin.high;
  return L_sat.high <= L.low && L_sat.low + L_st.low >= (loopStep * most) / 2;
}
