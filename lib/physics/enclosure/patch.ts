/**
 * Deflection at the centre of a thin rectangular plate with simply supported edges under a force spread evenly over a
 * rectangle u × v at its centre: Navier's double sine series, its sum over y in closed form (Lévy). Timoshenko and
 * Woinowsky-Krieger, Theory of Plates and Shells, 2nd edition (1959), Art. 28 to 34. A vanishing patch is the
 * concentrated force, u = a and v = b the uniform load. Left out: large deflections, shear, corners that lift off.
 */
import { cos, exp, sin } from "../../quantity/elementary";
import { WorkingsError } from "../../quantity/error";

/** Sides of a plate and of the patch on it, in m: u lies along a, v along b. */
export interface LoadedPlate {
  readonly a: number;
  readonly b: number;
  readonly u: number;
  readonly v: number;
}

/** Odd terms m = 1, 3, …: what is left out falls with m⁻³ at worst, 1e-5 of the sum. */
const terms = 100;

/** The same plate with a as its shorter side, where the series converge fastest. Throws "nominal-domain" for a patch that does not fit. */
export function turned({ a, b, u, v }: LoadedPlate): LoadedPlate {
  if (!(a > 0 && b > 0 && u >= 0 && v >= 0 && u <= a && v <= b)) {
    throw new WorkingsError(
      "nominal-domain",
      `a patch of ${u} m by ${v} m does not fit a plate of ${a} m by ${b} m; it lies within the plate`,
    );
  }
  return a <= b ? { a, b, u, v } : { a: b, b: a, u: v, v: u };
}

/**
 * Coefficient α of w = α·F·a²/D, a the shorter side. The arguments of all exponentials and sines are in the ratio of the
 * odd numbers m, so that each follows from the last: e^−m by a product, the sine by turning through 2x.
 */
export function supportedCoefficient(plate: LoadedPlate): number {
  const { a, b, u, v } = turned(plate);
  const k = Math.PI / a;
  const B = (k * b) / 2;
  const V = (k * v) / 2;
  const x = (k * u) / 2;
  let e = exp(-2 * B);
  let rise = exp(-V);
  let fall = exp(V - 2 * B);
  let sine = sin(x);
  let cosine = cos(x);
  const eTwice = e * e;
  const riseTwice = rise * rise;
  const fallTwice = fall * fall;
  const turnSine = sin(2 * x);
  const turnCosine = cos(2 * x);
  let sum = 0;
  for (let m = 1; m < 2 * terms; m += 2) {
    sum += (sinc(m * x, sine) * strip(m * B, m * V, e, rise, fall)) / (m * m * m);
    e *= eTwice;
    rise *= riseTwice;
    fall *= fallTwice;
    const next = sine * turnCosine + cosine * turnSine;
    cosine = cosine * turnCosine - sine * turnSine;
    sine = next;
  }
  return sum / (2 * Math.PI * Math.PI * Math.PI);
}

function sinc(x: number, sine: number): number {
  return x < 1e-4 ? 1 - (x * x) / 6 : sine / x;
}

/**
 * Mean over |y| <= v/2 of [(1 + B·tanh B)·sinh s − s·cosh s]/cosh B with s = B − k|y|, B = k·b/2, V = k·v/2: what a line
 * load at y gives at the centre, by reciprocity. By e = exp(−2B), rise = exp(−V) and fall = exp(V − 2B), which do not overflow.
 */
function strip(B: number, V: number, e: number, rise: number, fall: number): number {
  const tanh = (1 - e) / (1 + e);
  // Below, the difference of nearly equal numbers; the error of taking the line for a point is of the order V².
  if (V < 1e-4) return tanh - (4 * B * e) / ((1 + e) * (1 + e));
  const cosh = (rise + fall) / (1 + e); // cosh (B − V) / cosh B
  const sinh = (rise - fall) / (1 + e); // sinh (B − V) / cosh B
  return ((2 + B * tanh) * (1 - cosh) - B * tanh + (B - V) * sinh) / V;
}
