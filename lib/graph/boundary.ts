/** Where a sweep begins: what it recomputes at each point, and what it takes from outside. */
import type { Graph } from "./graph";
import { inputsOf } from "./inputs";
import { chosenCase } from "./lower";
import type { NodeId, SweepNode } from "./node";
import { topologicalOrder } from "./order";

/** What a node needs for its value: a switch only the chosen case, a frozen number nothing, a sweep its boundary. */
export function evaluationInputs(graph: Graph, id: NodeId): readonly NodeId[] {
  const node = graph.get(id);
  if (node.kind === "switch") return [node.choice, chosenCase(graph, node)];
  if (node.kind === "frozen") return [];
  return node.kind === "sweep" ? boundaryOf(graph, node) : inputsOf(node);
}

/**
 * The nodes whose values a sweep takes from outside: those next to the part that depends on what is swept. A value that is set once does
 * not depend on a condition of use.
 */
export function boundaryOf(graph: Graph, sweep: SweepNode): NodeId[] {
  const order = topologicalOrder([sweep.of], (id) => (id === sweep.over ? [] : evaluationInputs(graph, id)));
  const moving = new Set<NodeId>([sweep.over]);
  const over = graph.get(sweep.over);
  const isCondition = over.kind === "given" && over.spread.kind === "range";
  const boundary = new Set<NodeId>();
  for (const id of order) {
    if (id === sweep.over) continue;
    const inputs = evaluationInputs(graph, id);
    if (isCondition && graph.get(id).kind === "set-once") continue;
    if (!inputs.some((input) => moving.has(input))) continue;
    moving.add(id);
    for (const input of inputs) if (!moving.has(input)) boundary.add(input);
  }
  if (!moving.has(sweep.of)) boundary.add(sweep.of);
  return [...boundary];
}
