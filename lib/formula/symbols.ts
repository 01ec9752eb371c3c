/** Which symbols a tree needs. */
import type { Expression } from "./expression";

/** Symbols of an expression, each once, in the order of first appearance. */
export function symbolsOf(expression: Expression): readonly string[] {
  const found = new Set<string>();
  collect(expression, found);
  return [...found];
}

function collect(expression: Expression, found: Set<string>): void {
  if ("symbol" in expression) found.add(expression.symbol);
  if ("call" in expression) for (const inner of expression.of) collect(inner, found);
}
