/**
 * Exponents of dimensioned bases must be readable without knowing any value: a literal number or a quotient of
 * two (`2`, `-1`, `1/2`, `-3/2`, `0.5`). They are kept as a ratio of integers so that powers of units stay exact.
 */
import type { Expression } from "./expression";

export interface Ratio {
  readonly numerator: number;
  readonly denominator: number;
}

const largestNumerator = 12;
const denominators = [1, 2, 3];

/** The value of a literal exponent; undefined where it is not a literal. */
export function literalExponent(expression: Expression): number | undefined {
  if ("call" in expression && expression.call === "divide") {
    const [over, under] = expression.of.map(signedNumber);
    return over === undefined || under === undefined ? undefined : over / under;
  }
  if ("call" in expression && expression.call === "negate") {
    const value = literalExponent(expression.of[0] as Expression);
    return value === undefined ? undefined : -value;
  }
  return signedNumber(expression);
}

function signedNumber(expression: Expression): number | undefined {
  if ("number" in expression) return expression.number;
  if (!("call" in expression) || expression.call !== "negate") return undefined;
  const value = signedNumber(expression.of[0] as Expression);
  return value === undefined ? undefined : -value;
}

/** The exponent as whole, half or third; undefined where it is none, or beyond the twelfth power. */
export function asRatio(exponent: number): Ratio | undefined {
  for (const denominator of denominators) {
    const numerator = Math.round(exponent * denominator);
    // n/3 is not exact in binary, but the quotient of the same two integers is always the same number.
    if (numerator / denominator === exponent && Math.abs(numerator) <= largestNumerator) return { numerator, denominator };
  }
  return undefined;
}
