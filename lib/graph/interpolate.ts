/**
 * Reading a curve between its points: straight lines in x and y, in x and ln y, in ln x and ln y, or a monotone
 * cubic (F. N. Fritsch and R. E. Carlson, SIAM J. Numer. Anal. 17, 1980, 238-246). Nothing is read outside the
 * points: the error "table-range" says where the curve ends.
 */
import { exp, ln } from "../quantity/elementary";
import { WorkingsError } from "../quantity/error";
import { power } from "../quantity/power";
import type { CurveData, Interpolation } from "./curve";

/** y at x, SI. Throws "table-range" outside the curve, and for NaN. */
export function curveAt(curve: CurveData, x: number): number {
  const { x: xs, y: ys } = curve;
  const last = xs.length - 1;
  if (!(x >= (xs[0] as number) && x <= (xs[last] as number))) throw rangeError("x", x, xs[0] as number, xs[last] as number);
  const i = Math.min(segmentOf(xs, x), last - 1);
  if (last === 0) return ys[0] as number;
  if (x === xs[i]) return ys[i] as number;
  if (x === xs[i + 1]) return ys[i + 1] as number;
  return segmentAt(curve, i, x);
}

/** Where the curve first passes y, SI. Throws "curve-crossing" where it never does. */
export function curveCrossing(curve: CurveData, y: number): number {
  const { x: xs, y: ys } = curve;
  for (let i = 0; i < ys.length; i++) {
    if (ys[i] === y) return xs[i] as number;
    const next = ys[i + 1];
    if (next !== undefined && (ys[i] as number) < y !== next < y && next !== y) return segmentCrossing(curve, i, y);
  }
  const low = curveMinimum(curve);
  throw new WorkingsError("curve-crossing", `the curve never passes ${y}; it runs from ${low} to ${curveMaximum(curve)} (SI)`);
}

/** The largest y, SI: at a point, since no rule of interpolation overshoots its points. */
export function curveMaximum(curve: CurveData): number {
  return curve.y.reduce((a, b) => Math.max(a, b), -Infinity);
}

/** The smallest y, SI. */
export function curveMinimum(curve: CurveData): number {
  return curve.y.reduce((a, b) => Math.min(a, b), Infinity);
}

/** ∫ y dx over the whole curve, SI, exact for its rule of interpolation. */
export function curveIntegral(curve: CurveData): number {
  let sum = 0;
  for (let i = 0; i + 1 < curve.x.length; i++) sum += segmentIntegral(curve, i);
  return sum;
}

/** Refuses points that cannot make a curve: unequal lengths, none, x not increasing, numbers not finite or not positive for a logarithm. */
export function checkCurve(curve: CurveData, name: string): void {
  const { x, y, interpolation = "linear" } = curve;
  if (x.length === 0 || x.length !== y.length) {
    throw new WorkingsError(
      "curve-points",
      `${name} has ${x.length} abscissae and ${y.length} ordinates; it needs as many of one as of the other`,
    );
  }
  for (let i = 0; i < x.length; i++) {
    if (!Number.isFinite(x[i]) || !Number.isFinite(y[i]))
      throw new WorkingsError("curve-points", `point ${i + 1} of ${name} is not finite`);
    if (i > 0 && !((x[i] as number) > (x[i - 1] as number)))
      throw new WorkingsError("curve-points", `x of ${name} does not increase at point ${i + 1}`);
    const needsPositive =
      (interpolation === "log-log" && (x[i] as number) <= 0) || (interpolation.startsWith("log") && (y[i] as number) <= 0);
    if (needsPositive)
      throw new WorkingsError("curve-points", `point ${i + 1} of ${name} is not positive, so it cannot be interpolated ${interpolation}`);
  }
}

/** Index i of the last point with x_i ≤ x, by halving. */
function segmentOf(xs: Float64Array, x: number): number {
  let low = 0;
  let high = xs.length;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if ((xs[middle] as number) <= x) low = middle;
    else high = middle;
  }
  return low;
}

interface Segment {
  readonly x0: number;
  readonly x1: number;
  readonly y0: number;
  readonly y1: number;
}

function segment(curve: CurveData, i: number): Segment {
  const { x, y } = curve;
  return { x0: x[i] as number, x1: x[i + 1] as number, y0: y[i] as number, y1: y[i + 1] as number };
}

