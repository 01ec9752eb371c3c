/** Procedures of noise, as models: weightings, their bandwidths, and the noise of an operational-amplifier stage. */
import { curveOutput, defineModel } from "../../graph/model";
import { celsius, dB, hertz, kHz, kohm, nV_per_sqrtHz, ohm, pA_per_sqrtHz, uF, uV } from "../../units";
import { frequencies } from "../rf/filter";
import { type NoisyStage, outputNoise as noiseOf, outputDensity } from "./noise";
import { type Weighting, weightedIntegral, weightingPower } from "./weighting";

const iec = "IEC 61672-1, table 3 and annex E";
const sum = "sum of powers of uncorrelated sources; thermal noise by J. B. Johnson and H. Nyquist, Phys. Rev. 32 (1928) (from memory)";
const stage = {
  e_n: nV_per_sqrtHz,
  f_e: hertz,
  i_n: pA_per_sqrtHz,
  f_i: hertz,
  R_1: ohm,
  C: uF,
  R_b: kohm,
  R_f: ohm,
  R_g: ohm,
  T: celsius,
  f_b: kHz,
} as const;
const stageOf =
  "a stage of the noise gain 1 + R_f/R_g: voltage noise e_n with the 1/f corner f_e, current noise i_n with f_i, source and series resistors R_1 behind a coupling capacitor C (0 F: direct) across R_b, all at the temperature T, limited by a corner f_b (0 Hz: none); of an inverting stage R_1 = 0 Ω and R_g holds the source's resistance";
const temperature = { symbol: "T", low: 200, high: 450, text: "200 K to 450 K" };
const aboveZero = (symbol: string) => ({ symbol, low: Number.MIN_VALUE, high: Infinity, text: "> 0 Hz" });
const limits = [temperature, aboveZero("f_1"), aboveZero("f_2")];
const voltages = { V_n: uV, V_e: uV, V_i: uV, V_s: uV, V_f: uV } as const;
const parts = {
  V_n: "noise of all sources",
  V_e: "part of the voltage noise",
  V_i: "part of the current noise",
  V_s: "part of the thermal noise of source network and R_b",
  V_f: "part of the thermal noise of R_f and R_g",
} as const;
const band = { f_1: hertz, f_2: hertz } as const;

/** Weightings at one frequency. */
export const weighting = defineModel({
  name: "audio.weighting",
  inputs: { f: hertz },
  outputs: { A: dB, C: dB, Z: dB },
  meaning: "frequency weightings A, C and Z at the frequency f",
  meanings: { A: "A-weighting", C: "C-weighting", Z: "Z-weighting: none" },
  source: iec,
  valid: [{ symbol: "f", low: 10, high: 20e3, text: "10 Hz to 20 kHz" }],
  evaluate: ({ f }) => ({ A: Math.sqrt(weightingPower("A", f)), C: Math.sqrt(weightingPower("C", f)), Z: 1 }),
});

/** Weightings over a band. */
export const weightingCurve = defineModel({
  name: "audio.weightingCurve",
  inputs: band,
  outputs: { A: curveOutput(hertz, dB), C: curveOutput(hertz, dB) },
  meaning: "frequency weightings A and C from f_1 to f_2",
  meanings: { A: "A-weighting", C: "C-weighting" },
  source: iec,
  valid: [aboveZero("f_1"), aboveZero("f_2")],
  evaluate: ({ f_1, f_2 }) => {
    const x = frequencies(f_1, f_2, 181);
    const curve = (kind: Weighting) => ({ x, y: x.map((f) => Math.sqrt(weightingPower(kind, f))), interpolation: "log-log" as const });
    return { A: curve("A"), C: curve("C") };
  },
});

/** What weightings leave of white noise. */
export const weightedBandwidth = defineModel({
  name: "audio.weightedBandwidth",
  inputs: band,
  outputs: { B_A: kHz, B_C: kHz, L_A: dB, L_C: dB },
  meaning: "bandwidth that white noise from f_1 to f_2 keeps under the weightings A and C, and its level against no weighting",
  meanings: {
    B_A: "noise bandwidth of A-weighting",
    B_C: "noise bandwidth of C-weighting",
    L_A: "level of A-weighted white noise against unweighted",
    L_C: "level of C-weighted white noise against unweighted",
  },
  source: iec,
  valid: [aboveZero("f_1"), aboveZero("f_2")],
  evaluate: ({ f_1, f_2 }) => {
    const B = (kind: Weighting): number => weightedIntegral(() => 1, kind, f_1, f_2);
    const [B_A, B_C] = [B("A"), B("C")];
    return { B_A, B_C, L_A: Math.sqrt(B_A / (f_2 - f_1)), L_C: Math.sqrt(B_C / (f_2 - f_1)) };
  },
});

/** Density of a stage's noise at one frequency. */
export const noiseDensity = defineModel({
  name: "audio.noiseDensity",
  inputs: { f: hertz, ...stage },
  outputs: { e_o: nV_per_sqrtHz, e_i: nV_per_sqrtHz },
  meaning: `density of the noise at the frequency f of ${stageOf}`,
  meanings: { e_o: "density at the output", e_i: "the same over the noise gain: referred to the input" },
  source: sum,
  valid: [temperature, aboveZero("f")],
  evaluate: ({ f, ...given }) => {
    const e_o = outputDensity(given, f);
    return { e_o, e_i: e_o / (1 + given.R_f / given.R_g) };
  },
});

/** Density of a stage's noise over a band. */
export const noiseDensityCurve = defineModel({
  name: "audio.noiseDensityCurve",
  inputs: { ...band, ...stage },
  outputs: { e_o: curveOutput(hertz, nV_per_sqrtHz) },
  meaning: `density of the noise at the output from f_1 to f_2 of ${stageOf}`,
  source: sum,
  valid: limits,
  evaluate: ({ f_1, f_2, ...given }) => {
    const x = frequencies(f_1, f_2, 181);
    return { e_o: { x, y: x.map((f) => outputDensity(given, f)), interpolation: "log-log" } };
  },
});

/** Noise at the output, unweighted. */
export const outputNoise = defineModel({
  name: "audio.outputNoise",
  inputs: { ...band, ...stage },
  outputs: voltages,
  meaning: `unweighted rms noise at the output from f_1 to f_2 of ${stageOf}`,
  meanings: parts,
  source: sum,
  valid: limits,
  evaluate: ({ f_1, f_2, ...given }) => integrated(given, "Z", f_1, f_2),
});

/** Noise at the output, A-weighted. */
export const outputNoiseA = defineModel({
  name: "audio.outputNoiseA",
  inputs: { ...band, ...stage },
  outputs: voltages,
  meaning: `A-weighted rms noise at the output from f_1 to f_2 of ${stageOf}`,
  meanings: parts,
  source: `${sum}; ${iec}`,
  valid: limits,
  evaluate: ({ f_1, f_2, ...given }) => integrated(given, "A", f_1, f_2),
});

/** Noise at the output, C-weighted. */
export const outputNoiseC = defineModel({
  name: "audio.outputNoiseC",
  inputs: { ...band, ...stage },
  outputs: voltages,
  meaning: `C-weighted rms noise at the output from f_1 to f_2 of ${stageOf}`,
  meanings: parts,
  source: `${sum}; ${iec}`,
  valid: limits,
  evaluate: ({ f_1, f_2, ...given }) => integrated(given, "C", f_1, f_2),
});

function integrated(given: NoisyStage, kind: Weighting, f_1: number, f_2: number) {
  return { ...noiseOf(given, kind, f_1, f_2) };
}
