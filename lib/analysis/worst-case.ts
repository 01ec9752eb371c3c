/**
 * Worst case: the extremes of a result while every tolerance and every range stays inside its limits. Correlations are left out, since
 * no unit is impossible that is merely unlikely; but where one given determines another (a coefficient of 1 or −1, everything in
 * common) the two move together.
 */
import type { GivenNode } from "../graph/node";
import { betweenLimits, nominalPart } from "./distribution";
import type { RangePoint, WorstCase } from "./result";
import { type Extreme, type Extremes, findExtremes, type SearchOptions } from "./search";
import type { Study } from "./study";
import { tie } from "./tie";

export interface WorstCaseFound {
  readonly worst: WorstCase;
  readonly tried: number;
  /** Points inside the limits at which the result has no value. */
  readonly failed: number;
  /** Where the extremes lie between the limits. */
  readonly extremes: Pick<Extremes, "low" | "high">;
}

const arithmetic: SearchOptions = {
  corners: 12,
  points: 192,
  rounds: 60,
  steps: [1, 0.5, 0.25, 0.1, 0.03, 0.01, 3e-3, 1e-3, 3e-4, 1e-4, 1e-5, 1e-6],
};
const costly: SearchOptions = { corners: 8, points: 48, rounds: 12, steps: [1, 0.4, 0.1, 0.02, 2e-3, 1e-4] };

/** Undefined when nothing that the result depends on has a spread. `near`: of the same result at a point close by, to search less. */
export function worstCase(study: Study, near?: WorstCaseFound): WorstCaseFound | undefined {
  const { givens } = study;
  if (givens.length === 0) return undefined;
  const values = givens.map(betweenLimits);
  const { leaders, follow } = tie(givens);
  const objective = {
    dimensions: leaders.length,
    evaluate: (columns: readonly Float64Array[], n: number) =>
      study.rows(
        givens,
        follow(columns).map((parts, k) => parts.map(values[k] as (t: number) => number)),
        n,
      ),
  };
  const start = near?.extremes.low.at.length === leaders.length ? near.extremes : undefined;
  const extremes = findExtremes(objective, leaders.map(nominalPart), study.isCostly ? costly : arithmetic, start);
  const point = ({ at }: Extreme) =>
    pointOf(
      follow(at.map((part) => Float64Array.of(part))).map(([part]) => part as number),
      givens,
    );
  return { worst: describe(extremes, point, study.value), tried: extremes.tried, failed: extremes.failed, extremes };
}

/** The nominal belongs to the worst case: rounding of its part of the way must not leave it outside. */
function describe({ low, high, inside }: Extremes, point: (found: Extreme) => RangePoint, nominal: number): WorstCase {
  return {
    low: Math.min(low.value, nominal),
    high: Math.max(high.value, nominal),
    lowAt: point(low),
    highAt: point(high),
    searched: inside,
  };
}

function pointOf(at: readonly number[], givens: readonly GivenNode[]): RangePoint {
  return Object.fromEntries(givens.map((given, k) => [given.id, betweenLimits(given)(at[k] as number)]));
}
