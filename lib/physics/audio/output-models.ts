/** Procedures of an output stage, as models: its limits, its heat, its output impedance and its stability. Loads of 8 Ω to 600 Ω; for stability also none. */
import { commonPractice } from "../../formula/formula";
import { curveOutput, defineModel } from "../../graph/model";
import { dB, deg, henry, hertz, kHz, MHz, mA, mW, ohm, one, percent, pF, volt } from "../../units";
import { notNegative, oneOrMore, positive } from "../model-limits";
import { add, magnitude } from "../numerics/complex";
import { frequencies } from "../rf/filter";
import { greatestHeat as greatestHeatOf, outputBounds, stageHeat } from "./limits";
import { outputImpedance as impedanceOf, loopCurves, stability } from "./loop";

const classAB =
  "push-pull stage whose devices keep I_1·I_2 = I_q² (P. R. Gray and R. G. Meyer, Analysis and Design of Analog Integrated Circuits; from memory)";
const bode = "negative feedback, H. W. Bode (from memory); open-loop gain of one pole, or two";
const headphones = { symbol: "R_L", low: 8, high: 600, text: "8 Ω to 600 Ω" };
// An unplugged load is where a capacitor is most dangerous
const loadOrNone = { symbol: "R_L", low: 8, high: Infinity, text: ">= 8 Ω" };
const curvePoints = 121;
const stage = { V_s: volt, I_q: mA, R_s: ohm, R_L: ohm } as const;
const stageOf = "one class-AB channel on ±V_s with the quiescent current I_q, into R_L behind R_s";
const loop = { A_0: dB, f_t: MHz, f_p2: MHz, R_o: ohm, G: dB } as const;
const loopLimits = [...positive("A_0", "f_t"), ...notNegative("f_p2", "R_o"), ...oneOrMore("G")];
const load = { R_i: ohm, R_L: ohm, C_L: pF } as const;
const loopOf =
  "an amplifier (open-loop gain A_0, gain-bandwidth product f_t, second pole f_p2 or 0 Hz for none, open-loop output resistance R_o with any resistor inside the loop, noise gain G)";

/** What bounds a sine at the load. */
export const outputLimits = defineModel({
  name: "audio.outputLimits",
  inputs: { V_s: volt, V_h: volt, R_s: ohm, R_L: ohm, I_max: mA, I_q: mA, P_max: mW },
  outputs: { V_p: volt, I_p: mA, P: mW, limit: one, V_v: volt, V_i: volt, V_t: volt },
  meaning:
    "largest sine of one class-AB channel on ±V_s in R_L: swing within the headroom V_h behind all series resistance R_s, peak current I_max, heat P_max with the quiescent current I_q (the lowest level at which it is reached)",
  meanings: {
    V_p: "largest peak at the load",
    I_p: "its peak current",
    P: "its power",
    limit: "which limit binds: 1 voltage, 2 current, 3 heat",
    V_v: "peak that the swing allows",
    V_i: "peak that the current allows",
    V_t: "peak that heat allows, the bare rail where it never binds",
  },
  source: commonPractice,
  valid: [headphones],
  evaluate: ({ I_max, P_max, ...given }) => {
    const { V_p, V_h, ...bounds } = outputBounds(given, I_max, P_max);
    return { ...bounds, V_t: V_h, V_p, I_p: V_p / given.R_L, P: (V_p * V_p) / (2 * given.R_L) };
  },
});

/** Heat of a class-AB stage at one level. */
export const classABHeat = defineModel({
  name: "audio.classABHeat",
  inputs: { ...stage, V_p: volt },
  outputs: { P_h: mW, P_s: mW, I_s: mA, eta: percent },
  meaning: `heat of ${stageOf}, at a sine of the peak V_p at the load; class A near I_q counted exactly`,
  meanings: {
    P_h: "heat of the output devices, without that of R_s",
    P_s: "power from both rails",
    I_s: "mean current of each rail",
    eta: "power in the load over that from the rails",
  },
  source: classAB,
  valid: [headphones],
  evaluate: ({ V_p, ...given }) => ({ ...stageHeat({ ...given, V_h: 0 }, V_p) }),
});

/** Heat of a class-AB stage against level. */
export const classABHeatCurve = defineModel({
  name: "audio.classABHeatCurve",
  inputs: { ...stage, V_m: volt },
  outputs: { P_h: curveOutput(volt, mW) },
  meaning: `heat against the peak of a sine at the load, from none to V_m, of ${stageOf}`,
  source: classAB,
  valid: [headphones],
  evaluate: ({ V_m, ...given }) => {
    const x = Float64Array.from({ length: curvePoints }, (_, i) => (V_m * i) / (curvePoints - 1));
    return { P_h: { x, y: x.map((V) => stageHeat({ ...given, V_h: 0 }, V).P_h), interpolation: "linear" } };
  },
});

/** The greatest heat of a class-AB stage over all levels. */
export const greatestHeat = defineModel({
  name: "audio.greatestHeat",
  inputs: { ...stage, V_m: volt },
  outputs: { P_h: mW, V_p: volt },
  meaning: `greatest heat, over sines of any peak from none to V_m at the load, of ${stageOf}`,
  meanings: { P_h: "greatest heat of the output devices", V_p: "peak at which it is" },
  source: classAB,
  valid: [headphones],
  evaluate: ({ V_m, ...given }) => ({ ...greatestHeatOf({ ...given, V_h: 0 }, V_m) }),
});

