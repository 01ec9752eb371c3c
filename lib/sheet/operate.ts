/** Arithmetic on quantities outside a formula text, as nodes named by a hash of what they compute. */
import { dimensionOf } from "../formula/dimensions";
import type { Expression, Operation } from "../formula/expression";
import { plainText } from "../formula/plain-text";
import { contentId } from "../graph/identity";
import type { NodeId } from "../graph/node";
import { coherentUnit } from "../quantity/coherent-unit";
import type { Dimension } from "../quantity/dimension";
import type { AnyQuantity, Session } from "./session";

const letters = ["a", "b", "c", "d", "e_", "f", "g", "h"];

/** Adds the node for `operation` on `operands`, bare numbers among them, and returns its id. */
export function addOperation(session: Session, operation: Operation, operands: readonly (AnyQuantity | number)[]): NodeId {
  const names: Record<string, NodeId> = {};
  const symbols: Record<string, Dimension> = {};
  const of = operands.map((operand, i): Expression => {
    if (typeof operand === "number") return { number: operand };
    const symbol = letters[i] ?? `x_${i}`;
    names[symbol] = session.enter(operand);
    symbols[symbol] = operand.dimension;
    return { symbol };
  });
  const expression: Expression = { call: operation, of };
  const dimension = dimensionOf(expression, symbols);
  const content = {
    kind: "formula" as const,
    dimension: dimension.key,
    unit: coherentUnit(dimension).symbol,
    text: plainText(expression),
    expression,
    arguments: names,
  };
  return session.add({ id: contentId(content), ...content });
}
