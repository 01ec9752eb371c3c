/** Which computed numbers a reader of the book sees, and in which form: what a change is told by. */

import type { Graph } from "../../graph/graph";
import type { NodeId } from "../../graph/node";
import type { Block } from "../../sheet/block";
import { kindOf, type Numbers } from "../../sheet/kinds";
import type { Shown } from "../text/show";
import { workingsOf } from "./alternative";
import { isChosen } from "./names";

/** In reading order, what the chosen alternatives compute at the end; the results that sheets publish come last, where no block shows them. A node may come in several forms. */
export function shownNumbers(blocks: readonly Block[], graph: Graph): Shown[] {
  const unit = (node: NodeId) => graph.get(node).unit;
  const scalar = (node: NodeId) => !["table", "sweep", "choice"].includes(graph.get(node).kind);
  const one = (node: NodeId, ...shows: readonly Shown["show"][]) => shows.map((show) => ({ node, show, unit: unit(node) }));
  const of = ({ nodes, shows, isColumn }: Numbers): Shown[] =>
    nodes.flatMap((node) => shows.map((show) => ({ node, show, unit: unit(isColumn === true ? (nodes[0] as NodeId) : node) })));
  const published = (block: Block) => Number(block.type === "publish");
  const workings = [...workingsOf(Object.fromEntries(blocks.entries()), graph).values()].flat();
  const computed = workings.flatMap(({ node }) => one(node, isChosen(graph.get(node)) ? "nominal" : "result", "worst", "interval"));
  const found = [
    ...blocks.toSorted((a, b) => published(a) - published(b)).flatMap((block) => (kindOf(block).numbers?.(block) ?? []).flatMap(of)),
    ...computed,
  ];
  const unique = new Map(found.filter(({ node }) => scalar(node)).map((shown) => [`${shown.node}\n${shown.show}\n${shown.unit}`, shown]));
  return [...unique.values()];
}
