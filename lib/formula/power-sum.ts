/**
 * powersum(a, b, …): what sources that are not synchronous make together. Their powers add: of field quantities (voltage, current,
 * sound pressure, field strength, gain of voltages) it is √(a² + b² + …), of quantities in proportion to a power a + b + ….
 * ISO 80000-1 Annex C. The tree holds that sum itself, so that nothing later needs to know the function.
 */
import type { CallExpression, Expression } from "./expression";

/** √(a² + b² + …), what the parser puts for powersum before dimensions are known. */
export function rootOfSquares(values: readonly Expression[]): Expression {
  return { call: "sqrt", of: [added(values.map((value) => ({ call: "power", of: [value, { number: 2 }] })))] };
}

/** The tree with a + b + … in the place of each root that `powers` lists with its values. */
export function withPowersAdded(expression: Expression, powers: ReadonlyMap<Expression, readonly Expression[]>): Expression {
  if (powers.size === 0 || !("call" in expression)) return expression;
  const within = (e: Expression) => withPowersAdded(e, powers);
  const values = powers.get(expression);
  return values === undefined ? { call: expression.call, of: expression.of.map(within) } : added(values.map(within));
}

/** None at all is left to the check, which refuses it. */
function added(values: readonly Expression[]): Expression {
  const [first, ...others] = values;
  return others.reduce<Expression>((left, right): CallExpression => ({ call: "add", of: [left, right] }), first ?? { number: 0 });
}
