/**
 * The verdict on a formula before any number is used: parsed, its dimensions checked, and asked for in the
 * dimension of its result. The types of `text.ts` give the same verdict in the same sentence.
 */
import { assignable, type Dimension } from "../quantity/dimension";
import { dimensionWithin, symbolTable, type Wording } from "./dimensions";
import type { Expression } from "./expression";
import { FaultFound, formulaError, found } from "./fault";
import { type Parsed, parseWords } from "./parse";

export { dimensionOf } from "./dimensions";

/** A formula whose dimensions fit. */
export interface CheckedFormula extends Parsed {
  readonly dimension: Dimension;
}

/** Why a formula is refused: the sentence (beginning with ✗) and the offset in its text. */
export interface RefusedFormula {
  readonly error: string;
  readonly at: number;
}

/**
 * Parses a formula and checks its dimensions; with `result`, also that it may be asked for in that dimension.
 * Refusals are returned; see `checkedFormula` for the variant that throws.
 */
export function checkFormula(
  text: string,
  symbols: Readonly<Record<string, Dimension>>,
  result?: Dimension,
): CheckedFormula | RefusedFormula {
  try {
    return check(text, symbols, result);
  } catch (error) {
    if (error instanceof FaultFound) return { error: error.fault.sentence, at: error.fault.at };
    throw error;
  }
}

/** As checkFormula, throwing WorkingsError('formula') with text, column and sentence. */
export function checkedFormula(text: string, symbols: Readonly<Record<string, Dimension>>, result?: Dimension): CheckedFormula {
  const verdict = checkFormula(text, symbols, result);
  if ("error" in verdict) throw formulaError(text, { sentence: verdict.error, at: verdict.at });
  return verdict;
}

function check(text: string, symbols: Readonly<Record<string, Dimension>>, result: Dimension | undefined): CheckedFormula {
  const known = symbolTable(symbols);
  const parsed = parseWords(text, (word) => known(word) !== undefined);
  const wordingOf = (e: Expression) => parsed.wording.get(e) as Wording;
  const dimension = dimensionWithin(parsed.expression, known, wordingOf);
  if (result !== undefined && !assignable(dimension, result)) {
    const { text: whole, at } = wordingOf(parsed.expression);
    found(`${whole} is ${dimension.label}, not ${result.label}`, at);
  }
  return { ...parsed, dimension };
}
