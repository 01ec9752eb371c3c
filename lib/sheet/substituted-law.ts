/** A law with numbers: the values in the place of its symbols. */
import type { Expression } from "../formula/expression";
import { typeset } from "../formula/typeset";
import type { NodeId } from "../graph/node";
import type { SubstitutedLaw } from "./block";

/** A value with the unit that it is shown in. */
export interface LawValue {
  readonly node: NodeId;
  readonly unit: string;
}

/** The law with a placeholder for each value; a symbol that has none stays as it is. */
export function substitutedLaw(expression: Expression, valueFor: (symbol: string) => LawValue | undefined): SubstitutedLaw {
  const values: LawValue[] = [];
  const latex = typeset(expression, (symbol) => {
    const value = valueFor(symbol);
    if (value === undefined) return symbol;
    values.push(value);
    return `\\text{⟦${values.length - 1}⟧}`;
  });
  return { latex, values };
}
