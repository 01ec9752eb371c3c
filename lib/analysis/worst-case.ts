/** Worst case: the extremes of a result while every tolerance and every range stays inside its limits. */
import type { GivenNode } from "../graph/node";
import { betweenLimits, nominalPart } from "./distribution";
import type { Point, WorstCase } from "./result";
import { type Extremes, type Found, findExtremes, type SearchOptions } from "./search";
import type { Study } from "./study";

export interface WorstCaseFound {
  readonly worst: WorstCase;
  readonly tried: number;
  /** Points inside the limits at which the result has no value. */
  readonly failed: number;
}

const arithmetic: SearchOptions = {
  corners: 12,
  points: 192,
  rounds: 60,
  steps: [1, 0.5, 0.25, 0.1, 0.03, 0.01, 3e-3, 1e-3, 3e-4, 1e-4, 1e-5, 1e-6],
};
const costly: SearchOptions = { corners: 8, points: 48, rounds: 12, steps: [1, 0.4, 0.1, 0.02, 2e-3, 1e-4] };

/** Undefined when nothing that the result depends on has a spread. */
export function worstCase(study: Study): WorstCaseFound | undefined {
  const { givens } = study;
  if (givens.length === 0) return undefined;
  const values = givens.map(betweenLimits);
  const objective = {
    dimensions: givens.length,
    evaluate: (columns: readonly Float64Array[], n: number) =>
      study.rows(
        givens,
        columns.map((parts, k) => parts.map(values[k] as (t: number) => number)),
        n,
      ),
  };
  const extremes = findExtremes(objective, givens.map(nominalPart), study.isCostly ? costly : arithmetic);
  return { worst: describe(extremes, givens, study.value), tried: extremes.tried, failed: extremes.failed };
}

/** The nominal belongs to the worst case: rounding of its part of the way must not leave it outside. */
function describe({ low, high, inside }: Extremes, givens: readonly GivenNode[], nominal: number): WorstCase {
  return {
    low: Math.min(low.value, nominal),
    high: Math.max(high.value, nominal),
    lowAt: pointOf(low, givens),
    highAt: pointOf(high, givens),
    searched: inside,
  };
}

function pointOf({ at }: Found, givens: readonly GivenNode[]): Point {
  return Object.fromEntries(givens.map((given, k) => [given.id, betweenLimits(given)(at[k] as number)]));
}
