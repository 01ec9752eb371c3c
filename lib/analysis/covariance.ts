/** The variance of a result to first order from correlated inputs. JCGM 100:2008 5.2.2, equations 13 and 16. */
import type { GivenNode } from "../graph/node";
import { valueCorrelation } from "./correlation";
import { correlatedGroups, scoreCorrelation } from "./shared";

/** Correlations of values that are not 0, by position in a list of givens. */
export interface Correlated {
  readonly i: number;
  readonly j: number;
  readonly r: number;
}

/** Every correlated pair of givens, once. */
export function correlatedPairs(givens: readonly GivenNode[]): readonly Correlated[] {
  return correlatedGroups(givens).flatMap((group) =>
    group.flatMap((a, k) =>
      group.slice(k + 1).flatMap((b): Correlated[] => {
        const scores = scoreCorrelation(a, b);
        return scores === 0 ? [] : [{ i: givens.indexOf(a), j: givens.indexOf(b), r: valueCorrelation(a, b)(scores) }];
      }),
    ),
  );
}

/** Each input's part of the variance, cᵢuᵢ·Σ cⱼuⱼrᵢⱼ, from the products cᵢuᵢ. They sum to the variance. */
export function varianceParts(products: readonly number[], pairs: readonly Correlated[]): number[] {
  const parts = products.map((product) => product * product);
  for (const { i, j, r } of pairs) {
    const covariance = (products[i] as number) * (products[j] as number) * r;
    parts[i] = (parts[i] as number) + covariance;
    parts[j] = (parts[j] as number) + covariance;
  }
  return parts;
}
