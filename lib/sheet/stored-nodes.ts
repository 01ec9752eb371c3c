/**
 * Nodes as a notebook's output holds them: short, by name, and so that a changed given or law changes the lines that say it. What
 * follows from the rest is left out: a given's number and spread follow from its text, a law's tree from its text, a dimension from
 * the unit, a result's symbol from its id. A result like an earlier one of the same output (the next alternative, the next case)
 * says only in what it differs. Whatever does not follow is stored as it is.
 */
import { parseFormula } from "../formula/parse";
import type { FormulaNode, GivenNode, GraphNode, NodeId } from "../graph/node";
import { canonicalText, nodeKinds, revive, sameContent } from "../graph/serialise";
import { dimension } from "../quantity/dimension";
import { WorkingsError } from "../quantity/error";
import { parseQuantity } from "../quantity/parse";
import { unitOf } from "../quantity/unit";
import { evenPoints } from "./even-points";
import { pairsInLine, pairsOfLine } from "./pairs";
import { isFields } from "./shape";

type Fields = Readonly<Record<string, unknown>>;
/** `{ "node": "formula lamp.I", "text": "V/R", … }`, or `"formula lamp.[b].I like lamp.[a].I"` where only names differ. */
export type StoredNode = string | Fields;

/** What is wrong with stored nodes, in words. */
export class StoredFault extends Error {}

/** Fields that name other nodes by a name of this node's own; in the node's own scope an id begins with `.` there. */
const named = ["arguments", "cases"] as const;
const lists = ["x", "y", "points"] as const;
const numbersInLine = 10;

/** The stored form of nodes; {@link readNodes} gives the nodes back. */
export function storeNodes(nodes: readonly GraphNode[]): StoredNode[] {
  const short = shortened();
  const kin = new Kin();
  return nodes.map((node) => {
    const whole = short.store(node);
    const stored = kin.likeAnother(node, whole) ?? { node: `${node.kind} ${node.id}`, ...whole };
    if (typeof stored === "string" || !isFields(stored.arguments)) return stored;
    return { ...stored, arguments: pairsInLine(stored.arguments, 160) };
  });
}

/** Throws StoredFault where these are no stored nodes. */
export function readNodes(stored: readonly unknown[]): GraphNode[] {
  const short = shortened();
  const known = new Map<NodeId, { readonly kind: string; readonly fields: Fields }>();
  return stored.map((one, index) => {
    const { kind, id, like, own } = headOf(one, index);
    const model = like === undefined ? undefined : known.get(like);
    if (like !== undefined && (model === undefined || model.kind !== kind))
      throw new StoredFault(`${id} is said to be like ${like}, which is no ${kind} before it in this output`);
    const fields = merged(model?.fields ?? {}, own);
    known.set(id, { kind, fields });
    return short.read(kind, id, fields);
  });
}

interface Head {
  readonly kind: string;
  readonly id: NodeId;
  readonly like?: NodeId;
  readonly own: Fields;
}

const likeness = /^(\S+ \S+) like (\S+)$/;

function headOf(stored: unknown, index: number): Head {
  const place = `nodes[${index}]`;
  const [, said, alike] = (typeof stored === "string" && likeness.exec(stored)) || [];
  const { node, like, ...own } = isFields(stored) ? stored : { node: said, like: alike };
  const kind = nodeKinds.find((known) => typeof node === "string" && node.startsWith(`${known} `));
  if (typeof node !== "string" || kind === undefined) throw new StoredFault(`${place} is of no kind that this library knows`);
  if (like !== undefined && typeof like !== "string") throw new StoredFault(`${place}.like is no text`);
  const listed = typeof own.arguments === "string" ? { ...own, arguments: pairsOfLine(own.arguments) } : own;
  return { kind, id: node.slice(kind.length + 1), ...(like !== undefined && { like }), own: listed };
}

/** The fields of a node that is like another: its own, and those of the other that it does not have. */
function merged(other: Fields, own: Fields): Fields {
  const names = named.filter((key) => isFields(other[key]) && isFields(own[key]));
  return { ...other, ...own, ...Object.fromEntries(names.map((key) => [key, { ...(other[key] as Fields), ...(own[key] as Fields) }])) };
}

/** Earlier nodes of an output by what they are likely to have in common with others. */
class Kin {
  private readonly known = new Map<string, { readonly id: NodeId; readonly fields: Fields }>();

