/** Inverse tangent, sine and cosine. fdlibm's s_atan.c, e_atan2.c, e_asin.c and e_acos.c; see `elementary.ts`. */
import { upperHalf } from "./double";

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

const quarterTurn = 1.5707963267948966;
const eighthTurn = 0.7853981633974483;
const quarterTurnLow = 6.123233995736766e-17;

/** Inverse sine, −π/2 to π/2; NaN outside [−1, 1]. */
export function asin(x: number): number {
  const a = Math.abs(x);
  if (!(a <= 1)) return Number.NaN;
  if (a < 1e-9) return x;
  if (a < 0.5) return x + x * asinSeries(x * x);
  const z = (1 - a) / 2;
  const s = Math.sqrt(z);
  const head = upperHalf(s);
  const rest = (z - head * head) / (s + head);
  const value = eighthTurn - (2 * s * asinSeries(z) - (quarterTurnLow - 2 * rest) - (eighthTurn - 2 * head));
  return a === 1 ? x * quarterTurn : x < 0 ? -value : value;
}

/** Inverse cosine, 0 to π; NaN outside [−1, 1]. */
export function acos(x: number): number {
  const a = Math.abs(x);
  if (!(a <= 1)) return Number.NaN;
  if (a < 0.5) return quarterTurn - (x - (quarterTurnLow - x * asinSeries(x * x)));
  const z = (1 - a) / 2;
  const s = Math.sqrt(z);
  const w = s * asinSeries(z);
  return x > 0 ? 2 * (s + w) : 2 * (quarterTurn - (s + (w - quarterTurnLow)));
}

/** arcsin(s)/s − 1 for z = s² ≤ ¼. */
function asinSeries(z: number): number {
  const p =
    z *
    (0.16666666666666666 +
      z *
        (-0.3255658186224009 +
          z * (0.20121253213486293 + z * (-0.04005553450067941 + z * (0.0007915349942898145 + z * 3.479331075960212e-5)))));
  const q = 1 + z * (-2.403394911734414 + z * (2.0209457602335057 + z * (-0.6882839716054533 + z * 0.07703815055590194)));
  return p / q;
}
