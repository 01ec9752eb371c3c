/** Procedures of filters at radio frequencies, as models. Good for lumped parts: 10 kHz to 6 GHz unless stated. */
import { curveOutput, defineModel, tableInput } from "../../graph/model";
import { atan2 } from "../../quantity/elementary";
import { dB, deg, farad, henry, hertz, kHz, MHz, nH, ohm, one, pF, uH } from "../../units";
import { magnitude } from "../numerics/complex";
import { traced } from "../numerics/extremes";
import { fitBead } from "./bead-fit";
import { modeChain } from "./choke";
import {
  cornerFrequency,
  type Ends,
  type FilterParts,
  filterChain,
  frequencies,
  insertionLossAt,
  leastLoss,
  loadImpedance,
  sourceImpedance,
} from "./filter";
import { impedance } from "./parts";
import { chainTwoPort, insertionRatio, type Section, scattering, voltageTransfer } from "./two-port";

const chain = "chain matrices of lumped elements; common practice";
const ends = { R_s: ohm, L_s: nH, R_L: ohm, C_L: pF } as const;
const parts = {
  C_1: farad,
  ESR_1: ohm,
  ESL_1: nH,
  L: henry,
  R_dc: ohm,
  R_p: ohm,
  C_p: pF,
  C_2: farad,
  ESR_2: ohm,
  ESL_2: nH,
  C_3: farad,
  ESR_3: ohm,
  ESL_3: nH,
} as const;
const network =
  "a filter of a shunt part C_1 (0 F for none), a choke or bead R_dc + (L ‖ R_p ‖ C_p) in the line, a shunt capacitor C_2 and one more beside it, C_3 (0 F for none; each capacitor with ESR and ESL), between a source R_s + L_s and a load R_L ‖ C_L";
const upTo6GHz = (symbol: string) => ({
  symbol,
  low: Number.MIN_VALUE,
  high: 6e9,
  text: "> 0 Hz, to 6 GHz: parts much shorter than a wavelength",
});
const curvePoints = 121;

/** Impedance of a choke or bead. */
export const coilImpedance = defineModel({
  name: "rf.coilImpedance",
  inputs: { f: hertz, L: henry, R_dc: ohm, R_p: ohm, C_p: pF },
  outputs: { Z: ohm, R: ohm, X: ohm },
  meaning: "impedance at the frequency f of an inductor or ferrite bead: R_dc in series with L, R_p and C_p in parallel",
  meanings: { Z: "magnitude of the impedance", R: "its resistance", X: "its reactance" },
  source: chain,
  valid: [upTo6GHz("f")],
  evaluate: ({ f, ...coil }) => {
    const Z = impedance({ kind: "coil", ...coil }, f);
    return { Z: magnitude(Z), R: Z.re, X: Z.im };
  },
});

/** Impedance of a capacitor. */
export const capacitorImpedance = defineModel({
  name: "rf.capacitorImpedance",
  inputs: { f: hertz, C: farad, ESR: ohm, ESL: nH },
  outputs: { Z: ohm, X: ohm },
  meaning: "impedance at the frequency f of a capacitor C in series with ESR and ESL",
  meanings: { Z: "magnitude of the impedance", X: "its reactance, negative below self-resonance" },
  source: chain,
  valid: [upTo6GHz("f")],
  evaluate: ({ f, ...part }) => {
    const Z = impedance({ kind: "capacitor", ...part }, f);
    return { Z: magnitude(Z), X: Z.im };
  },
});

/** A bead's equivalent circuit from its curve of impedance. */
export const beadFit = defineModel({
  name: "rf.beadFit",
  inputs: { Z: tableInput(MHz, ohm) },
  outputs: { R_p: ohm, L: uH, C_p: pF, worst: dB },
  meaning: "R_p ‖ L ‖ C_p that comes closest, in ratio, to a bead's table of impedance magnitudes",
  meanings: {
    R_p: "parallel resistance of the bead",
    L: "inductance of the bead",
    C_p: "capacitance across the bead",
    worst: "largest deviation of the fit from a row",
  },
  source: "least squares of ln|Z|; common practice",
  holds: "for tables of three rows or more about the resonance; a ferrite whose loss is no single R‖L‖C leaves a large deviation",
  evaluate: ({ Z }) => ({ ...fitBead(Z) }),
});

/** Insertion loss and phase of a filter at one frequency. */
export const insertionLoss = defineModel({
  name: "rf.insertionLoss",
  inputs: { f: hertz, ...ends, ...parts },
  outputs: { IL: dB, phi: deg },
  meaning: `insertion loss IL at the frequency f of ${network}: the load's voltage without the filter over that with it, below 0 dB where the filter resonates in the load's favour`,
  meanings: { IL: "insertion loss", phi: "phase of the load's voltage against the source's electromotive force" },
  source: chain,
  valid: [upTo6GHz("f")],
  evaluate: ({ f, ...given }) => {
    const two = chainTwoPort(filterChain(given), f);
    const [Z_S, Z_L] = [sourceImpedance(given, f), loadImpedance(given, f)];
    const H = voltageTransfer(two, Z_S, Z_L);
    return { IL: insertionRatio(two, Z_S, Z_L), phi: atan2(H.im, H.re) };
  },
});

/** The weakest place of a filter in a band. */
export const leastInsertionLoss = defineModel({
  name: "rf.leastInsertionLoss",
  inputs: { f_1: hertz, f_2: hertz, ...ends, ...parts },
  outputs: { IL: dB, f: MHz },
  meaning: `least insertion loss IL from f_1 to f_2, and the frequency f of it, of ${network}`,
  meanings: { IL: "least insertion loss in the band", f: "frequency of the least insertion loss" },
  source: chain,
  valid: [upTo6GHz("f_1"), upTo6GHz("f_2")],
  draws: 2000,
  evaluate: ({ f_1, f_2, ...given }) => leastLoss(lossOf(filterChain(given), given), f_1, f_2),
});

