/**
 * Local search for a maximum (or minimum) of a function on the unit cube, by values alone. Each round polls every coordinate at many
 * step lengths in one block and then, in a second block, directions that the first one suggests: all helpful steps together, the
 * last move carried on (Hooke and Jeeves, J. ACM 8 (1961) 212, pattern search), the gradient, and the step of a quasi-Newton
 * estimate of the curvature (BFGS; Nocedal and Wright, Numerical Optimization, 2nd ed., 6.1), which follows a curved ridge. Where
 * none helps, directions along the kinks that pass through the point, along pairs of coordinates and along a low-discrepancy set
 * are polled before the place counts as an extreme (as in mesh-adaptive direct search; Audet and Dennis, SIAM J. Optim. 17 (2006)
 * 188). References from memory.
 */
import { type At, bestIndex, distance, type Found, isBetter, Points, sequence } from "./points";

export type Values = (points: Points) => Float64Array;

export interface ClimbOptions {
  /** 1 where a coordinate is polled at all step lengths, 0 where at its ends alone. */
  readonly free: Uint8Array;
  readonly rounds: number;
  readonly steps: readonly number[];
  /** Directions of the set that are polled before a place counts as an extreme. */
  readonly directions: number;
  /** Largest number of free coordinates of which all pairs are polled too. */
  readonly pairs: number;
  /** Directions along the kinks near a point, if any are known. */
  readonly along?: ((at: At, gradient: Float64Array) => readonly Float64Array[]) | undefined;
  /** Whether more evaluations may be spent. */
  readonly mayGoOn: () => boolean;
}

export interface Climbed extends Found {
  /** False where rounds or the budget ended while it still rose. */
  readonly arrived: boolean;
}

/** A place this near to a known extreme, and no better, has arrived there. */
const joined = 1e-3;
/** Parts of the span: a round that gains less ends the climb; one that gains less looks along kinks. */
const least = 1e-13;
const slow = 1e-3;

export function climb(
  values: Values,
  start: Found,
  sign: 1 | -1,
  span: number,
  options: ClimbOptions,
  known: readonly Found[] = [],
): Climbed {
  const curvature = new Curvature(start.at.length);
  let best = start;
  let before: At | undefined;
  for (let round = 0; round < options.rounds; round++) {
    if (!options.mayGoOn()) return { ...best, arrived: false };
    const near = known.find((other) => distance(other.at, best.at) < joined && !isBetter(best, other, sign));
    if (near !== undefined) return { ...near, arrived: true };
    const { moved, gradient } = pollCoordinates(values, best, sign, options);
    curvature.learn(best.at, gradient, sign);
    let next = pollSuggested(values, best, moved, sign, options, suggestions(best.at, before, gradient, curvature, sign));
    if (options.along !== undefined && !gains(next, best, sign, slow * span)) {
      next = pollAlong(values, best, next, sign, options.along(best.at, gradient));
    }
    if (!gains(next, best, sign, least * span)) {
      next = pollWidely(values, best, sign, options);
      if (!gains(next, best, sign, least * span)) return { ...pick(next, best, sign), arrived: true };
    }
    before = best.at;
    best = next;
  }
  return { ...best, arrived: false };
}

function gains(next: Found, best: Found, sign: 1 | -1, least: number): boolean {
  return (next.value - best.value) * sign > least || (Number.isNaN(best.value) && !Number.isNaN(next.value));
}

function pick(a: Found, b: Found, sign: 1 | -1): Found {
  return isBetter(a, b, sign) ? a : b;
}

/** The best helpful step along each coordinate that has one, and the gradient from the shortest steps. */
function pollCoordinates(
  values: Values,
  from: Found,
  sign: 1 | -1,
  { free, steps }: ClimbOptions,
): { moved: Found[]; gradient: Float64Array } {
  const d = from.at.length;
  const points = new Points(d, 2 * free.reduce((sum, isFree) => sum + (isFree === 1 ? steps.length : 1), 0));
  const firstOf = new Int32Array(d + 1);
  for (let k = 0; k < d; k++) {
    firstOf[k] = points.n;
    addPolls(points, from.at, k, free[k] === 1 ? steps : [1]);
  }
  firstOf[d] = points.n;
  const found = values(points);
  const gradient = new Float64Array(d);
  const moved: Found[] = [];
  for (let k = 0; k < d; k++) {
    const first = firstOf[k] as number;
    const n = (firstOf[k + 1] as number) - first;
    if (n === 0) continue;
    const i = first + bestIndex(found.subarray(first), n, sign);
    const best = { value: found[i] as number, at: points.at(i) };
    if (isBetter(best, from, sign)) moved.push(best);
    gradient[k] = slope(points.columns[k] as Float64Array, found, first, first + n, from, k);
  }
  return { moved, gradient };
}

