/** Corners of the unit cube: the best of all, and climbs from corner to corner where there are too many to try all. */
import type { Values } from "./climb";
import { type At, bestIndex, type Found, isBetter, Points } from "./points";

/** Of the values at all 2^d corners (bit k set: coordinate k at 1) those that no single flip betters, best first, `count` at most. */
export function bestCorners(values: Float64Array, d: number, sign: 1 | -1, count: number): Found[] {
  const kept: { readonly value: number; readonly bits: number }[] = [];
  const isKept = (value: number): boolean => kept.length < count || value * sign > (kept[kept.length - 1]?.value as number) * sign;
  for (let bits = 0; bits < values.length; bits++) {
    const value = values[bits] as number;
    if (Number.isNaN(value) || !isKept(value) || !isPeak(values, bits, d, sign)) continue;
    const place = kept.findIndex((other) => value * sign > other.value * sign);
    kept.splice(place < 0 ? kept.length : place, 0, { value, bits });
    if (kept.length > count) kept.pop();
  }
  return kept.map(({ value, bits }) => ({ value, at: cornerAt(bits, d) }));
}

function isPeak(values: Float64Array, bits: number, d: number, sign: 1 | -1): boolean {
  const value = (values[bits] as number) * sign;
  for (let k = 0; k < d; k++) if ((values[bits ^ (1 << k)] as number) * sign > value) return false;
  return true;
}

function cornerAt(bits: number, d: number): At {
  return Float64Array.from({ length: d }, (_, k) => (bits >> k) & 1);
}

/** Flips one of the coordinates `moving` at a time, the best first; where none helps, pairs of them. Ends at a corner that neither betters. */
export function flipAscent(values: Values, start: Found, moving: readonly number[], sign: 1 | -1, mayGoOn: () => boolean): Found {
  const pairs = moving.flatMap((j, i) => moving.slice(i + 1).map((k): Flip => [j, k]));
  const singles = moving.map((k): Flip => [k]);
  let best = start;
  while (mayGoOn()) {
    const better = bestFlip(values, best, sign, singles) ?? bestFlip(values, best, sign, pairs);
    if (better === undefined) return best;
    best = better;
  }
  return best;
}

type Flip = readonly number[];

function bestFlip(values: Values, from: Found, sign: 1 | -1, flips: readonly Flip[]): Found | undefined {
  if (flips.length === 0) return undefined;
  const points = new Points(from.at.length, flips.length);
  for (const flip of flips) points.add(from.at.map((t, k) => (flip.includes(k) ? 1 - t : t)));
  const found = values(points);
  const i = bestIndex(found, points.n, sign);
  const best = { value: found[i] as number, at: points.at(i) };
  return isBetter(best, from, sign) ? best : undefined;
}
