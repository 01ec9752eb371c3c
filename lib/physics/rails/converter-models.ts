/** Switching converters as models: steady state, output ripple, losses and efficiency of boost, inverting and buck. */
import { commonPractice } from "../../formula/formula";
import { curveOutput, defineModel } from "../../graph/model";
import { ampere, farad, henry, hertz, kHz, mA, mV, mW, nH, ohm, one, percent, second, uJ, volt } from "../../units";
import { notNegative, positive } from "../model-limits";
import { frequencies } from "../rf/filter";
import { type Converter, operate, slopes, type Topology } from "./converter";
import { losses } from "./loss";
import { outputRipple } from "./ripple";

const book = "R. W. Erickson and D. Maksimović, Fundamentals of Power Electronics, chapters 2 and 5";
const supply = { V_in: volt, V_out: volt, eta: one, f: hertz, L: henry } as const;
const parasitics = { I_p: ampere, R_1: ohm, R_2: ohm, R_L: ohm, V_f: volt, t_e: second, E_c: uJ, I_q: ampere } as const;
const share = { symbol: "eta", low: 0.5, high: 1, text: "0.5 to 1" };
const names = {
  boost: "a boost converter",
  inverting: "an inverting buck-boost converter (V_out is a magnitude)",
  buck: "a buck converter",
} as const;
const lossWords =
  "switch R_1, rectifier R_2 and V_f, winding R_L, edges of t_e, the energy E_c each cycle and the quiescent current I_q; at light load pulses of the peak I_p, or, for I_p = 0, forced switching at f";
const unlost = notNegative("I_p", "R_1", "R_2", "R_L", "V_f", "t_e", "E_c", "I_q");
const lossHolds =
  "losses up to a third of the input, since currents are the lossless ones; a boost converter needs V_out above V_in, a buck V_out below it";

function operationModel<const N extends string>(name: N, topology: Topology) {
  return defineModel({
    name: `rails.${name}`,
    inputs: { ...supply, I_out: ampere },
    outputs: { D: one, D_2: one, dI: mA, I_L: mA, I_pk: mA, I_rms: mA, I_b: mA },
    meaning: `currents and duty of ${names[topology]} with the efficiency eta that does not let its inductor current reverse, discontinuous below the load I_b`,
    meanings: {
      D: "share of the period with the switch on",
      D_2: "share of the period with the rectifier on",
      dI: "peak-to-peak ripple of the inductor current",
      I_L: "mean inductor current",
      I_pk: "peak inductor current",
      I_rms: "rms inductor current",
      I_b: "load at the border of continuous conduction",
    },
    source: book,
    valid: [share],
    evaluate: ({ I_out, ...converter }) => ({ ...operate(slopes(topology, converter), converter.f, converter.L, I_out) }),
  });
}

function rippleModel<const N extends string>(name: N, topology: Topology) {
  return defineModel({
    name: `rails.${name}`,
    inputs: { ...supply, I_out: ampere, t_e: second, C: farad, ESR: ohm, ESL: nH },
    outputs: { dV: mV, dV_C: mV, dV_R: mV, I_C: mA },
    meaning: `ripple at the output of ${names[topology]} that does not let its inductor current reverse, on a capacitor C with ESR and ESL, its current having edges of the length t_e`,
    meanings: {
      dV: "peak-to-peak output ripple",
      dV_C: "peak-to-peak ripple of the capacitance alone",
      dV_R: "peak-to-peak ripple of the resistance alone",
      I_C: "rms current of the output capacitor",
    },
    source: book,
    valid: [share],
    evaluate: ({ I_out, t_e, C, ESR, ESL, ...converter }) => {
      const legs = slopes(topology, converter);
      const operation = operate(legs, converter.f, converter.L, I_out);
      return { ...outputRipple(operation, legs.always, converter.f, t_e, { C, ESR, ESL }) };
    },
  });
}

function lossModel<const N extends string>(name: N, topology: Topology) {
  const { eta: _eta, ...ends } = supply;
  return defineModel({
    name: `rails.${name}`,
    inputs: { ...ends, I_out: ampere, ...parasitics },
    outputs: { P_in: mW, eta: percent, P_cond: mW, P_sw: mW, P_q: mW, f_s: kHz },
    meaning: `losses and efficiency of ${names[topology]}: ${lossWords}`,
    meanings: {
      P_in: "power into the converter",
      eta: "efficiency at this load",
      P_cond: "loss of conduction",
      P_sw: "loss of switching",
      P_q: "power of the quiescent current",
      f_s: "frequency at which it switches at this load",
    },
    source: commonPractice,
    valid: [...positive("V_in", "V_out", "f", "L", "I_out"), ...unlost],
    holds: lossHolds,
    evaluate: ({ V_in, V_out, f, L, I_out, I_p, ...parts }) => ({ ...losses(topology, lossless(V_in, V_out, f, L), I_out, I_p, parts) }),
  });
}

function efficiencyModel<const N extends string>(name: N, topology: Topology) {
  const { eta: _eta, ...ends } = supply;
  return defineModel({
    name: `rails.${name}`,
    inputs: { P_1: mW, P_2: mW, ...ends, ...parasitics },
    outputs: { eta: curveOutput(mW, percent) },
    meaning: `efficiency of ${names[topology]} against the power that it gives, from P_1 to P_2: ${lossWords}`,
    source: commonPractice,
    valid: [...positive("P_1", "P_2", "V_in", "V_out", "f", "L"), ...unlost],
    holds: lossHolds,
    evaluate: ({ P_1, P_2, V_in, V_out, f, L, I_p, ...parts }) => {
      const x = frequencies(P_1, P_2, 61);
      return { eta: { x, y: x.map((P) => losses(topology, lossless(V_in, V_out, f, L), P / V_out, I_p, parts).eta) } };
    },
  });
}

function lossless(V_in: number, V_out: number, f: number, L: number): Converter {
  return { V_in, V_out, eta: 1, f, L };
}

/** Duty and currents of a boost converter. */
export const boostOperation = operationModel("boostOperation", "boost");
/** Duty and currents of an inverting buck-boost converter. */
export const invertingOperation = operationModel("invertingOperation", "inverting");
/** Duty and currents of a buck converter. */
export const buckOperation = operationModel("buckOperation", "buck");

/** Output ripple of a boost converter. */
export const boostRipple = rippleModel("boostRipple", "boost");
/** Output ripple of an inverting buck-boost converter. */
export const invertingRipple = rippleModel("invertingRipple", "inverting");
/** Output ripple of a buck converter. */
export const buckRipple = rippleModel("buckRipple", "buck");

/** Losses of a boost converter at one load. */
export const boostLoss = lossModel("boostLoss", "boost");
/** Losses of an inverting buck-boost converter at one load. */
export const invertingLoss = lossModel("invertingLoss", "inverting");
/** Losses of a buck converter at one load. */
export const buckLoss = lossModel("buckLoss", "buck");

/** Efficiency of a boost converter against its load: the table that `battery.converterInput` reads. */
export const boostEfficiency = efficiencyModel("boostEfficiency", "boost");
/** Efficiency of an inverting buck-boost converter against its load. */
export const invertingEfficiency = efficiencyModel("invertingEfficiency", "inverting");
/** Efficiency of a buck converter against its load. */
export const buckEfficiency = efficiencyModel("buckEfficiency", "buck");
