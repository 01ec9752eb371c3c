/** The preferred values that the chosen alternatives ask for. */
import type { Graph } from "../graph/graph";
import { inputsOf } from "../graph/inputs";
import type { GraphNode, NodeId, SelectNode } from "../graph/node";
import type { Block } from "../sheet/block";

/** Selections behind what the sheets publish, in order of id; parts of alternatives that were not chosen are left out. */
export function chosenParts(blocks: readonly Block[], graph: Graph): SelectNode[] {
  const published = blocks.flatMap((block) => (block.type === "publish" ? Object.values(block.names) : []));
  const seen = new Set<NodeId>(published);
  const found: SelectNode[] = [];
  for (const id of seen) {
    const node = graph.get(id);
    if (node.kind === "select" && !isOfAnother(node.id, graph)) found.push(node);
    for (const input of wayDown(node, graph)) seen.add(input);
  }
  return found.toSorted((a, b) => (a.id < b.id ? -1 : 1));
}

/** Whether a part belongs to an alternative that was not chosen: a published comparison with one reaches it all the same. */
function isOfAnother(id: NodeId, graph: Graph): boolean {
  const [, sheet, decision, alternative] = /^([^.[]+)\.([^.[]+)\[([^\]]+)\]/.exec(id) ?? [];
  const path = `decisions.${sheet}.${decision}`;
  const choice = graph.has(path) ? graph.get(path) : undefined;
  return choice?.kind === "choice" && choice.chosen !== alternative;
}

function wayDown(node: GraphNode, graph: Graph): readonly NodeId[] {
  if (node.kind !== "switch") return inputsOf(node);
  const choice = graph.get(node.choice);
  const chosen = choice.kind === "choice" ? node.cases[choice.chosen] : undefined;
  return chosen === undefined ? [] : [chosen];
}

/** A part's tolerance as the design file states it. */
export function toleranceText({ deviation }: SelectNode, graph: Graph): string {
  const given = deviation === undefined ? undefined : graph.get(deviation);
  return given?.kind === "given" ? given.text : "–";
}
