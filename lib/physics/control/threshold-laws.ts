/**
 * A comparator that watches a voltage V, as formulas: V through R_1 and R_2 to ground at the input that is compared with
 * V_ref, and R_h from the output (V_l low, V_h high) to the same input. Only quotients of resistances and the reference
 * set the thresholds, so their tolerances are those of R_1, R_2, R_h, V_ref and the offset V_os (referred to the input; a
 * bias current I_b out of the input adds −I_b·R_1 to V). An output that only sinks goes high through its pull-up: add that
 * to R_h in the falling threshold. Left out: delay, and noise beyond the hysteresis.
 */
import { formula } from "../../formula/formula";
import { kohm, mV, nA, ohm, volt } from "../../units";

const kirchhoff = "Kirchhoff's current law at the comparator's input; common practice";
const positive = { R_1: "> 0 Ω", R_2: "> 0 Ω", R_h: "> 0 Ω", V_ref: "> 0 V" } as const;

export const risingThreshold = formula(
  "V_r = V_ref + V_os + R_1*((V_ref + V_os)/R_2 + (V_ref + V_os - V_l)/R_h)",
  { V_ref: volt, V_os: mV, R_1: ohm, R_2: ohm, R_h: ohm, V_l: volt },
  volt,
  { meaning: "voltage at which the comparator goes high, its output low until then", source: kirchhoff, valid: positive },
);

export const fallingThreshold = formula(
  "V_f = V_ref + V_os + R_1*((V_ref + V_os)/R_2 - (V_h - V_ref - V_os)/R_h)",
  { V_ref: volt, V_os: mV, R_1: ohm, R_2: ohm, R_h: ohm, V_h: volt },
  volt,
  { meaning: "voltage at which the comparator goes low, its output high until then", source: kirchhoff, valid: positive },
);

export const thresholdHysteresis = formula("V_hys = R_1*(V_h - V_l)/R_h", { R_1: ohm, V_h: volt, V_l: volt, R_h: ohm }, mV, {
  meaning: "distance of the two thresholds: the output's swing through R_1 and R_h; the reference and its offset have no part in it",
  source: kirchhoff,
  valid: { R_1: "> 0 Ω", R_h: "> 0 Ω" },
});

export const hysteresisResistor = formula("R_h = R_1*(V_h - V_l)/V_hys", { R_1: ohm, V_h: volt, V_l: volt, V_hys: mV }, kohm, {
  meaning: "resistor from the output to the input that gives the hysteresis V_hys",
  source: kirchhoff,
  valid: { R_1: "> 0 Ω", V_hys: "> 0 mV" },
});

export const lowerResistor = formula(
  "R_2 = V_ref/((V_f - V_ref)/R_1 + (V_h - V_ref)/R_h)",
  { V_ref: volt, V_f: volt, R_1: ohm, V_h: volt, R_h: ohm },
  kohm,
  {
    meaning: "resistor to ground that puts the falling threshold at V_f: `fallingThreshold` turned round, without offset",
    source: kirchhoff,
    valid: { R_1: "> 0 Ω", R_h: "> 0 Ω", V_ref: "> 0 V" },
  },
);

export const plainThreshold = formula("V_t = V_ref*(1 + R_1/R_2)", { V_ref: volt, R_1: ohm, R_2: ohm }, volt, {
  meaning: "threshold of a divider without hysteresis of its own, such as that of a supervisor whose hysteresis is inside",
  source: "voltage divider",
  valid: { V_ref: "> 0 V", R_1: "> 0 Ω", R_2: "> 0 Ω" },
});

export const biasShift = formula("dV = -I_b*R_1", { I_b: nA, R_1: ohm }, mV, {
  meaning: "shift of both thresholds by a current I_b that flows out of the comparator's input",
  source: kirchhoff,
  valid: { R_1: "> 0 Ω" },
});
