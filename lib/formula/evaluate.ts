/**
 * The value of a tree for one set of numbers: plain recursion, for checks and single values. Sampling compiles
 * the same tree elsewhere. Powers by `power()`, which is the same on every engine.
 */
import { acos, asin, atan, atan2, cbrt, cos, cosh, exp, ln, log2, log10, sin, sinh, tan, tanh } from "../quantity/elementary";
import { WorkingsError } from "../quantity/error";
import { power } from "../quantity/power";
import type { CallExpression, Expression, Operation } from "./expression";
import { plainText } from "./plain-text";

/**
 * Value of an expression, its symbols as plain numbers (coherent SI unless the law is a numerical value
 * equation). `if` evaluates only the branch it takes. Throws WorkingsError: 'division-by-zero' or 'not-finite',
 * naming the sub-expression, and 'formula' for a symbol without a number.
 */
export function evaluate(expression: Expression, symbols: Readonly<Record<string, number>>): number {
  if ("number" in expression) return expression.number;
  if ("constant" in expression) return expression.constant === "pi" ? Math.PI : Math.E;
  if ("symbol" in expression) return symbolValue(expression.symbol, symbols);
  if (expression.call === "if") {
    const [condition, value, otherwise] = expression.of as [Expression, Expression, Expression];
    return evaluate(evaluate(condition, symbols) === 1 ? value : otherwise, symbols);
  }
  return apply(
    expression,
    expression.of.map((e) => evaluate(e, symbols)),
  );
}

function symbolValue(name: string, symbols: Readonly<Record<string, number>>): number {
  const value = Object.hasOwn(symbols, name) ? symbols[name] : undefined;
  if (value === undefined)
    throw new WorkingsError("formula", `the formula needs a number for '${name}'; given are ${Object.keys(symbols).join(", ") || "none"}`, {
      symbol: name,
    });
  return value;
}

function apply(expression: CallExpression, values: readonly number[]): number {
  const [a, b] = values as [number, number];
  if (expression.call === "divide" && b === 0) throw divisionByZero(expression, 1);
  if (expression.call === "power" && a === 0 && b < 0) throw divisionByZero(expression, 0);
  const value = operations[expression.call as Computed](...(values as [number, number]));
  if (Number.isFinite(value)) return value;
  throw new WorkingsError(
    "not-finite",
    `${plainText(expression)} has no finite value: ${expression.of.map((e, i) => `${plainText(e)} is ${values[i]}`).join(", ")}`,
    { expression: plainText(expression) },
  );
}

function divisionByZero(expression: CallExpression, zero: 0 | 1): WorkingsError {
  const text = plainText(expression);
  const divisor = plainText(expression.of[zero] as Expression);
  return new WorkingsError(
    "division-by-zero",
    `${text} divides by zero: ${divisor} is 0 there; exclude that case with if() or change the givens it comes from`,
    { expression: text, divisor },
  );
}

type Computed = Exclude<Operation, "if">;

/** Conditions are 1 and 0. */
const operations: Record<Computed, (...values: [number, number]) => number> = {
  add: (a, b) => a + b,
  subtract: (a, b) => a - b,
  multiply: (a, b) => a * b,
  divide: (a, b) => a / b,
  power,
  negate: (a) => -a,
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
  min: Math.min,
  max: Math.max,
  less: (a, b) => Number(a < b),
  lessEqual: (a, b) => Number(a <= b),
  greater: (a, b) => Number(a > b),
  greaterEqual: (a, b) => Number(a >= b),
  equal: (a, b) => Number(a === b),
  unequal: (a, b) => Number(a !== b),
};
