/** Why a formula has no finite value: read again part by part, only the branches taken, until the part that fails. */
import type { CallExpression, Expression } from "../formula/expression";
import { plainText } from "../formula/plain-text";
import { WorkingsError } from "../quantity/error";
import { code } from "./code";
import type { FormulaNode, GraphNode, NumberScale } from "./node";
import { scalar } from "./scalar";

/** Throws "nominal-domain" for the first operation that has no finite value. `argument` gives SI values of symbols. */
export function diagnoseFormula(node: FormulaNode, argument: (symbol: string) => number): void {
  evaluate(node.expression, (symbol) => numberIn(argument(symbol), node.numerical?.arguments[symbol]), node);
}

/** `indicators.R_g (series resistor)`. */
export function nodeName(node: GraphNode): string {
  return node.meaning === undefined ? node.id : `${node.id} (${node.meaning})`;
}

function numberIn(si: number, scale: NumberScale | undefined): number {
  return scale === undefined ? si : (si - scale.offset) / scale.factor;
}

function evaluate(expression: Expression, symbol: (name: string) => number, node: FormulaNode): number {
  if ("number" in expression) return expression.number;
  if ("constant" in expression) return expression.constant === "pi" ? Math.PI : Math.E;
  if ("symbol" in expression) return symbol(expression.symbol);
  if (expression.call === "if") return branch(expression, symbol, node);
  const operands = expression.of.map((part) => evaluate(part, symbol, node));
  const value = apply(expression.call, operands);
  if (!Number.isFinite(value)) throw domainError(expression, operands, node);
  return value;
}

function branch({ of }: CallExpression, symbol: (name: string) => number, node: FormulaNode): number {
  const [condition, value, otherwise] = of as [Expression, Expression, Expression];
  return evaluate(evaluate(condition, symbol, node) !== 0 ? value : otherwise, symbol, node);
}

function apply(call: CallExpression["call"], operands: readonly number[]): number {
  const [a = Number.NaN, b = Number.NaN, c = Number.NaN] = operands;
  if (call === "min" || call === "max") return operands.slice(1).reduce((x, y) => scalar(code[call], x, y, 0), a);
  return scalar(code[call], a, b, c);
}

function domainError(expression: CallExpression, operands: readonly number[], node: FormulaNode): WorkingsError {
  const message = `${nodeName(node)}: ${reason(expression, operands)} in ${node.text}`;
  return new WorkingsError("nominal-domain", message, { node: node.id, formula: node.text });
}

function reason(expression: CallExpression, operands: readonly number[]): string {
  const parts = expression.of.map((part) => plainText(part));
  const [a = 0, b = 0] = operands;
  switch (expression.call) {
    case "divide":
      return b === 0 ? `division by zero: ${parts[1]} is 0` : `${plainText(expression)} is too large a number`;
    case "sqrt":
      return `the square root of a negative number: ${parts[0]} is ${a}`;
    case "ln":
    case "log10":
    case "log2":
      return `the logarithm of a number that is not positive: ${parts[0]} is ${a}`;
    case "asin":
    case "acos":
      return `${expression.call}() needs a number from -1 to 1: ${parts[0]} is ${a}`;
    case "power":
      return a === 0 ? `division by zero: ${parts[0]} is 0 and its exponent is ${b}` : `${parts[0]} = ${a} has no finite power ${b}`;
    default:
      return `${plainText(expression)} has no finite value (operands ${operands.join(", ")})`;
  }
}
