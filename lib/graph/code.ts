/** The operations of an instruction as small numbers. What each computes stands in `formula/operations.ts`. */
import type { Operation } from "../formula/expression";
import { type OperationValue, operations } from "../formula/operations";

/** One member for each operation of formulas, called as it is there. */
export enum Code {
  add,
  subtract,
  multiply,
  divide,
  negate,
  power,
  sqrt,
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
  abs,
  sign,
  ceil,
  floor,
  round,
  min,
  max,
  if,
  less,
  lessEqual,
  greater,
  greaterEqual,
  equal,
  unequal,
}

/** An instruction that is no operation of a formula: a selection, a model, a curve. */
export const special = -1;

/** The code of an operation; undefined for a name that is none. */
export function codeOf(name: Operation): Code | undefined {
  return Object.hasOwn(operations, name) ? Code[name] : undefined;
}

/** What the operations compute, by code. */
export const operationsByCode: readonly OperationValue[] = Object.values(Code)
  .filter((member): member is Operation => typeof member === "string")
  .map((name) => operations[name]);
