/** The value of a formula's tree for one set of numbers, by recursion; where it has none, the part that fails is named. */
import { WorkingsError } from "../quantity/error";
import type { CallExpression, Expression } from "./expression";
import { operations } from "./operations";
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
  const value = computed(expression, values);
  if (Number.isFinite(value)) return value;
  throw new WorkingsError(
    "not-finite",
    `${plainText(expression)} has no finite value: ${expression.of.map((e, i) => `${plainText(e)} is ${values[i]}`).join(", ")}`,
    { expression: plainText(expression) },
  );
}

/** `min` and `max` take two or more. */
function computed({ call }: CallExpression, values: readonly number[]): number {
  const [first, second = Number.NaN, ...others] = values as [number, ...number[]];
  const operation = operations[call];
  return others.reduce((value, other) => operation(value, other, Number.NaN), operation(first, second, Number.NaN));
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