function segmentAt(curve: CurveData, i: number, x: number): number {
  const { x0, x1, y0, y1 } = segment(curve, i);
  switch (curve.interpolation ?? "linear") {
    case "linear":
      return y0 + ((y1 - y0) * (x - x0)) / (x1 - x0);
    case "log-y":
      return y0 * exp((ln(y1 / y0) * (x - x0)) / (x1 - x0));
    case "log-log":
      return y0 * exp((ln(y1 / y0) * ln(x / x0)) / ln(x1 / x0));
    case "monotone":
      return hermite(curve, i, x);
  }
}

function segmentCrossing(curve: CurveData, i: number, y: number): number {
  const { x0, x1, y0, y1 } = segment(curve, i);
  const rule: Interpolation = curve.interpolation ?? "linear";
  if (rule === "linear") return x0 + ((x1 - x0) * (y - y0)) / (y1 - y0);
  if (rule === "monotone") return bisect((x) => hermite(curve, i, x) - y, x0, x1);
  const part = ln(y / y0) / ln(y1 / y0);
  return rule === "log-y" ? x0 + (x1 - x0) * part : x0 * exp(ln(x1 / x0) * part);
}

function segmentIntegral(curve: CurveData, i: number): number {
  const { x0, x1, y0, y1 } = segment(curve, i);
  const trapezoid = ((x1 - x0) * (y0 + y1)) / 2;
  switch (curve.interpolation ?? "linear") {
    case "linear":
      return trapezoid;
    case "log-y":
      return y0 === y1 ? trapezoid : ((x1 - x0) * (y1 - y0)) / ln(y1 / y0);
    case "log-log":
      return powerLawIntegral(x0, x1, y0, y1);
    case "monotone":
      return trapezoid + ((x1 - x0) * (x1 - x0) * (slope(curve, i) - slope(curve, i + 1))) / 12;
  }
}

/** ∫ y0·(x/x0)^a dx from x0 to x1. */
function powerLawIntegral(x0: number, x1: number, y0: number, y1: number): number {
  const exponent = ln(y1 / y0) / ln(x1 / x0) + 1;
  if (Math.abs(exponent) < 1e-9) return y0 * x0 * ln(x1 / x0);
  return (y0 * x0 * (power(x1 / x0, exponent) - 1)) / exponent;
}

function hermite(curve: CurveData, i: number, x: number): number {
  const { x0, x1, y0, y1 } = segment(curve, i);
  const h = x1 - x0;
  const t = (x - x0) / h;
  const s = 1 - t;
  return (1 + 2 * t) * s * s * y0 + t * s * s * h * slope(curve, i) + t * t * (3 - 2 * t) * y1 - t * t * s * h * slope(curve, i + 1);
}

/** Slope at point i: harmonic mean of the secants weighted by their lengths, 0 at a turning point. */
function slope(curve: CurveData, i: number): number {
  const last = curve.x.length - 1;
  if (i === 0) return secant(curve, 0);
  if (i === last) return secant(curve, last - 1);
  const before = secant(curve, i - 1);
  const after = secant(curve, i);
  if (before * after <= 0) return 0;
  const left = (curve.x[i] as number) - (curve.x[i - 1] as number);
  const right = (curve.x[i + 1] as number) - (curve.x[i] as number);
  return (3 * (left + right)) / ((2 * right + left) / before + (right + 2 * left) / after);
}

function secant(curve: CurveData, i: number): number {
  const { x0, x1, y0, y1 } = segment(curve, i);
  return (y1 - y0) / (x1 - x0);
}

/** Root of f between a and b, where its sign changes, to the last bit. */
function bisect(f: (x: number) => number, a: number, b: number): number {
  let low = a;
  let high = b;
  const rising = f(a) < 0;
  for (let step = 0; step < 100; step++) {
    const middle = low + (high - low) / 2;
    if (middle === low || middle === high) return middle;
    if (f(middle) < 0 === rising) low = middle;
    else high = middle;
  }
  return low + (high - low) / 2;
}

function rangeError(name: string, x: number, low: number, high: number): WorkingsError {
  return new WorkingsError(
    "table-range",
    `${name} = ${x} lies outside the table, which runs from ${low} to ${high} (SI); give it more rows, or stay inside`,
    { x, low, high },
  );
}
