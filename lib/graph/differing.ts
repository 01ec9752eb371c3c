/** What differs between two graphs, and all that follows from it. */
import { type Graph, isEvidence } from "./graph";
import { wholeId } from "./identity";
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
  return withEvidence(before, graph, reached(nodes, found));
}

/**
 * Evidence that differs, or whose result does, narrows what is not known otherwise than before: the givens behind it, what is drawn with
 * them, and all that follows.
 */
function withEvidence(before: Graph, graph: Graph, found: ReadonlySet<NodeId>): ReadonlySet<NodeId> {
  if (before.evidence === 0 && graph.evidence === 0) return found;
  const evidence = (one: Graph) => one.nodes().filter(isEvidence);
  const gone = evidence(before).filter(({ id }) => !graph.has(id));
  for (let known = found; ; ) {
    const moved = evidence(graph).filter(({ id }) => known.has(id));
    const narrowed = [...narrowedBy(before, gone), ...narrowedBy(graph, moved)].filter((id) => graph.has(id) && !known.has(id));
    if (narrowed.length === 0) return known;
    known = reached(graph.nodes(), new Set([...known, ...narrowed]));
  }
}

/** All that some readings may narrow: the givens behind their results, through any alternative, those drawn with them, and what follows. */
export function narrowed(graph: Graph, readings: readonly GraphNode[]): ReadonlySet<NodeId> {
  return readings.length === 0 ? new Set() : reachedFrom(graph, narrowedBy(graph, readings));
}

/** The givens among {@link narrowed}. */
export function narrowedBy(graph: Graph, readings: readonly GraphNode[]): ReadonlySet<NodeId> {
  const behind = graph.ancestors(readings.map(({ id }) => id)).filter((id) => graph.get(id).kind === "given");
  const names = new Set(behind.flatMap((id) => streamsOf(graph.get(id))));
  const givens = graph.nodes().filter(({ kind }) => kind === "given");
  for (let before = -1; before !== names.size; ) {
    before = names.size;
    for (const node of givens) if (streamsOf(node).some((name) => names.has(name))) for (const name of streamsOf(node)) names.add(name);
  }
  return new Set([...behind, ...givens.filter((node) => streamsOf(node).some((name) => names.has(name))).map(({ id }) => id)]);
}

/** What a given of which something is not known is drawn from; other parts of it have the same truth. */
function streamsOf(node: GraphNode): string[] {
  if (node.kind !== "given" || (node.knowledge !== true && node.doubt === undefined)) return [];
  return [wholeId(node.id), ...(node.shared ?? []).map((part) => ("with" in part ? part.with : `common ${part.common}`))];
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
