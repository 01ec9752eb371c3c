/** Sine, cosine and tangent. fdlibm's k_sin.c, k_cos.c and k_tan.c; see `elementary.ts`. */
import { upperHalf } from "./double";
import { quarterTurns } from "./quarter-turns";

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
  const { turns, r, tail } = quarterTurns(x);
  return quarter(turns, r, tail);
}

/** Cosine of x in radians. */
export function cos(x: number): number {
  const { turns, r, tail } = quarterTurns(x);
  return quarter(turns + 1, r, tail);
}

/** Tangent of x in radians. */
export function tan(x: number): number {
  if (x === 0) return x;
  const { turns, r, tail } = quarterTurns(x);
  return kernelTan(r, tail, turns % 2 !== 0);
}

/** About π/4 the tangent is taken from that of the complement, 0.67434 being where. */
const nearEighth = 0.67434;
const eighthHigh = 0.7853981633974483;
const eighthLow = 3.061616997868383e-17;

/** tan(x + y), or −1/tan(x + y) for odd quarter turns. */
function kernelTan(x: number, y: number, odd: boolean): number {
  if (Math.abs(x) >= nearEighth) {
    const sign = x < 0 ? -1 : 1;
    const u = eighthHigh - sign * x + (eighthLow - sign * y);
    const t = tanTail(u, 0);
    const v = odd ? -1 : 1;
    const w = u + t;
    return sign * (v - 2 * (u - ((w * w) / (w + v) - t)));
  }
  const t = tanTail(x, y);
  const w = x + t;
  return odd ? negativeInverse(w, x, t) : w;
}

/** tan(x + y) − x. */
function tanTail(x: number, y: number): number {
  const z = x * x;
  const w = z * z;
  const odd =
    0.13333333333320124 +
    w *
      (0.021869488294859542 +
        w * (0.0035920791075913124 + w * (0.0005880412408202641 + w * (7.817944429395571e-5 + w * -1.8558637485527546e-5))));
  const even =
    z *
    (0.05396825397622605 +
      w *
        (0.0088632398235993 +
          w * (0.0014562094543252903 + w * (0.0002464631348184699 + w * (7.140724913826082e-5 + w * 2.5907305186363371e-5)))));
  const s = z * x;
  return y + z * (s * (odd + even) + y) + 0.3333333333333341 * s;
}

/** −1/(x + t), of which w is the rounded sum: a quotient corrected by what its rounding lost. */
function negativeInverse(w: number, x: number, t: number): number {
  const head = upperHalf(w);
  const rest = t - (head - x);
  const quotient = -1 / w;
  const q = upperHalf(quotient);
  return q + quotient * (1 + q * head + q * rest);
}
