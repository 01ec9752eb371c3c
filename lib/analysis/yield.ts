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

/** By unit drawn, 1 where it meets a limit; one entry alone holds for all units. */
export type Passes = Uint8Array;

/** From the draws of a result at its range points: a condition of use is met by each unit, so at every one. Units without a value fail. */
export function passesOf(limit: Limit, columns: readonly Float64Array[]): Passes {
  const lengths = columns.map(({ length }) => length).filter((length) => length > 1);
  const units = lengths.length === 0 ? 1 : Math.min(...lengths);
  return Uint8Array.from({ length: units }, (_, row) => Number(columns.every((column) => meets(column, row, limit))));
}

/** The same row is the same unit in all of them. */
export function yieldOf(all: readonly Passes[]): Yield {
  const samples = Math.min(...all.map(({ length }) => length).filter((length) => length > 1));
  const rows = Number.isFinite(samples) ? samples : 1;
  const passed = (passes: Passes, row: number): boolean => passes[passes.length === 1 ? 0 : row] === 1;
  const count = (isCounted: (row: number) => boolean): number => {
    let found = 0;
    for (let row = 0; row < rows; row++) if (isCounted(row)) found++;
    return found;
  };
  const together = count((row) => all.every((passes) => passed(passes, row)));
  const estimate = together / rows;
  const bounds =
    rows === 1 ? { lower: estimate, upper: estimate } : { lower: lowerBound(together, rows), upper: upperBound(together, rows) };
  return { estimate, ...bounds, samples: rows, each: all.map((passes) => count((row) => passed(passes, row)) / rows) };
}

function meets(column: Float64Array, row: number, limit: Limit): boolean {
  const value = column[column.length === 1 ? 0 : row] as number;
  return Number.isFinite(value) && distanceInside(value, limit) >= 0;
}
