/** From stated correlations and common causes to what each given shares with others (`GivenNode.shared`). */
import type { GivenNode, SharedPart } from "../graph/node";
import { numberToTwelve } from "../quantity/number-text";
import { scoresFor } from "./correlation";

/** A pivot or rest smaller than this is rounding: correlations are stated to a few digits. */
const rounding = 1e-9;

/**
 * Of givens in a fixed order and the correlations of their values, what each shares with those before it: the rows of the
 * Cholesky factor of the correlations of their scores. Where those of the scores make no matrix of correlations, though the stated ones do (a
 * known gap of the method), the stated ones stand for them. Undefined where the stated ones make none.
 */
export function couple(
  givens: readonly GivenNode[],
  stated: readonly (readonly number[])[],
): readonly (readonly SharedPart[])[] | undefined {
  const own = cholesky(stated);
  if (own.failed !== undefined) return undefined;
  const scores = stated.map((row, i) =>
    row.map((r, j) => (i === j ? 1 : (scoresFor(r, givens[i] as GivenNode, givens[j] as GivenNode) ?? r))),
  );
  const adjusted = cholesky(scores);
  const rows = adjusted.failed === undefined ? adjusted.rows : own.rows;
  return rows.map((row, i) =>
    row.slice(0, i).flatMap((weight, j): SharedPart[] => {
      const rounded = numberToTwelve(weight);
      return Math.abs(rounded) < rounding ? [] : [{ with: (givens[j] as GivenNode).id, weight: rounded }];
    }),
  );
}

/** A given's parts of common causes, from the share of its variance that each makes up; the shares sum to 1 at most. */
export function commonParts(given: GivenNode, shares: readonly { readonly name: string; readonly share: number }[]): readonly SharedPart[] {
  const sum = shares.reduce((total, { share }) => total + share, 0);
  const scores = scoresFor(Math.min(1, sum), given, given) ?? sum;
  return shares.map(({ name, share }) => ({ common: name, weight: numberToTwelve(Math.sqrt((scores * share) / sum)) }));
}

/** The lower triangular L with L·Lᵀ = m, of a positive semidefinite matrix; the row at which it is none. */
export function cholesky(m: readonly (readonly number[])[]): { readonly rows: readonly (readonly number[])[]; readonly failed?: number } {
  const rows: number[][] = [];
  for (let i = 0; i < m.length; i++) {
    const row: number[] = [];
    for (let j = 0; j < i; j++) {
      const above = rows[j] as readonly number[];
      const rest = rowOf(m, i, j) - dot(row, above, j);
      const pivot = above[j] as number;
      if (pivot === 0 && Math.abs(rest) > Math.sqrt(rounding)) return { rows, failed: i };
      row.push(pivot === 0 ? 0 : rest / pivot);
    }
    const square = rowOf(m, i, i) - dot(row, row, i);
    if (square < -rounding) return { rows, failed: i };
    row.push(square > rounding ? Math.sqrt(square) : 0);
    rows.push(row);
  }
  return { rows };
}

function rowOf(m: readonly (readonly number[])[], i: number, j: number): number {
  return (m[i] as readonly number[])[j] as number;
}

function dot(a: readonly number[], b: readonly number[], n: number): number {
  let sum = 0;
  for (let k = 0; k < n; k++) sum += (a[k] as number) * (b[k] as number);
  return sum;
}
