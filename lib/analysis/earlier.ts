/** What an earlier evaluation has found, for a graph that is still growing: asked node by node whether it holds there. */
import { drawnWith } from "../graph/differing";
import { Graph } from "../graph/graph";
import { inputsOf } from "../graph/inputs";
import type { NodeId } from "../graph/node";
import { topologicalOrder } from "../graph/order";
import { sameContent } from "../graph/serialise";
import { type EvaluationData, type Findings, takeOne } from "./findings";
import type { Nominals } from "./nominals";
import { nodeOfKey } from "./sampler";

export class Earlier {
  readonly #graph: Graph;
  readonly #before: Graph;
  readonly #found: EvaluationData;
  readonly #holds = new Map<NodeId, boolean>();
  readonly #recalled = new Set<NodeId>();

  /** `found` by the same library, with the same draws. */
  constructor(graph: Graph, found: EvaluationData) {
    this.#graph = graph;
    this.#before = Graph.from(found.nodes);
    this.#found = found;
  }

  /** All that is known of a node, where it holds; but what is judged by limits. */
  recall(id: NodeId, nominals: Nominals, findings: Findings): void {
    if (this.#recalled.has(id) || !this.#graph.has(id)) return;
    this.#recalled.add(id);
    if (!this.#doesHold(id)) return;
    const { worst, points, analyses, bands } = this.#found;
    const value = this.#found.nominals.get(id);
    if (value !== undefined) nominals.takeOver(new Map([[id, value]]), () => true);
    takeOne(worst, findings.worst, id);
    takeOne(points, findings.points, id);
    takeOne(analyses, findings.analyses, id);
    takeOne(bands, findings.bands, id);
  }

  recallVerdict(key: string, findings: Findings): void {
    if (this.#found.verdicts.has(key) && this.#doesHold(nodeOfKey(key))) takeOne(this.#found.verdicts, findings.verdicts, key);
  }

  recallYield(key: string, nodes: readonly NodeId[], findings: Findings): void {
    if (this.#found.yields.has(key) && nodes.every((id) => this.#doesHold(id))) takeOne(this.#found.yields, findings.yields, key);
  }

  /** Of all nodes of the graph, also those that nobody has asked about. */
  recallAll(nominals: Nominals, findings: Findings): void {
    for (const { id } of this.#graph.nodes()) this.recall(id, nominals, findings);
    for (const key of this.#found.verdicts.keys()) this.recallVerdict(key, findings);
  }

  /** After a node of the graph was replaced. */
  forget(): void {
    this.#holds.clear();
    this.#recalled.clear();
  }

  /** Whether a node of the graph and all that it follows from, through any alternative, are as they were. */
  #doesHold(id: NodeId): boolean {
    if (!this.#graph.has(id)) return false;
    const open = topologicalOrder([id], (other) => (this.#holds.has(other) ? [] : inputsOf(this.#graph.get(other))));
    for (const other of open)
      if (!this.#holds.has(other))
        this.#holds.set(other, this.#isSame(other) && inputsOf(this.#graph.get(other)).every((input) => this.#holds.get(input) === true));
    return this.#holds.get(id) === true;
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
