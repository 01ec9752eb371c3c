/** The direct voltage that a stage leaves at its output, and for how long a step at turn-on is heard. */
import { commonPractice, formula } from "../../formula/formula";
import { dB, degC_difference, hertz, kohm, mV, nA, ohm, second, uV, uV_per_K, volt } from "../../units";

export const outputOffset = formula(
  "V_o = G*(V_os - (I_b + I_os/2)*R_s) + (I_b - I_os/2)*R_f",
  { G: dB, V_os: uV, I_b: nA, I_os: nA, R_s: kohm, R_f: kohm },
  mV,
  {
    meaning:
      "direct voltage at the output from the offset voltage V_os (its plus side towards the non-inverting input), the bias current I_b, counted as it flows into both inputs (below 0 where it flows out), and the offset current I_os (into the non-inverting input less into the other), R_s being the direct-current resistance at the non-inverting input; G is the noise gain at direct current, 1 where a capacitor stands in the lower leg of the feedback",
    source: "superposition; common practice",
    valid: { G: ">= 1" },
  },
);

export const greatestOffset = formula(
  "V_o = G*V_os + abs(G*R_s - R_f)*I_b + (G*R_s + R_f)*I_os/2",
  { G: dB, V_os: uV, R_s: kohm, R_f: kohm, I_b: nA, I_os: nA },
  mV,
  {
    meaning:
      "greatest magnitude of `outputOffset` where V_os, I_b and I_os are limits of either sign; the bias current's part vanishes where R_s is R_f parallel to R_g",
    source: "superposition; common practice",
    valid: { G: ">= 1", V_os: ">= 0 V", I_b: ">= 0 A", I_os: ">= 0 A" },
  },
);

export const balancingResistance = formula("R_s = R_f/G", { R_f: ohm, G: dB }, ohm, {
  meaning: "resistance at the non-inverting input at which the bias currents of both inputs cancel at the output: R_f parallel to R_g",
  source: commonPractice,
  valid: { G: ">= 1" },
});

export const offsetAtTemperature = formula("V = V_os + a*dT", { V_os: uV, a: uV_per_K, dT: degC_difference }, uV, {
  meaning: "offset voltage at a temperature dT away from that of V_os, drifting by a",
  source: commonPractice,
  holds: "offset, drift and change of either sign, inside the temperatures over which the data sheet states its drift",
});

export const firstOrderSettling = formula("t = ln(V_0/V_e)/(2*pi*f_c)", { V_0: volt, V_e: mV, f_c: hertz }, second, {
  meaning:
    "time after a step V_0 until the output of a high-pass, or the error of a low-pass, of first order with the corner f_c is within V_e",
  source: "step response of first order",
  valid: { V_0: "> 0 V", V_e: "> 0 V", f_c: "> 0 Hz" },
});
