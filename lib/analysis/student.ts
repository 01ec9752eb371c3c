/**
 * Quantiles of Student's t for any number of degrees of freedom from 1: G. W. Hill, algorithm 396, Comm. ACM 13, 1970, 619-620,
 * mended by Halley's steps on the distribution itself, an incomplete beta function by its continued fraction (Lentz's method,
 * NIST DLMF 8.17.22). From elementary.ts alone, so every engine gives the same bits. Relative error below 1e-12, about
 * the median absolute error below 1e-16.
 */
import { exp, expm1, ln, log1p, tan } from "../quantity/elementary";
import { normalProbability, normalQuantile } from "./normal";

/** From here on t and the normal differ by less than 1e-9 at the tails that are drawn. */
const manyDegrees = 1e10;

/** t with P(T < t) = p for p in (0, 1) and ν ≥ 1 degrees of freedom. */
export function studentQuantile(p: number, freedom: number): number {
  return studentQuantiles(freedom)(p);
}

/** The same for many p: what depends on ν alone is found once. */
function studentQuantiles(freedom: number): (p: number) => number {
  if (freedom >= manyDegrees) return normalQuantile;
  const student = freedom === 1 ? cauchy : upper(freedom);
  return (p) => (p === 0.5 ? 0 : p < 0.5 ? -student(p) : student(1 - p));
}

/** Nodes of the interpolation a unit of the normal score. */
const nodes = 64;
/** Scores up to here are interpolated; of draws on a grid of 2⁻³² none but a sum of shared parts goes beyond. */
const most = 7;

/**
 * t at the probability of a normal score z, for draws: cubic Hermite interpolation between exact values and slopes, to
 * 1e-6 of the value at one degree of freedom and 1e-8 from three on; exact beyond |z| = 7.
 */
export function studentScores(freedom: number): (z: number) => number {
  if (freedom >= manyDegrees) return (z) => z;
  const beta = lnBeta(freedom);
  const exact = freedom === 1 ? cauchy : upper(freedom);
  const values = new Float64Array(most * nodes + 2);
  const slopes = new Float64Array(values.length);
  for (let i = 0; i < values.length; i++) {
    const z = i / nodes;
    values[i] = i === 0 ? 0 : exact(normalProbability(-z));
    slopes[i] = exp(-0.5 * z * z - 0.5 * ln(2 * Math.PI)) / density(values[i] as number, freedom, beta) / nodes;
  }
  return (score) => {
    const z = Math.abs(score);
    const sign = score < 0 ? -1 : 1;
    if (!(z < most)) return sign * exact(normalProbability(-z));
    const i = Math.floor(z * nodes);
    const s = z * nodes - i;
    const [y0, y1, d0, d1] = [values[i] as number, values[i + 1] as number, slopes[i] as number, slopes[i + 1] as number];
    return sign * (y0 + s * (d0 + s * (3 * (y1 - y0) - 2 * d0 - d1 + s * (2 * (y0 - y1) + d0 + d1))));
  };
}

/** t from its upper tail; cot(π·tail) for one degree. */
const cauchy = (tail: number): number => 1 / tan(Math.PI * tail);

function upper(freedom: number): (tail: number) => number {
  const beta = lnBeta(freedom);
  const start = hill(freedom);
  return (tail) => {
    let t = start(2 * tail);
    for (let i = 0; i < 12; i++) {
      const step = (upperTail(t, freedom, beta) - tail) / density(t, freedom, beta);
      // The second derivative is −(ν + 1)t/(ν + t²) times the first.
      const moved = step * (1 + (step * t * (freedom + 1)) / (2 * (t * t + freedom)));
      if (!Number.isFinite(moved)) break;
      t += moved;
      if (Math.abs(moved) <= 1e-13 * Math.abs(t)) break;
    }
    return t;
  };
}

/** ln B(ν/2, ½): the series of ln Γ(x + ½) − ln Γ(x) for x from 20, and Γ(x + 1) = x·Γ(x) below. */
function lnBeta(freedom: number): number {
  let x = freedom / 2;
  let ratio = 0;
  for (; x < 20; x++) ratio += log1p(0.5 / x);
  const y = 1 / (x * x);
  const series = (-1 / 8 + y * (1 / 192 + y * (-1 / 640 + y * (17 / 14336 - (y * 31) / 18432)))) / x;
  return 0.5 * ln(Math.PI) - (0.5 * ln(x) + series - ratio);
}

function density(t: number, freedom: number, beta: number): number {
  return exp(-beta - 0.5 * ln(freedom) - ((freedom + 1) / 2) * log1p((t * t) / freedom));
}

/** P(T > t) for t > 0: half of I_x(ν/2, ½) with x = ν/(ν + t²), or one less the other side where that is the smaller. */
function upperTail(t: number, freedom: number, beta: number): number {
  const a = freedom / 2;
  const square = t * t;
  const x = freedom / (freedom + square);
  const y = square / (freedom + square);
  const front = exp(-a * log1p(square / freedom) + 0.5 * ln(y) - beta);
  if (x < (a + 1) / (a + 2.5)) return (0.5 * front * fraction(a, 0.5, x)) / a;
  return 0.5 - front * fraction(0.5, a, y);
}

/** The continued fraction of a·B(a, b)·I_x(a, b)/(x^a·(1 − x)^b). */
function fraction(a: number, b: number, x: number): number {
  const tiny = 1e-300;
  let c = 1;
  let d = 1 / apart(1 - ((a + b) * x) / (a + 1), tiny);
  let value = d;
  for (let m = 1; m <= 500; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / apart(1 + even * d, tiny);
    c = apart(1 + even / c, tiny);
    value *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / apart(1 + odd * d, tiny);
    c = apart(1 + odd / c, tiny);
    value *= d * c;
    if (Math.abs(d * c - 1) < 1e-15) break;
  }
  return value;
}

function apart(x: number, tiny: number): number {
  return Math.abs(x) < tiny ? tiny : x;
}

/** The normal score of a tail too small for `normalQuantile`, to a start for Halley: φ(z)/z = tail, once round. */
function farScore(tail: number): number {
  const square = -2 * ln(tail);
  return -Math.sqrt(square - ln(2 * Math.PI * square));
}

/** Hill's approximation from the two-tailed probability. */
function hill(n: number): (p: number) => number {
  const a = 1 / (n - 0.5);
  const b = 48 / (a * a);
  const c = ((20700 * a) / b - 98) * a - 16;
  const c1 = c * a + 96.36;
  const d = ((94.5 / (b + c1) - 3) / b + 1) * Math.sqrt((a * Math.PI) / 2) * n;
  return (p) => {
    const y = exp((2 / n) * ln(d * p));
    return Math.sqrt(n * (y > 0.05 + a ? central(p) : outer(y)));
  };

  function central(p: number): number {
    const known = normalQuantile(0.5 * p);
    const x = Number.isNaN(known) ? farScore(0.5 * p) : known;
    const square = x * x;
    const few = n < 5 ? 0.3 * (n - 4.5) * (x + 0.6) : 0;
    const e = (((0.05 * d * x - 5) * x - 7) * x - 2) * x + b + c1 + few;
    const f = (((((0.4 * square + 6.3) * square + 36) * square + 94.5) / e - square - 3) / b + 1) * x;
    return expm1(a * f * f);
  }

  function outer(y: number): number {
    const e = 1 / (((n + 6) / (n * y) - 0.089 * d - 0.822) * (n + 2) * 3) + 0.5 / (n + 4);
    return ((e * y - 1) * (n + 1)) / (n + 2) + 1 / y;
  }
}
