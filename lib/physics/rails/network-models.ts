/** Capacitor banks, post filters and supply rejection as models. */
import { commonPractice } from "../../formula/formula";
import { curveOutput, defineModel, tableInput } from "../../graph/model";
import { atan2 } from "../../quantity/elementary";
import { WorkingsError } from "../../quantity/error";
import { dB, deg, farad, henry, hertz, kHz, MHz, mohm, mV, nH, ohm, one, percent, uF, uV, volt } from "../../units";
import { notNegative, oneOrMore, positive } from "../model-limits";
import { magnitude } from "../numerics/complex";
import { traced } from "../numerics/extremes";
import { frequencies } from "../rf/filter";
import { type BankKind, bankCurve, bankExtremes as extremesIn, bankImpedance as impedanceOf, presentKinds } from "./bank";
import { fitBias } from "./ceramic";
import { filterOutputImpedance, filterPeaks, filterTransfer } from "./filter";
import { rejectionCurve as curveOfRejection, sawtoothResidue as residueOf } from "./rejection";

const parallel = "parallel lumped branches; common practice";
const bankOf =
  "a bank of up to four kinds of capacitors in parallel, of each kind n pieces of C with ESR and ESL (n = 0 for a kind that is not there)";
const kinds = {
  C_1: uF,
  ESR_1: mohm,
  ESL_1: nH,
  n_1: one,
  C_2: uF,
  ESR_2: mohm,
  ESL_2: nH,
  n_2: one,
  C_3: uF,
  ESR_3: mohm,
  ESL_3: nH,
  n_3: one,
  C_4: uF,
  ESR_4: mohm,
  ESL_4: nH,
  n_4: one,
} as const;
type Kinds = { readonly [K in keyof typeof kinds]: number };
const filterParts = { R_s: ohm, L: henry, R_dc: ohm, R_p: ohm, C: farad, ESR: ohm, ESL: nH, C_d: farad, R_d: ohm, R_L: ohm } as const;
const filter =
  "a filter of R_s, an inductor L with R_dc and a resistor R_p across it, then C with ESR and ESL, a damping branch of C_d and R_d (C_d = 0 for none) and the load R_L";
const lumped = (symbol: string) => ({ symbol, low: Number.MIN_VALUE, high: 1e9, text: "> 0 Hz, to 1 GHz" });

/** Capacitance of a class-2 ceramic capacitor under bias, from its table. */
export const biasedCapacitance = defineModel({
  name: "rails.biasedCapacitance",
  inputs: { C_n: uF, V: volt, share: tableInput(volt, percent) },
  outputs: { C: uF, k: percent },
  meaning: "capacitance of a class-2 ceramic capacitor of the nominal C_n under the bias V, from its table of the share kept",
  meanings: { C: "capacitance under bias", k: "share of the capacitance kept" },
  source: commonPractice,
  valid: positive("C_n"),
  holds: "for a bias inside the table, an error outside",
  evaluate: ({ C_n, V, share }) => {
    const k = share.at(V);
    return { C: C_n * k, k };
  },
});

/** Fit of the loss of capacitance under bias, for `biasShare`. */
export const biasFit = defineModel({
  name: "rails.biasFit",
  inputs: { share: tableInput(volt, percent) },
  outputs: { V_h: volt, n: one, worst: percent },
  meaning: "V_h and n of k = 1/(1 + (V/V_h)^n) fitted to a table of the share of capacitance kept under bias",
  meanings: {
    V_h: "bias that leaves half of the capacitance",
    n: "steepness of the loss",
    worst: "largest difference between a row and the fit",
  },
  source: "regression of ln(1/k − 1) on ln V; common practice",
  holds: "for two rows or more above 0 V whose share lies between 0 and 1 and falls with the bias, an error otherwise",
  evaluate: ({ share }) => ({ ...fitBias(share) }),
});

/** Impedance of a bank at one frequency. */
export const bankImpedance = defineModel({
  name: "rails.bankImpedance",
  inputs: { f: hertz, ...kinds },
  outputs: { Z: mohm, phi: deg },
  meaning: `impedance at the frequency f of ${bankOf}`,
  meanings: { Z: "magnitude of the bank's impedance", phi: "its phase" },
  source: parallel,
  valid: [lumped("f")],
  evaluate: ({ f, ...given }) => {
    const Z = impedanceOf(bankKinds(given), f);
    return { Z: magnitude(Z), phi: atan2(Z.im, Z.re) };
  },
});