  /** The shorter form; undefined where none is. Inputs are never told by others, so that a change of one stays with it. */
  likeAnother({ kind, id, ...rest }: GraphNode, fields: Fields): StoredNode | undefined {
    if ("provenance" in rest) return undefined;
    const keys = [
      `${kind} ${id.slice(scopeOf(id).length)}`,
      ...("model" in rest ? [`${rest.model} ${canonicalText(fields.arguments)}`] : []),
      ...("choice" in rest ? [`switch ${rest.choice}`] : []),
    ];
    const forms = keys.flatMap((key) => {
      const other = this.known.get(key);
      const own = other && differing(other.fields, fields);
      if (other === undefined || own === undefined) return [];
      const isOneLine = Object.keys(own).length === 0 && !/\s/.test(id + other.id);
      return [isOneLine ? `${kind} ${id} like ${other.id}` : { node: `${kind} ${id}`, like: other.id, ...own }];
    });
    for (const key of keys) if (!this.known.has(key)) this.known.set(key, { id, fields });
    const whole = JSON.stringify(fields).length;
    return forms.sort((a, b) => JSON.stringify(a).length - JSON.stringify(b).length).find((form) => JSON.stringify(form).length < whole);
  }
}

/** The fields that `merged` needs beside those of the other; undefined where the other has one too many. */
function differing(other: Fields, fields: Fields): Fields | undefined {
  const own = Object.fromEntries(
    Object.entries(fields)
      .filter(([key, value]) => !sameContent(other[key], value))
      .map(([key, value]) => {
        const before = other[key];
        if (!named.some((name) => name === key) || !isFields(before) || !isFields(value)) return [key, value];
        return [key, Object.fromEntries(Object.entries(value).filter(([name, id]) => before[name] !== id))];
      }),
  );
  return sameContent(merged(other, own), fields) ? own : undefined;
}

/** `lamp.[a]` of `lamp.[a].I`: where names of the same alternative begin. */
const scopeOf = (id: NodeId) => id.slice(0, Math.max(0, id.lastIndexOf(".")));

/** Leaves out of one node what follows from the rest of it, and puts it back. */
function shortened() {
  const trees = new Map<string, unknown>();
  /** The tree of a law's text; undefined where it has none of its own. */
  const treeOf = (text: unknown, symbols: readonly string[]): unknown => {
    const key = JSON.stringify([text, symbols]);
    if (!trees.has(key))
      trees.set(
        key,
        quietly(() => parseFormula(String(text), symbols).expression),
      );
    return trees.get(key);
  };

  function store(node: GraphNode): Fields {
    const { kind, id, ...rest } = revive(node);
    const fields: Record<string, unknown> = { ...rest };
    const following = consequences(kind, id, fields, treeOf);
    for (const [key, value] of Object.entries(following)) if (sameContent(fields[key], value)) delete fields[key];
    for (const key of named) if (isFields(fields[key])) fields[key] = withNames(fields[key], (one, name) => nearName(id, one, name));
    for (const key of lists) if (Array.isArray(fields[key])) fields[key] = inLines(fields[key] as number[]);
    if ("valid" in rest && rest.valid !== undefined) fields.valid = rest.valid.map(limitText);
    if ("provenance" in rest) {
      const { fromMemory, ...told } = rest.provenance;
      delete fields.provenance;
      Object.assign(fields, told, fromMemory === undefined ? {} : { memory: fromMemory });
    }
    return fields;
  }

  function read(kind: string, id: NodeId, stored: Fields): GraphNode {
    const fields: Record<string, unknown> = { ...stored };
    for (const key of named) if (isFields(fields[key])) fields[key] = withNames(fields[key], (one, name) => farName(id, one, name));
    for (const key of lists) if (typeof fields[key] === "string" || Array.isArray(fields[key])) fields[key] = fromLines(fields[key]);
    if (Array.isArray(fields.valid)) fields.valid = fields.valid.map(limitOf);
    if (["given", "table", "choice", "reading"].includes(kind)) {
      const { source, note, memory, place, ...others } = fields;
      const provenance = { source, ...(note !== undefined && { note }), ...(memory !== undefined && { fromMemory: memory }) };
      return {
        ...consequences(kind, id, others, treeOf),
        kind,
        id,
        ...others,
        provenance: { ...provenance, ...(place !== undefined && { place }) },
      } as unknown as GraphNode;
    }
    return { ...consequences(kind, id, fields, treeOf), kind, id, ...fields } as unknown as GraphNode;
  }

  return { store, read };
}