/** Output impedance under feedback at one frequency. */
export const outputImpedance = defineModel({
  name: "audio.outputImpedance",
  inputs: { f: hertz, ...loop },
  outputs: { Z: ohm, R: ohm, X: ohm },
  meaning: `output impedance at the frequency f of ${loopOf}`,
  meanings: { Z: "magnitude of the output impedance", R: "its resistance", X: "its reactance: inductive, since the loop gain falls" },
  source: bode,
  valid: [...notNegative("f"), ...loopLimits],
  evaluate: ({ f, ...given }) => {
    const Z = impedanceOf(given, f);
    return { Z: magnitude(Z), R: Z.re, X: Z.im };
  },
});

/** Damping factor with all that lies between amplifier and load. */
export const dampingAt = defineModel({
  name: "audio.dampingAt",
  inputs: { f: hertz, Z_L: ohm, ...loop, L_f: henry, R_s: ohm },
  outputs: { D: one, Z: ohm },
  meaning: `damping factor at the frequency f of a load Z_L on ${loopOf}, behind an output inductor L_f and all further resistance R_s: inductor, tracks, contacts, cable, forth and back`,
  meanings: { D: "damping factor", Z: "magnitude of the impedance that the load sees" },
  source: bode,
  valid: [{ ...headphones, symbol: "Z_L" }, ...loopLimits],
  evaluate: ({ f, Z_L, L_f, R_s, ...given }) => {
    const Z = magnitude(sourceOf(given, L_f, R_s, f));
    return { D: Z_L / Z, Z };
  },
});

/** Damping factor over a band. */
export const dampingCurve = defineModel({
  name: "audio.dampingCurve",
  inputs: { f_1: hertz, f_2: hertz, Z_L: ohm, ...loop, L_f: henry, R_s: ohm },
  outputs: { D: curveOutput(hertz, one), Z: curveOutput(hertz, ohm) },
  meaning: `damping factor, and the impedance that the load sees, from f_1 to f_2, of a load Z_L on ${loopOf}, behind an output inductor L_f and all further resistance R_s`,
  meanings: { D: "damping factor", Z: "magnitude of the impedance that the load sees" },
  source: bode,
  valid: [{ ...headphones, symbol: "Z_L" }, ...loopLimits],
  evaluate: ({ f_1, f_2, Z_L, L_f, R_s, ...given }) => {
    const x = frequencies(f_1, f_2, curvePoints);
    const y = x.map((f) => magnitude(sourceOf(given, L_f, R_s, f)));
    return { D: { x, y: y.map((Z) => Z_L / Z), interpolation: "log-log" }, Z: { x, y, interpolation: "log-log" } };
  },
});

function sourceOf(given: Parameters<typeof impedanceOf>[0], L_f: number, R_s: number, f: number) {
  return add(impedanceOf(given, f), { re: R_s, im: 2 * Math.PI * f * L_f });
}

/** Stability of an amplifier into a capacitor. */
export const capacitiveLoad = defineModel({
  name: "audio.capacitiveLoad",
  inputs: { ...loop, ...load },
  outputs: { phi: deg, f_x: kHz, f_p: kHz },
  meaning: `phase margin of ${loopOf} into C_L parallel to R_L, behind the isolating resistor R_i outside the loop (0 Ω for none)`,
  meanings: {
    phi: "phase margin: 45° and more is calm, below 0° it oscillates",
    f_x: "frequency at which the loop gain is 1",
    f_p: "pole of the load: C_L with R_o + R_i and R_L",
  },
  source: bode,
  valid: [loadOrNone, ...loopLimits],
  evaluate: ({ R_i, R_L, C_L, ...given }) => {
    const { f_x, phi } = stability(given, { R_i, R_L, C_L });
    const R = given.R_o + R_i;
    return { phi, f_x, f_p: (R + R_L) / (2 * Math.PI * R * R_L * C_L) };
  },
});

/** Loop gain of an amplifier into a capacitor, over a band. */
export const loopGainCurve = defineModel({
  name: "audio.loopGainCurve",
  inputs: { f_1: hertz, f_2: hertz, ...loop, ...load },
  outputs: { T: curveOutput(hertz, dB), phi: curveOutput(hertz, deg) },
  meaning: `loop gain and its phase from f_1 to f_2 of ${loopOf} into C_L parallel to R_L, behind the isolating resistor R_i`,
  meanings: { T: "loop gain", phi: "phase of the loop gain; −180° at a loop gain of 1 oscillates" },
  source: bode,
  valid: [loadOrNone, ...loopLimits],
  evaluate: ({ f_1, f_2, R_i, R_L, C_L, ...given }) => {
    const x = frequencies(f_1, f_2, curvePoints);
    const { T, phi } = loopCurves(given, { R_i, R_L, C_L }, x);
    return { T: { x, y: T, interpolation: "log-log" }, phi: { x, y: phi, interpolation: "linear" } };
  },
});
