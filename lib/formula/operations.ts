/** What each operation of a formula computes. Conditions are 1 and 0; powers and functions are the same on every engine. */
import { acos, asin, atan, atan2, cbrt, cos, cosh, exp, ln, log2, log10, sin, sinh, tan, tanh } from "../quantity/elementary";
import { power } from "../quantity/power";

/** Value at operands a, b, c, as many as the operation has; NaN or an infinity outside its domain. */
export type OperationValue = (a: number, b: number, c: number) => number;

export const operations = {
  add: (a, b) => a + b,
  subtract: (a, b) => a - b,
  multiply: (a, b) => a * b,
  divide: (a, b) => a / b,
  negate: (a) => -a,
  power,
  sqrt: Math.sqrt,
  cbrt,
  exp,
  ln,
  log10,
  log2,
  sin,
  cos,
  tan,
  asin,
  acos,
  atan,
  atan2,
  sinh,
  cosh,
  tanh,
  abs: Math.abs,
  sign: Math.sign,
  ceil: Math.ceil,
  floor: Math.floor,
  round: Math.round,
  min: (a, b) => Math.min(a, b),
  max: (a, b) => Math.max(a, b),
  if: (condition, value, otherwise) => (Number.isNaN(condition) ? Number.NaN : condition !== 0 ? value : otherwise),
  less: (a, b) => truth(a, b, a < b),
  lessEqual: (a, b) => truth(a, b, a <= b),
  greater: (a, b) => truth(a, b, a > b),
  greaterEqual: (a, b) => truth(a, b, a >= b),
  equal: (a, b) => truth(a, b, a === b),
  unequal: (a, b) => truth(a, b, a !== b),
} satisfies Readonly<Record<string, OperationValue>>;

/** 1 or 0; NaN where either side is, so that a failed draw stays visible. */
function truth(a: number, b: number, holds: boolean): number {
  if (Number.isNaN(a) || Number.isNaN(b)) return Number.NaN;
  return holds ? 1 : 0;
}
