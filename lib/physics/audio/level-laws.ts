/** Levels of signals, noise and distortion as ratios and voltages, sound from voltage, and leakage between channels. dB, dBV and dBu are units: no law converts them. */
import { commonPractice, formula } from "../../formula/formula";
import { dB, dB_per_mW, dB_per_V, dB_SPL, farad, hertz, mW, ohm, one, percent, uV, volt } from "../../units";

const sound = "IEC 60268-7: characteristic sensitivity of headphones (from memory)";
const unlike = "sum of powers of what is not synchronous";

export const pressureAtPower = formula("p = sqrt(P*S)", { P: mW, S: dB_per_mW }, dB_SPL, {
  meaning: "sound pressure of a headphone of sensitivity S at the power P",
  source: sound,
  valid: { P: ">= 0 W", S: "> 0 Pa²/W" },
});

export const voltageForPressure = formula("V = p*sqrt(Z/S)", { p: dB_SPL, Z: ohm, S: dB_per_mW }, volt, {
  meaning: "rms voltage at a headphone of impedance Z and sensitivity S for the sound pressure p",
  source: sound,
  valid: { Z: "> 0 Ω", S: "> 0 Pa²/W" },
});

export const sensitivityPerVolt = formula("S_V = sqrt(S/Z)", { S: dB_per_mW, Z: ohm }, dB_per_V, {
  meaning: "sensitivity per volt of a headphone of the sensitivity S per milliwatt and the impedance Z",
  source: sound,
  valid: { S: "> 0 Pa²/W", Z: "> 0 Ω" },
});

export const signalToNoise = formula("S = V/V_n", { V: volt, V_n: uV }, dB, {
  meaning:
    "signal-to-noise ratio: rms signal V over rms noise V_n in the same band and weighting; the reference level V belongs to the statement",
  source: commonPractice,
  valid: { V_n: "> 0 V" },
});

export const noiseOfRatio = formula("V_n = V/S", { V: volt, S: dB }, uV, {
  meaning: "rms noise that the signal-to-noise ratio S leaves at the signal V",
  source: commonPractice,
  valid: { S: "> 0" },
});

export const distortionRatio = formula("d = V_d/V", { V_d: uV, V: volt }, percent, {
  meaning: "rms value of harmonics, or of harmonics and noise, over that of the fundamental; as a level the same ratio in dB",
  source: commonPractice,
  valid: { V: "> 0 V" },
});

export const distortionVoltage = formula("V_d = d*V", { d: percent, V: volt }, uV, {
  meaning: "rms value of harmonics, or of harmonics and noise, that are the share d of the signal V",
  source: commonPractice,
  valid: { d: ">= 0" },
});

export const distortionLevel = formula("L = V_d/V", { V_d: uV, V: volt }, dB, {
  meaning: "level of harmonics, or of harmonics and noise, below the fundamental: 0.1 % is −60 dB",
  source: commonPractice,
  valid: { V_d: "> 0 V", V: "> 0 V" },
});

export const harmonicDistortion = formula(
  "d = sqrt(h_2^2 + h_3^2 + h_4^2 + h_5^2)",
  { h_2: percent, h_3: percent, h_4: percent, h_5: percent },
  percent,
  {
    meaning: "total harmonic distortion of the second to fifth harmonic, each over the fundamental",
    source:
      "definition, over the fundamental; IEC 60268-3 refers total harmonic distortion to the whole output (from memory): `overAll` turns one into the other, 0.5 % apart at a distortion of 10 %",
    valid: { h_2: ">= 0", h_3: ">= 0", h_4: ">= 0", h_5: ">= 0" },
  },
);

export const distortionAndNoise = formula("d_n = sqrt(d^2 + (V_n/V)^2)", { d: percent, V_n: uV, V: volt }, percent, {
  meaning: "THD+N of the harmonic distortion d and the noise V_n, over the fundamental V",
  source: unlike,
  valid: { V: "> 0 V" },
});

