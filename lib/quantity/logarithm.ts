/** Logarithms, by fdlibm's e_log.c, and the cube root; see `elementary.ts`. */
import { exponentOf, scaled } from "./double";
import { exp, ln2High, ln2Low } from "./exponential";

const log2e = 1.4426950408889634;
const log10e = 0.4342944819032518;
const leastNormal = 2.2250738585072014e-308;
const twoTo54 = 18014398509481984;

/** x = m·2^exponent with √½ < m ≤ √2; leaves m in `mantissa`. For positive finite x. */
let mantissa = 1;
function splitExponent(x: number): number {
  if (x < leastNormal) return splitExponent(x * twoTo54) - 54;
  const exponent = exponentOf(x);
  mantissa = scaled(x, -exponent);
  if (mantissa <= Math.SQRT2) return exponent;
  mantissa /= 2;
  return exponent + 1;
}

/** Natural logarithm; NaN below zero, −∞ at zero. */
export function ln(x: number): number {
  if (!(x > 0)) return x === 0 ? -Infinity : Number.NaN;
  if (x === Infinity) return x;
  const k = splitExponent(x);
  const f = mantissa - 1;
  const s = f / (2 + f);
  const z = s * s;
  const r =
    z *
    (0.6666666666666735 +
      z *
        (0.3999999999940942 +
          z *
            (0.2857142874366239 +
              z * (0.22222198432149784 + z * (0.1818357216161805 + z * (0.15313837699209373 + z * 0.14798198605116586))))));
  const half = 0.5 * f * f;
  return k * ln2High - (half - (s * (half + r) + k * ln2Low) - f);
}

const leastDecade = -323;
/** Every 10^k that is a number, as it is read from text: the nearest double. */
const powersOfTen = Array.from({ length: 632 }, (_, i) => Number(`1e${i + leastDecade}`));

/** Decimal logarithm, whole at every power of ten. */
export function log10(x: number): number {
  const value = ln(x) * log10e;
  const whole = Math.round(value);
  return powersOfTen[whole - leastDecade] === x ? whole : value;
}

/** Binary logarithm, whole at every power of two. */
export function log2(x: number): number {
  if (!(x > 0) || x === Infinity) return ln(x);
  const k = splitExponent(x);
  return k + ln(mantissa) * log2e;
}

/** ln(1 + x) without cancellation about zero: ln u and what rounding took from u = 1 + x. */
export function log1p(x: number): number {
  const u = 1 + x;
  return u === 1 || u === Infinity ? x : u === 0 ? -Infinity : ln(u) - (u - 1 - x) / u;
}

/** Cube root: the logarithm's estimate, then Newton's rule twice. */
export function cbrt(x: number): number {
  if (x === 0 || !Number.isFinite(x)) return x;
  const a = Math.abs(x);
  let r = exp(ln(a) / 3);
  for (let step = 0; step < 2; step++) r -= (r - a / (r * r)) / 3;
  return x < 0 ? -r : r;
}
