/** Which computed numbers a reader of the book sees, and in which form: what a change is told by. */

import type { Graph } from "../../graph/graph";
import type { NodeId } from "../../graph/node";
import { entryOf } from "../../quantity/entry-of";
import type { Block } from "../../sheet/block";
import type { Shown } from "../text/show";
import { workingsOf } from "./alternative";

/** In reading order, what the chosen alternatives compute at the end; the results that sheets publish come last, where no block shows them. A node may come in several forms. */
export function shownNumbers(blocks: readonly Block[], graph: Graph): Shown[] {
  const unit = (node: NodeId) => graph.get(node).unit;
  const scalar = (node: NodeId) => !["table", "sweep", "choice"].includes(graph.get(node).kind);
  const one = (node: NodeId, ...shows: readonly Shown["show"][]) => shows.map((show) => ({ node, show, unit: unit(node) }));
  /** Beside one another, in the unit of the first. */
  const column = (ids: readonly (NodeId | undefined)[], ...shows: readonly Shown["show"][]) => {
    const known = ids.filter((id) => id !== undefined);
    return known.flatMap((node) => shows.map((show) => ({ node, show, unit: unit(known[0] as NodeId) })));
  };
  const of = (block: Block): Shown[] => {
    switch (block.type) {
      case "result":
        return one(block.node, "result", "worst", "interval");
      case "select":
        return [block.node, block.of, ...(block.parts ?? [])]
          .flatMap((node) => one(node, "nominal"))
          .concat(one(block.node, "worst", "interval"));
      case "table":
        return block.columns.flatMap((_, index) =>
          column(
            block.rows.map(({ cells }) => cells[index]),
            "figure",
            "bounds",
          ),
        );
      case "decision":
        return block.criteria.flatMap(({ name }) =>
          column(
            block.alternatives.map(({ values }) => entryOf(values, name)),
            "number",
          ),
        );
      case "assumption":
        return one(block.node, "result");
      case "confirmation":
        return one(block.node, "result", "interval");
      case "contribution":
        return block.items.flatMap(({ node }) => one(node, "result"));
      case "collection":
        return [...block.items.map(({ node }) => node), block.node].flatMap((node) => one(node, "result", "interval"));
      case "taken":
        return block.rows.flatMap(({ node }) => one(node, "result"));
      case "publish":
        return Object.values(block.names).flatMap((node) => one(node, "result", "interval"));
      // Its number stands in the table of verdicts, where the verdict tells the change.
      case "requirement":
      case "givens":
      case "plot":
      case "drawing":
      case "caution":
        return [];
    }
  };
  const published = (block: Block) => Number(block.type === "publish");
  const workings = [...workingsOf(Object.fromEntries(blocks.entries()), graph).values()].flat();
  const computed = workings.flatMap(({ node }) => one(node, graph.get(node).kind === "select" ? "nominal" : "result", "worst", "interval"));
  const found = [...blocks.toSorted((a, b) => published(a) - published(b)).flatMap((block) => of(block)), ...computed];
  const unique = new Map(found.filter(({ node }) => scalar(node)).map((shown) => [`${shown.node}\n${shown.show}\n${shown.unit}`, shown]));
  return [...unique.values()];
}
