/** What differs between two graphs, and all that follows from it. */
import type { Graph } from "./graph";
import { inputsOf } from "./inputs";
import type { GraphNode, NodeId } from "./node";
import { sameContent } from "./serialise";

/** Ids of `graph` whose node is new or other than in `before`, or that depend on such a one, through any alternative. */
export function differing(before: Graph, graph: Graph): ReadonlySet<NodeId> {
  const nodes = graph.nodes();
  const found = new Set<NodeId>();
  for (const node of nodes) {
    if (!before.has(node.id) || !sameContent(before.get(node.id), node)) found.add(node.id);
  }
  return reached(nodes, found);
}

/** These nodes and all that depends on them, through any alternative. */
export function reachedFrom(graph: Graph, ids: Iterable<NodeId>): ReadonlySet<NodeId> {
  return reached(graph.nodes(), new Set(ids));
}

function reached(nodes: readonly GraphNode[], found: Set<NodeId>): ReadonlySet<NodeId> {
  if (found.size === 0) return found;
  const users = usersOf(nodes);
  for (const id of found) for (const user of users.get(id) ?? []) found.add(user);
  return found;
}

function usersOf(nodes: readonly GraphNode[]): ReadonlyMap<NodeId, readonly NodeId[]> {
  const users = new Map<NodeId, NodeId[]>();
  for (const node of nodes) {
    for (const input of [...inputsOf(node), ...drawnWith(node)]) {
      const present = users.get(input);
      if (present === undefined) users.set(input, [node.id]);
      else present.push(node.id);
    }
  }
  return users;
}

/** Givens that vary with one another are drawn together. */
export function drawnWith(node: GraphNode): readonly NodeId[] {
  return node.kind === "given" ? (node.shared ?? []).flatMap((part) => ("with" in part ? [part.with] : [])) : [];
}
