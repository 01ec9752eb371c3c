/** A law with numbers: the values in the place of its symbols. */
import type { Expression } from "../formula/expression";
import { typeset } from "../formula/typeset";
import type { NodeId } from "../graph/node";
import { type Dimension, dimension } from "../quantity/dimension";
import { namedDimensions } from "../quantity/named-dimensions";
import { unitOf } from "../quantity/unit";
import type { SubstitutedLaw } from "./block";

/** A value with its dimension (`Dimension.key`) and the unit that it is shown in. */
export interface LawValue {
  readonly node: NodeId;
  readonly unit: string;
  readonly dimension: string;
}

/** The law with a placeholder for each value; a symbol that has none stays as it is. */
export function substitutedLaw(expression: Expression, valueFor: (symbol: string) => LawValue | undefined): SubstitutedLaw {
  const multiplied = factors(expression);
  const { latex, symbols } = placedLaw(expression, (symbol) => valueFor(symbol) !== undefined);
  const values = symbols.map((symbol) => {
    const { node, unit, dimension: key } = valueFor(symbol) as LawValue;
    return { node, unit: multiplied.has(symbol) ? factorUnit(unit, dimension(key)) : unit };
  });
  return { latex, values };
}

/** The law typeset with a placeholder for each symbol that has a value, and these symbols in the order of the placeholders. */
export function placedLaw(
  expression: Expression,
  hasValue: (symbol: string) => boolean = () => true,
): { readonly latex: string; readonly symbols: readonly string[] } {
  const symbols: string[] = [];
  const latex = typeset(expression, (symbol) => (hasValue(symbol) ? `\\text{⟦${symbols.push(symbol) - 1}⟧}` : symbol));
  return { latex, symbols };
}

/** Symbols that stand somewhere else than in a sum or a comparison: what multiplies there is the quantity, not its reading on a scale. */
function factors(expression: Expression): ReadonlySet<string> {
  const found = new Set<string>();
  const visit = (part: Expression, above: string) => {
    if ("symbol" in part && !scaled.has(above)) found.add(part.symbol);
    if ("call" in part) for (const argument of part.of) visit(argument, part.call);
  };
  visit(expression, "add");
  return found;
}

/** Where a point of a scale, or a level, may stand as it is read. */
const scaled: ReadonlySet<string> = new Set([
  ...["add", "subtract", "negate", "abs", "min", "max", "if", "round", "ceil", "floor"],
  ...["less", "lessEqual", "greater", "greaterEqual", "equal", "unequal"],
]);

/** 5 °C multiplies as 278.15 K, 14 dB as 5.01. A level of a quantity whose unit has no name stays a level. */
function factorUnit(symbol: string, { si, kind }: Dimension): string {
  const { affine, log } = unitOf(symbol);
  if (affine) return "K";
  if (log === undefined) return symbol;
  return namedDimensions.find((row) => row.si === si && row.kind === kind)?.unit ?? symbol;
}
