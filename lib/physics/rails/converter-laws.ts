/**
 * Closed laws of switching converters without losses, in continuous conduction unless they say otherwise: boost,
 * inverting buck-boost and buck. V_out is the magnitude of the output. R. W. Erickson and D. Maksimović, Fundamentals
 * of Power Electronics, chapters 2 and 5. Models of the same name with losses and discontinuous conduction are beside.
 */
import { commonPractice, formula } from "../../formula/formula";
import { ampere, farad, henry, hertz, kHz, mA, mV, ohm, one, second, volt } from "../../units";

const book = "R. W. Erickson and D. Maksimović, Fundamentals of Power Electronics";
export const boostDuty = formula("D = 1 - V_in/V_out", { V_in: volt, V_out: volt }, one, {
  meaning: "duty of the switch of a boost converter in continuous conduction, without losses",
  source: book,
  valid: { V_in: "> 0 V", V_out: "> 0 V" },
});

export const invertingDuty = formula("D = V_out/(V_in + V_out)", { V_in: volt, V_out: volt }, one, {
  meaning: "duty of the switch of an inverting buck-boost converter in continuous conduction, without losses; V_out is a magnitude",
  source: book,
  valid: { V_in: "> 0 V", V_out: "> 0 V" },
});

export const buckDuty = formula("D = V_out/V_in", { V_in: volt, V_out: volt }, one, {
  meaning: "duty of the switch of a buck converter in continuous conduction, without losses",
  source: book,
  valid: { V_in: "> 0 V", V_out: "> 0 V" },
});

export const inductorRipple = formula("dI = V_in*D/(f*L)", { V_in: volt, D: one, f: hertz, L: henry }, mA, {
  meaning: "peak-to-peak ripple of the inductor current of a boost or inverting converter",
  source: book,
  valid: { D: "0 to 1", f: "> 0 Hz", L: "> 0 H" },
});

export const buckInductorRipple = formula("dI = (V_in - V_out)*D/(f*L)", { V_in: volt, V_out: volt, D: one, f: hertz, L: henry }, mA, {
  meaning: "peak-to-peak ripple of the inductor current of a buck converter",
  source: book,
  valid: { D: "0 to 1", f: "> 0 Hz", L: "> 0 H" },
});

export const inductorCurrent = formula("I_L = I_out/(1 - D)", { I_out: ampere, D: one }, mA, {
  meaning:
    "mean inductor current of a boost or inverting converter, whose inductor feeds the output for the share 1 − D only; in a buck it is I_out",
  source: book,
  valid: { D: "0 to 1" },
});

export const peakInductorCurrent = formula("I_pk = I_L + dI/2", { I_L: ampere, dI: ampere }, mA, {
  meaning: "peak of the inductor current",
  source: book,
  valid: { dI: ">= 0" },
});

export const inductorRms = formula("I_rms = sqrt(I_L^2 + dI^2/12)", { I_L: ampere, dI: ampere }, mA, {
  meaning: "rms value of a triangular inductor current about its mean: what heats the winding",
  source: book,
  valid: { dI: ">= 0" },
});

export const saturationMargin = formula("M = I_sat - I_pk", { I_sat: ampere, I_pk: ampere }, mA, {
  meaning:
    "distance of the inductor's peak current to its saturation current; take I_sat at the highest temperature and I_pk at start or overload",
  source: commonPractice,
  valid: { I_sat: "> 0", I_pk: ">= 0" },
});

export const conductionBorder = formula("I_b = (1 - D)*dI/2", { D: one, dI: ampere }, mA, {
  meaning: "load current below which a boost or inverting converter that does not let its current reverse conducts discontinuously",
  source: book,
  valid: { D: "0 to 1" },
});

export const buckConductionBorder = formula("I_b = dI/2", { dI: ampere }, mA, {
  meaning: "load current below which a buck converter that does not let its current reverse conducts discontinuously",
  source: book,
  valid: { dI: ">= 0" },
});

export const outputCapacitorRipple = formula("dV = I_out*D/(f*C)", { I_out: ampere, D: one, f: hertz, C: farad }, mV, {
  meaning: "peak-to-peak ripple on the output capacitance of a boost or inverting converter, which alone carries the load for the share D",
  source: book,
  valid: { D: "0 to 1", f: "> 0 Hz", C: "> 0 F" },
});

export const buckOutputRipple = formula("dV = dI/(8*f*C)", { dI: ampere, f: hertz, C: farad }, mV, {
  meaning: "peak-to-peak ripple on the output capacitance of a buck converter",
  source: book,
  valid: { f: "> 0 Hz", C: "> 0 F" },
});

export const resistanceRipple = formula("dV = I_pk*ESR", { I_pk: ampere, ESR: ohm }, mV, {
  meaning:
    "step of the output voltage at the resistance of its capacitor where the current I_pk begins to flow into it; in a buck put the ripple for I_pk",
  source: commonPractice,
  valid: { I_pk: ">= 0", ESR: ">= 0" },
});

export const edgeSpike = formula("dV = ESL*dI/t_e", { ESL: henry, dI: ampere, t_e: second }, mV, {
  meaning: "spike at the inductance of a capacitor and its vias while its current changes by dI in the time t_e",
  source: commonPractice,
  valid: { t_e: "> 0 s" },
});

export const outputCapacitorCurrent = formula(
  "I_C = sqrt(I_out^2*D/(1 - D) + (1 - D)*dI^2/12)",
  { I_out: ampere, D: one, dI: ampere },
  mA,
  {
    meaning: "rms current of the output capacitor of a boost or inverting converter, ripple of the inductor included",
    source: book,
    valid: { D: "0 to 1" },
  },
);

export const buckInputCapacitorCurrent = formula("I_C = sqrt(D*((1 - D)*I_out^2 + dI^2/12))", { I_out: ampere, D: one, dI: ampere }, mA, {
  meaning: "rms current of the input capacitor of a buck converter",
  source: book,
  valid: { D: "0 to 1" },
});

export const rightHalfPlaneZero = formula("f_z = (1 - D)^2*R/(2*pi*L)", { D: one, R: ohm, L: henry }, kHz, {
  meaning:
    "right-half-plane zero of a boost converter with the load R: more duty first lowers the output, so that the control must cross over well below it (a fifth is common); for an inverting converter divide by D",
  source: book,
  valid: { D: "0 to 1", L: "> 0 H" },
});
