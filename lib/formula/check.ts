/**
 * The verdict on a formula before any number is used: parsed, its dimensions checked, and asked for in the
 * dimension of its result. The types of `text.ts` give the same verdict in the same sentence.
 */
import { assignable, type Dimension } from "../quantity/dimension";
import { type Stated, sortWithin, symbolTable, type Wording } from "./dimensions";
import type { Expression } from "./expression";
import { FaultFound, formulaError, found } from "./fault";
import { levelWords } from "./level-words";
import { type Parsed, parseWords } from "./parse";
import { withPowersAdded } from "./power-sum";

export type { Stated } from "./dimensions";

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
 * Parses a formula, checks its dimensions and what it does with levels; with `result`, also that it may be asked for in that unit.
 * Refusals are returned; see `checkedFormula` for the variant that throws.
 */
export function checkFormula(text: string, symbols: Readonly<Record<string, Stated>>, result?: Stated): CheckedFormula | RefusedFormula {
  try {
    return check(text, symbols, result);
  } catch (error) {
    if (error instanceof FaultFound) return { error: error.fault.sentence, at: error.fault.at };
    throw error;
  }
}

/** As checkFormula, throwing WorkingsError('formula') with text, column and sentence. */
export function checkedFormula(text: string, symbols: Readonly<Record<string, Stated>>, result?: Stated): CheckedFormula {
  const verdict = checkFormula(text, symbols, result);
  if ("error" in verdict) throw formulaError(text, { sentence: verdict.error, at: verdict.at });
  return verdict;
}

function check(text: string, symbols: Readonly<Record<string, Stated>>, result: Stated | undefined): CheckedFormula {
  const known = symbolTable(symbols);
  const parsed = parseWords(text, (word) => known(word) !== undefined);
  const wordingOf = (e: Expression) => parsed.wording.get(e) as Wording;
  const { dimension, form, powers } = sortWithin(parsed.expression, known, wordingOf);
  const { text: whole, at } = wordingOf(parsed.expression);
  if (form === "log" && result?.log !== undefined) found(`${whole} is ${levelWords.result}`, at);
  if (result !== undefined && !assignable(dimension, result.dimension)) {
    found(`${whole} is ${dimension.label}, not ${result.dimension.label}`, at);
  }
  return { ...parsed, expression: withPowersAdded(parsed.expression, powers), dimension };
}
