/**
 * A formula graph as a flat list of instructions on numbered slots: what the scalar, block and adjoint evaluators
 * all run. Slots hold numbers, or curves where a special instruction or a table puts one.
 */
import type { CurveData } from "./curve";
import type { AnyModel } from "./model";
import type { CurveOperationNode, GraphNode, NodeId, SelectNode, SetOnceNode, SweepNode } from "./node";

/** Fields of an instruction in `Tape.words`: its `Code` or `special`, slot of the result, three operand slots. */
export const wordsPerInstruction = 5;

interface SpecialCommon {
  /** Named in messages. */
  readonly node: GraphNode;
  readonly inputs: readonly number[];
  readonly outputs: number[];
}

/** A model; each output slot holds the output of that name. */
export interface ModelCall extends SpecialCommon {
  readonly kind: "model";
  readonly model: AnyModel;
  readonly symbols: readonly string[];
  readonly outputNames: string[];
}

/** The preferred value itself, without its deviation; or a value that is set once. */
export interface Selection extends SpecialCommon {
  readonly kind: "select";
  readonly node: SelectNode | SetOnceNode;
}

export interface CurveReading extends SpecialCommon {
  readonly kind: "curve-operation";
  readonly node: CurveOperationNode;
}

/** A result evaluated at each point by a program of its own, whose inputs are this instruction's. */
export interface Sweep<Program> extends SpecialCommon {
  readonly kind: "sweep";
  readonly node: SweepNode;
  readonly program: Program;
  /** Ids of `inputs` in the inner program. */
  readonly inputIds: readonly NodeId[];
}

export type Special<Program> = ModelCall | Selection | CurveReading | Sweep<Program>;

export interface Tape<Program> {
  /** Instructions in order, five words each. A special has its index in `specials` as first operand. */
  readonly words: Int32Array;
  readonly specials: readonly Special<Program>[];
  readonly slotCount: number;
  /** Numbers that never change: constants of formulas. Other slots are 0. */
  readonly initial: Float64Array;
  readonly initialCurves: ReadonlyMap<number, CurveData>;
  /** Slot of each node's value. */
  readonly slots: ReadonlyMap<NodeId, number>;
  /** Nodes in order: inputs before users. */
  readonly order: readonly NodeId[];
  /** Slots that hold curves. */
  readonly curveSlots: ReadonlySet<number>;
}
