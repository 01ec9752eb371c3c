/** What a converter's pulses leave at an amplifier's output, as a model. */
import { defineModel, tableInput } from "../../graph/model";
import { ampere, dB, hertz, mohm, nH, ohm, one, second, uF, uH, uV } from "../../units";
import { notNegative, oneOrMore, positive } from "../model-limits";
import { pulseResidue as residueOf } from "./pulse";

/** Residue of a train of pulses, in and above a band. */
export const pulseResidue = defineModel({
  name: "rails.pulseResidue",
  inputs: {
    f: hertz,
    t_p: second,
    I_1: ampere,
    I_2: ampere,
    C_1: uF,
    n_1: one,
    L_f: uH,
    R_f: ohm,
    C_2: uF,
    n_2: one,
    ESR: mohm,
    ESL: nH,
    C_d: uF,
    R_d: ohm,
    f_1: hertz,
    f_t: hertz,
    f_2: hertz,
    G: dB,
    rejection: tableInput(hertz, dB),
  },
  outputs: { V_a: uV, V_h: uV },
  meaning:
    "rms residue at an amplifier's output of pulses that a converter feeds into its rail f times a second, each falling from I_1 to I_2 in t_p: through n_1 capacitors C_1 at the converter, an inductor L_f with R_f (0 µH and 0 Ω for none), n_2 capacitors C_2 and a damping branch of C_d and R_d at the amplifier (0 µF for none), and the supply rejection, referred to the input, at the noise gain G",
  meanings: { V_a: "residue of the harmonics from f_1 to f_t", V_h: "residue of the harmonics above f_t, to f_2" },
  source: "Fourier series of a train of pulses; parallel and series lumped elements",
  valid: [
    ...positive("f", "t_p", "C_1", "n_1", "f_1", "f_t", "f_2"),
    ...notNegative("I_1", "L_f", "R_f", "C_2", "n_2", "ESR", "ESL", "C_d", "R_d"),
    ...oneOrMore("G"),
  ],
  holds:
    "where the pulses fit into their period, f·t_p ≤ 1, and f_1 < f_t < f_2, all harmonics inside the table of rejection; an error otherwise",
  draws: 2000,
  evaluate: ({ f, t_p, I_1, I_2, f_1, f_t, f_2, G, rejection, ...rail }) => {
    const { below, above } = residueOf({ f, t_p, I_1, I_2 }, rail, (at) => G / rejection.at(at), [f_1, f_t, f_2]);
    return { V_a: below, V_h: above };
  },
});
