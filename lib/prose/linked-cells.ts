/** Text cells whose links lead to one of some results. */
import type { Book } from "../book/book";
import type { NodeId } from "../graph/node";
import { markdownLinks } from "./bound";
import { linkedResult } from "./links";

export interface LinkedCell {
  readonly sheet: string;
  /** Id of the Markdown cell. */
  readonly cell: string;
  /** Targets of the links, each once. */
  readonly links: readonly string[];
}

export function linkedCells({ sheets, graph, published }: Book, nodes: ReadonlySet<NodeId>): LinkedCell[] {
  const targets = { published, has: (id: NodeId) => graph.has(id) };
  return sheets.flatMap(({ name: sheet, pieces }) =>
    pieces.flatMap((piece) => {
      if (piece.kind !== "prose") return [];
      const links = markdownLinks(piece.markdown).filter((url) => nodes.has(linkedResult(url, sheet, targets) ?? ""));
      return links.length === 0 ? [] : [{ sheet, cell: piece.cell, links: [...new Set(links)] }];
    }),
  );
}
