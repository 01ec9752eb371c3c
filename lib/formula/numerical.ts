/**
 * Numerical value equations (ISO 80000-1:2022 6.3): laws published for numbers in stated units, such as
 * `I = k*dT^0.44*A^0.725` with dT in K and A in mil². Powers may be fractional; the result gets its unit.
 */
import { dimensionless } from "../quantity/dimension";
import type { Dim } from "../quantity/dimension-types";
import { WorkingsError } from "../quantity/error";
import type { DimOf } from "../quantity/quantity";
import {
  type AboutFormula,
  type AnyFormula,
  type AnyUnit,
  type Formula,
  type FormulaUnits,
  Law,
  type LawDefinition,
  type NumericalUnits,
} from "./formula";
import type { CheckedNumerical } from "./text";

/**
 * Defines a numerical value equation: symbols are numbers in the units given, so that only order of tokens and
 * names are checked, not dimensions. Throws WorkingsError('formula') where a unit is a level in decibels or a
 * wire gauge: its numbers are not proportional to the quantity.
 */
export function numericalFormula<const T extends string, const A extends FormulaUnits, U extends AnyUnit>(
  text: CheckedNumerical<T, A>,
  args: A,
  result: U,
  about: AboutFormula<A>,
): Formula<A, DimOf<U>>;
export function numericalFormula(text: string, args: FormulaUnits, result: AnyUnit, about: AboutFormula<FormulaUnits>): AnyFormula {
  return new NumericalLaw({ text, arguments: args, result, about, statedAs: () => ({ dimension: dimensionless }) });
}

class NumericalLaw<A extends FormulaUnits, D extends Dim> extends Law<A, D> {
  readonly numerical: NumericalUnits;

  constructor(definition: LawDefinition<A>) {
    super(definition);
    const entries = Object.entries(definition.arguments).map(([symbol, unit]) => [symbol, proportional(unit, symbol)] as const);
    this.numerical = { arguments: Object.fromEntries(entries), result: proportional(definition.result, this.name) };
  }
}

/** The symbol of a unit whose numbers are proportional to the quantity, or to its difference. */
function proportional({ symbol, factor }: AnyUnit, name: string): string {
  if (factor !== undefined) return symbol;
  throw new WorkingsError(
    "formula",
    `a numerical value equation cannot take ${name} in ${symbol}, whose numbers are not proportional to the quantity; state the unit of the quantity behind it`,
    { symbol: name, unit: symbol },
  );
}
