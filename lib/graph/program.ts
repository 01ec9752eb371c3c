/**
 * The evaluator: a part of the graph as one list of instructions, run on numbers (nominal, one row) or on blocks
 * of rows (corners, searches, draws). Nothing is generated from text, so it runs under a page's strict policy.
 */
import { WorkingsError } from "../quantity/error";
import { type BlockInput, BlockPlan } from "./block";
import { boundaryOf, evaluationInputs } from "./boundary";
import { special } from "./code";
import type { Column, CurveData, NodeValue } from "./curve";
import { diagnoseFormula } from "./diagnose";
import type { Graph } from "./graph";
import { lower } from "./lower";
import type { NodeId } from "./node";
import { topologicalOrder } from "./order";
import { downstream, extract, runInstructions } from "./run";
import {
  evaluateModel,
  evaluateReading,
  evaluateSelection,
  type Mode,
  type ModelArgumentValues,
  modelOutput,
  noCurve,
  type ProgramState,
  type Selections,
  toArgument,
} from "./state";
import { type ModelCall, type Special, type Sweep, type Tape, wordsPerInstruction } from "./tape";

export interface EvaluateOptions {
  /** Values that replace those of givens and other inputs. */
  readonly overrides?: ReadonlyMap<NodeId, NodeValue>;
  /** Preferred values to hold instead of choosing. */
  readonly selections?: Selections;
  /** Whether a division by zero or a domain error throws (default), or gives NaN. */
  readonly strict?: boolean;
}

const movingMode: Mode = { strict: true, held: undefined };

export class Program {
  readonly graph: Graph;
  readonly tape: Tape<Program>;
  readonly #downstream = new Map<string, Int32Array>();
  readonly #plans = new Map<string, BlockPlan>();
  #nominal: ProgramState | undefined;

  private constructor(graph: Graph, tape: Tape<Program>) {
    this.graph = graph;
    this.tape = tape;
  }

  /**
   * The program that computes `ids`. Nodes in `inputs` are not expanded: their values come from outside.
   * A switch follows only the alternative that is chosen.
   */
  static compile(graph: Graph, ids: Iterable<NodeId>, inputs: Pick<ReadonlySet<NodeId>, "has"> = new Set()): Program {
    const order = topologicalOrder(ids, (id) => (inputs.has(id) ? [] : evaluationInputs(graph, id)));
    const tape = lower<Program>(graph, order, inputs, (sweep) => {
      const inputIds = boundaryOf(graph, sweep);
      return { program: Program.compile(graph, [sweep.of], new Set([...inputIds, sweep.over])), inputIds };
    });
    return new Program(graph, tape);
  }

  /** Every value at one point. Throws "nominal-domain" naming the node and formula unless `strict` is false. */
  evaluate({ overrides, selections, strict = true }: EvaluateOptions = {}): ProgramState {
    const state = this.#newState();
    for (const [id, value] of overrides ?? []) this.#setInput(state, id, value);
    this.#run(state, this.tape.words, { strict, held: selections });
    return state;
  }

  /** The state at the nominal point, kept; `update` moves it. */
  nominalState(): ProgramState {
    this.#nominal ??= this.evaluate();
    return this.#nominal;
  }

  /** The nominal value of every node. */
  nominal(): Map<NodeId, NodeValue> {
    const state = this.nominalState();
    return new Map([...this.tape.slots.keys()].map((id) => [id, this.valueIn(state, id)]));
  }

  valueIn(state: ProgramState, id: NodeId): NodeValue {
    const slot = this.slot(id);
    return this.tape.curveSlots.has(slot) ? (state.curves[slot] ?? noCurve) : (state.values[slot] as number);
  }

  /** The nominal value of one node, as it stands after the last `update`. */
  value(id: NodeId): NodeValue {
    return this.valueIn(this.nominalState(), id);
  }

