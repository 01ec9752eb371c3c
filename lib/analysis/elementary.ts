/**
 * Natural logarithm and exponential from sums, products and quotients alone: engines differ in the last bit of theirs,
 * and a draw must not. Method and coefficients of fdlibm's e_log.c and e_exp.c (Sun Microsystems, 1993), errors below
 * one unit in the last place. For draws only: no NaN, infinity or number below 2.3e-308.
 */

const ln2High = 0.6931471803691238;
const ln2Low = 1.9082149292705877e-10;

const bytes = new DataView(new ArrayBuffer(8));

/** ln x for normal x > 0. */
export function ln(x: number): number {
  const [k, m] = split(x);
  const f = m - 1;
  const s = f / (2 + f);
  const z = s * s;
  const r = z * (0.6666666666666735 + z * (0.3999999999940942 + z * (0.2857142874366239 + z * (0.22222198432149784
    + z * (0.1818357216161805 + z * (0.15313837699209373 + z * 0.14798198605116586))))));
  const half = 0.5 * f * f;
  return k * ln2High - (half - (s * (half + r) + k * ln2Low) - f);
}

/** e^x for |x| < 700. */
export function exp(x: number): number {
  const k = Math.round(x / Math.LN2);
  const high = x - k * ln2High;
  const low = k * ln2Low;
  const r = high - low;
  const t = r * r;
  const c = r - t * (0.16666666666666602 + t * (-0.0027777777777015593 + t * (6.613756321437934e-05
    + t * (-1.6533902205465252e-06 + t * 4.1381367970572385e-08))));
  return scale(1 - (low - (r * c) / (2 - c) - high), k);
}

/** x = m·2^k with √½ < m ≤ √2. */
function split(x: number): [number, number] {
  bytes.setFloat64(0, x);
  const head = bytes.getUint32(0);
  bytes.setUint32(0, (head & 0xfffff) | 0x3ff00000);
  const mantissa = bytes.getFloat64(0);
  const exponent = (head >>> 20) - 1023;
  return mantissa > Math.SQRT2 ? [exponent + 1, mantissa / 2] : [exponent, mantissa];
}

/** y·2^k, exactly. */
function scale(y: number, k: number): number {
  bytes.setUint32(0, (1023 + k) << 20);
  bytes.setUint32(4, 0);
  return y * bytes.getFloat64(0);
}
