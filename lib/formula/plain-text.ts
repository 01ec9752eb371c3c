/**
 * A tree as formula text again, with the fewest brackets that keep its shape: parsing it gives the same tree.
 * Binds, weakest first: comparison, sum, product, sign, power (right to left), as in `parse.ts`.
 */
import type { CallExpression, Expression, Operation } from "./expression";
import { comparisonText } from "./functions";

const level = { comparison: 0, sum: 1, product: 2, sign: 3, power: 4, atom: 5 } as const;

const levels: Partial<Record<Operation, number>> = {
  add: level.sum,
  subtract: level.sum,
  multiply: level.product,
  divide: level.product,
  negate: level.sign,
  power: level.power,
};

const signs: Partial<Record<Operation, string>> = { add: " + ", subtract: " - ", multiply: "*", divide: "/", power: "^" };

/** Formula text of a tree. A negative number, which no text parses to, is put in brackets. */
export function plainText(expression: Expression): string {
  if ("symbol" in expression) return expression.symbol;
  if ("constant" in expression) return expression.constant;
  if ("number" in expression) return expression.number < 0 ? `(${expression.number})` : String(expression.number);
  return callText(expression);
}

function levelOf(expression: Expression): number {
  if (!("call" in expression)) return level.atom;
  if (comparisonText.has(expression.call)) return level.comparison;
  return levels[expression.call] ?? level.atom;
}

function callText({ call, of }: CallExpression): string {
  const [left, right] = of as [Expression, Expression];
  if (call === "negate") return `-${atLeast(left, level.sign)}`;
  if (call === "power") return `${atLeast(left, level.atom)}^${atLeast(right, level.sign)}`;
  const comparison = comparisonText.get(call);
  if (comparison !== undefined) return `${atLeast(left, level.comparison)} ${comparison} ${atLeast(right, level.sum)}`;
  const sign = signs[call];
  if (sign === undefined) return `${call}(${of.map(plainText).join(", ")})`;
  const own = levels[call] as number;
  return atLeast(left, own) + sign + atLeast(right, own + 1);
}

function atLeast(expression: Expression, least: number): string {
  const text = plainText(expression);
  return levelOf(expression) >= least ? text : `(${text})`;
}