  /**
   * Moves givens to other nominal values and recalculates only what depends on them, in an order kept for next time.
   * Throws as `evaluate` does; what depends on the failing formula is then not to be used until a later change mends it.
   */
  update(changed: ReadonlyMap<NodeId, number>): void {
    const state = this.nominalState();
    for (const [id, value] of changed) this.#setInput(state, id, value);
    this.#run(state, this.#downstreamOf(changed), movingMode);
  }

  /** A plan for blocks in which the nodes of `varying` have columns; kept. */
  plan(varying: readonly NodeId[], outputs: readonly NodeId[]): BlockPlan {
    const key = JSON.stringify([varying, outputs]);
    let plan = this.#plans.get(key);
    if (plan === undefined) {
      plan = new BlockPlan(
        this.tape,
        varying.map((id) => this.slot(id)),
        outputs.map((id) => this.slot(id)),
      );
      this.#plans.set(key, plan);
    }
    return plan;
  }

  /** `rows` rows of `outputs`, the nodes of `columns` varying about a state and its preferred values held. */
  block(
    rows: number,
    columns: ReadonlyMap<NodeId, BlockInput>,
    outputs: readonly NodeId[],
    state: ProgramState = this.nominalState(),
  ): Column[] {
    return this.plan([...columns.keys()], outputs).run(state, rows, [...columns.values()]);
  }

  /** Those of `ids` on which `output` depends in a block: not through a held preferred value. */
  dependencies(output: NodeId, ids: readonly NodeId[]): NodeId[] {
    const needed = new Uint8Array(this.tape.slotCount);
    needed[this.slot(output)] = 1;
    const { words, specials } = this.tape;
    for (let at = words.length - wordsPerInstruction; at >= 0; at -= wordsPerInstruction) {
      const instruction = words[at] === special ? specials[words[at + 2] as number] : undefined;
      const written = instruction === undefined ? [words[at + 1] as number] : instruction.outputs;
      if (!written.some((slot) => needed[slot] === 1) || instruction?.kind === "select") continue;
      const read = instruction?.inputs ?? words.subarray(at + 2, at + 5);
      for (const slot of read) needed[slot] = 1;
    }
    return ids.filter((id) => needed[this.slot(id)] === 1);
  }

  has(id: NodeId): boolean {
    return this.tape.slots.has(id);
  }

  slot(id: NodeId): number {
    const slot = this.tape.slots.get(id);
    if (slot === undefined) throw new WorkingsError("graph-missing", `'${id}' is no part of this calculation`, { node: id });
    return slot;
  }

