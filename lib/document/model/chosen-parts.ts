/** The preferred values that the chosen alternatives ask for. */
import type { Graph } from "../../graph/graph";
import type { NodeId, SelectNode } from "../../graph/node";
import type { Block } from "../../sheet/block";
import { decidedInputs, isOfAnother } from "./alternative";

/** Selections behind what the sheets publish, in order of id; parts of alternatives that were not chosen are left out. */
export function chosenParts(blocks: readonly Block[], graph: Graph): SelectNode[] {
  const published = blocks.flatMap((block) => (block.type === "publish" ? Object.values(block.names) : []));
  const seen = new Set<NodeId>(published);
  const found: SelectNode[] = [];
  for (const id of seen) {
    const node = graph.get(id);
    // A published comparison reaches parts of an alternative that was not chosen all the same.
    if (node.kind === "select" && !isOfAnother(node.id, graph)) found.push(node);
    for (const input of decidedInputs(node, graph)) seen.add(input);
  }
  return found.toSorted((a, b) => (a.id < b.id ? -1 : 1));
}

/** A part's tolerance as the design file states it. */
export function toleranceText({ deviation }: SelectNode, graph: Graph): string {
  const given = deviation === undefined ? undefined : graph.get(deviation);
  return given?.kind === "given" ? given.text : "–";
}
