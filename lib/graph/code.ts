/** Operations as small numbers, in the order in which the interpreters test them. */
import type { Operation } from "../formula/expression";

/** Codes of the operations of formulas; 0 to 63. */
export const code: Readonly<Record<Operation, number>> = {
  add: 0,
  subtract: 1,
  multiply: 2,
  divide: 3,
  negate: 4,
  power: 5,
  sqrt: 6,
  cbrt: 7,
  exp: 8,
  ln: 9,
  log10: 10,
  log2: 11,
  sin: 12,
  cos: 13,
  tan: 14,
  asin: 15,
  acos: 16,
  atan: 17,
  atan2: 18,
  sinh: 19,
  cosh: 20,
  tanh: 21,
  abs: 22,
  sign: 23,
  ceil: 24,
  floor: 25,
  round: 26,
  min: 27,
  max: 28,
  if: 29,
  less: 30,
  lessEqual: 31,
  greater: 32,
  greaterEqual: 33,
  equal: 34,
  unequal: 35,
};

/**
 * Codes of pairs of operations that formulas hold often, on a, b and c: one instruction instead of two saves the trip
 * of what is between through memory. The same operations in the same order, so the same bits.
 */
export const fused = {
  /** a·b + c */ multiplyAdd: 40,
  /** a·b − c */ multiplySubtract: 41,
  /** c − a·b */ subtractMultiply: 42,
  /** (a + b)·c */ addMultiply: 43,
  /** (a − b)·c */ differenceMultiply: 44,
  /** (a + b)/c */ addDivide: 45,
  /** (a − b)/c */ differenceDivide: 46,
  /** a·b·c */ multiplyMultiply: 47,
  /** a·b/c */ multiplyDivide: 48,
  /** a/b + c */ divideAdd: 49,
  /** a + b + c */ addAdd: 50,
} as const;

/** The fused code of `outer` whose left or right operand is `inner`; undefined where there is none. */
export function fusedCode(inner: Operation, outer: Operation, side: "left" | "right"): number | undefined {
  return pairs[side === "left" || outer === "add" || outer === "multiply" ? `${inner} ${outer}` : `${inner} from ${outer}`];
}

const pairs: Readonly<Record<string, number>> = {
  "multiply add": fused.multiplyAdd,
  "multiply subtract": fused.multiplySubtract,
  "multiply from subtract": fused.subtractMultiply,
  "add multiply": fused.addMultiply,
  "subtract multiply": fused.differenceMultiply,
  "add divide": fused.addDivide,
  "subtract divide": fused.differenceDivide,
  "multiply multiply": fused.multiplyMultiply,
  "multiply divide": fused.multiplyDivide,
  "divide add": fused.divideAdd,
  "add add": fused.addAdd,
};

/** An instruction that is not arithmetic on numbers: a selection, a model, a curve. */
export const special = 64;
