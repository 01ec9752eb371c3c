/**
 * Elementary functions from sums, products, quotients and square roots alone. The engines' own (`Math.exp`, `Math.sin`
 * and all their kin but `Math.sqrt`) differ from one another in the last bit, and what a page computes must equal what a
 * run has computed. Methods and coefficients of fdlibm (Sun Microsystems, 1993: e_log.c, e_exp.c, k_sin.c, k_cos.c,
 * e_rem_pio2.c, s_atan.c, e_atan2.c); the others are composed of these. Errors are below three units in the last place,
 * for sine, cosine and tangent up to |x| = 2²⁰ (beyond it the reduction by π/2 loses digits with the size of x).
 */

const ln2High = 0.6931471803691238;
const ln2Low = 1.9082149292705877e-10;
const log10e = 0.4342944819032518;
/** Above it e^x is infinite, below the other it is zero. */
const mostExponent = 709.782712893384;
const leastExponent = -745.1332191019411;

const bytes = new DataView(new ArrayBuffer(8));

/** x = m·2^exponent with √½ < m ≤ √2; leaves m in `mantissa`. For positive finite x. */
let mantissa = 1;
function splitExponent(x: number): number {
  if (x < 2.2250738585072014e-308) return splitExponent(x * 18014398509481984) - 54;
  bytes.setFloat64(0, x);
  const head = bytes.getUint32(0);
  bytes.setUint32(0, (head & 0xfffff) | 0x3ff00000);
  mantissa = bytes.getFloat64(0);
  const exponent = (head >>> 20) - 1023;
  if (mantissa <= Math.SQRT2) return exponent;
  mantissa /= 2;
  return exponent + 1;
}

