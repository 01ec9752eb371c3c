/** What an earlier evaluation has found, for a graph that is still growing: asked node by node whether it holds there. */
import { drawnWith, narrowedBy } from "../graph/differing";
import { Graph, isEvidence } from "../graph/graph";
import { inputsOf } from "../graph/inputs";
import type { GraphNode, NodeId } from "../graph/node";
import { topologicalOrder } from "../graph/order";
import { sameContent } from "../graph/serialise";
import { yieldKey } from "./ask";
import type { EvaluationData, Found } from "./found";
import type { Nominals } from "./nominals";
import { nodeOfKey } from "./sampler";
import type { Asked } from "./yield";

const byNode = ["worst", "points", "analyses", "bands"] as const;
const byCondition = ["verdicts", "passes"] as const;

export class Earlier {
  readonly #graph: Graph;
  readonly #before: Graph;
  readonly #nominals: Nominals;
  readonly #found: Found;
  readonly #earlier: EvaluationData;
  /** Keys of verdicts and the like, by the node that they are of. */
  readonly #keys = new Map<NodeId, readonly string[]>();
  readonly #holds = new Map<NodeId, boolean>();
  readonly #recalled = new Set<NodeId>();
  readonly #narrowedBefore: ReadonlySet<NodeId>;
  /** Whether the readings that narrow what is not known are the earlier ones; unknown until it is asked. */
  #isSameEvidence: boolean | undefined;

  /** `earlier` by the same library, with the same draws; what holds of it goes to `nominals` and `found`. */
  constructor(graph: Graph, earlier: EvaluationData, nominals: Nominals, found: Found) {
    this.#graph = graph;
    this.#before = Graph.from(earlier.nodes);
    this.#earlier = earlier;
    this.#nominals = nominals;
    this.#found = found;
    this.#narrowedBefore = this.#before.evidence === 0 ? new Set() : narrowedBy(this.#before, this.#before.nodes().filter(isEvidence));
    for (const name of byCondition)
      for (const key of earlier[name].keys()) this.#keys.set(nodeOfKey(key), [...(this.#keys.get(nodeOfKey(key)) ?? []), key]);
  }

  /** All that is known of a node, where it holds. */
  recall(id: NodeId): void {
    if (this.#recalled.has(id) || !this.#graph.has(id)) return;
    this.#recalled.add(id);
    if (!this.#doesHold(id)) return;
    const value = this.#earlier.nominals.get(id);
    if (value !== undefined) this.#nominals.takeOver(new Map([[id, value]]), () => true);
    for (const name of byNode) takeOne<unknown>(this.#earlier[name], this.#found[name] as Map<string, unknown>, id);
    for (const key of this.#keys.get(id) ?? [])
      for (const name of byCondition) takeOne<unknown>(this.#earlier[name], this.#found[name] as Map<string, unknown>, key);
  }

  recallYield(asked: readonly Asked[]): void {
    const key = yieldKey(asked);
    if (this.#earlier.yields.has(key) && asked.every(({ node }) => this.#doesHold(node)))
      takeOne(this.#earlier.yields, this.#found.yields, key);
  }

  /** Of all nodes of the graph, also those that nobody has asked about. */
  recallAll(): void {
    for (const { id } of this.#graph.nodes()) this.recall(id);
  }

  /** After a node of the graph was replaced. */
  forget(): void {
    this.#holds.clear();
    this.#recalled.clear();
    this.#isSameEvidence = undefined;
  }

  /** Whether a node of the graph and all that it follows from, through any alternative, are as they were. */
  #doesHold(id: NodeId): boolean {
    if (!this.#graph.has(id)) return false;
    const open = topologicalOrder([id], (other) => (this.#holds.has(other) ? [] : inputsOf(this.#graph.get(other))));
    for (const other of open)
      if (!this.#holds.has(other))
        this.#holds.set(
          other,
          this.#isSame(other) &&
            this.#isNarrowedAlike(other) &&
            inputsOf(this.#graph.get(other)).every((input) => this.#holds.get(input) === true),
        );
    return this.#holds.get(id) === true;
  }

  /** What evidence narrows was found with the same evidence. */
  #isNarrowedAlike(id: NodeId): boolean {
    if (this.#graph.get(id).kind !== "given" || (this.#before.evidence === 0 && this.#graph.evidence === 0)) return true;
    const now = this.#graph.evidence === 0 ? [] : narrowedBy(this.#graph, this.#graph.nodes().filter(isEvidence));
    if (!this.#narrowedBefore.has(id) && !new Set(now).has(id)) return true;
    this.#isSameEvidence ??= this.#hasSameEvidence();
    return this.#isSameEvidence;
  }

  #hasSameEvidence(): boolean {
    const [then, now] = [this.#before, this.#graph].map((graph) => graph.nodes().filter(isEvidence)) as [GraphNode[], GraphNode[]];
    if (then.length !== now.length || !now.every(({ id }) => this.#before.has(id))) return false;
    return this.#graph.ancestors(now.map(({ id }) => id)).every((id) => this.#isSame(id));
  }

  /** Givens that vary with this one count as well, as far as they are there. */
  #isSame(id: NodeId): boolean {
    const group = new Set([id]);
    for (const other of group) {
      if (!this.#graph.has(other)) continue;
      if (!this.#before.has(other)) return false;
      const [now, then] = [this.#graph.get(other), this.#before.get(other)];
      // Also the order of fields: that of arguments is seen in a budget.
      if (!sameContent(then, now) || JSON.stringify(then) !== JSON.stringify(now)) return false;
      for (const partner of drawnWith(now)) group.add(partner);
    }
    return true;
  }
}

function takeOne<T>(from: ReadonlyMap<string, T>, to: Map<string, T>, key: string): void {
  if (from.has(key) && !to.has(key)) to.set(key, from.get(key) as T);
}
