/** Whole lines through the best places found, along each input: where the values turn round more often than climbs can follow. */
import type { Values } from "./climb";
import type { Optima } from "./optima";
import { type At, type Found, Points } from "./points";

/** Places from which lines are drawn, and peaks of each line that are kept. */
const places = 3;
const peaks = 3;

/** The best peaks on lines of `count` points. */
export function lineStarts(values: Values, optima: Optima, free: Uint8Array, count: number, sign: 1 | -1, mayGoOn: () => boolean): Found[] {
  const starts: Found[] = [];
  for (const at of optima.leading(places)) {
    for (const k of free.keys()) {
      if (!mayGoOn()) return starts;
      if (free[k] === 1) starts.push(...peaksOn(values, at, k, count, sign));
    }
  }
  return starts.sort((a, b) => sign * (b.value - a.value)).slice(0, 2 * peaks);
}

function peaksOn(values: Values, at: At, k: number, count: number, sign: 1 | -1): Found[] {
  const points = new Points(at.length, count);
  for (let i = 0; i < count; i++) points.addMoved(at, k, i / (count - 1));
  const found = values(points);
  const of = (i: number): number => (i < 0 || i >= count ? -Infinity : (found[i] as number) * sign);
  return Array.from({ length: count }, (_, i) => i)
    .filter((i) => of(i) >= of(i - 1) && of(i) > of(i + 1))
    .sort((i, j) => of(j) - of(i))
    .slice(0, peaks)
    .map((i) => ({ value: found[i] as number, at: points.at(i) }));
}
