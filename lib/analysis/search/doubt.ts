/** Why the extreme that a search has found may not be the last word, in words. */
import type { Objective } from "./objective";
import type { Optima } from "./optima";
import { type Found, Points } from "./points";
import type { Sample } from "./sample";

/** A side of a branch that fewer of the points have met is searched from few places. */
const rare = 0.01;
/** Half the distance between two points of a line: a peak no wider could stand unseen between others. */
const narrow = 1 / 64;

/** No doubt: an empty list. */
export function doubtsOf(
  objective: Objective,
  sample: Sample,
  optima: Optima,
  guided: readonly Found[],
  best: Found,
  span: number,
  sign: 1 | -1,
  isSpent: boolean,
): string[] {
  const { spread, different, isComplete, expected } = optima;
  const doubts: string[] = [];
  const ended = `${spread} climbs from points spread over the limits ended at ${different === 1 ? "one extreme" : `${different} different extremes`}`;
  if (isSpent) doubts.push(`the budget of the search was spent before it had settled${spread > 1 ? `: ${ended}` : ""}`);
  else if (spread > 0 && !isComplete)
    doubts.push(Number.isFinite(expected) ? `${ended}, and ${Math.ceil(expected)} are to be expected` : ended);
  if (!isSpent && !optima.best.arrived) doubts.push("the last climb had not come to an end");
  const gaps = sample.values.reduce((count, value) => count + (Number.isNaN(value) ? 1 : 0), 0);
  if (gaps > 0) doubts.push(`the law has no value at ${gaps} of ${sample.points.n} points within the limits`);
  const branch = objective.guides.findIndex(
    (kind, j) => kind === "branch" && isRare(objective, sample, j, [best, ...optima.list, ...guided]),
  );
  if (branch >= 0) doubts.push("a branch of the law is reached in a small part of the limits only");
  if (isNarrow(objective, best, span, sign))
    doubts.push("the extreme is a peak so narrow that another one could stand between the points tried");
  return doubts;
}

/** Whether one side of a branch is met by few points of the sample; or by none, but where a guide leads or a climb ends. */
function isRare(objective: Objective, { points, guides }: Sample, j: number, reached: readonly Found[]): boolean {
  const sides = (column: Float64Array, n: number): [number, number] => {
    const above = column.subarray(0, n).reduce((count, value) => count + (value > 0 ? 1 : 0), 0);
    return [above, n - above];
  };
  const ends = new Points(objective.dimensions, reached.length);
  for (const { at } of reached) ends.add(at);
  const met = sides(objective.evaluateGuided(ends.columns, ends.n).guides[j] as Float64Array, ends.n);
  return sides(guides[j] as Float64Array, points.n).some(
    (count, side) => count < rare * points.n && (count > 0 || (met[side] as number) > 0),
  );
}

/** Whether the values fall by half the span on both sides within a short step along some input. */
function isNarrow({ dimensions, values }: Objective, { at, value }: Found, span: number, sign: 1 | -1): boolean {
  const inner = [...at.keys()].filter((k) => (at[k] as number) > narrow && (at[k] as number) < 1 - narrow);
  const points = new Points(dimensions, 2 * inner.length + 1);
  for (const k of inner) for (const step of [narrow, -narrow]) points.addMoved(at, k, (at[k] as number) + step);
  if (points.n === 0) return false;
  const found = values(points);
  const hasFallen = (i: number): boolean => (value - (found[i] as number)) * sign > span / 2;
  return inner.some((_, i) => hasFallen(2 * i) && hasFallen(2 * i + 1));
}