/** Insertion loss over a band, as a curve. */
export const insertionLossCurve = defineModel({
  name: "rf.insertionLossCurve",
  inputs: { f_1: hertz, f_2: hertz, ...ends, ...parts },
  outputs: { IL: curveOutput(hertz, dB) },
  meaning: `insertion loss from f_1 to f_2 of ${network}`,
  source: chain,
  valid: [upTo6GHz("f_1"), upTo6GHz("f_2")],
  draws: 4000,
  evaluate: ({ f_1, f_2, ...given }) => {
    const loss = lossOf(filterChain(given), given);
    return { IL: traced(loss, frequencies(f_1, f_2, curvePoints)) };
  },
});

/** Insertion loss of a filter whose bead is given by rows. */
export const tableInsertionLoss = defineModel({
  name: "rf.tableInsertionLoss",
  inputs: {
    f: hertz,
    ...ends,
    R: tableInput(hertz, ohm),
    X: tableInput(hertz, ohm),
    C: farad,
    ESR: ohm,
    ESL: nH,
  },
  outputs: { IL: dB },
  meaning:
    "insertion loss IL at the frequency f of a bead, by its tables of resistance R and reactance X, in the line before a shunt capacitor C, between a source R_s + L_s and a load R_L ‖ C_L",
  source: chain,
  valid: [upTo6GHz("f")],
  evaluate: ({ f, R, X, C, ESR, ESL, ...given }) => {
    const sections: Section[] = [
      { place: "series", part: { kind: "table", R, X } },
      { place: "shunt", part: { kind: "capacitor", C, ESR, ESL } },
    ];
    return { IL: insertionLossAt(sections, given, f) };
  },
});

/** Where a filter ends the audio band. */
export const filterCorner = defineModel({
  name: "rf.filterCorner",
  inputs: { f_1: hertz, f_2: hertz, ...ends, ...parts },
  outputs: { f_c: kHz },
  meaning: `first frequency f_c between f_1 and f_2 at which the load's voltage is 3.01 dB below that at f_1, with ${network}; an error where there is none`,
  source: chain,
  valid: [upTo6GHz("f_1"), upTo6GHz("f_2")],
  evaluate: ({ f_1, f_2, ...given }) => {
    const sections = filterChain(given);
    return { f_c: cornerFrequency((f) => magnitude(transferAt(sections, given, f)), f_1, f_2) };
  },
});

/** S-parameters of a filter. */
export const scatteringParameters = defineModel({
  name: "rf.scatteringParameters",
  inputs: { f: hertz, ...ends, ...parts },
  outputs: { S11: dB, S21: dB, S12: dB, S22: dB },
  meaning: `magnitudes of the S-parameters (power waves) at the frequency f of ${network}, the source and the load being the ports' impedances`,
  meanings: {
    S11: "reflection at the source's side",
    S21: "transmission to the load",
    S12: "transmission back to the source",
    S22: "reflection at the load's side",
  },
  source: "K. Kurokawa, IEEE Trans. MTT 13 (1965) 194; D. A. Frickey, IEEE Trans. MTT 42 (1994) 205 (from memory)",
  valid: [upTo6GHz("f")],
  evaluate: ({ f, ...given }) => {
    const S = scattering(chainTwoPort(filterChain(given), f), sourceImpedance(given, f), loadImpedance(given, f));
    return { S11: magnitude(S.S11), S21: magnitude(S.S21), S12: magnitude(S.S12), S22: magnitude(S.S22) };
  },
});

/** Insertion loss of a common-mode choke with capacitors, in both modes. */
export const chokeLoss = defineModel({
  name: "rf.chokeLoss",
  inputs: {
    f: hertz,
    R_cs: ohm,
    R_cL: ohm,
    R_ds: ohm,
    R_dL: ohm,
    L: henry,
    k: one,
    R_dc: ohm,
    R_p: ohm,
    C_p: pF,
    C_x: farad,
    C_y: farad,
    ESR: ohm,
    ESL: nH,
  },
  outputs: { IL_c: dB, IL_d: dB },
  meaning:
    "insertion loss at the frequency f of a common-mode choke (two windings L coupled by k, each with R_dc, R_p and C_p) before capacitors C_y from each line to ground and C_x between the lines: in common mode between R_cs and R_cL, in differential mode between R_ds and R_dL",
  meanings: { IL_c: "insertion loss in common mode", IL_d: "insertion loss in differential mode" },
  source: "symmetric modes of coupled lines; common practice",
  valid: [upTo6GHz("f"), { symbol: "k", low: 0, high: 1, text: "0 to 1" }],
  evaluate: ({ f, R_cs, R_cL, R_ds, R_dL, ...filter }) => {
    const loss = (mode: "common" | "differential", R_s: number, R_L: number): number =>
      insertionLossAt(modeChain(filter, mode), { R_s, L_s: 0, R_L, C_L: 0 }, f);
    return { IL_c: loss("common", R_cs, R_cL), IL_d: loss("differential", R_ds, R_dL) };
  },
});

function lossOf(sections: readonly Section[], given: Ends & FilterParts): (f: number) => number {
  return (f) => insertionLossAt(sections, given, f);
}

function transferAt(sections: readonly Section[], given: Ends, f: number) {
  return voltageTransfer(chainTwoPort(sections, f), sourceImpedance(given, f), loadImpedance(given, f));
}