/** Both sides at each step length; of those that end at a limit the first alone. */
function addPolls(points: Points, at: At, k: number, steps: readonly number[]): void {
  const t = at[k] as number;
  let reachedLow = t <= 0;
  let reachedHigh = t >= 1;
  for (const step of steps) {
    const below = t - step;
    if (below > 0) points.addMoved(at, k, below);
    else if (!reachedLow) points.addMoved(at, k, 0);
    reachedLow ||= below <= 0;
    const above = t + step;
    if (above < 1) points.addMoved(at, k, above);
    else if (!reachedHigh) points.addMoved(at, k, 1);
    reachedHigh ||= above >= 1;
  }
}

/** From the nearest poll on either side; 0 where there is none. */
function slope(column: Float64Array, found: Float64Array, first: number, end: number, { at, value }: Found, k: number): number {
  const t = at[k] as number;
  let below = -1;
  let above = -1;
  for (let i = first; i < end; i++) {
    const x = column[i] as number;
    if (Number.isNaN(found[i] as number)) continue;
    if (x < t && (below < 0 || x > (column[below] as number))) below = i;
    if (x > t && (above < 0 || x < (column[above] as number))) above = i;
  }
  const lowX = below < 0 ? t : (column[below] as number);
  const highX = above < 0 ? t : (column[above] as number);
  // Steps of very different length on the two sides say nothing of the slope here.
  if (!(highX - lowX < 0.1)) return 0;
  const low = below < 0 ? value : (found[below] as number);
  const high = above < 0 ? value : (found[above] as number);
  const result = (high - low) / (highX - lowX);
  return Number.isFinite(result) ? result : 0;
}

interface Suggestion {
  readonly direction: Float64Array;
  readonly parts: readonly number[];
}

const newtonParts = [1, 0.5, 2, 0.2, 4, 0.05, 0.01];
const patternParts = [1, 3, 0.3, 10, 30];
const gradientParts = [0.3, 0.1, 0.03, 0.01, 3e-3, 1e-3, 1e-4, 1e-5];

function suggestions(at: At, before: At | undefined, gradient: Float64Array, curvature: Curvature, sign: 1 | -1): Suggestion[] {
  const list: Suggestion[] = [];
  if (before !== undefined) list.push({ direction: at.map((t, k) => t - (before[k] as number)), parts: patternParts });
  const uphill = gradient.map((g, k) => inward(at, k, sign * g));
  const most = uphill.reduce((m, g) => Math.max(m, Math.abs(g)), 0);
  if (most > 0) list.push({ direction: uphill.map((g) => g / most), parts: gradientParts });
  const step = curvature.step(uphill);
  if (step !== undefined) list.push({ direction: step.map((part, k) => inward(at, k, part)), parts: newtonParts });
  return list;
}

/** A part of a direction that would leave the cube is left out. */
function inward(at: At, k: number, part: number): number {
  return ((at[k] as number) <= 0 && part < 0) || ((at[k] as number) >= 1 && part > 0) ? 0 : part;
}

function pollSuggested(
  values: Values,
  from: Found,
  moved: readonly Found[],
  sign: 1 | -1,
  { free }: ClimbOptions,
  suggested: readonly Suggestion[],
): Found {
  const single = moved.reduce((a, b) => (isBetter(b, a, sign) ? b : a), from);
  const points = new Points(from.at.length);
  if (moved.length > 1) {
    const together = new Float64Array(from.at.length);
    for (const { at } of moved)
      for (let k = 0; k < at.length; k++) together[k] = (together[k] as number) + (at[k] as number) - (from.at[k] as number);
    for (const part of [1, 0.5, 0.25]) points.addAlong(from.at, together, part);
  }
  // Where all coordinates stand at their ends there is nothing to be followed.
  if (free.includes(1)) for (const { direction, parts } of suggested) for (const part of parts) points.addAlong(from.at, direction, part);
  return bestOf(values, points, single, sign);
}

const wideParts = [0.5, 0.15, 0.05, 0.015, 5e-3, 1e-3, 1e-4, 1e-5];

