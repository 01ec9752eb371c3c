/** Nodes as JSON and back, with identity kept. JSON has no infinity: an open limit of validity is null there. */
import { WorkingsError } from "../quantity/error";
import type { GraphNode, ValidityLimit } from "./node";

/** A graph as plain data: its nodes in the order in which they were added. */
export interface GraphData {
  readonly version: 1;
  readonly nodes: readonly GraphNode[];
}

interface StoredLimit extends Omit<ValidityLimit, "low" | "high"> {
  readonly low: number | null;
  readonly high: number | null;
}

/** A node as it was before JSON turned its open limits into null. */
export function revive(node: GraphNode): GraphNode {
  if (!isNode(node))
    throw new WorkingsError("graph-data", `this is no node of a graph; it needs an id and a known kind: ${JSON.stringify(node)}`);
  if (node.kind !== "formula" || node.valid === undefined) return node;
  const stored: readonly StoredLimit[] = node.valid;
  if (stored.every((limit) => limit.low !== null && limit.high !== null)) return node;
  return { ...node, valid: stored.map((limit) => ({ ...limit, low: limit.low ?? -Infinity, high: limit.high ?? Infinity })) };
}

/** Every kind of node. */
export const nodeKinds: readonly GraphNode["kind"][] = [
  "given",
  "table",
  "choice",
  "constant",
  "frozen",
  "formula",
  "model",
  "select",
  "set-once",
  "switch",
  "sweep",
  "curve-operation",
  "reading",
];

function isNode(node: GraphNode | null): boolean {
  return typeof node === "object" && node !== null && typeof node.id === "string" && nodeKinds.includes(node.kind);
}

/** True where two nodes say the same, whatever the order of their fields. */
export function sameContent(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (typeof a !== "object" || typeof b !== "object" || a === null || b === null) return false;
  if (Array.isArray(a) !== Array.isArray(b)) return false;
  const left = a as Record<string, unknown>;
  const right = b as Record<string, unknown>;
  const keys = Object.keys(left).filter((key) => left[key] !== undefined);
  if (keys.length !== Object.keys(right).filter((key) => right[key] !== undefined).length) return false;
  return keys.every((key) => sameContent(left[key], right[key]));
}

/** Text that is equal exactly where content is: fields sorted by name. The basis of ids of unnamed nodes. */
export function canonicalText(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(canonicalText).join(",")}]`;
  if (typeof value === "number") return Object.is(value, -0) ? "-0" : String(value);
  if (typeof value !== "object" || value === null) return JSON.stringify(value) ?? "null";
  const record = value as Record<string, unknown>;
  const fields = Object.keys(record)
    .filter((key) => record[key] !== undefined)
    .sort();
  return `{${fields.map((key) => `${JSON.stringify(key)}:${canonicalText(record[key])}`).join(",")}}`;
}