/** Impedance of a bank over a band. */
export const bankImpedanceCurve = defineModel({
  name: "rails.bankImpedanceCurve",
  inputs: { f_1: hertz, f_2: hertz, ...kinds },
  outputs: { Z: curveOutput(hertz, mohm) },
  meaning: `magnitude of the impedance from f_1 to f_2 of ${bankOf}`,
  source: parallel,
  valid: [lumped("f_1"), lumped("f_2")],
  evaluate: ({ f_1, f_2, ...given }) => ({ Z: bankCurve(bankKinds(given), f_1, f_2) }),
});

/** Resonances and anti-resonances of a bank, and the highest and lowest impedance in a band. */
export const bankExtremes = defineModel({
  name: "rails.bankExtremes",
  inputs: { f_1: hertz, f_2: hertz, ...kinds },
  outputs: { Z_max: mohm, f_max: MHz, Z_min: mohm, f_min: MHz, n: one, extremes: curveOutput(hertz, mohm) },
  meaning: `highest and lowest impedance from f_1 to f_2, and the list of resonances and anti-resonances, of ${bankOf}`,
  meanings: {
    Z_max: "highest impedance in the band, its ends included",
    f_max: "frequency of the highest impedance",
    Z_min: "lowest impedance in the band, its ends included",
    f_min: "frequency of the lowest impedance",
    n: "number of anti-resonances in the band",
    extremes: "impedance at the ends of the band and at each resonance and anti-resonance between them",
  },
  source: parallel,
  valid: [lumped("f_1"), lumped("f_2")],
  evaluate: ({ f_1, f_2, ...given }) => {
    const bank = bankKinds(given);
    const inside = extremesIn(bank, f_1, f_2);
    const end = (x: number) => ({ x, y: magnitude(impedanceOf(bank, x)), sign: 0 });
    const all = [end(f_1), ...inside, end(f_2)];
    const most = all.reduce((best, one) => (one.y > best.y ? one : best));
    const least = all.reduce((best, one) => (one.y < best.y ? one : best));
    return {
      Z_max: most.y,
      f_max: most.x,
      Z_min: least.y,
      f_min: least.x,
      n: inside.filter(({ sign }) => sign > 0).length,
      extremes: { x: all.map(({ x }) => x), y: all.map(({ y }) => y), interpolation: "log-log" },
    };
  },
});

/** The highest anti-resonance of a bank. */
export const bankAntiResonance = defineModel({
  name: "rails.bankAntiResonance",
  inputs: { f_1: hertz, f_2: hertz, ...kinds },
  outputs: { Z: mohm, f: MHz },
  meaning: `highest anti-resonance between f_1 and f_2, an error where there is none, of ${bankOf}`,
  meanings: { Z: "impedance at the highest anti-resonance", f: "frequency of the highest anti-resonance" },
  source: parallel,
  valid: [lumped("f_1"), lumped("f_2")],
  evaluate: ({ f_1, f_2, ...given }) => {
    const maxima = extremesIn(bankKinds(given), f_1, f_2).filter(({ sign }) => sign > 0);
    if (maxima.length === 0) throw new WorkingsError("curve-crossing", `the bank has no anti-resonance between ${f_1} Hz and ${f_2} Hz`);
    const { x, y } = maxima.reduce((best, one) => (one.y > best.y ? one : best));
    return { Z: y, f: x };
  },
});

/** Transfer and output impedance of a post filter at one frequency. */
export const postFilter = defineModel({
  name: "rails.postFilter",
  inputs: { f: hertz, ...filterParts },
  outputs: { H: dB, phi: deg, Z: ohm },
  meaning: `transfer of ripple and output impedance at the frequency f of ${filter}`,
  meanings: { H: "voltage at the load over the converter's", phi: "its phase", Z: "output impedance, without the load" },
  source: "chain matrices of lumped elements; common practice",
  valid: [lumped("f")],
  evaluate: ({ f, ...parts }) => {
    const H = filterTransfer(parts, f);
    return { H: magnitude(H), phi: atan2(H.im, H.re), Z: magnitude(filterOutputImpedance(parts, f)) };
  },
});

/** Transfer of a post filter over a band. */
export const postFilterCurve = defineModel({
  name: "rails.postFilterCurve",
  inputs: { f_1: hertz, f_2: hertz, ...filterParts },
  outputs: { H: curveOutput(hertz, dB), Z: curveOutput(hertz, ohm) },
  meaning: `transfer of ripple and output impedance from f_1 to f_2 of ${filter}`,
  meanings: { H: "voltage at the load over the converter's", Z: "output impedance, without the load" },
  source: "chain matrices of lumped elements; common practice",
  valid: [lumped("f_1"), lumped("f_2")],
  draws: 4000,
  evaluate: ({ f_1, f_2, ...parts }) => {
    const x = frequencies(f_1, f_2, 181);
    return {
      H: traced((f) => magnitude(filterTransfer(parts, f)), x),
      Z: traced((f) => magnitude(filterOutputImpedance(parts, f)), x),
    };
  },
});