function pollAlong(values: Values, from: Found, best: Found, sign: 1 | -1, along: readonly Float64Array[]): Found {
  const points = new Points(from.at.length);
  for (const direction of along) addBothWays(points, from.at, direction);
  return bestOf(values, points, best, sign);
}

function pollWidely(values: Values, from: Found, sign: 1 | -1, { free, directions, pairs }: ClimbOptions): Found {
  const d = from.at.length;
  const moving = [...free.keys()].filter((k) => free[k] === 1);
  const points = new Points(d);
  if (moving.length > 1) {
    const at = sequence(d);
    for (let i = 0; i < directions; i++) {
      addBothWays(
        points,
        from.at,
        at(i).map((t, k) => (free[k] === 1 ? 2 * t - 1 : 0)),
      );
    }
    if (moving.length <= pairs) for (const direction of pairDirections(d, moving)) addBothWays(points, from.at, direction);
  }
  return bestOf(values, points, from, sign);
}

function addBothWays(points: Points, at: At, direction: Float64Array): void {
  for (const part of wideParts) {
    points.addAlong(at, direction, part);
    points.addAlong(at, direction, -part);
  }
}

function pairDirections(d: number, moving: readonly number[]): Float64Array[] {
  return moving.flatMap((j, i) =>
    moving.slice(i + 1).flatMap((k) =>
      [1, -1].map((other) => {
        const direction = new Float64Array(d);
        direction[j] = 1;
        direction[k] = other;
        return direction;
      }),
    ),
  );
}

export function bestOf(values: Values, points: Points, from: Found, sign: 1 | -1): Found {
  if (points.n === 0) return from;
  const found = values(points);
  const i = bestIndex(found, points.n, sign);
  const best = { value: found[i] as number, at: points.at(i) };
  return isBetter(best, from, sign) ? best : from;
}

/** BFGS estimate of the inverse curvature, from the gradients at the places a climb has passed. */
class Curvature {
  readonly #d: number;
  #inverse: Float64Array | undefined;
  #at: At | undefined;
  #gradient: Float64Array | undefined;

  constructor(d: number) {
    this.#d = d;
  }

  learn(at: At, gradient: Float64Array, sign: 1 | -1): void {
    // Of a maximum the negative is a minimum, for which the estimate stays positive definite.
    const down = gradient.map((g) => -sign * g);
    if (this.#at !== undefined && this.#gradient !== undefined) {
      const [from, slopes] = [this.#at, this.#gradient];
      this.#update(
        at.map((t, k) => t - (from[k] as number)),
        down.map((g, k) => g - (slopes[k] as number)),
      );
    }
    this.#at = at;
    this.#gradient = down;
  }

  /** H·g for the uphill gradient, undefined before anything was learnt. */
  step(uphill: Float64Array): Float64Array | undefined {
    const h = this.#inverse;
    if (h === undefined) return undefined;
    const d = this.#d;
    return uphill.map((_, i) => (uphill[i] === 0 ? 0 : uphill.reduce((sum, g, j) => sum + (h[i * d + j] as number) * g, 0)));
  }

  /** H ← (I − ρ·s·yᵀ)·H·(I − ρ·y·sᵀ) + ρ·s·sᵀ, ρ = 1/(yᵀ·s); left out where yᵀ·s is not positive. */
  #update(s: Float64Array, y: Float64Array): void {
    const d = this.#d;
    const ys = dot(y, s);
    const yy = dot(y, y);
    if (!(ys > 1e-12 * Math.sqrt(yy * dot(s, s))) || !Number.isFinite(ys)) return;
    if (this.#inverse === undefined) {
      this.#inverse = new Float64Array(d * d);
      for (let k = 0; k < d; k++) this.#inverse[k * d + k] = ys / yy;
    }
    const h = this.#inverse;
    const hy = y.map((_, i) => y.reduce((sum, part, j) => sum + (h[i * d + j] as number) * part, 0));
    const factor = (1 + dot(y, hy) / ys) / ys;
    for (let i = 0; i < d; i++) {
      for (let j = 0; j < d; j++) {
        const change =
          factor * (s[i] as number) * (s[j] as number) - ((hy[i] as number) * (s[j] as number) + (s[i] as number) * (hy[j] as number)) / ys;
        h[i * d + j] = (h[i * d + j] as number) + change;
      }
    }
  }
}

export function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let k = 0; k < a.length; k++) sum += (a[k] as number) * (b[k] as number);
  return sum;
}
