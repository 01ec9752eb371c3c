/** What every analysis of one result starts from: its program, its nominal state, the givens that move it. */

import { evaluationInputs } from "../graph/boundary";
import type { Graph } from "../graph/graph";
import { isCurveNode } from "../graph/lower";
import { modelNamed } from "../graph/model";
import type { GivenNode, GraphNode, NodeId } from "../graph/node";
import { topologicalOrder } from "../graph/order";
import { Program } from "../graph/program";
import type { ProgramState } from "../graph/state";
import { WorkingsError } from "../quantity/error";
import { isRange, isTolerance } from "./distribution";
import { type Drawn, hasKind, type SpreadPart, spreadParts } from "./kinds";
import type { RangePoint } from "./result";

export class Study {
  readonly id: NodeId;
  readonly program: Program;
  readonly nominal: ProgramState;
  readonly value: number;
  readonly tolerances: readonly GivenNode[];
  /** Their spreads, each of one kind. */
  readonly parts: readonly SpreadPart[];
  readonly ranges: readonly GivenNode[];
  readonly frozen: boolean;
  /** Draws at most, where a model asks for fewer. */
  readonly maximumDraws: number;
  readonly #fixed: ReadonlyMap<NodeId, number>;

  /**
   * Throws "graph-shape" for a curve, and what the nominal pass throws. `fixed` holds inputs of `program` at values of
   * their own, as at a point of a sweep.
   */
  constructor(graph: Graph, id: NodeId, program = Program.compile(graph, [id]), fixed: ReadonlyMap<NodeId, number> = new Map()) {
    if (isCurveNode(graph, id))
      throw new WorkingsError("graph-shape", `'${id}' is a curve; analyse its value at a point, or its bands`, { node: id });
    this.id = id;
    this.program = program;
    this.#fixed = fixed;
    this.nominal = fixed.size === 0 ? program.nominalState() : program.evaluate({ overrides: fixed });
    this.value = this.program.valueIn(this.nominal, id) as number;
    const nodes = this.program.tape.order.map((other) => graph.get(other));
    const givens = nodes.filter(
      (node): node is GivenNode => node.kind === "given" && !fixed.has(node.id) && (isTolerance(node) || isRange(node)),
    );
    const moving = new Set(
      this.program.dependencies(
        id,
        givens.map((given) => given.id),
      ),
    );
    this.tolerances = givens.filter((given) => moving.has(given.id) && isTolerance(given));
    this.parts = this.tolerances.flatMap(spreadParts);
    this.ranges = givens.filter((given) => moving.has(given.id) && isRange(given));
    const ancestors = ancestry(graph, id);
    this.frozen = ancestors.some((other) => graph.get(other).kind === "frozen");
    this.maximumDraws = Math.min(Infinity, ...ancestors.map((other) => drawsOf(graph.get(other))));
  }

  /** Everything that moves the result. */
  get givens(): readonly GivenNode[] {
    return [...this.tolerances, ...this.ranges];
  }

  /** The tolerances that move when one kind of spread is drawn, or both. */
  drawnWith(drawn: Drawn): readonly GivenNode[] {
    return drawn === "both" ? this.tolerances : this.tolerances.filter((given) => hasKind(given, drawn));
  }

  /** The state with ranges at a point and tolerances at their nominals, preferred values held. */
  stateAt(point: RangePoint): ProgramState {
    return this.program.evaluate({
      overrides: new Map([...this.#fixed, ...Object.entries(point)]),
      selections: this.nominal.selections,
      strict: false,
    });
  }

  /** The value there. */
  valueAt(point: RangePoint): number {
    return this.program.valueIn(this.stateAt(point), this.id) as number;
  }

  /** Of a point, the values of this result's own ranges. */
  own(point: RangePoint): RangePoint {
    return Object.fromEntries(this.ranges.map((given) => [given.id, point[given.id] ?? given.nominal]));
  }
}

/** What a value follows from: of a switch the chosen case, of a sweep what it sweeps. */
export function ancestry(graph: Graph, id: NodeId): NodeId[] {
  return topologicalOrder([id], (other) => {
    const node = graph.get(other);
    return node.kind === "sweep" ? [node.of, node.over] : evaluationInputs(graph, other);
  });
}

function drawsOf(node: GraphNode): number {
  return node.kind === "model" ? (modelNamed(node.model).draws ?? Infinity) : Infinity;
}
