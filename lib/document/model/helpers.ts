/** Results that only one other needs, and that nothing else of the book speaks of: they stand within the one that uses them. */
import type { Book } from "../../book/book";
import type { Piece } from "../../book/outputs";
import { inputsOf } from "../../graph/inputs";
import type { NodeId } from "../../graph/node";
import { markdownLinks } from "../../prose/bound";
import { linkedResult } from "../../prose/links";
import type { Block, BlockOf } from "../../sheet/block";
import { kindOf } from "../../sheet/kinds";

interface Shown {
  readonly ref: string;
  readonly node: NodeId;
}

/**
 * By reference of the block of a result, the reference of the block that uses it: where only that result is computed from it, which
 * follows without text between, and no text, requirement, plot or other block names it.
 */
export function helpersOf(book: Pick<Book, "sheets" | "graph" | "blocks" | "published">): ReadonlyMap<string, string> {
  const uses = usesOf(book.graph);
  const named = namedIn(book);
  const folded = new Map<string, string>();
  for (const { pieces } of book.sheets)
    for (const run of runsOf(pieces))
      run.forEach(({ ref, node }, index) => {
        const [by, ...others] = uses(node);
        const user = others.length === 0 && !named(node) ? run.slice(index + 1).find((one) => one.node === by) : undefined;
        if (user !== undefined) folded.set(ref, user.ref);
      });
  return folded;
}

/** Results that stand one below another. */
function runsOf(pieces: readonly Piece[]): Shown[][] {
  const runs: Shown[][] = [[]];
  for (const piece of pieces) {
    if (piece.kind === "prose") runs.push([]);
    else
      for (const output of piece.outputs) {
        const block = output.kind === "display" ? output.display.block : undefined;
        if (output.kind === "display" && block !== undefined && isResult(block)) runs.at(-1)?.push({ ref: output.ref, node: block.node });
        else if (block?.type !== "givens" && block?.type !== "publish") runs.push([]);
      }
  }
  return runs;
}

/** What is computed from a node; what has no name of its own stands for what is computed from that. */
function usesOf(graph: Book["graph"]): (id: NodeId) => readonly NodeId[] {
  const direct = new Map<NodeId, NodeId[]>();
  for (const node of graph.nodes()) for (const input of new Set(inputsOf(node))) direct.set(input, [...(direct.get(input) ?? []), node.id]);
  const uses = (id: NodeId): NodeId[] => (direct.get(id) ?? []).flatMap((by) => (by.startsWith("~") ? uses(by) : [by]));
  return (id) => [...new Set(uses(id))];
}

/** Whether a text links to a node, or a block other than its own and those of results speaks of it. */
function namedIn({ sheets, graph, blocks, published }: Pick<Book, "sheets" | "graph" | "blocks" | "published">) {
  const linked = new Set<NodeId>();
  const targets = { published, has: (id: NodeId) => graph.has(id) };
  for (const { name, pieces, displays } of sheets) {
    const texts = [
      ...pieces.flatMap((piece) => (piece.kind === "prose" ? [piece.markdown] : [])),
      ...displays.flatMap(({ display: { block } }) => kindOf(block).prose?.(block) ?? []),
    ];
    for (const url of texts.flatMap(markdownLinks)) linked.add(linkedResult(url, name, targets) ?? "");
  }
  const told = new Set(Object.values(blocks).flatMap((block) => (isResult(block) ? [] : namesIn(block))));
  return (node: NodeId) => linked.has(node) || told.has(node);
}

function isResult(block: Block): block is BlockOf<"result" | "select"> {
  return block.type === "result" || block.type === "select";
}

/** Every text in a block: the ids of nodes are among them. */
function namesIn(value: unknown): string[] {
  if (typeof value === "string") return [value];
  return typeof value === "object" && value !== null ? Object.values(value).flatMap(namesIn) : [];
}
