/** Why a formula has no finite value: read again part by part, only the branches taken, until the part that fails. */
import { evaluate } from "../formula/evaluate";
import { WorkingsError } from "../quantity/error";
import { unitOf } from "../quantity/unit";
import { spelledName } from "./identity";
import type { FormulaNode, GraphNode } from "./node";

/** Throws "nominal-domain" for the first operation that has no finite value. `argument` gives SI values of symbols. */
export function diagnoseFormula(node: FormulaNode, argument: (symbol: string) => number): void {
  const symbols = Object.fromEntries(Object.keys(node.arguments).map((symbol) => [symbol, numberOf(node, symbol, argument(symbol))]));
  try {
    evaluate(node.expression, symbols);
  } catch (error) {
    if (!(error instanceof WorkingsError)) throw error;
    throw new WorkingsError("nominal-domain", `${nodeName(node)} = ${node.text}: ${error.message}`, {
      ...error.details,
      node: node.id,
      formula: node.text,
    });
  }
}

/** `indicators.R_g (series resistor)`; of a number read from a curve, the curve's own name. */
export function nodeName(node: GraphNode): string {
  if (node.id.startsWith("~")) return node.kind === "curve-operation" ? `the curve ${spelledName(node.of)}` : "an unnamed result";
  return node.meaning === undefined ? spelledName(node.id) : `${spelledName(node.id)} (${node.meaning})`;
}

/** What a numerical value equation reads for a quantity. */
function numberOf({ numerical }: FormulaNode, symbol: string, si: number): number {
  const unit = numerical?.arguments[symbol];
  return unit === undefined ? si : unitOf(unit).fromSI(si);
}
