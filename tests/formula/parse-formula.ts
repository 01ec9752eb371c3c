/** The tree of a formula's text by itself, as tests make and read them. */
import { sortWithin, type Wording } from "../../lib/formula/dimensions";
import type { Expression } from "../../lib/formula/expression";
import { FaultFound, formulaError } from "../../lib/formula/fault";
import { parseWords } from "../../lib/formula/parse";
import { dimensionless } from "../../lib/quantity/dimension";

/** A formula's tree and the symbol of its result. */
interface ParsedFormula {
  readonly name?: string;
  readonly expression: Expression;
}

/**
 * The tree of a formula, whatever the dimensions of its symbols. `symbols` are names that mean a symbol even
 * though a constant (`e`) has that name. Throws WorkingsError('formula') with text, column and sentence where
 * tokens are out of order, a function is unknown or takes another number of values, or a condition is misplaced.
 */
export function parseFormula(text: string, symbols: readonly string[] = []): ParsedFormula {
  const given = new Set(symbols);
  try {
    const { wording, ...formula } = parseWords(text, (word) => given.has(word));
    // Were every symbol a bare number, only faults that do not hang on dimensions are left.
    sortWithin(
      formula.expression,
      () => ({ dimension: dimensionless }),
      (e) => wording.get(e) as Wording,
    );
    return formula;
  } catch (error) {
    throw error instanceof FaultFound ? formulaError(text, error.fault) : error;
  }
}
