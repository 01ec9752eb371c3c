/**
 * Elementary functions in whole numbers of 2⁻³²⁰, by their power series: what those of `elementary.ts` are measured
 * against. Good to 80 digits for arguments from 10⁻⁶⁰ on.
 */

const bits = 320n;
const one = 1n << bits;

const times = (a: bigint, b: bigint): bigint => (a * b) >> bits;
const over = (a: bigint, b: bigint): bigint => (a << bits) / b;
const abs = (a: bigint): bigint => (a < 0n ? -a : a);

/** A double, exactly where it is a multiple of 2⁻³²⁰. */
export function fixed(x: number): bigint {
  const view = new DataView(new ArrayBuffer(8));
  view.setFloat64(0, Math.abs(x));
  const word = view.getBigUint64(0);
  const exponent = word >> 52n;
  const mantissa = exponent === 0n ? word : (word & ((1n << 52n) - 1n)) | (1n << 52n);
  const shift = bits + (exponent === 0n ? 1n : exponent) - 1075n;
  const size = shift >= 0n ? mantissa << shift : mantissa >> -shift;
  return x < 0 ? -size : size;
}

/** Sum of the shares of terms, each made from the one before, until nothing is left. */
function series(first: bigint, ratio: (k: bigint, term: bigint) => bigint, share: (k: bigint, term: bigint) => bigint): bigint {
  let sum = 0n;
  let term = first;
  for (let k = 0n; term !== 0n && term !== -1n; k++) {
    sum += share(k, term);
    term = ratio(k, term);
  }
  return sum;
}

function root(a: bigint): bigint {
  const square = a << bits;
  let r = 1n << BigInt((square.toString(2).length >> 1) + 1);
  for (;;) {
    const next = (r + square / r) >> 1n;
    if (next >= r) return r;
    r = next;
  }
}

/** For |t| well below 1. */
function atanSeries(t: bigint): bigint {
  const square = times(t, t);
  return series(
    t,
    (_, term) => -times(term, square),
    (k, term) => term / (2n * k + 1n),
  );
}

/** J. Machin, 1706. */
const pi = 4n * (4n * atanSeries(one / 5n) - atanSeries(one / 239n));

function atanh(t: bigint): bigint {
  const square = times(t, t);
  return series(
    t,
    (_, term) => times(term, square),
    (k, term) => term / (2n * k + 1n),
  );
}

const ln2 = 2n * atanh(one / 3n);

function ln(x: bigint): bigint {
  const k = BigInt(x.toString(2).length) - bits;
  const m = k >= 0n ? x >> k : x << -k;
  return k * ln2 + 2n * atanh(over(m - one, m + one));
}

function exp(x: bigint): bigint {
  const k = x / ln2;
  let r = (x - k * ln2) >> 8n;
  r = series(
    one,
    (n, term) => times(term, r) / (n + 1n),
    (_, term) => term,
  );
  for (let i = 0; i < 8; i++) r = times(r, r);
  return k >= 0n ? r << k : r >> -k;
}

function sin(x: bigint): bigint {
  const turn = 2n * pi;
  let r = x % turn;
  if (r > pi) r -= turn;
  if (r < -pi) r += turn;
  const square = times(r, r);
  return series(
    r,
    (k, term) => -times(term, square) / ((2n * k + 2n) * (2n * k + 3n)),
    (_, term) => term,
  );
}

const cos = (x: bigint): bigint => sin(x + pi / 2n);

function atan(x: bigint): bigint {
  if (abs(x) > one) return (x > 0n ? pi / 2n : -(pi / 2n)) - atan(over(one, x));
  let t = x;
  for (let i = 0; i < 3; i++) t = over(t, one + root(one + times(t, t)));
  return 8n * atanSeries(t);
}

const asin = (x: bigint): bigint => (abs(x) === one ? (x > 0n ? pi / 2n : -(pi / 2n)) : atan(over(x, root(one - times(x, x)))));

/** By its series about zero; what cancels at 7 leaves 50 digits. */
function erf(x: bigint): bigint {
  const square = times(x, x);
  const sum = series(
    x,
    (k, term) => -times(term, square) / (k + 1n),
    (k, term) => term / (2n * k + 1n),
  );
  return over(2n * sum, root(pi));
}

/** By name, of numbers in units of 2⁻³²⁰. */
export const exact = {
  exp,
  expm1: (x: bigint) => exp(x) - one,
  ln,
  log1p: (x: bigint) => ln(one + x),
  log10: (x: bigint) => over(ln(x), ln(10n * one)),
  log2: (x: bigint) => over(ln(x), ln2),
  cbrt: (x: bigint) => (x < 0n ? -exp(ln(-x) / 3n) : exp(ln(x) / 3n)),
  sin,
  cos,
  tan: (x: bigint) => over(sin(x), cos(x)),
  erf,
  erfc: (x: bigint) => one - erf(x),
  asin,
  acos: (x: bigint) => pi / 2n - asin(x),
  atan,
  sinh: (x: bigint) => (exp(x) - exp(-x)) / 2n,
  cosh: (x: bigint) => (exp(x) + exp(-x)) / 2n,
  tanh: (x: bigint) => over(exp(x) - exp(-x), exp(x) + exp(-x)),
  atan2: (y: bigint, x: bigint) => (x > 0n ? atan(over(y, x)) : atan(over(y, x)) + (y < 0n ? -pi : pi)),
};

/** How far a double lies from an exact value, in units of the exact value's last place as a double. */
export function ulpsFrom(y: number, value: bigint): number {
  const place = BigInt(abs(value).toString(2).length) - 53n;
  const difference = abs(fixed(y) - value);
  return place >= 0n ? Number((difference << 20n) >> place) / 2 ** 20 : Number(difference);
}