/** Peaking of a post filter. */
export const postFilterPeak = defineModel({
  name: "rails.postFilterPeak",
  inputs: { f_1: hertz, f_2: hertz, ...filterParts },
  outputs: { H: dB, f_H: kHz, Z: ohm, f_Z: kHz },
  meaning: `highest transfer of ripple and highest output impedance from f_1 to f_2, the ends included, of ${filter}`,
  meanings: {
    H: "highest voltage at the load over the converter's",
    f_H: "frequency of the highest transfer",
    Z: "highest output impedance",
    f_Z: "frequency of the highest output impedance",
  },
  source: "chain matrices of lumped elements; common practice",
  valid: [lumped("f_1"), lumped("f_2")],
  evaluate: ({ f_1, f_2, ...parts }) => ({ ...filterPeaks(parts, f_1, f_2) }),
});

/** What ripple of one frequency on a rail leaves at an amplifier's output. */
export const supplyResidue = defineModel({
  name: "rails.supplyResidue",
  inputs: { V_r: mV, f: hertz, G: dB, rejection: tableInput(hertz, dB) },
  outputs: { V_o: uV, A: dB },
  meaning:
    "ripple at an amplifier's output from V_r at f on its rail, by its table of supply rejection referred to the input and the noise gain G (0 dB where the table is referred to the output)",
  meanings: { V_o: "ripple at the output", A: "rejection from rail to output" },
  source: commonPractice,
  valid: [...notNegative("V_r"), ...positive("f"), ...oneOrMore("G")],
  holds: "at frequencies inside the table, an error outside",
  evaluate: ({ V_r, f, G, rejection }) => {
    const A = rejection.at(f) / G;
    return { V_o: V_r / A, A };
  },
});

/** Rejection from rail to output over a band. */
export const rejectionCurve = defineModel({
  name: "rails.rejectionCurve",
  inputs: { f_1: hertz, f_2: hertz, G: dB, rejection: tableInput(hertz, dB) },
  outputs: { A: curveOutput(hertz, dB) },
  meaning: "rejection from rail to output from f_1 to f_2: an amplifier's table referred to its input, less the noise gain G",
  source: commonPractice,
  valid: [...positive("f_1", "f_2"), ...oneOrMore("G")],
  holds: "at frequencies inside the table, an error outside",
  evaluate: ({ f_1, f_2, G, rejection }) => ({ A: curveOfRejection(rejection, G, f_1, f_2) }),
});

/** The same with a filter in the rail. */
export const filteredRejectionCurve = defineModel({
  name: "rails.filteredRejectionCurve",
  inputs: { f_1: hertz, f_2: hertz, G: dB, rejection: tableInput(hertz, dB), ...filterParts },
  outputs: { A: curveOutput(hertz, dB) },
  meaning: `rejection from converter to output from f_1 to f_2: an amplifier's table referred to its input, less the noise gain G, and ${filter}`,
  source: commonPractice,
  valid: [lumped("f_1"), lumped("f_2"), ...oneOrMore("G")],
  holds: "at frequencies inside the table, an error outside",
  draws: 4000,
  evaluate: ({ f_1, f_2, G, rejection, ...parts }) => ({
    A: curveOfRejection(rejection, G, f_1, f_2, (f) => magnitude(filterTransfer(parts, f))),
  }),
});

/** What a converter's packets leave at the output in a band. */
export const sawtoothResidue = defineModel({
  name: "rails.sawtoothResidue",
  inputs: { f: hertz, dV: mV, f_1: hertz, f_2: hertz, rejection: tableInput(hertz, dB) },
  outputs: { V_o: uV },
  meaning:
    "rms residue at the output, from f_1 to f_2, of a sawtooth of dV peak to peak that repeats at f, by the curve of rejection from rail to output; 0 where no harmonic falls into the band",
  source: "Fourier series of a sawtooth",
  valid: [...positive("f", "f_1", "f_2"), ...notNegative("dV")],
  holds: "at harmonics inside the table of rejection, an error outside",
  evaluate: ({ f, dV, f_1, f_2, rejection }) => ({ V_o: residueOf(f, dV, (at) => rejection.at(at), f_1, f_2) }),
});

function bankKinds(given: Kinds): BankKind[] {
  return presentKinds([
    { C: given.C_1, ESR: given.ESR_1, ESL: given.ESL_1, n: given.n_1 },
    { C: given.C_2, ESR: given.ESR_2, ESL: given.ESL_2, n: given.n_2 },
    { C: given.C_3, ESR: given.ESR_3, ESL: given.ESL_3, n: given.n_3 },
    { C: given.C_4, ESR: given.ESR_4, ESL: given.ESL_4, n: given.n_4 },
  ]);
}
