/** Extremes of a smooth function of frequency: where a list of points shows one, then refined; and points enough to draw it. */

export interface Extreme {
  readonly x: number;
  readonly y: number;
  /** −1 for a minimum, 1 for a maximum. */
  readonly sign: -1 | 1;
}

/** The shorter part of the golden section. */
const golden = (3 - Math.sqrt(5)) / 2;
/** Shares of the place, and of the stretch that is searched, to which an extreme is found: to the last digits, or enough to draw it. */
const exact = 1e-8;
const drawn = 1e-5;
const mostRounds = 100;

/** Minima and maxima between the first and the last of `points` (increasing), as far as the points show them. */
export function extremesOf(f: (x: number) => number, points: ArrayLike<number>): Extreme[] {
  return extremesAmong(f, points, Array.from(points, f), exact);
}

function extremesAmong(f: (x: number) => number, points: ArrayLike<number>, values: ArrayLike<number>, close: number): Extreme[] {
  const found: Extreme[] = [];
  for (let i = 1; i + 1 < points.length; i++) {
    const [before, here, after] = [values[i - 1] as number, values[i] as number, values[i + 1] as number];
    const sign = here < before && here <= after ? -1 : here > before && here >= after ? 1 : 0;
    if (sign === 0) continue;
    found.push(refined(f, points[i - 1] as number, points[i + 1] as number, sign, points[i] as number, close));
  }
  return found;
}

/**
 * The extreme of that sign between `from` and `to`, begun at `start`: parabolas through the last three places, the golden section where
 * they do not help. R. P. Brent, Algorithms for Minimization without Derivatives (Prentice-Hall, 1973), chapter 5; from memory.
 */
export function refined(
  f: (x: number) => number,
  from: number,
  to: number,
  sign: -1 | 1,
  start = from + golden * (to - from),
  close = exact,
): Extreme {
  let [low, high] = [from, to];
  // The best place, the second best and the one before that, and the least values there, the function turned round for a maximum.
  let [x, w, v] = [start, start, start];
  let least = -sign * f(start);
  let [atW, atV] = [least, least];
  let [step, before] = [0, 0];
  for (let round = 0; round < mostRounds; round++) {
    const middle = (low + high) / 2;
    const near = Math.min(close * (to - from) + exact * Math.abs(x), (to - from) / 8);
    if (Math.abs(x - middle) <= 2 * near - (high - low) / 2) break;
    const parabola = parabolicStep(x, least, w, atW, v, atV);
    const isGood = Math.abs(parabola) < Math.abs(before / 2) && x + parabola > low && x + parabola < high;
    before = isGood ? step : x < middle ? high - x : low - x;
    step = isGood ? parabola : golden * before;
    if (isGood && Math.min(x + step - low, high - x - step) < 2 * near) step = x < middle ? near : -near;
    const next = x + (Math.abs(step) >= near ? step : step > 0 ? near : -near);
    const value = -sign * f(next);
    if (value <= least) {
      if (next >= x) low = x;
      else high = x;
      [v, atV, w, atW, x, least] = [w, atW, x, least, next, value];
    } else {
      if (next < x) low = next;
      else high = next;
      if (value <= atW || w === x) [v, atV, w, atW] = [w, atW, next, value];
      else if (value <= atV || v === x || v === w) [v, atV] = [next, value];
    }
  }
  return { x, y: -sign * least, sign };
}

/** From x to the vertex of the parabola through three places; not a number where there is none. */
function parabolicStep(x: number, fx: number, w: number, fw: number, v: number, fv: number): number {
  const [r, q] = [(x - w) * (fx - fv), (x - v) * (fx - fw)];
  return ((x - v) * q - (x - w) * r) / (2 * (r - q));
}

/** Share by which a line may miss the function half way, and how often a step may be halved for it: 0.04 dB, a 64th of a step. */
const missed = 0.005;
const halvings = 6;

/** Geometric means: places and values of a straight line in logarithms, without a logarithm. */
const halfWay = (a: number, b: number): number => Math.sqrt(a * b);
/** An S crosses its chord in the middle: a second place, at 5/16 and so off the next halvings, tells it from a line. */
function aside(a: number, half: number): number {
  const quarter = halfWay(a, half);
  return halfWay(quarter, halfWay(quarter, half));
}

const isNear = (y: number, line: number): boolean => Math.abs(y - line) <= missed * y;

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
  const values = Array.from(points, f);
  const known = new Map<number, number>();
  for (let i = 0; i < values.length; i++) known.set(points[i] as number, values[i] as number);
  for (const { x, y } of extremesAmong(f, points, values, drawn)) known.set(x, y);
  const [x, y]: [number[], number[]] = [[], []];
  const halve = (x0: number, y0: number, x1: number, y1: number, left: number): void => {
    if (left === 0) return;
    const xm = halfWay(x0, x1);
    const ym = f(xm);
    const line = halfWay(y0, y1);
    if (isNear(ym, line) && isNear(f(aside(x0, xm)), aside(y0, line))) return;
    halve(x0, y0, xm, ym, left - 1);
    x.push(xm);
    y.push(ym);
    halve(xm, ym, x1, y1, left - 1);
  };
  for (const at of [...known.keys()].sort((a, b) => a - b)) {
    const here = known.get(at) as number;
    if (x.length > 0) halve(x[x.length - 1] as number, y[y.length - 1] as number, at, here, halvings);
    x.push(at);
    y.push(here);
  }
  return { x: Float64Array.from(x), y: Float64Array.from(y), interpolation: "log-log" };
}
