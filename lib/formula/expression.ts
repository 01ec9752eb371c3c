/**
 * The syntax tree of a formula: plain data that every later floor evaluates, differentiates, typesets and
 * stores. Nothing below this floor, and nothing in the page, needs the parser that made it.
 */
import type { operations } from "./operations";

/** Every operation that an expression may hold. Names are spelled out so that a stored tree reads by itself. */
export type Operation = keyof typeof operations;

/** A number as the author typed it. */
interface NumberExpression {
  readonly number: number;
}
/** A symbol bound to an argument when the formula is used. */
interface SymbolExpression {
  readonly symbol: string;
}
/** pi or e. */
interface ConstantExpression {
  readonly constant: "pi" | "e";
}
/** An operation on sub-expressions; `if` has three: condition, value, otherwise. min and max have two or more. */
export interface CallExpression {
  readonly call: Operation;
  readonly of: readonly Expression[];
}

export type Expression = NumberExpression | SymbolExpression | ConstantExpression | CallExpression;
