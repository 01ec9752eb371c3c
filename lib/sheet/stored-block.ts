/** Blocks as a notebook's output holds them: givens a line each; of a result its law and the law with numbers follow from the node, and are left out. */
import { typeset } from "../formula/typeset";
import type { FormulaNode, GraphNode, NodeId } from "../graph/node";
import { sameContent } from "../graph/serialise";
import type { Block, ResultBlock, TableBlock } from "./block";
import { pairsInLine, pairsOfLine } from "./pairs";
import { isFields } from "./shape";
import { placedLaw } from "./substituted-law";

type Nodes = ReadonlyMap<NodeId, GraphNode>;
type Fields = Readonly<Record<string, unknown>>;

/** `nodes`: those of the same output. */
export function storeBlock(block: Block, nodes: Nodes): Fields {
  if (block.type === "givens" && block.rows.every(({ symbol }) => !/\s/.test(symbol)))
    return { ...block, rows: block.rows.map(({ symbol, node }) => `${symbol} ${node}`) };
  if (block.type === "table") return { ...block, rows: block.rows.map(storeRow) };
  if (block.type === "decision") {
    const near = (name: string, values: Fields) => mapped(values, (id) => nearOption(block.choice, name, id));
    return { ...block, alternatives: block.alternatives.map((one) => ({ ...one, values: pairsInLine(near(one.name, one.values), 400) })) };
  }
  if (block.type !== "result" || block.substituted === undefined) return { ...block };
  const { law: _law, substituted, source: _source, ...others } = block;
  const units = unitsOf(block, nodes);
  const stored = { ...others, units };
  return units !== undefined && sameContent(readBlock(stored, nodes), block) ? stored : { ...block, substituted };
}

/** The block whose stored form this is; what is no stored block is given back as it is. */
export function readBlock(stored: unknown, nodes: Nodes): unknown {
  if (isFields(stored) && stored.type === "givens" && Array.isArray(stored.rows)) return { ...stored, rows: stored.rows.map(givensRow) };
  if (isFields(stored) && stored.type === "table" && Array.isArray(stored.rows)) return { ...stored, rows: stored.rows.map(readRow) };
  if (isFields(stored) && stored.type === "decision" && Array.isArray(stored.alternatives))
    return { ...stored, alternatives: stored.alternatives.map((one) => readAlternative(String(stored.choice), one)) };
  if (!isFields(stored) || stored.type !== "result" || typeof stored.units !== "string") return stored;
  const node = nodes.get(String(stored.node));
  if (node?.kind !== "formula") return stored;
  const { units: text, ...others } = stored;
  const units = new Map(text === "" ? [] : text.split(", ").map((part) => part.split(" in ", 2) as [string, string]));
  return { ...others, ...lawOf(node, units) };
}

/** `PC/ABS: lamp.case[PC/ABS].m, lamp.case[PC/ABS].t`: the label and the cells, where they can be read back. */
function storeRow(row: TableBlock["rows"][number]): unknown {
  const line = `${row.label}: ${row.cells.join(", ")}`;
  return sameContent(readRow(line), row) ? line : row;
}

function readRow(row: unknown): unknown {
  if (typeof row !== "string" || !row.includes(": ")) return row;
  const at = row.indexOf(": ");
  return { label: row.slice(0, at), cells: row.slice(at + 2).split(", ") };
}

/** With `.I` for `lamp.rail[logic].I` under the alternative `logic` of `decisions.lamp.rail`. */
function readAlternative(choice: NodeId, one: unknown): unknown {
  if (!isFields(one)) return one;
  const values = typeof one.values === "string" ? pairsOfLine(one.values) : one.values;
  if (!isFields(values)) return one;
  return { ...one, values: mapped(values, (id) => (id.startsWith(".") ? `${optionScope(choice, String(one.name))}${id}` : id)) };
}

function nearOption(choice: NodeId, name: string, id: NodeId): string {
  const scope = optionScope(choice, name);
  return id.startsWith(`${scope}.`) ? id.slice(scope.length) : id;
}

const optionScope = (choice: NodeId, name: string) => `${choice.replace(/^decisions\./, "")}[${name}]`;

const mapped = (values: Fields, change: (id: string) => string): Fields =>
  Object.fromEntries(Object.entries(values).map(([key, id]) => [key, typeof id === "string" ? change(id) : id]));

/** `V_s givens.supply`: symbol and node. */
function givensRow(row: unknown): unknown {
  if (typeof row !== "string") return row;
  const space = row.indexOf(" ");
  return { symbol: row.slice(0, Math.max(0, space)), node: row.slice(space + 1) };
}

/** `V_s in V, I in mA`: the unit in which each symbol of the law is shown. */
function unitsOf({ node: id, substituted }: ResultBlock, nodes: Nodes): string | undefined {
  const node = nodes.get(id);
  if (node?.kind !== "formula") return undefined;
  const shown = new Map(placedLaw(node.expression).symbols.map((symbol, index) => [symbol, substituted?.values[index]?.unit]));
  return [...shown].map(([symbol, unit]) => `${symbol} in ${unit}`).join(", ");
}

function lawOf({ expression, arguments: args, source }: FormulaNode, units: ReadonlyMap<string, string>) {
  const { latex, symbols } = placedLaw(expression);
  return {
    law: typeset(expression),
    substituted: { latex, values: symbols.map((symbol) => ({ node: args[symbol], unit: units.get(symbol) })) },
    ...(source !== undefined && { source }),
  };
}
