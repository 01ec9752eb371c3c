/** A larger book for measuring: every sheet of a book several times over, under other names, on the same givens and decisions. */
import { Evaluation } from "../../lib/analysis/evaluation";
import type { Book } from "../../lib/book/book";
import { Graph } from "../../lib/graph/graph";
import type { GraphNode } from "../../lib/graph/node";

/** A change of a given reaches its results in every copy, which is more than it would in a book of as many different sheets. */
export function manySheets(book: Book, copies: number): Book {
  const names = book.sheets.map(({ name }) => name).join("|");
  const own = new RegExp(`^(?:~|(?:${names})(?=[./]|$))`);
  const all = <T>(of: (rename: Rename) => readonly T[]): T[] =>
    Array.from({ length: copies }, (_, copy) => (value: unknown) => (copy === 0 ? value : renamed(value, own, String(copy + 1)))).flatMap(
      of,
    );
  const graph = Graph.from(all((rename) => book.graph.nodes().map((node) => (isShared(node) ? node : (rename(node) as GraphNode)))));
  return {
    ...book,
    sheets: all((rename) => book.sheets.map((sheet) => rename(sheet) as (typeof book.sheets)[number])),
    blocks: Object.fromEntries(all((rename) => Object.entries(rename(book.blocks) as Book["blocks"]))),
    graph,
    evaluation: new Evaluation(graph),
    published: new Map(all((rename) => [...book.published].map((entry) => rename(entry) as [string, string]))),
    requirements: book.requirements.map(({ row, answers }) => ({ row, answers: all((rename) => rename(answers) as typeof answers) })),
    decisions: all((rename) => book.decisions.map((block) => rename(block) as (typeof book.decisions)[number])),
  };
}

type Rename = (value: unknown) => unknown;

function isShared({ kind }: GraphNode): boolean {
  return kind === "given" || kind === "table" || kind === "choice" || kind === "reading";
}

/** Plain data with another name in place of a sheet's own, and of an unnamed node's, in texts that begin with it; models keep theirs. */
function renamed(value: unknown, own: RegExp, copy: string): unknown {
  if (typeof value === "string") return value.replace(own, `$&${copy}`);
  if (Array.isArray(value)) return value.map((one) => renamed(one, own, copy));
  if (typeof value !== "object" || value === null) return value;
  const field = ([key, one]: [string, unknown]) => [
    key.replace(own, `$&${copy}`),
    key === "model" || key === "drawing" ? one : renamed(one, own, copy),
  ];
  return Object.fromEntries(Object.entries(value).map(field));
}
