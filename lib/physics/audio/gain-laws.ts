/** Gain of a stage and how far its resistors move it, loading, and corners of first order. */
import { commonPractice, formula } from "../../formula/formula";
import { dB, deg, farad, hertz, kHz, kohm, MHz, ohm, one, percent, uF, us, V_per_us, volt } from "../../units";

const firstOrder = "transfer of an RC section of first order";

export const nonInvertingGain = formula("G = 1 + R_f/R_g", { R_f: ohm, R_g: ohm }, dB, {
  meaning: "gain of a non-inverting stage with R_f from output to inverting input and R_g from there to ground; also its noise gain",
  source: commonPractice,
  valid: { R_g: "> 0 Ω" },
});

export const invertingGain = formula("G = R_f/R_g", { R_f: ohm, R_g: ohm }, dB, {
  meaning:
    "magnitude of the gain of an inverting stage with R_f from output to inverting input and R_g (with the source's resistance) from there to the source; its noise gain is 1 + R_f/R_g",
  source: commonPractice,
  valid: { R_g: "> 0 Ω" },
});

export const greatestGain = formula("G = 1 + R_f*(1 + t)/(R_g*(1 - t))", { R_f: ohm, R_g: ohm, t: percent }, dB, {
  meaning: "greatest gain of a non-inverting stage whose two resistors have the tolerance t",
  source: commonPractice,
  valid: { R_g: "> 0 Ω", t: "0 to 0.2" },
});

export const leastGain = formula("G = 1 + R_f*(1 - t)/(R_g*(1 + t))", { R_f: ohm, R_g: ohm, t: percent }, dB, {
  meaning: "least gain of a non-inverting stage whose two resistors have the tolerance t",
  source: commonPractice,
  valid: { R_g: "> 0 Ω", t: "0 to 0.2" },
});

export const greatestMismatch = formula(
  "M = (R_g + R_f*(1 + t)/(1 - t))/(R_g + R_f*(1 - t)/(1 + t))",
  { R_f: ohm, R_g: ohm, t: percent },
  dB,
  {
    meaning: "greatest difference of gain between two non-inverting channels whose four resistors have the tolerance t",
    source: commonPractice,
    valid: { R_g: "> 0 Ω", t: "0 to 0.2" },
  },
);

export const greatestInvertingMismatch = formula("M = ((1 + t)/(1 - t))^2", { t: percent }, dB, {
  meaning: "greatest difference of gain between two inverting channels whose four resistors have the tolerance t, whatever their gain",
  source: commonPractice,
  valid: { t: "0 to 0.2" },
});

export const channelMatch = formula("M = G_1/G_2", { G_1: dB, G_2: dB }, dB, {
  meaning: "gain of one channel over that of the other",
  source: commonPractice,
  valid: { G_2: "> 0" },
});

export const finiteLoopGain = formula("G_c = G/(1 + G/A)", { G: dB, A: dB }, dB, {
  meaning: "gain that a stage of the ideal gain G keeps with the open-loop gain A, at a frequency where A is real",
  source: "negative feedback, H. W. Bode (from memory)",
  valid: { A: "> 0" },
});

export const closedLoopCorner = formula("f_c = f_t/G", { f_t: MHz, G: dB }, kHz, {
  meaning: "frequency at which a stage with the gain-bandwidth product f_t and the noise gain G has lost 3.01 dB",
  source: "open-loop gain of one pole; common practice",
  valid: { G: ">= 1" },
});

export const slewRate = formula("S = 2*pi*f*V_p", { f: kHz, V_p: volt }, V_per_us, {
  meaning: "steepest slope of a sine of the frequency f and the peak V_p: the slew rate it asks for",
  source: "derivative of a sine",
  valid: { f: ">= 0", V_p: ">= 0" },
});

export const fullPowerBandwidth = formula("f = S/(2*pi*V_p)", { S: V_per_us, V_p: volt }, kHz, {
  meaning: "highest frequency at which an amplifier of the slew rate S gives a sine of the peak V_p",
  source: "derivative of a sine",
  valid: { V_p: "> 0 V" },
});

export const inputLoading = formula("k = R_i/(R_i + R_s)", { R_i: kohm, R_s: ohm }, dB, {
  meaning: "share of a source's voltage that the input R_i leaves behind the source resistance R_s",
  source: commonPractice,
  valid: { R_i: "> 0 Ω" },
});

export const outputLoading = formula("k = R_L/(R_L + R_o)", { R_L: ohm, R_o: ohm }, dB, {
  meaning: "share of an amplifier's voltage that reaches the load R_L through all resistance R_o on the way, forth and back",
  source: commonPractice,
  valid: { R_L: "> 0 Ω" },
});

