/** The share of units that meet several limits at once. */
import type { NodeId } from "../graph/node";
import { distanceInside } from "./interval";
import { lowerBound, upperBound } from "./probability";
import type { Limit, Yield } from "./result";

/** A result against a limit, SI. */
export interface Asked {
  readonly node: NodeId;
  readonly limit: Limit;
}

/**
 * From the draws of each result at its range points, the same row being the same unit in all of them. A unit meets a limit when it
 * does at every range point: a condition of use is met by each. A single value holds for all units; units without a value fail.
 */
export function yieldOf(asked: readonly { readonly limit: Limit; readonly columns: readonly Float64Array[] }[]): Yield {
  const samples = Math.min(...asked.flatMap(({ columns }) => columns.map(({ length }) => length)).filter((length) => length > 1));
  const rows = Number.isFinite(samples) ? samples : 1;
  const good = asked.map(({ limit, columns }) =>
    Array.from({ length: rows }, (_, row) => columns.every((column) => meets(column, row, limit))),
  );
  const count = (passes: (row: number) => boolean): number => {
    let found = 0;
    for (let row = 0; row < rows; row++) if (passes(row)) found++;
    return found;
  };
  const all = count((row) => good.every((passes) => passes[row] === true));
  const estimate = all / rows;
  const bounds = rows === 1 ? { lower: estimate, upper: estimate } : { lower: lowerBound(all, rows), upper: upperBound(all, rows) };
  return { estimate, ...bounds, samples: rows, each: good.map((passes) => count((row) => passes[row] === true) / rows) };
}

function meets(column: Float64Array, row: number, limit: Limit): boolean {
  const value = column[column.length === 1 ? 0 : row] as number;
  return Number.isFinite(value) && distanceInside(value, limit) >= 0;
}
