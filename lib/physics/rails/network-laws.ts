/** Closed laws of capacitors on a rail, of the filter behind a converter and of what a rail's ripple leaves at an output. */
import { commonPractice, formula } from "../../formula/formula";
import { numericalFormula } from "../../formula/numerical";
import { dB, farad, henry, hertz, kHz, ohm, one, uF, uV, volt } from "../../units";

const damping = "R. W. Erickson and D. Maksimović, Fundamentals of Power Electronics, chapter on input filters (from memory)";

export const effectiveCapacitance = formula("C = C_n*k_V*k_T*k_a", { C_n: uF, k_V: one, k_T: one, k_a: one }, uF, {
  meaning:
    "capacitance that a class-2 ceramic capacitor of the nominal C_n keeps under bias (k_V), at temperature (k_T) and with age (k_a)",
  source: commonPractice,
  valid: { k_V: "0 to 1.1", k_T: "0 to 1.2", k_a: "0 to 1" },
});

export const biasShare = numericalFormula("k = 1/(1 + (V/V_h)^n)", { V: volt, V_h: volt, n: one }, one, {
  meaning:
    "share of its capacitance that a class-2 ceramic capacitor keeps under the bias V, of which V_h leaves half; `biasFit` finds V_h and n",
  source: `two-parameter fit; ${commonPractice}`,
  valid: { V: "> 0 V", V_h: "> 0 V", n: "0.5 to 6" },
});

export const cornerFrequency = formula("f_0 = 1/(2*pi*sqrt(L*C))", { L: henry, C: farad }, kHz, {
  meaning: "corner frequency of a low-pass of L and C",
  source: commonPractice,
  valid: { L: "> 0 H", C: "> 0 F" },
});

export const characteristicImpedance = formula("Z_0 = sqrt(L/C)", { L: henry, C: farad }, ohm, {
  meaning: "characteristic impedance of a low-pass of L and C: what its peak is measured against",
  source: commonPractice,
  valid: { L: "> 0 H", C: "> 0 F" },
});

export const parallelQuality = formula("Q = R/Z_0", { R: ohm, Z_0: ohm }, one, {
  meaning: "quality factor of a lossless low-pass of L and C with the load R across the capacitor; above about 1 it peaks by nearly Q",
  source: commonPractice,
  valid: { R: "> 0 Ω", Z_0: "> 0 Ω" },
});

export const dampingRatio = formula("zeta = 1/(2*Q)", { Q: one }, one, {
  meaning: "damping ratio of the quality factor Q; 1 is critical",
  source: commonPractice,
  valid: { Q: "> 0" },
});

export const dampingResistor = formula("R_d = sqrt(L/C)*sqrt((2 + n)*(4 + 3*n)/(2*n^2*(4 + n)))", { L: henry, C: farad, n: one }, ohm, {
  meaning:
    "resistor in series with a damping capacitor n·C across C that makes the highest output impedance of a low-pass of L and C lowest",
  source: damping,
  valid: { L: "> 0 H", C: "> 0 F", n: "0.1 to 20" },
});

export const dampedPeakImpedance = formula("Z = sqrt(L/C)*sqrt(2*(2 + n))/n", { L: henry, C: farad, n: one }, ohm, {
  meaning: "highest output impedance of a low-pass of L and C with a damping capacitor n·C and its best resistor",
  source: damping,
  valid: { L: "> 0 H", C: "> 0 F", n: "0.1 to 20" },
});

export const straightRejection = formula("A = if(f > f_c, A_0*f_c/f, A_0)", { A_0: dB, f: hertz, f_c: hertz }, dB, {
  meaning: "supply rejection at f in straight lines: A_0 up to the corner f_c, then 20 dB a decade less",
  source: commonPractice,
  valid: { A_0: "> 0", f: "> 0 Hz", f_c: "> 0 Hz" },
});

export const noiseGain = formula("G = 1 + R_f/R_g", { R_f: ohm, R_g: ohm }, dB, {
  meaning:
    "noise gain of an amplifier with R_f from its output to its inverting input and R_g from there to ground, whether it inverts or not",
  source: commonPractice,
  valid: { R_g: "> 0 Ω" },
});

export const rejectedRipple = formula("V_o = V_r*G/A", { V_r: volt, G: dB, A: dB }, uV, {
  meaning:
    "ripple at an amplifier's output from V_r on its rail, with the supply rejection A referred to its input and the noise gain G; for a rejection stated to the output put 0 dB for G",
  source: commonPractice,
  valid: { A: "> 0" },
});

export const residueSum = formula("V = sqrt(V_1^2 + V_2^2)", { V_1: volt, V_2: volt }, uV, {
  meaning: "rms value of the residues of two rails whose frequencies differ",
  source: "sum of powers of what is not synchronous",
  valid: { V_1: ">= 0", V_2: ">= 0" },
});
