/**
 * Effective degrees of freedom and expanded uncertainty: JCGM 100:2008 annex G, B. L. Welch 1947 and F. E. Satterthwaite 1946. The
 * formula asks for independent inputs; givens that hang together by correlations count as one input with the fewest degrees of
 * freedom among them, which is on the safe side.
 */
import type { GivenNode } from "../graph/node";
import { correlatedPairs, varianceParts } from "./covariance";
import { freedomOf, standardUncertainty, widening } from "./distribution";
import { normalQuantile } from "./normal";
import type { Contribution, Expanded } from "./result";
import { correlatedGroups } from "./shared";
import { studentQuantile } from "./student";

/** U = t_p(ν_eff)·u, ν_eff cut to a whole number as in JCGM 100 G.4.1. `tolerances` and `contributions` are those of the result. */
export function expandedUncertainty(
  standard: number,
  tolerances: readonly GivenNode[],
  contributions: readonly Contribution[],
  probability: number,
): Expanded {
  const freedom = effectiveFreedom(standard, tolerances, contributions);
  const p = (1 + probability) / 2;
  const coverage = Number.isFinite(freedom) ? studentQuantile(p, Math.max(1, Math.floor(freedom + 1e-9))) : normalQuantile(p);
  return { uncertainty: coverage * standard, coverage, probability, freedom: Number.isFinite(freedom) ? freedom : null };
}

/** ν_eff = u⁴/Σ(uᵢ⁴/νᵢ), infinite where every uncertainty is taken as known. */
function effectiveFreedom(standard: number, tolerances: readonly GivenNode[], contributions: readonly Contribution[]): number {
  const groups = correlatedGroups(tolerances);
  const alone = tolerances.filter((given) => !groups.some((group) => group.includes(given)));
  const terms = [...alone.map((given) => [given]), ...groups].map((members) => {
    const variance = groupVariance(members, contributions);
    return (variance * variance) / Math.min(...members.map(freedomOf));
  });
  const sum = terms.reduce((total, term) => total + term, 0);
  const square = standard * standard;
  return sum > 0 ? (square * square) / sum : Infinity;
}

/**
 * Standard deviation of the draws to first order: wider than the standard uncertainty where Student's t is drawn; NaN where
 * that has none.
 */
export function drawnDeviation(standard: number, tolerances: readonly GivenNode[], contributions: readonly Contribution[]): number {
  if (tolerances.every((given) => widening(given) === 1)) return standard;
  const parts = varianceParts(
    tolerances.map((given) => productOf(given, contributions) * widening(given)),
    correlatedPairs(tolerances),
  );
  const variance = parts.reduce((total, part) => total + part, 0);
  return Number.isFinite(variance) ? Math.sqrt(Math.max(0, variance)) : Number.NaN;
}

function groupVariance(members: readonly GivenNode[], contributions: readonly Contribution[]): number {
  const products = members.map((given) => productOf(given, contributions));
  return varianceParts(products, correlatedPairs(members)).reduce((total, part) => total + part, 0);
}

function productOf(given: GivenNode, contributions: readonly Contribution[]): number {
  const sensitivity = contributions.find((contribution) => contribution.given === given.id)?.sensitivity ?? 0;
  return sensitivity * standardUncertainty(given);
}
