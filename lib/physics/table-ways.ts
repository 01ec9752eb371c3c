/** What a table says of the way that a model goes along its argument (`Model.ways`). No rule of interpolation leaves the two points between which it reads. */
import type { CurveData } from "../graph/curve";

/** 1 where y nowhere falls along x, −1 where it nowhere rises, undefined else. */
export function wayOf({ y }: CurveData): 1 | -1 | undefined {
  const steps = Array.from(y.subarray(1), (next, i) => next - (y[i] as number));
  return steps.every((step) => step >= 0) ? 1 : steps.every((step) => step <= 0) ? -1 : undefined;
}

export function isNotNegative({ y }: CurveData): boolean {
  return y.every((value) => value >= 0);
}

/** The other way round; undefined stays. */
export function against(way: 1 | -1 | undefined): 1 | -1 | undefined {
  return way === undefined ? undefined : way === 1 ? -1 : 1;
}
