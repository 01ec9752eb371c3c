/**
 * Closed laws of sound level, dose and allowed time. Loud sound takes hearing away for good. For design and for wording
 * cautions only: what a product must limit, measure and say is in IEC 62368-1 clause 10.6 and WHO-ITU H.870, levels measured
 * by EN 50332; advice to persons is for physicians and audiologists. Limits are for average ears: some are hurt below them.
 *
 * Levels are A-weighted and referred to the diffuse field, as the criteria are. A headphone's sensitivity is stated for an
 * ear simulator, unweighted: the difference (some dB, by headphone and programme) is hearing.referredPressure's. dBA and
 * dB SPL are units, so pressures are linear here: 3 dB more is 1.41 times the pressure.
 */
import { commonPractice, formula } from "../../formula/formula";
import { dB, dB_per_mW, dB_per_V, dB_SPL, dBA, hour, mW, ohm, one, Pa2_h, percent, volt } from "../../units";

const headphones = "IEC 60268-7: characteristic sensitivity of headphones";
const energy = "equal energy (ISO 1999, IEC 61252)";
const caution = "below a criterion is not safe for everyone; WHO-ITU H.870 and IEC 62368-1 clause 10.6 decide";

export const pressureAtVoltage = formula("p = V*S_V", { V: volt, S_V: dB_per_V }, dB_SPL, {
  meaning: "sound pressure of a headphone of the sensitivity S_V per volt at the rms voltage V",
  source: headphones,
  valid: { V: ">= 0 V" },
});

export const pressureBehindImpedance = formula("p = V*sqrt(S/Z)", { V: volt, S: dB_per_mW, Z: ohm }, dB_SPL, {
  meaning: "sound pressure of a headphone of the sensitivity S per milliwatt and the impedance Z at the rms voltage V across it",
  source: headphones,
  valid: { V: ">= 0 V", S: "> 0 Pa²/W", Z: "> 0 Ω" },
});

export const powerForPressure = formula("P = p^2/S", { p: dB_SPL, S: dB_per_mW }, mW, {
  meaning: "power at which a headphone of the sensitivity S per milliwatt makes the sound pressure p: what a cap on the level allows",
  source: headphones,
  valid: { S: "> 0 Pa²/W" },
});

export const voltageAtPressure = formula("V = p/S_V", { p: dB_SPL, S_V: dB_per_V }, volt, {
  meaning: "rms voltage at which a headphone of the sensitivity S_V per volt makes the sound pressure p",
  source: headphones,
  valid: { S_V: "> 0 Pa/V" },
});

export const referredPressure = formula("p_A = p*g", { p: dB_SPL, g: dB }, dBA, {
  meaning:
    "A-weighted level in the diffuse field that does what the level p in the ear simulator does; g is the correction of headphone and programme, most often 0 dB to −10 dB: 0 dB is on the safe side for most",
  source: "IEC 60268-7 and EN 50332-1 give the measurement; common practice",
  valid: { g: "> 0" },
});

export const permittedTime = formula("t = t_c/2^(ln(p/p_c)/ln(q))", { t_c: hour, p: dBA, p_c: dBA, q: dB }, hour, {
  meaning: `time a day that a criterion (t_c at the level p_c, halved for every q more; data/reference/hearing.yaml) permits at the level p; ${caution}`,
  source: "NIOSH Publication 98-126 (85 dBA, 8 h, 3 dB); 29 CFR 1910.95 (90 dBA, 8 h, 5 dB)",
  valid: { p: "> 0 Pa", p_c: "> 0 Pa", q: "> 1" },
});

export const doseOf = formula("D = t/t_p", { t: hour, t_p: hour }, percent, {
  meaning: `share of a day's allowance that the time t uses up where t_p is permitted; shares of different levels add up; ${caution}`,
  source: "NIOSH Publication 98-126; 29 CFR 1910.95",
  valid: { t: ">= 0 h", t_p: "> 0 h" },
});

export const doseOfTwo = formula("D = t_1/t_p1 + t_2/t_p2", { t_1: hour, t_p1: hour, t_2: hour, t_p2: hour }, percent, {
  meaning: `share of a day's allowance that the times t_1 and t_2 use up where t_p1 and t_p2 are permitted; ${caution}`,
  source: "NIOSH Publication 98-126; 29 CFR 1910.95",
  valid: { t_1: ">= 0 h", t_2: ">= 0 h", t_p1: "> 0 h", t_p2: "> 0 h" },
});

export const averageOfDose = formula("p = p_c*exp(ln(q)*ln(D)/ln(2))", { p_c: dBA, q: dB, D: one }, dBA, {
  meaning:
    "time-weighted average of a day: the steady level that uses up the dose D in the criterion's own time; NIOSH prints 10·log10(D) + 85, farther from 85 dBA by 0.3 % of the distance",
  source: "NIOSH Publication 98-126; 29 CFR 1910.95, 16.61·log10(D) + 90",
  valid: { D: "> 0", q: "> 1" },
});

export const soundExposure = formula("E = p^2*t", { p: dBA, t: hour }, Pa2_h, {
  meaning: "sound exposure of the time t at the level p",
  source: energy,
  valid: { t: ">= 0 h" },
});

export const allowedTime = formula("t = E/p^2", { E: Pa2_h, p: dBA }, hour, {
  meaning: `time in which the level p uses up the sound exposure E, the allowance of a week or a day (data/reference/hearing.yaml); ${caution}`,
  source: `${energy}; WHO-ITU H.870: 1.6 Pa²·h a week`,
  valid: { p: "> 0 Pa" },
});

export const allowedPressure = formula("p = sqrt(E/t)", { E: Pa2_h, t: hour }, dBA, {
  meaning: `level that makes the sound exposure E in the time t: of an allowance, the loudest that may be kept up for so long; ${caution}`,
  source: energy,
  valid: { E: ">= 0 Pa²·h", t: "> 0 h" },
});

export const doseShare = formula("D = E/E_w", { E: Pa2_h, E_w: Pa2_h }, percent, {
  meaning: `share of the week's allowance E_w that the sound exposure E uses up (calculated sound dose); ${caution}`,
  source: "WHO-ITU H.870",
  valid: { E_w: "> 0 Pa²·h" },
});

export const averagePressure = formula("p = sqrt((p_1^2*t_1 + p_2^2*t_2)/(t_1 + t_2))", { p_1: dBA, t_1: hour, p_2: dBA, t_2: hour }, dBA, {
  meaning: "steady level of the same sound exposure as the time t_1 at p_1 and the time t_2 at p_2",
  source: energy,
  valid: { t_1: ">= 0 h", t_2: ">= 0 h" },
});

export const usesPerWeek = formula("n = t_w/t", { t_w: hour, t: hour }, one, {
  meaning: `sessions of the length t that fit in the time t_w which a week's allowance permits at their level; ${caution}`,
  source: commonPractice,
  valid: { t: "> 0 h" },
});
