/** Procedures of frequency and time, as models: the response of a chain, its linearity, leakage between channels, and settling. */
import { curveOutput, defineModel } from "../../graph/model";
import { dB, deg, farad, hertz, kHz, mV, ohm, one, second, us, volt } from "../../units";
import { traced } from "../numerics/extremes";
import { frequencies } from "../rf/filter";
import { linearity } from "./linearity";
import { type ChainParts, chainDelay, chainGain, chainPhase, chainSections, lowerCorner, upperCorner } from "./response";
import { settling } from "./settling";

const transfer = "transfers of first and second order; common practice";
const parts = {
  f_h1: hertz,
  f_h2: hertz,
  f_h3: hertz,
  f_l1: kHz,
  f_l2: kHz,
  f_l3: kHz,
  f_h0: hertz,
  Q_h: one,
  f_l0: kHz,
  Q_l: one,
  f_p: kHz,
  f_z: kHz,
} as const;
const chain =
  "a chain of high-passes f_h1 to f_h3 and low-passes f_l1 to f_l3 of first order, a high-pass f_h0, Q_h and a low-pass f_l0, Q_l of second order, and a shelf with its pole f_p and zero f_z (0 Hz for a section that is not there)";
const curvePoints = 241;
const aboveZero = (symbol: string) => ({ symbol, low: Number.MIN_VALUE, high: Infinity, text: "> 0 Hz" });

/** Gain, phase and group delay of a chain at one frequency. */
export const response = defineModel({
  name: "audio.response",
  inputs: { f: hertz, ...parts },
  outputs: { H: dB, phi: deg, tau: us },
  meaning: `gain, phase and group delay at the frequency f of ${chain}`,
  meanings: { H: "gain", phi: "phase, leading positive, not broken at ±180°", tau: "group delay" },
  source: transfer,
  valid: [aboveZero("f")],
  evaluate: ({ f, ...given }) => {
    const sections = chainSections(given);
    return { H: chainGain(sections, f), phi: chainPhase(sections, f), tau: chainDelay(sections, f) };
  },
});

/** Gain, phase and group delay of a chain over a band. */
export const responseCurve = defineModel({
  name: "audio.responseCurve",
  inputs: { f_1: hertz, f_2: hertz, ...parts },
  outputs: { H: curveOutput(hertz, dB), phi: curveOutput(hertz, deg), tau: curveOutput(hertz, us) },
  meaning: `gain, phase and group delay from f_1 to f_2 of ${chain}`,
  meanings: { H: "gain", phi: "phase, leading positive, not broken at ±180°", tau: "group delay" },
  source: transfer,
  valid: [aboveZero("f_1"), aboveZero("f_2")],
  evaluate: ({ f_1, f_2, ...given }) => {
    const sections = chainSections(given);
    const H = traced((f) => chainGain(sections, f), frequencies(f_1, f_2, curvePoints));
    const { x } = H;
    return {
      H,
      phi: { x, y: x.map((f) => chainPhase(sections, f)), interpolation: "monotone" },
      tau: { x, y: x.map((f) => chainDelay(sections, f)), interpolation: "monotone" },
    };
  },
});

/** Lower end of a chain's band. */
export const lowCorner = defineModel({
  name: "audio.lowCorner",
  inputs: { f_r: hertz, ...parts },
  outputs: { f_c: hertz },
  meaning: `frequency below f_r at which the gain is first 3.01 dB under that at f_r, an error where there is none, of ${chain}`,
  source: transfer,
  valid: [aboveZero("f_r")],
  evaluate: ({ f_r, ...given }) => ({ f_c: lowerCorner(chainSections(given), f_r) }),
});

/** Upper end of a chain's band. */
export const highCorner = defineModel({
  name: "audio.highCorner",
  inputs: { f_r: hertz, ...parts },
  outputs: { f_c: kHz },
  meaning: `frequency above f_r at which the gain is first 3.01 dB under that at f_r, an error where there is none, of ${chain}`,
  source: transfer,
  valid: [aboveZero("f_r")],
  evaluate: ({ f_r, ...given }) => ({ f_c: upperCorner(chainSections(given), f_r) }),
});

/** Deviation from linear phase in a band, by three definitions. */
export const phaseDeviation = defineModel({
  name: "audio.phaseDeviation",
  inputs: { f_1: hertz, f_2: hertz, ...parts },
  outputs: { delta: deg, tau: us, f: hertz, delta_ls: deg, tau_ls: us, delta_free: deg },
  meaning: `largest deviation from linear phase between f_1 and f_2 of ${chain}`,
  meanings: {
    delta: "largest deviation from a pure delay (line through 0° at 0 Hz), the delay chosen so that it is least",
    tau: "that delay",
    f: "frequency of the largest deviation from it",
    delta_ls: "largest deviation from the pure delay of least squares, every hertz of the band alike",
    tau_ls: "delay of least squares",
    delta_free: "largest deviation from a line with a free phase at 0 Hz, which excuses a shift shared by all frequencies",
  },
  source: "definitions as stated; common practice",
  valid: [aboveZero("f_1"), aboveZero("f_2")],
  evaluate: ({ f_1, f_2, ...given }) => ({ ...linearity(phaseOf(given), f_1, f_2) }),
});

