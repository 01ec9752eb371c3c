/**
 * What a class-AB amplifier on two rails takes from them, and from the cell. A signal of crest factor C and rms current
 * I_rms draws its mean rectified current, half from each rail; k = mean rectified/rms is 2·√2/π for a sine and √(2/π) for
 * Gaussian noise (`rectifiedMean` gives it for any crest factor). The quiescent current is added in full: near it the
 * output stage runs in class A and takes less than the sum, so the sum is on the safe side.
 */
import { commonPractice, formula } from "../../formula/formula";
import { ampere, dB_per_mW, dB_SPL, mA, mW, ohm, one, uW, volt } from "../../units";

export const levelPower = formula("P = p^2/S", { p: dB_SPL, S: dB_per_mW }, uW, {
  meaning: "power into one headphone of sensitivity S for the sound pressure p at the ear",
  source: commonPractice,
  valid: { S: "> 0 Pa²/W" },
});

export const levelCurrent = formula("I_rms = p/sqrt(S*Z)", { p: dB_SPL, S: dB_per_mW, Z: ohm }, mA, {
  meaning: "rms current through one headphone of sensitivity S and impedance Z for the sound pressure p at the ear",
  source: commonPractice,
  valid: { S: "> 0 Pa²/W", Z: "> 0 Ω" },
});

export const peakCurrent = formula("I_p = C*I_rms", { C: one, I_rms: ampere }, mA, {
  meaning: "peak of a current of crest factor C",
  source: "definition of the crest factor",
  valid: { C: ">= 1" },
});

export const railCurrent = formula("I_s = I_q + k*I_rms/2", { I_q: ampere, k: one, I_rms: ampere }, mA, {
  meaning:
    "mean current from each of two rails into one class-AB channel: the quiescent current, and half of the signal's mean rectified current",
  source: commonPractice,
  valid: { k: "0 to 1" },
});

export const railPower = formula("P_s = 2*n*V_r*(I_q + k*I_rms/2)", { n: one, V_r: volt, I_q: ampere, k: one, I_rms: ampere }, mW, {
  meaning: "power that n class-AB channels take from the rails +V_r and −V_r together",
  source: commonPractice,
  valid: { k: "0 to 1" },
});

export const amplifierHeat = formula("P_h = P_s - n*I_rms^2*Z", { P_s: mW, n: one, I_rms: ampere, Z: ohm }, mW, {
  meaning: "part of the power from the rails that stays in n channels as heat",
  source: "energy balance",
  valid: { P_s: ">= 0", n: ">= 1", I_rms: ">= 0", Z: "> 0" },
});
