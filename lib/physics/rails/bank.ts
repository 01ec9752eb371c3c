/**
 * A bank of capacitors in parallel, each kind with its number, C, ESR and ESL: impedance against frequency, its
 * resonances (minima) and anti-resonances (maxima). Left out: mutual inductance of neighbours, and ESR that changes with
 * frequency.
 */
import { WorkingsError } from "../../quantity/error";
import { type Complex, inverse, magnitude } from "../numerics/complex";
import { type Extreme, extremesOf, type Traced, traced } from "../numerics/extremes";
import { frequencies } from "../rf/filter";

/** C in F, ESR in Ω, ESL in H of one piece; n pieces. None of a kind: n = 0 or C = 0. */
export interface BankKind {
  readonly C: number;
  readonly ESR: number;
  readonly ESL: number;
  readonly n: number;
}

const turn = 2 * Math.PI;

/** Impedance at f (Hz, > 0), Ω. */
export function bankImpedance(bank: readonly BankKind[], f: number): Complex {
  const w = turn * f;
  let [re, im] = [0, 0];
  for (const { C, ESR, ESL, n } of bank) {
    const X = w * ESL - 1 / (w * C);
    const square = ESR * ESR + X * X;
    re += (n * ESR) / square;
    im -= (n * X) / square;
  }
  return inverse({ re, im });
}

/** The kinds that are there. Throws "not-finite" for a value below zero, "nominal-domain" for a bank of none. */
export function presentKinds(bank: readonly BankKind[]): BankKind[] {
  for (const { C, ESR, ESL, n } of bank) {
    if (!(C >= 0 && ESR >= 0 && ESL >= 0 && n >= 0)) {
      throw new WorkingsError(
        "not-finite",
        `a capacitor of a bank needs C, ESR, ESL and n ≥ 0; got ${C} F, ${ESR} Ω, ${ESL} H, ${n} pieces`,
      );
    }
  }
  const present = bank.filter(({ C, n }) => C > 0 && n > 0);
  if (present.length > 0) return present;
  throw new WorkingsError("nominal-domain", "the bank has no capacitor: give one kind a capacitance and a number above 0");
}

/** |Z| in Ω from f_1 to f_2 (Hz): each self-resonance, each resonance of the bank, and points enough between. */
export function bankCurve(bank: readonly BankKind[], f_1: number, f_2: number): Traced {
  return traced((f) => magnitude(bankImpedance(bank, f)), bankFrequencies(bank, f_1, f_2));
}

/** Resonances and anti-resonances of the bank between f_1 and f_2 (Hz), in order. */
export function bankExtremes(bank: readonly BankKind[], f_1: number, f_2: number): Extreme[] {
  return extremesOf((f) => magnitude(bankImpedance(bank, f)), bankFrequencies(bank, f_1, f_2));
}

const points = 241;

/** Between two self-resonances however near there is a point, so no anti-resonance hides. */
function bankFrequencies(bank: readonly BankKind[], f_1: number, f_2: number): Float64Array {
  const grid = frequencies(f_1, f_2, points);
  const own = bank
    .filter(({ ESL }) => ESL > 0)
    .map(({ C, ESL }) => 1 / (turn * Math.sqrt(ESL * C)))
    .sort((a, b) => a - b);
  const between = own.slice(1).map((f, i) => Math.sqrt(f * (own[i] as number)));
  const all = [...grid, ...own, ...between].filter((f) => f >= f_1 && f <= f_2).sort((a, b) => a - b);
  return Float64Array.from(all.filter((f, i) => i === 0 || f > (all[i - 1] as number)));
}
