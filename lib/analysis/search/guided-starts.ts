/** Places to which the values inside a law lead: where one is at its extremes, and where it passes through zero. */
import { climb } from "./climb";
import type { Objective } from "./objective";
import { bestIndex, distance, type Found, Points } from "./points";
import { type Sample, spanOf } from "./sample";
import type { SearchOptions } from "./search";

/** Parts of a stretch that are looked at at once for the place where a guide passes through zero, and how often. */
const parts = 33;
const narrowings = 9;

/** At most `options.guided` of all such places, the best values first; of branches, those first. Where models are called, only what the sample shows. */
export function guidedStarts(objective: Objective, sample: Sample, options: SearchOptions, sign: 1 | -1, mayGoOn: () => boolean): Found[] {
  const found: (Found & { readonly isBranch: boolean })[] = [];
  for (const [j, kind] of objective.guides.entries()) {
    if (!mayGoOn()) break;
    const places = objective.isCostly
      ? extremesSeen(sample, j)
      : [...extremesOf(objective, sample, j, options), ...zeros(objective, sample, j, sign)];
    for (const { value, at } of places) {
      if (Number.isNaN(value) || found.some((other) => distance(other.at, at) < 1e-3)) continue;
      found.push({ value, at, isBranch: kind === "branch" });
    }
  }
  const order = (starts: typeof found): typeof found => starts.sort((a, b) => sign * (b.value - a.value)).slice(0, options.guided);
  return [...order(found.filter(({ isBranch }) => isBranch)), ...order(found.filter(({ isBranch }) => !isBranch))];
}

function extremesSeen({ points, values, guides }: Sample, j: number): Found[] {
  return ([1, -1] as const).map((sign) => {
    const i = bestIndex(guides[j] as Float64Array, points.n, sign);
    return { value: values[i] as number, at: points.at(i) };
  });
}

/** Climbs the guide itself from the best point seen. */
function extremesOf(objective: Objective, { points, guides }: Sample, j: number, { climb: { steps } }: SearchOptions): Found[] {
  const column = guides[j] as Float64Array;
  const values = (polled: Points): Float64Array => guideAt(objective, polled, j);
  const free = new Uint8Array(objective.dimensions).fill(1);
  const ends = ([1, -1] as const).map((sign) => {
    const i = bestIndex(column, points.n, sign);
    const start = { value: column[i] as number, at: points.at(i) };
    return climb(values, start, sign, spanOf(column, points.n), { free, steps, rounds: 12, directions: 0, pairs: 0, mayGoOn: () => true })
      .at;
  });
  return valuesAt(objective, ends);
}

/** On the stretches between the best points of either sign. */
function zeros(objective: Objective, { points, values, guides }: Sample, j: number, sign: 1 | -1): Found[] {
  const column = guides[j] as Float64Array;
  const side = (of: 1 | -1): number =>
    bestIndex(
      values.map((value, i) => ((column[i] as number) * of > 0 ? value : Number.NaN)),
      points.n,
      sign,
    );
  const nearest = (of: 1 | -1): number =>
    bestIndex(
      column.map((value) => (value * of > 0 ? value : Number.NaN)),
      points.n,
      of === 1 ? -1 : 1,
    );
  const pairs = [
    [side(1), side(-1)],
    [side(1), nearest(-1)],
    [nearest(1), side(-1)],
    [nearest(1), nearest(-1)],
  ] as const;
  const crossing = pairs.filter(([above, below]) => (column[above] as number) > 0 && (column[below] as number) < 0);
  return valuesAt(
    objective,
    crossing.flatMap(([above, below]) => bisect(objective, j, points.at(above), points.at(below))),
  );
}

/** Both sides of the place between two points where a guide passes through zero. */
function bisect(objective: Objective, j: number, above: Float64Array, below: Float64Array): [Float64Array, Float64Array] {
  let [from, to] = [above, below];
  for (let round = 0; round < narrowings; round++) {
    const direction = to.map((t, k) => t - (from[k] as number));
    const points = new Points(objective.dimensions, parts);
    for (let i = 0; i < parts; i++) points.addAlong(from, direction, i / (parts - 1));
    const values = guideAt(objective, points, j);
    let i = 1;
    while (i < parts - 1 && (values[i] as number) > 0) i++;
    [from, to] = [points.at(i - 1), points.at(i)];
  }
  return [from, to];
}

function guideAt(objective: Objective, points: Points, j: number): Float64Array {
  return objective.evaluateGuided(points.columns, points.n).guides[j] as Float64Array;
}

function valuesAt(objective: Objective, places: readonly Float64Array[]): Found[] {
  const points = new Points(objective.dimensions, places.length + 1);
  for (const at of places) points.add(at);
  const values = objective.values(points);
  return places.map((at, i) => ({ at, value: values[i] as number }));
}
