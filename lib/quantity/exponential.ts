/** e^x and what is made of it. fdlibm's e_exp.c, s_expm1.c, e_sinh.c, e_cosh.c and s_tanh.c; see `elementary.ts`. */
import { scaled } from "./double";

/** ln 2 in two parts: a whole number up to 2²⁰ times the first is exact. */
export const ln2High = 0.6931471803691238;
export const ln2Low = 1.9082149292705877e-10;
/** Above it e^x is infinite, below the other it is zero. */
const mostExponent = 709.782712893384;
const leastExponent = -745.1332191019411;
/** Above it e^x/2 is infinite. */
const mostHyperbolic = 710.4758600739439;
/** From here on e^−x is nothing beside e^x. */
const large = 22;

/** e^x. */
export function exp(x: number): number {
  if (!(x <= mostExponent && x >= leastExponent)) return x > 0 ? Infinity : x < 0 ? 0 : Number.NaN;
  return scaledExp(x, 0);
}

/** e^x·2^shift, which may be finite where e^x is not. */
function scaledExp(x: number, shift: number): number {
  const k = Math.round(x / Math.LN2);
  const high = x - k * ln2High;
  const low = k * ln2Low;
  const r = high - low;
  const t = r * r;
  const c =
    r -
    t *
      (0.16666666666666602 +
        t * (-0.0027777777777015593 + t * (6.613756321437934e-5 + t * (-1.6533902205465252e-6 + t * 4.1381367970572385e-8))));
  return scaled(1 - (low - (r * c) / (2 - c) - high), k + shift);
}

/** e^x − 1 without cancellation about zero. */
export function expm1(x: number): number {
  if (!(x <= mostExponent)) return x > 0 ? Infinity : Number.NaN;
  if (x < -40) return -1;
  if (Math.abs(x) < 1e-17) return x;
  const k = Math.abs(x) <= Math.LN2 / 2 ? 0 : Math.round(x / Math.LN2);
  const high = x - k * ln2High;
  const low = k * ln2Low;
  const r = high - low;
  const lost = high - r - low;
  const half = 0.5 * r;
  const z = r * half;
  const r1 =
    1 +
    z *
      (-0.03333333333333313 +
        z * (0.0015873015872548146 + z * (-7.93650757867488e-5 + z * (4.008217827329362e-6 + z * -2.0109921818362437e-7))));
  const t = 3 - r1 * half;
  const e = z * ((r1 - t) / (6 - r * t));
  if (k === 0) return r - (r * e - z);
  return oneLess(r, r * (e - lost) - lost - z, k);
}

/** 2^k·(1 + r − e) − 1, in the order that keeps the digits. */
function oneLess(r: number, e: number, k: number): number {
  if (k === -1) return 0.5 * (r - e) - 0.5;
  if (k === 1) return r < -0.25 ? -2 * (e - (r + 0.5)) : 1 + 2 * (r - e);
  if (k <= -2 || k > 56) return scaled(1 - (e - r), k) - 1;
  if (k < 20) return scaled(1 - scaled(1, -k) - (e - r), k);
  return scaled(r - (e + scaled(1, -k)) + 1, k);
}

/** Hyperbolic sine. */
export function sinh(x: number): number {
  const a = Math.abs(x);
  if (!(a <= mostHyperbolic)) return x > 0 ? Infinity : x < 0 ? -Infinity : Number.NaN;
  if (a < 1e-9) return x;
  const sign = x < 0 ? -1 : 1;
  if (a > large) return sign * scaledExp(a, -1);
  const t = expm1(a);
  return sign * 0.5 * (a < 1 ? 2 * t - (t * t) / (t + 1) : t + t / (t + 1));
}

/** Hyperbolic cosine. */
export function cosh(x: number): number {
  const a = Math.abs(x);
  if (!(a <= mostHyperbolic)) return Number.isNaN(x) ? x : Infinity;
  if (a > large) return scaledExp(a, -1);
  if (a < Math.LN2 / 2) {
    const t = expm1(a);
    return 1 + (t * t) / (2 * (1 + t));
  }
  const t = exp(a);
  return 0.5 * t + 0.5 / t;
}

/** Hyperbolic tangent. */
export function tanh(x: number): number {
  const a = Math.abs(x);
  if (a < 1e-9 || Number.isNaN(x)) return x;
  const sign = x < 0 ? -1 : 1;
  if (a > large) return sign;
  if (a >= 0.55) return sign * (1 - 2 / (expm1(2 * a) + 2));
  return x - x * tanhFraction(x * x);
}

/** 1 − tanh(x)/x for z = x² up to 0.3, by Lambert's continued fraction tanh x = x/(1 + z/(3 + z/(5 + …))). */
function tanhFraction(z: number): number {
  return z / (z + 3 + z / (5 + z / (7 + z / (9 + z / (11 + z / (13 + z / (15 + z / 17)))))));
}