  #newState(): ProgramState {
    const curves: (CurveData | undefined)[] = new Array(this.tape.slotCount);
    for (const [slot, curve] of this.tape.initialCurves) curves[slot] = curve;
    return { values: this.tape.initial.slice(), curves, selections: { chosen: new Map(), sweeps: new Map() }, inner: new Map() };
  }

  /** Ids that this program does not use are passed over: an inner program is given all that its sweep is. */
  #setInput(state: ProgramState, id: NodeId, value: NodeValue): void {
    const slot = this.tape.slots.get(id);
    if (slot === undefined) return;
    if (typeof value === "number") state.values[slot] = value;
    else state.curves[slot] = value;
  }

  #downstreamOf(changed: ReadonlyMap<NodeId, number>): Int32Array {
    // One id alone is its own key: a slider moves one given many times a second.
    const [first] = changed.keys();
    const key = changed.size === 1 ? (first as NodeId) : JSON.stringify([...changed.keys()]);
    let list = this.#downstream.get(key);
    if (list === undefined) {
      list = this.#follow(changed.keys());
      this.#downstream.set(key, list);
    }
    return list;
  }

  /** The instructions that depend on the ids. */
  #follow(ids: Iterable<NodeId>): Int32Array {
    const marked = new Uint8Array(this.tape.slotCount);
    for (const id of ids) marked[this.slot(id)] = 1;
    const specialAt = (index: number) => ({ ...(this.tape.specials[index] as Special<Program>), passes: true });
    return extract(this.tape.words, downstream(this.tape.words, marked, specialAt));
  }

  #run(state: ProgramState, words: Int32Array, mode: Mode): void {
    const finite = runInstructions(words, state.values, (index, before) => {
      if (!before && mode.strict) this.#diagnose(state);
      return this.#special(index, state, mode);
    });
    if (!finite && mode.strict) this.#diagnose(state);
  }

  /** Throws for the first formula without a finite value; returns where only a branch not taken lacks one. */
  #diagnose(state: ProgramState): void {
    for (const id of this.tape.order) {
      const node = this.graph.get(id);
      if (node.kind === "formula" && node.arguments !== undefined) {
        const slots = node.arguments;
        if (this.#isInput(node.arguments)) continue;
        diagnoseFormula(node, (symbol) => state.values[this.slot(slots[symbol] as NodeId)] as number);
      }
    }
  }

  /** A node given from outside has arguments that this program does not know. */
  #isInput(args: Readonly<Record<string, NodeId>>): boolean {
    return Object.values(args).some((id) => !this.has(id));
  }

  #special(index: number, state: ProgramState, mode: Mode): boolean {
    const instruction = this.tape.specials[index] as Special<Program>;
    switch (instruction.kind) {
      case "select": {
        const chosen = evaluateSelection(instruction, state.values[instruction.inputs[0] as number] as number, mode);
        state.selections.chosen.set(instruction.node.id, chosen);
        return this.#put(state, instruction.outputs[0] as number, chosen);
      }
      case "curve-operation": {
        const [curve, argument] = instruction.inputs;
        const x = argument === undefined ? 0 : (state.values[argument] as number);
        return this.#put(
          state,
          instruction.outputs[0] as number,
          evaluateReading(instruction.node, state.curves[curve as number] ?? noCurve, x, mode.strict),
        );
      }
      case "model":
        return this.#model(instruction, state, mode);
      case "sweep":
        return this.#sweep(instruction, index, state, mode);
    }
  }

  #model(call: ModelCall, state: ProgramState, mode: Mode): boolean {
    const args: ModelArgumentValues = {};
    call.symbols.forEach((symbol, i) => {
      const slot = call.inputs[i] as number;
      args[symbol] = this.tape.curveSlots.has(slot) ? toArgument(state.curves[slot]) : (state.values[slot] as number);
    });
    const results = evaluateModel(call, args, mode.strict);
    return call.outputs
      .map((slot, i) => this.#put(state, slot, modelOutput(call, results, call.outputNames[i] as string, mode.strict)))
      .every(Boolean);
  }

  #sweep(sweep: Sweep<Program>, index: number, state: ProgramState, mode: Mode): boolean {
    const { node, program, inputs, inputIds } = sweep;
    const outside = inputIds.map((id, i): [NodeId, NodeValue] => {
      const slot = inputs[i] as number;
      return [id, this.tape.curveSlots.has(slot) ? (state.curves[slot] ?? noCurve) : (state.values[slot] as number)];
    });
    const states = node.points.map((x, j) => {
      const selections = mode.held?.sweeps.get(node.id)?.[j];
      const overrides = new Map<NodeId, NodeValue>([...outside, [node.over, x]]);
      return program.evaluate({ overrides, strict: mode.strict, ...(selections === undefined ? {} : { selections }) });
    });
    state.inner.set(index, states);
    state.selections.sweeps.set(
      node.id,
      states.map((inner) => inner.selections),
    );
    const y = Float64Array.from(states, (inner) => program.valueIn(inner, node.of) as number);
    return this.#put(state, sweep.outputs[0] as number, { x: Float64Array.from(node.points), y });
  }

  #put(state: ProgramState, slot: number, value: NodeValue): boolean {
    if (typeof value !== "number") {
      state.curves[slot] = value;
      return true;
    }
    state.values[slot] = value;
    return Number.isFinite(value);
  }
}
