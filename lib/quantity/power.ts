/**
 * x to the power y, the same to the last bit on every engine: `Math.pow` and `**` are not, whereas products, quotients,
 * square roots and the functions of `elementary.ts` are.
 */
import { exp, ln } from "./elementary";

const largestInteger = 64;

/**
 * x^y. Whole and half y up to 64 by multiplication and one square root (within a few units in the last place);
 * any other y as exp(y·ln x), relative error about |y·ln x|·2⁻⁵³. NaN for negative x and fractional y.
 */
export function power(x: number, y: number): number {
  if (y < 0) return 1 / power(x, -y);
  const whole = Math.floor(y);
  if (y > largestInteger) return exponential(x, y);
  if (y === whole) return wholePower(x, whole);
  if (y - whole === 0.5) return wholePower(x, whole) * Math.sqrt(x);
  return exponential(x, y);
}

/** x^n for whole n >= 0 by squaring. */
function wholePower(x: number, n: number): number {
  let result = 1;
  let square = x;
  for (let rest = n; rest > 0; rest = rest >> 1) {
    if (rest & 1) result *= square;
    square *= square;
  }
  return result;
}

function exponential(x: number, y: number): number {
  if (x === 0) return 0;
  if (x < 0) return signedExponential(x, y);
  return exp(y * ln(x));
}

/** Negative bases have powers at whole exponents only. */
function signedExponential(x: number, y: number): number {
  if (y !== Math.floor(y)) return Number.NaN;
  const size = exp(y * ln(-x));
  return y % 2 === 0 ? size : -size;
}
