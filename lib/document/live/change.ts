/**
 * A change of the book as somebody writes it: `path=value`, in `workings vary`, in a link to a state, and behind the page's fields. The
 * value of a table is a factor, or both its columns.
 */
import { nearest } from "../../design/nearest";
import type { Changes, GivenChange, TableChange } from "../../graph/graph";
import type { GraphNode, TableNode } from "../../graph/node";
import { WorkingsError } from "../../quantity/error";
import { scaleTable, turnGiven } from "./turn";

/** `change` is absent where the text says what the design file says. */
export type OneChange = { readonly path: string } & (
  | { readonly kind: "givens"; readonly change: GivenChange | undefined }
  | { readonly kind: "tables"; readonly change: TableChange | undefined }
  | { readonly kind: "choices"; readonly change: string | undefined }
);

/** Throws WorkingsError "usage" for what is no `path=value`; otherwise as {@link readChange}. */
export function readAssignment(assignment: string, nodes: readonly GraphNode[]): OneChange {
  const equals = assignment.indexOf("=");
  if (equals < 1)
    throw new WorkingsError(
      "usage",
      `"${assignment}" is no change; write path=value, as in "rails.logic.voltage=3.3 V ±2 %", or path=×0.95 for a table`,
    );
  return readChange(assignment.slice(0, equals).trim(), assignment.slice(equals + 1).trim(), nodes);
}

/** The change that a text makes at a path of the design file. Throws WorkingsError for a path that no sheet reads, and for a text that is no value of it. */
export function readChange(path: string, text: string, nodes: readonly GraphNode[]): OneChange {
  const node = nodes.find((candidate) => "path" in candidate && candidate.path === path);
  if (node?.kind === "given") return { path, kind: "givens", change: text.trim() === node.text ? undefined : turnGiven(node, text).change };
  if (node?.kind === "table") return { path, kind: "tables", change: readTable(text, node) };
  if (node?.kind !== "choice") throw unknown(path, nodes);
  if (!node.options.includes(text))
    throw new WorkingsError("usage", `"${text}" is no alternative of ${path}; these are ${node.options.join(", ")}`);
  return { path, kind: "choices", change: text === node.chosen ? undefined : text };
}

/** All of them together; a later one of the same path replaces an earlier. */
export function changesOf(edits: readonly OneChange[]): Changes {
  const of = (kind: OneChange["kind"]) =>
    edits.flatMap((one) => (one.kind === kind && one.change !== undefined ? [[one.path, one.change] as const] : []));
  const kinds = (["givens", "tables", "choices"] as const).map((kind) => [kind, of(kind)] as const);
  return Object.fromEntries(kinds.flatMap(([kind, found]) => (found.length === 0 ? [] : [[kind, Object.fromEntries(found)]]))) as Changes;
}

function readTable(text: string, node: TableNode): TableChange | undefined {
  if (/^\s*[×xX*]/.test(text)) return scaleTable(node, text);
  const [x, y] = parsed(text);
  const isColumn = (column: unknown): column is readonly number[] =>
    Array.isArray(column) && column.length === node.x.length && column.every(Number.isFinite);
  if (!isColumn(x) || !isColumn(y) || x.some((value, index) => index > 0 && value <= (x[index - 1] ?? 0)))
    throw new WorkingsError(
      "usage",
      `${node.path} is a table; turn all its ordinates by a factor, as in "${node.path}=×0.95", or give two columns of ${node.x.length} numbers, the first rising`,
    );
  return { x, y };
}

function parsed(text: string): readonly unknown[] {
  try {
    const value: unknown = JSON.parse(text);
    return Array.isArray(value) ? value : [];
  } catch {
    return [];
  }
}

function unknown(path: string, nodes: readonly GraphNode[]): WorkingsError {
  const near = nearest(path, [...new Set(nodes.flatMap((each) => ("path" in each ? [each.path] : [])))]);
  return new WorkingsError(
    "usage",
    `no sheet reads "${path}"; ${near.length > 0 ? `did you mean ${near.join(" or ")}?` : "see the register of givens in the document"}`,
  );
}
