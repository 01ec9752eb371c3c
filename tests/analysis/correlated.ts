import { couple } from "../../lib/analysis/couple";
import type { GivenNode } from "../../lib/graph/node";

/** Givens with stated correlations between all of them. */
export function correlated(givens: readonly GivenNode[], matrix: readonly (readonly number[])[]): GivenNode[] {
  const shared = couple(givens, matrix);
  if (shared === undefined) throw new Error("no matrix of correlations");
  return givens.map((node, i) => {
    const own = shared[i] ?? [];
    return own.length === 0 ? node : { ...node, shared: own };
  });
}
