/**
 * What an output stage on two rails gives a load and keeps as heat, and how firmly it holds the load. Heat is that of the
 * pair of output devices of one channel. The quiescent current is added in full, as in `battery.railPower`: on the safe
 * side, since near it the stage runs in class A; `audio.classABHeat` counts it exactly.
 */
import { commonPractice, formula } from "../../formula/formula";
import { dB, MHz, mA, mW, ohm, one, percent, pF, volt, watt } from "../../units";

const classB = "P. R. Gray and R. G. Meyer, Analysis and Design of Analog Integrated Circuits; class-B output stage (from memory)";

export const sinePower = formula("P = V_p^2/(2*R_L)", { V_p: volt, R_L: ohm }, mW, {
  meaning: "power of a sine of the peak V_p in the load R_L",
  source: "definition of the rms value",
  valid: { R_L: "> 0 Ω" },
});

export const peakOfPower = formula("V_p = sqrt(2*P*R_L)", { P: mW, R_L: ohm }, volt, {
  meaning: "peak voltage of a sine that gives the load R_L the power P",
  source: "definition of the rms value",
  valid: { P: ">= 0 W", R_L: "> 0 Ω" },
});

export const peakCurrentOfPower = formula("I_p = sqrt(2*P/R_L)", { P: mW, R_L: ohm }, mA, {
  meaning: "peak current of a sine that gives the load R_L the power P",
  source: "definition of the rms value",
  valid: { P: ">= 0 W", R_L: "> 0 Ω" },
});

export const railForPower = formula("V_s = V_h + sqrt(2*P/R_L)*(R_L + R_s)", { V_h: volt, P: mW, R_L: ohm, R_s: ohm }, volt, {
  meaning:
    "rail that a sine of power P in R_L asks for: the headroom V_h of the stage, and the peak across the load and all resistance R_s in series with it, inside the loop or behind it",
  source: commonPractice,
  valid: { P: ">= 0 W", R_L: "> 0 Ω" },
});

export const sineHeat = formula("P_h = 2*V_s*I_q + 2*V_s*V_p/(pi*R_L) - V_p^2/(2*R_L)", { V_s: volt, I_q: mA, V_p: volt, R_L: ohm }, mW, {
  meaning:
    "heat of one class-AB channel on ±V_s that gives R_L a sine of the peak V_p, with the quiescent current I_q; it rises, is greatest at 2/π of the rail, then falls",
  source: classB,
  valid: { V_p: ">= 0 V", R_L: "> 0 Ω" },
});

export const greatestSineHeat = formula("P_h = 2*V_s*I_q + 2*V_s^2/(pi^2*R_L)", { V_s: volt, I_q: mA, R_L: ohm }, mW, {
  meaning: "greatest heat of one class-AB channel on ±V_s with a sine of any level in R_L, where the swing reaches 2/π of the rail",
  source: classB,
  valid: { R_L: "> 0 Ω" },
});

export const hottestPeak = formula("V_p = 2*V_s/pi", { V_s: volt }, volt, {
  meaning: "peak of the sine at which a class-AB stage on ±V_s is hottest",
  source: classB,
  valid: { V_s: "> 0" },
});

export const sineEfficiency = formula("eta = pi*V_p/(4*V_s)", { V_p: volt, V_s: volt }, percent, {
  meaning:
    "share of the power from the rails ±V_s that reaches the load as a sine of the peak V_p, without quiescent current: π/4 at full swing",
  source: classB,
  valid: { V_s: "> 0 V" },
});

export const signalHeat = formula(
  "P_h = 2*V_s*I_q + k*V_s*V_rms/R_L - V_rms^2/R_L",
  { V_s: volt, I_q: mA, k: one, V_rms: volt, R_L: ohm },
  mW,
  {
    meaning:
      "heat of one class-AB channel on ±V_s that gives R_L a signal of the rms value V_rms and of k = mean rectified/rms (battery.rectifiedMean; 2·√2/π for a sine); greatest at V_rms = k·V_s/2",
    source: "energy balance",
    valid: { k: "0 to 1", V_rms: ">= 0 V", R_L: "> 0 Ω" },
  },
);

export const dampingFactor = formula(
  "D = Z_L/(R_a + R_f + R_t + R_k + R_c)",
  { Z_L: ohm, R_a: ohm, R_f: ohm, R_t: ohm, R_k: ohm, R_c: ohm },
  one,
  {
    meaning:
      "damping factor of a load Z_L: over the amplifier's closed-loop resistance R_a, the output inductor or bead R_f, tracks R_t, contacts R_k and cable R_c, forth and back; put 0 Ω for what lies behind the point where it is stated",
    source: commonPractice,
    valid: { Z_L: "8 Ω to 600 Ω" },
  },
);

export const closedLoopResistance = formula("R_a = R_o/(1 + A/G)", { R_o: ohm, A: dB, G: dB }, ohm, {
  meaning:
    "output resistance of an amplifier of the open-loop output resistance R_o, by its open-loop gain A and noise gain G; a resistor inside the loop belongs to R_o. Holds where A is flat: above its first pole audio.outputImpedance",
  source: "negative feedback, H. W. Bode (from memory)",
  valid: { A: "> 0", G: ">= 1" },
});

export const levelChange = formula("dL = Z_2*(Z_1 + R_o)/(Z_1*(Z_2 + R_o))", { Z_1: ohm, Z_2: ohm, R_o: ohm }, dB, {
  meaning: "change of level when a load goes from Z_1 to Z_2 (both resistive) on the source resistance R_o",
  source: commonPractice,
  valid: { Z_1: "> 0 Ω", Z_2: "> 0 Ω" },
});

export const faultPower = formula("P = V^2*R_L/(R_L + R_s)^2", { V: volt, R_L: ohm, R_s: ohm }, watt, {
  meaning: "power in a load when a direct voltage V stands at the output behind R_s: one rail lost, or a broken stage",
  source: "Ohm's law",
  valid: { R_L: "> 0 Ω" },
});

export const isolationZero = formula("f_z = 1/(2*pi*R_i*C_L)", { R_i: ohm, C_L: pF }, MHz, {
  meaning: "frequency from which an isolating resistor R_i gives back the phase that the capacitive load C_L takes",
  source: commonPractice,
  valid: { R_i: "> 0 Ω", C_L: "> 0 F" },
});