export const distortionAlone = formula("d = sqrt(d_n^2 - (V_n/V)^2)", { d_n: percent, V_n: uV, V: volt }, percent, {
  meaning: "harmonic distortion in a THD+N of d_n whose noise is V_n at the fundamental V",
  source: unlike,
  valid: { V: "> 0 V" },
});

export const overAll = formula("x = d_n/sqrt(1 + d_n^2)", { d_n: percent }, percent, {
  meaning: "the same THD+N over the whole signal instead of over its fundamental, as a meter with a notch reads it",
  source: unlike,
  valid: { d_n: ">= 0" },
});

export const rmsSum = formula("V = sqrt(V_1^2 + V_2^2 + V_3^2)", { V_1: uV, V_2: uV, V_3: uV }, uV, {
  meaning: "rms value of three noises or residues that are not synchronous",
  source: unlike,
  valid: { V_1: ">= 0", V_2: ">= 0", V_3: ">= 0" },
});

export const ratioSum = formula("k = sqrt(k_1^2 + k_2^2)", { k_1: dB, k_2: dB }, dB, {
  meaning: "level of two that are not synchronous: two equal ones make 3.01 dB more",
  source: unlike,
  valid: { k_1: ">= 0", k_2: ">= 0" },
});

export const coherentSum = formula("k = k_1 + k_2", { k_1: one, k_2: one }, dB, {
  meaning: "level of two in phase: two equal ones make 6.02 dB more; the worst case of any two",
  source: "sum of amplitudes",
  valid: { k_1: ">= 0", k_2: ">= 0" },
});

export const quantisationRatio = formula("S = 2^N*sqrt(3/2)", { N: one }, dB, {
  meaning: "signal-to-noise ratio of a full-scale sine in N bits: 6.02·N + 1.76 dB, in the whole band to half the rate of sampling",
  source: "uniform quantisation noise (W. R. Bennett, 1948; from memory)",
  valid: { N: "1 to 32" },
});

export const effectiveBits = formula("N = log2(S/sqrt(3/2))", { S: dB }, one, {
  meaning: "bits whose quantisation noise alone would give the signal-to-noise ratio S",
  source: "uniform quantisation noise (W. R. Bennett, 1948; from memory)",
  valid: { S: "> 0" },
});

export const sharedReturnCrosstalk = formula("X = R_g/(R_g + R_L + R_o)", { R_g: ohm, R_L: ohm, R_o: ohm }, dB, {
  meaning:
    "crosstalk of two loads R_L, each behind R_o, that share a return R_g: voltage at the silent load over that at the driven one; it depends on no gain",
  source: "Kirchhoff's laws; common practice",
  valid: { R_g: "> 0 Ω", R_L: "> 0 Ω" },
});

export const sharedReturnEstimate = formula("X = R_g/R_L", { R_g: ohm, R_L: ohm }, dB, {
  meaning: "crosstalk of two loads R_L with the shared return R_g, as a first estimate: too high by R_g/R_L of itself",
  source: commonPractice,
  valid: { R_g: "> 0 Ω", R_L: "> 0 Ω" },
});

export const returnForCrosstalk = formula("R_g = X*(R_L + R_o)/(1 - X)", { X: dB, R_L: ohm, R_o: ohm }, ohm, {
  meaning: "shared return that gives two loads R_L, each behind R_o, the crosstalk X",
  source: "Kirchhoff's laws; common practice",
  valid: { X: "0 to 0.5" },
});

export const capacitiveCrosstalk = formula(
  "X = 2*pi*f*C_m*R/sqrt(1 + (2*pi*f*R*(C_m + C))^2)",
  { f: hertz, C_m: farad, R: ohm, C: farad },
  dB,
  {
    meaning:
      "voltage at f that a neighbour of the same level leaves through C_m on a node of the resistance R (source and input in parallel) and the capacitance C to ground; 20 dB a decade below the node's corner",
    source: "voltage divider; common practice",
    valid: { f: "> 0 Hz", C_m: "> 0 F", R: "> 0 Ω" },
  },
);
