/**
 * Whole lines along each input in turn, each from the best point of the one before: where the values turn round more often than climbs
 * can follow. A law that is a sum of parts of one input each is at its best after one round.
 */
import type { Values } from "./climb";
import { type At, bestIndex, type Found, isBetter, Points } from "./points";

/** Rounds over all inputs at most. */
const rounds = 4;

/** The best point on lines of `count` points along the free inputs, begun at `start`. */
export function followLines(values: Values, start: Found, free: Uint8Array, count: number, sign: 1 | -1, mayGoOn: () => boolean): Found {
  let best = start;
  for (let round = 0; round < rounds; round++) {
    const before = best;
    for (const k of free.keys()) {
      if (!mayGoOn()) return best;
      if (free[k] === 1) best = bestOnLine(values, best, k, count, sign);
    }
    if (best === before) return best;
  }
  return best;
}

function bestOnLine(values: Values, from: Found, k: number, count: number, sign: 1 | -1): Found {
  const points = new Points(from.at.length, count);
  for (let i = 0; i < count; i++) points.addMoved(from.at, k, i / (count - 1));
  const found = values(points);
  const i = bestIndex(found, count, sign);
  const best = { value: found[i] as number, at: points.at(i) as At };
  return isBetter(best, from, sign) ? best : from;
}