export const highPassCorner = formula("f_c = 1/(2*pi*(R_s + R_i)*C)", { R_s: ohm, R_i: ohm, C: uF }, hertz, {
  meaning: "corner of a coupling capacitor C between the source R_s and the input or load R_i",
  source: firstOrder,
  valid: { R_i: "> 0 Ω", C: "> 0 F" },
});

export const couplingCapacitor = formula("C = 1/(2*pi*(R_s + R_i)*f_c)", { R_s: ohm, R_i: ohm, f_c: hertz }, uF, {
  meaning: "coupling capacitor between R_s and R_i for the corner f_c",
  source: firstOrder,
  valid: { R_i: "> 0 Ω", f_c: "> 0 Hz" },
});

export const lowPassCorner = formula("f_c = (R_s + R_i)/(2*pi*R_s*R_i*C)", { R_s: ohm, R_i: ohm, C: farad }, kHz, {
  meaning: "corner of a capacitance C across the input R_i behind the source R_s: cable, filter and input together",
  source: firstOrder,
  valid: { R_s: "> 0 Ω", R_i: "> 0 Ω", C: "> 0 F" },
});

export const feedbackCorner = formula("f_p = 1/(2*pi*R_f*C_f)", { R_f: ohm, C_f: farad }, kHz, {
  meaning: "corner of a capacitor C_f across the feedback resistor R_f",
  source: firstOrder,
  valid: { R_f: "> 0 Ω", C_f: "> 0 F" },
});

export const feedbackZero = formula("f_z = (R_f + R_g)/(2*pi*R_f*R_g*C_f)", { R_f: ohm, R_g: ohm, C_f: farad }, kHz, {
  meaning:
    "frequency, the gain times `feedbackCorner`, above which a non-inverting stage with C_f across R_f falls no further than to the gain 1",
  source: firstOrder,
  valid: { R_f: "> 0 Ω", R_g: "> 0 Ω", C_f: "> 0 F" },
});

export const highPassLevel = formula("k = 1/sqrt(1 + (f_c/f)^2)", { f_c: hertz, f: hertz }, dB, {
  meaning: "level at f behind a high-pass of first order with the corner f_c",
  source: firstOrder,
  valid: { f: "> 0 Hz" },
});

export const highPassPhase = formula("phi = atan(f_c/f)", { f_c: hertz, f: hertz }, deg, {
  meaning: "phase at f behind a high-pass of first order with the corner f_c, leading",
  source: firstOrder,
  valid: { f: "> 0 Hz" },
});

export const lowPassLevel = formula("k = 1/sqrt(1 + (f/f_c)^2)", { f: hertz, f_c: hertz }, dB, {
  meaning: "level at f behind a low-pass of first order with the corner f_c",
  source: firstOrder,
  valid: { f_c: "> 0 Hz" },
});

export const lowPassPhase = formula("phi = -atan(f/f_c)", { f: hertz, f_c: hertz }, deg, {
  meaning: "phase at f behind a low-pass of first order with the corner f_c, lagging",
  source: firstOrder,
  valid: { f_c: "> 0 Hz" },
});

export const lowPassDelay = formula("tau = 1/(2*pi*f_c)", { f_c: hertz }, us, {
  meaning: "group delay at low frequencies of a low-pass of first order with the corner f_c",
  source: firstOrder,
  valid: { f_c: "> 0 Hz" },
});

export const lowPassDeviation = formula("delta = f/f_c - atan(f/f_c)", { f: hertz, f_c: hertz }, deg, {
  meaning: "deviation at f of a low-pass of first order from linear phase, the line being its delay at low frequencies, 1/(2·π·f_c)",
  source: firstOrder,
  valid: { f_c: "> 0 Hz" },
});

export const chainGain = formula("G_t = G*R_i/(R_i + R_s)*R_L/(R_L + R_o)", { G: dB, R_i: kohm, R_s: ohm, R_L: ohm, R_o: ohm }, dB, {
  meaning: "gain from a source's open-circuit voltage to the load: the stage G, the input R_i behind R_s, the load R_L behind R_o",
  source: commonPractice,
  valid: { R_i: "> 0 Ω", R_L: "8 Ω to 600 Ω" },
});

export const toleranceShare = formula("s = 1 - 1/G", { G: dB }, one, {
  meaning: "relative change of a non-inverting stage's gain for the relative change of one of its resistors",
  source: "derivative of 1 + R_f/R_g",
  valid: { G: ">= 1" },
});