/** Deviation from a stated delay over a band. */
export const phaseDeviationCurve = defineModel({
  name: "audio.phaseDeviationCurve",
  inputs: { f_1: hertz, f_2: hertz, tau: us, ...parts },
  outputs: { delta: curveOutput(hertz, deg) },
  meaning: `phase less that of the pure delay tau, from f_1 to f_2, of ${chain}`,
  source: "definition as stated; common practice",
  valid: [aboveZero("f_1"), aboveZero("f_2")],
  evaluate: ({ f_1, f_2, tau, ...given }) => {
    const phase = phaseOf(given);
    const x = frequencies(f_1, f_2, curvePoints);
    return { delta: { x, y: x.map((f) => phase(f) + 2 * Math.PI * f * tau), interpolation: "monotone" } };
  },
});

/** Crosstalk of a shared return and of a capacitance together, over a band. */
export const crosstalkCurve = defineModel({
  name: "audio.crosstalkCurve",
  inputs: { f_1: hertz, f_2: hertz, R_g: ohm, R_L: ohm, R_o: ohm, C_m: farad, R_v: ohm, C_v: farad },
  outputs: { X: curveOutput(hertz, dB), X_g: curveOutput(hertz, dB), X_c: curveOutput(hertz, dB) },
  meaning:
    "crosstalk from f_1 to f_2 of two channels whose loads R_L, each behind R_o, share the return R_g, and whose nodes of equal level, R_v parallel to C_v, are coupled by C_m",
  meanings: { X: "both together, with their phases", X_g: "that of the shared return", X_c: "that of the capacitance" },
  source: "Kirchhoff's laws; common practice",
  valid: [aboveZero("f_1"), aboveZero("f_2")],
  evaluate: ({ f_1, f_2, R_g, R_L, R_o, C_m, R_v, C_v }) => {
    const shared = R_g / (R_g + R_L + R_o);
    const x = frequencies(f_1, f_2, 121);
    const coupled = x.map((f) => coupledShare(2 * Math.PI * f * R_v, C_m, C_v).size);
    const both = x.map((f) => {
      const { re, im } = coupledShare(2 * Math.PI * f * R_v, C_m, C_v);
      // At the silent load the return's part is turned by 180°
      return Math.sqrt((re - shared) * (re - shared) + im * im);
    });
    const curve = (y: Float64Array) => ({ x, y, interpolation: (y[0] as number) > 0 ? "log-log" : "linear" }) as const;
    return { X: curve(both), X_g: curve(x.map(() => shared)), X_c: curve(coupled) };
  },
});

/** jωR·C_m/(1 + jωR·(C_m + C)) by ωR. */
function coupledShare(omegaR: number, C_m: number, C: number): { readonly re: number; readonly im: number; readonly size: number } {
  const [a, b] = [omegaR * C_m, omegaR * (C_m + C)];
  const below = 1 + b * b;
  return { re: (a * b) / below, im: a / below, size: a / Math.sqrt(below) };
}

const settled = { t: second, V_u: mV } as const;

/** Settling behind two coupling capacitors. */
export const coupledSettling = defineModel({
  name: "audio.coupledSettling",
  inputs: { V_0: volt, V_e: mV, f_1: hertz, f_2: hertz },
  outputs: settled,
  meaning:
    "time after a step V_0 at turn-on until the output behind two high-passes of first order, f_1 and f_2, stays within ±V_e; for one alone `firstOrderSettling`",
  meanings: { t: "time until the output stays within ±V_e", V_u: "undershoot" },
  source: "step response of second order; common practice",
  valid: [aboveZero("f_1"), aboveZero("f_2")],
  evaluate: ({ V_0, V_e, f_1, f_2 }) => ({ ...settling("high-pass", V_0, V_e, Math.sqrt(f_1 * f_2), Math.sqrt(f_1 * f_2) / (f_1 + f_2)) }),
});

/** Settling of a high-pass of second order. */
export const highPassSettling = defineModel({
  name: "audio.highPassSettling",
  inputs: { V_0: volt, V_e: mV, f_0: hertz, Q: one },
  outputs: settled,
  meaning: "time after a step V_0 until the output of a high-pass of second order, f_0 and Q (a servo, say), stays within ±V_e",
  meanings: { t: "time until the output stays within ±V_e", V_u: "undershoot" },
  source: "step response of second order; common practice",
  valid: [aboveZero("f_0")],
  evaluate: ({ V_0, V_e, f_0, Q }) => ({ ...settling("high-pass", V_0, V_e, f_0, Q) }),
});

/** Settling of a low-pass of second order. */
export const lowPassSettling = defineModel({
  name: "audio.lowPassSettling",
  inputs: { V_0: volt, V_e: mV, f_0: hertz, Q: one },
  outputs: settled,
  meaning: "time after a step V_0 until the output of a low-pass of second order, f_0 and Q, stays within ±V_e of its end",
  meanings: { t: "time until the output stays within ±V_e of its end", V_u: "overshoot" },
  source: "step response of second order; common practice",
  valid: [aboveZero("f_0")],
  evaluate: ({ V_0, V_e, f_0, Q }) => ({ ...settling("low-pass", V_0, V_e, f_0, Q) }),
});

function phaseOf(given: ChainParts): (f: number) => number {
  const sections = chainSections(given);
  return (f) => chainPhase(sections, f);
}
