/** Extremes of a smooth function of frequency: where a list of points shows one, then to the golden section; and points enough to draw it. */

import { exp, ln } from "../../quantity/elementary";

export interface Extreme {
  readonly x: number;
  readonly y: number;
  /** −1 for a minimum, 1 for a maximum. */
  readonly sign: -1 | 1;
}

const golden = (Math.sqrt(5) - 1) / 2;
/** Halvings, nearly, of the step about an extreme: to the last digits of its place, or enough to draw it. */
const [exact, drawn] = [40, 22];

/** Minima and maxima between the first and the last of `points` (increasing), as far as the points show them. */
export function extremesOf(f: (x: number) => number, points: ArrayLike<number>, rounds = exact): Extreme[] {
  const values = Array.from(points, f);
  const found: Extreme[] = [];
  for (let i = 1; i + 1 < points.length; i++) {
    const [before, here, after] = [values[i - 1] as number, values[i] as number, values[i + 1] as number];
    const sign = here < before && here <= after ? -1 : here > before && here >= after ? 1 : 0;
    if (sign !== 0) found.push(refined(f, points[i - 1] as number, points[i + 1] as number, sign, rounds));
  }
  return found;
}

/** The extreme of that sign between `from` and `to`, by the golden section. */
export function refined(f: (x: number) => number, from: number, to: number, sign: -1 | 1, rounds = exact): Extreme {
  let [low, high] = [from, to];
  let [left, right] = [high - golden * (high - low), low + golden * (high - low)];
  let [atLeft, atRight] = [sign * f(left), sign * f(right)];
  for (let round = 0; round < rounds; round++) {
    if (atLeft > atRight) {
      [high, right, atRight] = [right, left, atLeft];
      left = high - golden * (high - low);
      atLeft = sign * f(left);
    } else {
      [low, left, atLeft] = [left, right, atRight];
      right = low + golden * (high - low);
      atRight = sign * f(right);
    }
  }
  return atLeft > atRight ? { x: left, y: sign * atLeft, sign } : { x: right, y: sign * atRight, sign };
}

/** Share by which a line may miss the function half way, and how often a step may be halved for it: 0.04 dB, a 64th of a step. */
const missed = 0.005;
const halvings = 6;

/** An S crosses its chord in the middle: a second place, off every halving, tells it from a line. */
const aside = 0.29;

type Point = readonly [x: number, y: number];

const between = (f: (x: number) => number, a: Point, b: Point, part: number): Point => {
  const x = part === 0.5 ? Math.sqrt(a[0] * b[0]) : a[0] * exp(part * ln(b[0] / a[0]));
  return [x, f(x)];
};

/** Whether a straight line in logarithms from a to b meets the point at that part of the way. */
const followed = ([, y]: Point, a: Point, b: Point, part: number): boolean =>
  Math.abs(y - (part === 0.5 ? Math.sqrt(a[1] * b[1]) : a[1] * exp(part * ln(b[1] / a[1])))) <= missed * y;

export interface Traced {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly interpolation: "log-log";
}

/**
 * A positive function of frequency as a curve that straight lines in logarithms follow: the points (> 0, increasing), the
 * extremes that they show, and halvings where a line between two would miss it. A grid alone cuts a resonance narrower than its step.
 */
export function traced(f: (x: number) => number, points: ArrayLike<number>): Traced {
  const known = new Map(Array.from(points, (x) => [x, f(x)]));
  for (const { x, y } of extremesOf((x) => known.get(x) ?? f(x), points, drawn)) known.set(x, y);
  const start = [...known].sort(([a], [b]) => a - b);
  const [x, y]: [number[], number[]] = [[], []];
  const halve = (a: Point, b: Point, left: number): void => {
    const m = between(f, a, b, 0.5);
    if (left === 0 || (followed(m, a, b, 0.5) && followed(between(f, a, b, aside), a, b, aside))) return;
    halve(a, m, left - 1);
    x.push(m[0]);
    y.push(m[1]);
    halve(m, b, left - 1);
  };
  let before: Point | undefined;
  for (const here of start) {
    if (before !== undefined) halve(before, here, halvings);
    x.push(here[0]);
    y.push(here[1]);
    before = here;
  }
  return { x: Float64Array.from(x), y: Float64Array.from(y), interpolation: "log-log" };
}
