/**
 * A state of the book as a link: `#with?battery.middle.capacity=450 mAh ±5 %&decisions.brief.board=thick`, each part
 * encoded as in any query. In a sheet's prompts, behind the page's button, and at the end of an address that is passed on.
 */
import type { Changes, TableChange } from "../../graph/graph";
import type { GraphNode, TableNode } from "../../graph/node";
import { decoded, stateMark } from "../../prose/links";
import { WorkingsError } from "../../quantity/error";
import { scaleTable, turnGiven } from "./turn";

/** The link that leads to these changes. */
export function stateLink({ givens = {}, tables = {}, choices = {} }: Changes): string {
  const parts = [
    ...Object.entries(givens).map(([path, { text }]) => [path, text] as const),
    ...Object.entries(tables).map(([path, { x, y, scale }]) => [path, scale === undefined ? JSON.stringify([x, y]) : `×${scale}`] as const),
    ...Object.entries(choices),
  ];
  return stateMark + parts.map(([path, text]) => `${encodeURIComponent(path)}=${encodeURIComponent(text)}`).join("&");
}

export interface LinkedState {
  readonly changes: Changes;
  /** Parts that this book does not have, or that are no values of it, in sentences. */
  readonly problems: readonly string[];
}

/** The changes that a link describes, for a book with these nodes; parts that the book does not have are told and left out. */
export function readStateLink(target: string, nodes: readonly GraphNode[]): LinkedState {
  const changes = { givens: {} as Record<string, unknown>, tables: {} as Record<string, unknown>, choices: {} as Record<string, unknown> };
  const problems: string[] = [];
  for (const part of target.slice(stateMark.length).split("&").filter(Boolean)) {
    const [path = "", ...rest] = part.split("=").map(decoded);
    try {
      const { kind, change } = readPart(path, rest.join("="), nodes);
      if (change !== undefined) changes[kind][path] = change;
    } catch (error) {
      if (!(error instanceof WorkingsError)) throw error;
      problems.push(`${path}: ${error.message}`);
    }
  }
  const used = Object.entries(changes).filter(([, entries]) => Object.keys(entries).length > 0);
  return { changes: Object.fromEntries(used) as Changes, problems };
}

/** No change where the link states the value of the design file. */
function readPart(path: string, text: string, nodes: readonly GraphNode[]) {
  const node = nodes.find((candidate) => "path" in candidate && candidate.path === path);
  if (node?.kind === "given")
    return { kind: "givens", change: text.trim() === node.text ? undefined : turnGiven(node, text).change } as const;
  if (node?.kind === "table") return { kind: "tables", change: readTable(text, node) } as const;
  if (node?.kind !== "choice") throw new WorkingsError("usage", "this book has no such given or decision");
  if (!node.options.includes(text)) throw new WorkingsError("usage", `"${text}" is none of ${node.options.join(", ")}`);
  return { kind: "choices", change: text === node.chosen ? undefined : text } as const;
}

/** Both columns, or a factor for the second. */
function readTable(text: string, node: TableNode): TableChange | undefined {
  if (!text.trim().startsWith("[")) return scaleTable(node, text);
  const [x, y] = parsed(text);
  const isColumn = (column: unknown): column is readonly number[] =>
    Array.isArray(column) && column.length === node.x.length && column.every(Number.isFinite);
  if (!isColumn(x) || !isColumn(y) || x.some((value, index) => index > 0 && value <= (x[index - 1] ?? 0)))
    throw new WorkingsError("usage", `expected two columns of ${node.x.length} numbers, the first rising`);
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
