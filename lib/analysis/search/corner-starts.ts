/** Corners from which a law of many inputs is climbed: too many to try them all. */
import { flipAscent } from "./corners";
import type { Objective } from "./objective";
import { type At, type Found, Points, sequence } from "./points";
import { settled } from "./sample";

/** Corners spread over the box; where models are called, fewer. */
const spreadCorners = 24;
const fewCorners = 2;
const kept = 8;

/**
 * The corner towards which values rise at the nominal; those towards which they rise with each mixed input at each of its ends; corners
 * of a sequence. From each, unless models are called, by flips to one that no flip betters. Inputs along which values go one way stay
 * at their end.
 */
export function cornerStarts(objective: Objective, nominal: At, trend: Int8Array, sign: 1 | -1, mayGoOn: () => boolean): Found[] {
  const mixed = [...trend.keys()].filter((k) => trend[k] === 0);
  const bases = [nominal, ...mixed.flatMap((k) => [0, 1].map((end) => nominal.map((t, j) => (j === k ? end : t))))];
  const next = sequence(nominal.length);
  const count = mixed.length === 0 ? 0 : objective.isCostly ? fewCorners : spreadCorners;
  const spread = Array.from({ length: count }, (_, i) => settled(next(i), trend, sign).map((t) => (t < 0.5 ? 0 : 1)));
  const guesses = [
    ...risingCorners(
      objective,
      bases.map((base) => settled(base, trend, sign)),
      mixed,
      sign,
    ),
    ...spread,
  ];
  const distinct = [...new Map(guesses.map((at) => [at.join(), at])).values()];
  const starts = valued(objective, distinct);
  const climbed = objective.isCostly ? starts : starts.map((start) => flipAscent(objective.values, start, mixed, sign, mayGoOn));
  const ends = [...new Map(climbed.map((found) => [found.at.join(), found])).values()];
  return ends.sort((a, b) => sign * (b.value - a.value)).slice(0, kept);
}

function valued({ dimensions, values }: Objective, places: readonly At[]): Found[] {
  const points = new Points(dimensions, places.length);
  for (const at of places) points.add(at);
  const found = values(points);
  return places.map((at, i) => ({ at, value: found[i] as number }));
}

/** Of each base the corner towards whose ends its values rise, each mixed input moved alone. */
function risingCorners({ dimensions, values }: Objective, bases: readonly At[], mixed: readonly number[], sign: 1 | -1): At[] {
  const points = new Points(dimensions, 2 * bases.length * mixed.length + 1);
  for (const base of bases) for (const k of mixed) for (const end of [0, 1]) points.addMoved(base, k, end);
  const found = values(points);
  return bases.map((base, b) => {
    const corner = base.map((t) => (t < 0.5 ? 0 : 1));
    mixed.forEach((k, i) => {
      const at = 2 * (b * mixed.length + i);
      const [low, high] = [found[at] as number, found[at + 1] as number];
      if (low !== high && !((base[k] === 0 || base[k] === 1) && b > 0 && mixed[(b - 1) >> 1] === k))
        corner[k] = (high - low) * sign > 0 ? 1 : 0;
    });
    return corner;
  });
}
