/**
 * Closed laws of electrostatic discharge, as formulas. For design only: tests follow IEC 61000-4-2 and are made by
 * trained staff; kilovolts and discharges can hurt.
 */
import { commonPractice, formula } from "../../formula/formula";
import { numericalFormula } from "../../formula/numerical";
import { A_per_us, ampere, farad, kV, mJ, nH, ns, ohm, one, percent, pF, uC, volt } from "../../units";

const standard = "IEC 61000-4-2:2008, table 2";

export const firstPeak = numericalFormula("I_p = 3.75*U", { U: kV }, ampere, {
  meaning:
    "first peak of the contact-discharge current at the test voltage U (±15 %), in A for kV; it comes from the capacitance of hand and tip, not from U over 330 Ω",
  source: standard,
  valid: { U: "0 kV to 15 kV" },
});

export const currentAt30ns = numericalFormula("I_30 = 2*U", { U: kV }, ampere, {
  meaning: "contact-discharge current 30 ns after it first reached a tenth of its peak (±30 %), in A for kV",
  source: standard,
  valid: { U: "0 kV to 15 kV" },
});

export const currentAt60ns = numericalFormula("I_60 = 1*U", { U: kV }, ampere, {
  meaning: "contact-discharge current 60 ns after it first reached a tenth of its peak (±30 %), in A for kV",
  source: standard,
  valid: { U: "0 kV to 15 kV" },
});

export const storedEnergy = formula("E = C*U^2/2", { C: pF, U: kV }, mJ, {
  meaning: "energy of a capacitance C charged to U: 150 pF in the standard's generator, 100 pF in the human-body model of parts",
  source: commonPractice,
  valid: { C: "> 0" },
});

export const storedCharge = formula("Q = C*U", { C: pF, U: kV }, uC, {
  meaning: "charge of a capacitance C at U",
  source: commonPractice,
  valid: { C: "> 0" },
});

export const bodyPeak = formula("I = U/R", { U: kV, R: ohm }, ampere, {
  meaning:
    "peak current of a capacitance charged to U behind R into a short: what a part's human-body rating (R = 1.5 kΩ) stands for; with 330 Ω, not the first peak of the standard's generator",
  source: "ANSI/ESDA/JEDEC JS-001: 100 pF, 1.5 kΩ (from memory)",
  valid: { R: "> 0 Ω" },
});

export const bodyTime = formula("tau = R*C", { R: ohm, C: pF }, ns, {
  meaning: "time constant with which a capacitance C discharges through R into a short",
  source: commonPractice,
  valid: { R: "> 0", C: "> 0" },
});

export const residualVoltage = formula("V = V_br + I*R_dyn", { V_br: volt, I: ampere, R_dyn: ohm }, volt, {
  meaning: "voltage across a clamp of breakdown voltage V_br and dynamic resistance R_dyn that carries I, without its stub",
  source: "straight line through transmission-line-pulse points; common practice",
  valid: { I: ">= 0 A" },
});

export const edgeSlope = formula("s = 0.8*I_p/t_r", { I_p: ampere, t_r: ns }, A_per_us, {
  meaning: "mean slope of an edge from 10 % to 90 % of I_p in the time t_r",
  source: commonPractice,
  valid: { t_r: "> 0 s" },
});

export const stubVoltage = formula("V_L = L*s", { L: nH, s: A_per_us }, volt, {
  meaning: "voltage across the inductance L of the way to a clamp and on to ground while the current rises by s",
  source: commonPractice,
  valid: { L: "> 0" },
});

export const settledPinCurrent = formula(
  "I = (V - V_rail - V_f)/(R + R_pin)",
  { V: volt, V_rail: volt, V_f: volt, R: ohm, R_pin: ohm },
  ampere,
  {
    meaning:
      "current into a pin that clamps to its rail (V_rail, 0 unpowered, plus the drop V_f, behind R_pin) through a resistor R from a clamped voltage V that stays",
    source: commonPractice,
    valid: { V_rail: ">= 0", V_f: ">= 0", R: ">= 0", R_pin: "> 0" },
    holds: "V above V_rail + V_f; below, the pin does not clamp and carries nothing",
  },
);

export const sharedVoltage = formula("V = U*C_1/(C_1 + C_2)", { U: kV, C_1: pF, C_2: farad }, volt, {
  meaning: "voltage after a capacitance C_1 charged to U has shared its charge with C_2",
  source: "conservation of charge",
  valid: { C_2: ">= 0 F" },
});

export const pinMargin = formula("M = (I_max - I)/I_max", { I_max: ampere, I: ampere }, percent, {
  meaning: "distance of a pin's peak current I to what it may carry, I_max, as a share of that",
  source: commonPractice,
  valid: { I_max: "> 0 A" },
});

export const deratedPin = formula("I_max = d*I", { d: one, I: ampere }, ampere, {
  meaning: "peak current allowed at a pin: the share d of the peak I of its human-body rating",
  source: `${commonPractice}; the human-body pulse lasts longer (150 ns), its edge is slower (2 to 10 ns)`,
  valid: { d: "0 to 1" },
});