/** What follows from the id and the other fields of a node; a field that is stored goes before it. */
function consequences(kind: string, id: NodeId, fields: Fields, treeOf: (text: unknown, symbols: readonly string[]) => unknown): Fields {
  const unit = quietly(() => unitOf(String(fields.unit)));
  const key = fields.dimension ?? unit?.dimension.key;
  return {
    ...(unit !== undefined && { dimension: unit.dimension.key }),
    ...(isInput(kind)
      ? { path: id.replace(/^givens\./, "").replace(/#.*$/, "") }
      : kind === "reading" || id.startsWith("~")
        ? {}
        : symbolOf(id)),
    ...(kind === "given" || kind === "reading" ? statedBy(fields, String(key)) : {}),
    ...(kind === "formula" ? treeFields(treeOf(fields.text, Object.keys(isFields(fields.arguments) ? fields.arguments : {}))) : {}),
  };
}

const isInput = (kind: string) => kind === "given" || kind === "table" || kind === "choice";
const symbolOf = (id: NodeId) => ({ symbol: id.slice(scopeOf(id).length).replace(/^\./, "") });
const treeFields = (expression: unknown): Partial<Pick<FormulaNode, "expression">> =>
  expression === undefined ? {} : ({ expression } as Pick<FormulaNode, "expression">);

/** What the text of a given states. */
function statedBy({ text }: Fields, key: string): Partial<Pick<GivenNode, "nominal" | "spread">> {
  const stated = quietly(() => parseQuantity(String(text), { dimension: dimension(key) }));
  return stated === undefined ? {} : { nominal: stated.si, spread: stated.spread };
}

/** A text that cannot be read has nothing that follows from it: the check of the whole node tells what is missing then. */
function quietly<T>(read: () => T): T | undefined {
  try {
    return read();
  } catch (error) {
    if (error instanceof WorkingsError) return undefined;
    throw error;
  }
}

const withNames = (names: unknown, change: (id: string, name: string) => string): Fields =>
  Object.fromEntries(
    Object.keys(names as Fields)
      .sort()
      .map((name) => [name, (names as Fields)[name]] as const)
      .map(([name, id]) => [name, typeof id === "string" ? change(id, name) : id]),
  );

/** `.I` for `lamp.rail[a].I` beside `lamp.rail[a].P`, and `[]` for `lamp.rail[a].P` as the case `a` of `lamp.rail.P`. */
function nearName(of: NodeId, id: NodeId, name: string): string {
  const scope = scopeOf(of);
  if (scope === "") return id;
  if (id === caseOf(of, name)) return "[]";
  return id.startsWith(`${scope}.`) ? id.slice(scope.length) : id;
}

function farName(of: NodeId, stored: string, name: string): NodeId {
  if (stored === "[]") return caseOf(of, name);
  return stored.startsWith(".") ? `${scopeOf(of)}${stored}` : stored;
}

const caseOf = (of: NodeId, name: string): NodeId => `${scopeOf(of)}[${name}]${of.slice(scopeOf(of).length)}`;

/** Points evenly spaced as `1 to 2.4 in 41`; others, and columns of tables, as numbers with a space between, ten to a line: one that changes changes its line alone. */
function inLines(values: readonly number[]): string | string[] {
  const even = `${values[0]} to ${values.at(-1)} in ${values.length}`;
  if (values.length > 2 && sameContent(fromLines(even), values)) return even;
  const lines: string[] = [];
  for (let at = 0; at < values.length; at += numbersInLine)
    lines.push(
      values
        .slice(at, at + numbersInLine)
        .map(numberText)
        .join(" "),
    );
  return lines.length === 1 ? (lines[0] as string) : lines;
}

const numberText = (value: number) => (Object.is(value, -0) ? "-0" : String(value));

function fromLines(stored: unknown): unknown {
  const lines = Array.isArray(stored) ? stored : [stored];
  if (!lines.every((line) => typeof line === "string")) return stored;
  const [, low, high, count] = /^(\S+) to (\S+) in (\d{1,6})$/.exec(lines.join()) ?? [];
  if (count !== undefined) return evenPoints(Number(low), Number(high), Number(count));
  return lines.flatMap((line: string) => line.split(" ").map((part) => (part === "" ? Number.NaN : Number(part))));
}

/** `T: 233 K to 398 K = 233 to 398`: a limit of validity as it was written, then in SI; Infinity where it is open. */
function limitText({ symbol, low, high, text }: { symbol: string; low: number; high: number; text: string }): string {
  return `${symbol}: ${text} = ${numberText(low)} to ${numberText(high)}`;
}

const limitForm = /^([^:]+): (.*) = (\S+) to (\S+)$/s;

function limitOf(stored: unknown): unknown {
  const [, symbol, text, low, high] = (typeof stored === "string" && limitForm.exec(stored)) || [];
  return symbol === undefined ? stored : { symbol, low: Number(low), high: Number(high), text };
}
