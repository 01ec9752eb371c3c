/**
 * Effective degrees of freedom and expanded uncertainty: JCGM 100:2008 annex G, B. L. Welch 1947 and F. E. Satterthwaite 1946. The
 * formula asks for independent inputs; givens that hang together by correlations count as one input with the fewest degrees of
 * freedom among them, which is on the safe side.
 */
import type { GivenNode } from "../graph/node";
import { correlatedPairs, varianceParts } from "./covariance";
import { freedomOf, standardUncertainty, widening } from "./distribution";
import type { SpreadPart } from "./kinds";
import { normalQuantile } from "./normal";
import type { Contribution, Expanded } from "./result";
import { correlatedGroups } from "./shared";
import { studentQuantile } from "./student";

/** U = t_p(ν_eff)·u, ν_eff cut to a whole number as in JCGM 100 G.4.1. `parts` and `contributions` are those of the result. */
export function expandedUncertainty(
  standard: number,
  parts: readonly SpreadPart[],
  contributions: readonly Contribution[],
  probability: number,
): Expanded {
  const freedom = effectiveFreedom(standard, parts, contributions);
  const p = (1 + probability) / 2;
  const coverage = Number.isFinite(freedom) ? studentQuantile(p, Math.max(1, Math.floor(freedom + 1e-9))) : normalQuantile(p);
  return { uncertainty: coverage * standard, coverage, probability, freedom: Number.isFinite(freedom) ? freedom : null };
}

/** ν_eff = u⁴/Σ(uᵢ⁴/νᵢ), infinite where every uncertainty is taken as known. */
function effectiveFreedom(standard: number, parts: readonly SpreadPart[], contributions: readonly Contribution[]): number {
  const nodes = parts.map(({ node }) => node);
  const products = productsOf(parts, contributions);
  const groups = correlatedGroups(nodes);
  const alone = nodes.filter((given) => !groups.some((group) => group.includes(given)));
  const terms = [...alone.map((given) => [given]), ...groups].map((members) => {
    const variance = groupVariance(members, products);
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
export function drawnDeviation(parts: readonly SpreadPart[], contributions: readonly Contribution[]): number {
  const products = productsOf(parts, contributions);
  const nodes = parts.map(({ node }) => node);
  const shares = varianceParts(
    nodes.map((node) => (products.get(node) as number) * widening(node)),
    correlatedPairs(nodes),
  );
  const variance = shares.reduce((total, part) => total + part, 0);
  if (!Number.isFinite(variance)) return Number.NaN;
  // What is left of perfect cancellation is rounding.
  return variance <= 1e-14 * Math.max(0, ...shares.map(Math.abs)) ? 0 : Math.sqrt(variance);
}

function groupVariance(members: readonly GivenNode[], products: ReadonlyMap<GivenNode, number>): number {
  return varianceParts(
    members.map((node) => products.get(node) as number),
    correlatedPairs(members),
  ).reduce((total, part) => total + part, 0);
}

/** Of each part, sensitivity times standard uncertainty. */
function productsOf(parts: readonly SpreadPart[], contributions: readonly Contribution[]): ReadonlyMap<GivenNode, number> {
  const sensitivities = new Map(contributions.map(({ given, sensitivity }) => [given, sensitivity]));
  return new Map(parts.map(({ node, given }) => [node, (sensitivities.get(given) ?? 0) * standardUncertainty(node)]));
}
