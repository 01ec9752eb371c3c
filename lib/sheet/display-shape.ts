/** Whether a stored display has the shape that this library writes: outputs may have been edited, or be of another version. */
import type { GraphNode } from "../graph/node";
import { kinds } from "./kinds";
import { byKind, end, fields, flag, listOf, mapOf, node, number, oneOf, type Shape, text } from "./shape";

const common = { id: text, dimension: text, unit: text };
const words = { symbol: text, meaning: text };
const provenance = fields({ source: text }, { note: text, fromMemory: flag, place: text });
const read = { ...common, path: text, provenance };
const scale = { scale: fields({ factor: oneOf(10, 20), reference: number }), freedom: number };
const ends = fields({ low: number, high: number }, scale);
const spread = byKind("kind", {
  exact: fields({}),
  rectangular: ends,
  triangular: ends,
  split: ends,
  range: ends,
  normal: fields({ sigma: number, coverage: number }, scale),
  discrete: fields({ values: listOf(number, 1) }, { shares: listOf(number) }),
});
const shared: Shape = (value, place, nodes) => fields({ weight: number }, { with: text, common: text })(value, place, nodes);

/** A tree of operations, whose depth is that of a formula. */
const expression: Shape = (value, place, nodes) => {
  const call = fields({}, { call: text, of: listOf(expression, 1), number, symbol: text, constant: text })(value, place, nodes);
  if (call !== undefined) return call;
  const known = ["number", "symbol", "constant"].filter((key) => Object.hasOwn(value as object, key)).length;
  const isCall = Object.hasOwn(value as object, "call") && Object.hasOwn(value as object, "of");
  return known + Number(isCall) === 1 ? undefined : `${place} is no expression`;
};

const nodeShapes: Readonly<Record<GraphNode["kind"], Shape>> = {
  given: fields({ ...read, text, nominal: number, spread }, { ...words, shared: listOf(shared), knowledge: flag, doubt: spread }),
  reading: fields({ ...common, of: node, text, nominal: number, spread, provenance }, { ...words, evidence: flag, specimen: text }),
  table: fields(
    { ...read, xName: text, yName: text, xDimension: text, xUnit: text, x: listOf(number, 1), y: listOf(number, 1), interpolation: text },
    words,
  ),
  choice: fields({ ...read, options: listOf(text, 1), chosen: text }, words),
  constant: fields({ ...common, value: number }, words),
  frozen: fields({ ...common, value: number, reads: listOf(text) }, words),
  formula: fields(
    { ...common, text, expression, arguments: mapOf(node) },
    {
      ...words,
      source: text,
      valid: listOf(fields({ symbol: text, low: end, high: end, text })),
      numerical: fields({ arguments: mapOf(text), result: text }),
    },
  ),
  model: fields({ ...common, model: text, output: text, arguments: mapOf(node) }, words),
  select: fields(
    { ...common, of: node, series: text, rule: text },
    { ...words, deviation: node, pair: fields({ joined: oneOf("series", "parallel"), part: oneOf("larger", "smaller") }) },
  ),
  "set-once": fields({ ...common, of: node }, words),
  switch: fields({ ...common, choice: node, cases: mapOf(node) }, words),
  sweep: fields({ ...common, of: node, over: node, xDimension: text, xUnit: text, points: listOf(number, 2) }, words),
  "curve-operation": fields(
    { ...common, operation: oneOf("at", "maximum", "minimum", "crossing", "integral"), of: node },
    { ...words, argument: node },
  ),
};
const nodes = byKind("kind", nodeShapes);

const display = fields(
  { sheet: text, block: byKind("type", kinds), nodes: listOf(nodes) },
  { refers: listOf(text), warnings: listOf(text) },
);

/** What is wrong with a stored display, if anything; `named` gets the ids of all nodes that it names. */
export function displayFault(value: unknown, named: string[]): string | undefined {
  return display(value, "", named);
}
