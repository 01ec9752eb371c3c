/** Nodes for tests, as short as they can be. */

import { parseFormula } from "../../lib/formula/parse";
import type {
  ChoiceNode,
  ConstantNode,
  CurveOperationNode,
  FormulaNode,
  GivenNode,
  GraphNode,
  ModelNode,
  SelectNode,
  SweepNode,
  TableNode,
} from "../../lib/graph/node";
import type { Normal, Rectangular, Spread } from "../../lib/quantity/spread";

const plain = { dimension: "1", unit: "1" };
const provenance = { source: "test" };

export const exact: Spread = { kind: "exact" };
export const within = (low: number, high: number): Rectangular => ({ kind: "rectangular", low, high });
export const range = (low: number, high: number): Spread => ({ kind: "range", low, high });
export const normal = (sigma: number, coverage = 3): Normal => ({ kind: "normal", sigma, coverage });

export function given(id: string, nominal: number, spread: Spread = exact): GivenNode {
  return { ...plain, kind: "given", id, path: id.split("#")[0] as string, text: String(nominal), nominal, spread, provenance };
}

/** `± part` of the nominal, rectangular. */
export function tolerant(id: string, nominal: number, part: number): GivenNode {
  const half = Math.abs(nominal) * part;
  return given(id, nominal, within(nominal - half, nominal + half));
}

export function constant(id: string, value: number): ConstantNode {
  return { ...plain, kind: "constant", id, value };
}

/** Symbols are the ids of other nodes unless `args` says otherwise. */
export function formula(id: string, text: string, args?: Record<string, string>, more: Partial<FormulaNode> = {}): FormulaNode {
  const { expression } = parseFormula(text);
  const symbols =
    args ??
    Object.fromEntries(
      [...new Set(text.match(/[A-Za-z_]\w*(?![\w(])/g) ?? [])].filter((name) => name !== "pi").map((name) => [name, name]),
    );
  return { ...plain, kind: "formula", id, text, expression, arguments: symbols, ...more };
}

export function table(id: string, x: number[], y: number[], interpolation: TableNode["interpolation"] = "linear"): TableNode {
  return { ...plain, kind: "table", id, path: id, xName: "x", yName: "y", xDimension: "1", xUnit: "1", x, y, interpolation, provenance };
}

export function choice(id: string, options: string[], chosen: string): ChoiceNode {
  return { ...plain, kind: "choice", id, path: id, options, chosen, provenance };
}

export function switchOf(id: string, choiceId: string, cases: Record<string, string>): GraphNode {
  return { ...plain, kind: "switch", id, choice: choiceId, cases };
}

export function select(id: string, of: string, more: Partial<SelectNode> = {}): SelectNode {
  return { ...plain, kind: "select", id, of, series: "E24", rule: "nearest", ...more };
}

export function sweep(id: string, of: string, over: string, points: number[]): SweepNode {
  return { ...plain, kind: "sweep", id, of, over, xDimension: "1", xUnit: "1", points };
}

export function reading(id: string, operation: CurveOperationNode["operation"], of: string, argument?: string): CurveOperationNode {
  return { ...plain, kind: "curve-operation", id, operation, of, ...(argument === undefined ? {} : { argument }) };
}

export function model(id: string, name: string, output: string, args: Record<string, string>): ModelNode {
  return { ...plain, kind: "model", id, model: name, output, arguments: args };
}
