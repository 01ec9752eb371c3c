/** Results within the alternatives of decisions: which alternative they belong to, and which of them the document shows. */

import type { Graph } from "../../graph/graph";
import { inputsOf } from "../../graph/inputs";
import { isCurveSlot, modelNamed } from "../../graph/model";
import type { GraphNode, NodeId, SwitchNode } from "../../graph/node";
import { topologicalOrder } from "../../graph/order";
import { entryOf } from "../../quantity/entry-of";
import type { Block, DecisionBlock } from "../../sheet/block";
import { anchor } from "../text/html";

/** Id of a decision's choice and name of its alternative, of a node that was made within one; undefined for every other node. */
export function alternativeOf(id: NodeId, graph: Graph): { readonly choice: NodeId; readonly alternative: string } | undefined {
  const [, sheet, decision, alternative = ""] = /^([^.[]+)\.([^.[]+)\[([^\]]+)\]/.exec(id) ?? [];
  const choice = `decisions.${sheet}.${decision}`;
  return graph.has(choice) ? { choice, alternative } : undefined;
}

/** What a decision leaves out: everything of alternatives that were not chosen. */
export function isOfAnother(id: NodeId, graph: Graph): boolean {
  const own = alternativeOf(id, graph);
  return own !== undefined && chosenOf(own.choice, graph) !== own.alternative;
}

/** What a node is computed from as decided: of a switch the case that was chosen. */
export function decidedInputs(node: GraphNode, graph: Graph): readonly NodeId[] {
  if (node.kind !== "switch") return inputsOf(node);
  const chosen = node.cases[chosenOf(node.choice, graph) ?? ""];
  return chosen === undefined ? [] : [chosen];
}

/** Everything that a node is computed from as decided, itself included, inputs first. */
export function decidedAncestors(id: NodeId, graph: Graph): NodeId[] {
  return topologicalOrder([id], (one) => decidedInputs(graph.get(one), graph));
}

function chosenOf(choice: NodeId, graph: Graph): string | undefined {
  const node = graph.get(choice);
  return node.kind === "choice" ? node.chosen : undefined;
}

/** A result of the chosen alternative, shown below its decision. */
export interface Working {
  readonly node: NodeId;
  /** The decision's results that it is; other sheets and texts link to those. */
  readonly results: readonly NodeId[];
  /** Id of the element: the same whichever alternative is chosen, so that links last. */
  readonly target: string;
}

/** The workings of each decision by the reference of its block, inputs before what is computed from them. */
export function workingsOf(blocks: Readonly<Record<string, Block>>, graph: Graph): ReadonlyMap<string, readonly Working[]> {
  const switches = graph.nodes().filter((node): node is SwitchNode => node.kind === "switch");
  return new Map(
    Object.entries(blocks).flatMap(([ref, block]) =>
      block.type === "decision" ? [[ref, workingsOfDecision(block, switches, graph)] as const] : [],
    ),
  );
}

function workingsOfDecision(block: DecisionBlock, switches: readonly SwitchNode[], graph: Graph): Working[] {
  const chosen = chosenOf(block.choice, graph) ?? "";
  const results = new Map<NodeId, NodeId[]>();
  for (const { id, choice, cases } of switches) {
    const own = entryOf(cases, chosen);
    if (choice === block.choice && own !== undefined) results.set(own, [...(results.get(own) ?? []), id]);
  }
  const compared = block.alternatives.filter(({ name }) => name === chosen).flatMap(({ values }) => Object.values(values));
  const taken = new Set([...results.values()].map(([id = ""]) => anchor("node", id)));
  return topologicalOrder([...results.keys(), ...compared], (id) => decidedInputs(graph.get(id), graph))
    .filter((id) => isOwn(id, block.choice, chosen, graph) && isShown(graph.get(id)))
    .map((node) => {
      const own = results.get(node) ?? [];
      if (own[0] !== undefined) return { node, results: own, target: anchor("node", own[0]) };
      const general = anchor("node", node.replace(`[${chosen}]`, ""));
      return { node, results: own, target: taken.has(general) ? anchor("node", node) : general };
    });
}

function isOwn(id: NodeId, choice: NodeId, chosen: string, graph: Graph): boolean {
  const own = alternativeOf(id, graph);
  return own?.choice === choice && own.alternative === chosen;
}

/** Numbers that are computed; a curve is shown by the plot that draws it. */
function isShown(node: GraphNode): boolean {
  if (node.kind === "model") return !isCurveSlot(modelNamed(node.model).outputs[node.output]);
  return (
    node.kind === "formula" ||
    node.kind === "select" ||
    node.kind === "set-once" ||
    node.kind === "curve-operation" ||
    node.kind === "frozen"
  );
}