/** y·2^k. */
function scaled(y: number, k: number): number {
  if (k > 1023) return scaled(y * 2 ** 1023, k - 1023);
  if (k < -1022) return scaled(y * 2 ** -1022, k + 1022);
  bytes.setUint32(0, (1023 + k) << 20);
  bytes.setUint32(4, 0);
  return y * bytes.getFloat64(0);
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

/** e^x. */
export function exp(x: number): number {
  if (!(x <= mostExponent && x >= leastExponent)) return x > 0 ? Infinity : x < 0 ? 0 : Number.NaN;
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
  return scaled(1 - (low - (r * c) / (2 - c) - high), k);
}

const powersOfTen = Array.from({ length: 23 }, (_, k) => Number(`1e${k}`));

/** Decimal logarithm, exact at whole powers of ten from 1 to 10²². */
export function log10(x: number): number {
  const value = ln(x) * log10e;
  const whole = Math.round(value);
  return powersOfTen[whole] === x ? whole : value;
}

/** Binary logarithm, exact at powers of two. */
export function log2(x: number): number {
  if (!(x > 0) || x === Infinity) return ln(x);
  const k = splitExponent(x);
  return k + ln(mantissa) / Math.LN2;
}

/** Cube root: the logarithm's estimate, then Newton's rule twice. */
export function cbrt(x: number): number {
  if (x === 0 || !Number.isFinite(x)) return x;
  const a = Math.abs(x);
  let r = exp(ln(a) / 3);
  for (let step = 0; step < 2; step++) r -= (r - a / (r * r)) / 3;
  return x < 0 ? -r : r;
}

/** x less whole quarter turns, in [−π/4, π/4], as the sum of two numbers; leaves the second in `tail`. */
let tail = 0;
function reduced(x: number, n: number): number {
  let t = x - n * 1.5707963267341256;
  let w = n * 6.077100506303966e-11;
  let r = t - w;
  w = n * 2.0222662487959506e-21 - (t - r - w);
  t = r;
  const third = n * 2.0222662487111665e-21;
  if (Math.abs(n) > 0 && Math.abs(r - w) < 1e-9) {
    // Close to a multiple of π/2 the third part of π/2 counts.
    r = t - third;
    w = n * 8.4784276603689e-32 - (t - r - third);
  }
  const y = r - w;
  tail = r - y - w;
  return y;
}

function kernelSin(x: number, y: number): number {
  const z = x * x;
  const v = z * x;
  const r =
    0.00833333333332249 +
    z * (-0.0001984126982985795 + z * (2.7557313707070068e-6 + z * (-2.5050760253406863e-8 + z * 1.58969099521155e-10)));
  return x - (z * (0.5 * y - v * r) - y - v * -0.16666666666666632);
}

function kernelCos(x: number, y: number): number {
  const z = x * x;
  const w = z * z;
  const r =
    z * (0.0416666666666666 + z * (-0.001388888888887411 + z * 2.480158728947673e-5)) +
    w * w * (-2.7557314351390663e-7 + z * (2.087572321298175e-9 + z * -1.1359647557788195e-11));
  const half = 0.5 * z;
  const q = 1 - half;
  return q + (1 - q - half + (z * r - x * y));
}

/** sin of the quarter turn n + (x + y), n whole. */
function quarter(n: number, x: number, y: number): number {
  switch (((n % 4) + 4) % 4) {
    case 0:
      return kernelSin(x, y);
    case 1:
      return kernelCos(x, y);
    case 2:
      return -kernelSin(x, y);
    default:
      return -kernelCos(x, y);
  }
}

/** Sine of x in radians. */
export function sin(x: number): number {
  if (x === 0) return x;
  const n = Math.round(x / (Math.PI / 2));
  const r = reduced(x, n);
  return quarter(n, r, tail);
}

/** Cosine of x in radians. */
export function cos(x: number): number {
  const n = Math.round(x / (Math.PI / 2));
  const r = reduced(x, n);
  return quarter(n + 1, r, tail);
}

/** Tangent of x in radians. */
export function tan(x: number): number {
  return x === 0 ? x : sin(x) / cos(x);
}

const atanHigh = [0.4636476090008061, 0.7853981633974483, 0.982793723247329, 1.5707963267948966];
const atanLow = [2.2698777452961687e-17, 3.061616997868383e-17, 1.3903311031230998e-17, 6.123233995736766e-17];

/** Inverse tangent, −π/2 to π/2. */
export function atan(x: number): number {
  const a = Math.abs(x);
  if (!(a > 1e-8)) return x;
  const value = a > 1e300 ? Math.PI / 2 : positiveAtan(a);
  return x < 0 ? -value : value;
}

function positiveAtan(a: number): number {
  if (a < 0.4375) return a - a * atanSeries(a);
  const i = a < 0.6875 ? 0 : a < 1.1875 ? 1 : a < 2.4375 ? 2 : 3;
  const x = i === 0 ? (2 * a - 1) / (2 + a) : i === 1 ? (a - 1) / (a + 1) : i === 2 ? (a - 1.5) / (1 + 1.5 * a) : -1 / a;
  return (atanHigh[i] as number) - (x * atanSeries(x) - (atanLow[i] as number) - x);
}

function atanSeries(x: number): number {
  const z = x * x;
  const w = z * z;
  return (
    z *
      (0.3333333333333293 +
        w *
          (0.14285714272503466 +
            w * (0.09090887133436507 + w * (0.06661073137387531 + w * (0.049768779946159324 + w * 0.016285820115365782))))) +
    w *
      (-0.19999999999876483 +
        w * (-0.11111110405462356 + w * (-0.0769187620504483 + w * (-0.058335701337905735 + w * -0.036531572744216916))))
  );
}

/** Angle of the point (x, y), −π to π. */
export function atan2(y: number, x: number): number {
  if (Number.isNaN(x) || Number.isNaN(y)) return Number.NaN;
  const up = y > 0 || Object.is(y, 0);
  const sign = up ? 1 : -1;
  if (y === 0) return x > 0 || Object.is(x, 0) ? y : sign * Math.PI;
  if (!Number.isFinite(x)) return sign * (Number.isFinite(y) ? (x > 0 ? 0 : Math.PI) : x > 0 ? Math.PI / 4 : (3 * Math.PI) / 4);
  const z = x === 0 ? Math.PI / 2 : atan(Math.abs(y / x));
  return sign * (x >= 0 ? z : Math.PI - (z - 1.2246467991473532e-16));
}

/** Inverse sine; NaN outside [−1, 1]. */
export function asin(x: number): number {
  return x === 0 ? x : Math.abs(x) > 1 ? Number.NaN : atan2(x, Math.sqrt((1 - x) * (1 + x)));
}

/** Inverse cosine; NaN outside [−1, 1]. */
export function acos(x: number): number {
  return Math.abs(x) > 1 ? Number.NaN : atan2(Math.sqrt((1 - x) * (1 + x)), x);
}

/** Hyperbolic sine; a series about zero, where the difference of exponentials cancels. */
export function sinh(x: number): number {
  const z = x * x;
  if (z < 1)
    return (
      x *
      (1 +
        (z / 6) *
          (1 +
            (z / 20) *
              (1 + (z / 42) * (1 + (z / 72) * (1 + (z / 110) * (1 + (z / 156) * (1 + (z / 210) * (1 + (z / 272) * (1 + z / 342)))))))))
    );
  const a = Math.abs(x);
  const value = a > 700 ? exp(a - Math.LN2) : (exp(a) - 1 / exp(a)) / 2;
  return x < 0 ? -value : value;
}

/** Hyperbolic cosine. */
export function cosh(x: number): number {
  const a = Math.abs(x);
  return a > 700 ? exp(a - Math.LN2) : (exp(a) + 1 / exp(a)) / 2;
}

/** Hyperbolic tangent. */
export function tanh(x: number): number {
  const a = Math.abs(x);
  if (a < 0.5) return sinh(x) / cosh(x);
  const value = a > 20 ? 1 : 1 - 2 / (exp(2 * a) + 1);
  return Number.isNaN(x) ? x : x < 0 ? -value : value;
}

/** e^x − 1 without cancellation about zero. */
export function expm1(x: number): number {
  if (Math.abs(x) < 1e-300) return x;
  return Math.abs(x) < 1 ? 2 * sinh(x / 2) * exp(x / 2) : exp(x) - 1;
}

/** ln(1 + x) without cancellation about zero (W. Kahan). */
export function log1p(x: number): number {
  const u = 1 + x;
  return u === 1 || u === Infinity ? x : (ln(u) * x) / (u - 1);
}
