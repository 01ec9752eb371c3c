/**
 * A state of the book as a link: `#with?battery.middle.capacity=450 mAh ±5 %&decisions.brief.board=thick`, each part
 * encoded as in any query. In a sheet's prompts, behind the page's button, and at the end of an address that is passed on.
 */
import type { Changes } from "../../graph/graph";
import type { GraphNode } from "../../graph/node";
import { decoded, stateMark } from "../../prose/links";
import { WorkingsError } from "../../quantity/error";
import { changesOf, type OneChange, readChange } from "./change";

/** What a link to a state says beside: the place in the document, and how much of it is shown there. */
const besides = ["at", "show"] as const;
type Beside = Readonly<Partial<Record<(typeof besides)[number], string>>>;

/** The link that leads to these changes. */
export function stateLink({ givens = {}, tables = {}, choices = {} }: Changes, beside: Beside = {}): string {
  const parts = [
    ...Object.entries(givens).map(([path, { text }]) => [path, text] as const),
    ...Object.entries(tables).map(([path, { x, y, scale }]) => [path, scale === undefined ? JSON.stringify([x, y]) : `×${scale}`] as const),
    ...Object.entries(choices),
    ...Object.entries(beside),
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
  const edits: OneChange[] = [];
  const problems: string[] = [];
  for (const part of target.slice(stateMark.length).split("&").filter(Boolean)) {
    const [path = "", ...rest] = part.split("=").map(decoded);
    if (besides.some((word) => word === path) && !nodes.some((node) => "path" in node && node.path === path)) continue;
    try {
      edits.push(readChange(path, rest.join("="), nodes));
    } catch (error) {
      if (!(error instanceof WorkingsError)) throw error;
      problems.push(`${path}: ${error.message}`);
    }
  }
  return { changes: changesOf(edits), problems };
}
