/**
 * What is wrong with a formula, as one sentence that the compiler and the run time word alike. A sentence
 * begins with ✗, so that as a type no quantity or text can be assigned to it.
 */
import { WorkingsError } from "../quantity/error";

/** A sentence about a formula, and where in its text the trouble is. */
export interface FormulaFault {
  readonly sentence: string;
  /** Offset in the text, from 0, in UTF-16 units. */
  readonly at: number;
}

/** The error that stops work on a formula; `details` has the sentence without mark, the text and the offset. */
export function formulaError(text: string, fault: FormulaFault): WorkingsError {
  const sentence = fault.sentence.replace(/^✗ /, "");
  return new WorkingsError("formula", `in the formula "${text}", column ${fault.at + 1}: ${sentence}`, { text, at: fault.at, sentence });
}

/** Carries a fault out of a recursion; never leaves this folder. */
export class FaultFound extends Error {
  constructor(readonly fault: FormulaFault) {
    super(fault.sentence);
  }
}

/** Throws a fault with this sentence, the mark put before it. */
export function found(sentence: string, at: number): never {
  throw new FaultFound({ sentence: `✗ ${sentence}`, at });
}
