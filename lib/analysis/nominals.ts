/** Nominal values of a growing graph: each new result is computed from those already known. */
import type { CurveData, NodeValue } from "../graph/curve";
import type { Graph } from "../graph/graph";
import type { NodeId } from "../graph/node";
import { Program } from "../graph/program";

export class Nominals {
  readonly #graph: Graph;
  readonly #values = new Map<NodeId, NodeValue>();

  constructor(graph: Graph) {
    this.#graph = graph;
  }

  /** What is known so far. */
  get values(): ReadonlyMap<NodeId, NodeValue> {
    return this.#values;
  }

  /** Throws what the nominal pass throws. */
  value(id: NodeId): NodeValue {
    const known = this.#values.get(id);
    if (known !== undefined) return known;
    this.prepare([id]);
    return this.#values.get(id) as NodeValue;
  }

  /** Many at once, in one program. */
  prepare(ids: Iterable<NodeId>): void {
    const program = Program.compile(this.#graph, ids, this.#values);
    const known = program.tape.order
      .filter((id) => this.#values.has(id))
      .map((id): [NodeId, NodeValue] => [id, this.#values.get(id) as NodeValue]);
    const state = program.evaluate({ overrides: new Map(known) });
    for (const id of program.tape.order) this.#values.set(id, program.valueIn(state, id));
  }

  /** Values known to another graph's, of nodes that are the same here. */
  takeOver(values: ReadonlyMap<NodeId, NodeValue>, isKept: (id: NodeId) => boolean): void {
    for (const [id, value] of values) if (isKept(id)) this.#values.set(id, value);
  }

  clear(): void {
    this.#values.clear();
  }
}

export function isCurve(value: NodeValue): value is CurveData {
  return typeof value !== "number";
}
