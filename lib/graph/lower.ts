/** From nodes to a tape. */

import type { CallExpression, Expression } from "../formula/expression";
import { entryOf } from "../quantity/entry-of";
import { WorkingsError } from "../quantity/error";
import { unitOf } from "../quantity/unit";
import { Code, codeOf, special } from "./code";
import type { CurveData } from "./curve";
import type { Graph } from "./graph";
import { checkCurve } from "./interpolate";
import { isCurveSlot, modelNamed } from "./model";
import type { FormulaNode, GraphNode, ModelNode, NodeId, SelectNode, SetOnceNode, SweepNode, TableNode } from "./node";
import type { ModelCall, Special, Tape } from "./tape";

/** Makes the inner program of a sweep: its result, and the nodes whose values come from outside. */
export type CompileInner<Program> = (sweep: SweepNode) => { readonly program: Program; readonly inputIds: readonly NodeId[] };

/**
 * The instructions that compute the nodes of `order`. Nodes in `inputs` are not expanded: their slots are filled
 * by the caller. Throws where a number stands for a curve or a curve for a number.
 */
export function lower<Program>(
  graph: Graph,
  order: readonly NodeId[],
  inputs: Pick<ReadonlySet<NodeId>, "has">,
  inner: CompileInner<Program>,
): Tape<Program> {
  const builder = new TapeBuilder<Program>(graph, inner);
  for (const id of order) builder.addNode(graph.get(id), inputs.has(id));
  return builder.finish(order);
}

/** The node that stands for another through decisions. */
export function chosenNode(graph: Graph, id: NodeId): GraphNode {
  let node = graph.get(id);
  while (node.kind === "switch") node = graph.get(chosenCase(graph, node));
  return node;
}

/** Whether a node's value is a curve. */
export function isCurveNode(graph: Graph, id: NodeId): boolean {
  const node = chosenNode(graph, id);
  if (node.kind === "table" || node.kind === "sweep") return true;
  return node.kind === "model" && isCurveSlot(modelNamed(node.model).outputs[node.output]);
}

/** The node that a switch stands for now. */
export function chosenCase(graph: Graph, node: GraphNode & { kind: "switch" }): NodeId {
  const choice = graph.get(node.choice);
  const chosen = choice.kind === "choice" ? entryOf(node.cases, choice.chosen) : undefined;
  if (chosen === undefined) {
    throw new WorkingsError("graph-choice", `${node.id}: nothing was computed for the alternative that ${node.choice} has chosen`, {
      node: node.id,
    });
  }
  return chosen;
}

/** SI = factor · number + offset, of a unit that is no level. */
function linearScale(symbol: string): { factor: number; offset: number } {
  const { factor, affine, toSI } = unitOf(symbol);
  if (factor === undefined) throw new WorkingsError("graph-data", `a stored numerical value equation reads a number in ${symbol}`);
  return { factor, offset: affine ? toSI(0) : 0 };
}

class TapeBuilder<Program> {
  readonly #graph: Graph;
  readonly #inner: CompileInner<Program>;
  readonly #words: number[] = [];
  readonly #specials: Special<Program>[] = [];
  readonly #initial: number[] = [];
  readonly #curves = new Map<number, CurveData>();
  readonly #curveSlots = new Set<number>();
  readonly #slots = new Map<NodeId, number>();
  readonly #constants = new Map<number, number>();
  readonly #models = new Map<string, ModelCall>();

  constructor(graph: Graph, inner: CompileInner<Program>) {
    this.#graph = graph;
    this.#inner = inner;
  }

  finish(order: readonly NodeId[]): Tape<Program> {
    return {
      words: Int32Array.from(this.#words),
      specials: this.#specials,
      slotCount: this.#initial.length,
      initial: Float64Array.from(this.#initial),
      initialCurves: this.#curves,
      slots: this.#slots,
      order,
      curveSlots: this.#curveSlots,
    };
  }

  addNode(node: GraphNode, isInput: boolean): void {
    const slot = isInput ? this.#inputSlot(node) : this.#lowerNode(node);
    this.#slots.set(node.id, slot);
  }

  #inputSlot(node: GraphNode): number {
    const slot = this.#newSlot(0);
    if (isCurveNode(this.#graph, node.id)) this.#curveSlots.add(slot);
    return slot;
  }

  #lowerNode(node: GraphNode): number {
    switch (node.kind) {
      case "given":
      case "reading":
        return this.#newSlot(node.nominal);
      case "constant":
      case "frozen":
        return this.#newSlot(node.value);
      case "choice":
        return this.#newSlot(node.options.indexOf(node.chosen));
      case "table":
        return this.#table(node);
      case "switch":
        return this.#slotOf(chosenCase(this.#graph, node));
      case "formula":
        return this.#formula(node);
      case "select":
        return this.#select(node);
      case "set-once":
        return this.#chosen(node);
      case "model":
        return this.#model(node);
      case "sweep":
        return this.#sweep(node);
      case "curve-operation":
        return this.#curveOperation(node);
    }
  }

  #table(node: TableNode): number {
    const slot = this.#newSlot(0);
    const curve = { x: Float64Array.from(node.x), y: Float64Array.from(node.y), interpolation: node.interpolation };
    checkCurve(curve, `table ${node.path}`);
    this.#curves.set(slot, curve);
    this.#curveSlots.add(slot);
    return slot;
  }

  #formula(node: FormulaNode): number {
    const symbols = new Map<string, number>();
    for (const [symbol, id] of Object.entries(node.arguments)) {
      symbols.set(symbol, this.#numberIn(this.#scalarSlot(id, node), node.numerical?.arguments[symbol]));
    }
    const slot = this.#expression(node.expression, symbols, node);
    return this.#fromNumber(slot, node.numerical?.result);
  }

  /** The number of a quantity in a stated unit: (SI − offset)/factor. */
  #numberIn(slot: number, unit: string | undefined): number {
    if (unit === undefined) return slot;
    const { factor, offset } = linearScale(unit);
    const shifted = offset === 0 ? slot : this.#emit(Code.subtract, slot, this.#constant(offset));
    return factor === 1 ? shifted : this.#emit(Code.divide, shifted, this.#constant(factor));
  }

  #fromNumber(slot: number, unit: string | undefined): number {
    if (unit === undefined) return slot;
    const { factor, offset } = linearScale(unit);
    const scaled = factor === 1 ? slot : this.#emit(Code.multiply, slot, this.#constant(factor));
    return offset === 0 ? scaled : this.#emit(Code.add, scaled, this.#constant(offset));
  }

  #expression(expression: Expression, symbols: ReadonlyMap<string, number>, node: FormulaNode): number {
    if ("number" in expression) return this.#constant(expression.number);
    if ("constant" in expression) return this.#constant(expression.constant === "pi" ? Math.PI : Math.E);
    if ("symbol" in expression) {
      const slot = symbols.get(expression.symbol);
      if (slot === undefined)
        throw new WorkingsError("graph-missing", `${node.id}: '${expression.symbol}' in ${node.text} has no value`, { node: node.id });
      return slot;
    }
    return this.#call(
      expression,
      expression.of.map((part) => this.#expression(part, symbols, node)),
    );
  }

  #call({ call, of }: CallExpression, operands: readonly number[]): number {
    const [a = 0, b = a, c = a] = operands;
    const operation = codeOf(call);
    if (operation === undefined) throw new WorkingsError("graph-data", `a stored formula calls '${call}', which is no operation`);
    if (call === "min" || call === "max") return operands.slice(1).reduce((left, right) => this.#emit(operation, left, right), a);
    const exponent = call === "power" && of[1] !== undefined && "number" in of[1] ? of[1].number : undefined;
    if (exponent === 2) return this.#emit(Code.multiply, a, a);
    if (exponent === 0.5) return this.#emit(Code.sqrt, a);
    return this.#emit(operation, a, b, c);
  }

  /** The preferred value times 1 + deviation. */
  #select(node: SelectNode): number {
    const chosen = this.#chosen(node);
    if (node.deviation === undefined) return chosen;
    const factor = this.#emit(Code.add, this.#constant(1), this.#scalarSlot(node.deviation, node));
    return this.#emit(Code.multiply, chosen, factor);
  }

  #chosen(node: SelectNode | SetOnceNode): number {
    return this.#special({ kind: "select", node, inputs: [this.#scalarSlot(node.of, node)], outputs: [this.#newSlot(0)] });
  }

  #model(node: ModelNode): number {
    const call = this.#modelCall(node);
    const known = call.outputNames.indexOf(node.output);
    if (known >= 0) return call.outputs[known] as number;
    const output = call.model.outputs[node.output];
    if (output === undefined) {
      throw new WorkingsError(
        "model-unknown",
        `${node.id}: model '${node.model}' has no output '${node.output}'; it has ${Object.keys(call.model.outputs).join(", ")}`,
      );
    }
    const slot = this.#newSlot(0);
    if (isCurveSlot(output)) this.#curveSlots.add(slot);
    call.outputs.push(slot);
    call.outputNames.push(node.output);
    return slot;
  }

  /** One call serves every output of the same model with the same arguments. */
  #modelCall(node: ModelNode): ModelCall {
    const model = modelNamed(node.model);
    const symbols = Object.keys(model.inputs);
    const inputs = symbols.map((symbol) => this.#modelInput(node, symbol, isCurveSlot(model.inputs[symbol])));
    const key = `${node.model}(${inputs.join()})`;
    const present = this.#models.get(key);
    if (present !== undefined) return present;
    const call: ModelCall = { kind: "model", node, model, symbols, inputs, outputs: [], outputNames: [] };
    this.#special(call);
    this.#models.set(key, call);
    return call;
  }

  #modelInput(node: ModelNode, symbol: string, isCurve: boolean): number {
    const id = node.arguments[symbol];
    if (id === undefined)
      throw new WorkingsError("model-argument", `${node.id}: model '${node.model}' needs '${symbol}'`, { node: node.id });
    return isCurve ? this.#curveSlot(id, node) : this.#scalarSlot(id, node);
  }

  #sweep(node: SweepNode): number {
    const { program, inputIds } = this.#inner(node);
    const slot = this.#newSlot(0);
    this.#curveSlots.add(slot);
    return this.#special({ kind: "sweep", node, program, inputIds, inputs: inputIds.map((id) => this.#slotOf(id)), outputs: [slot] });
  }

  #curveOperation(node: GraphNode & { kind: "curve-operation" }): number {
    const inputs = [this.#curveSlot(node.of, node)];
    if (node.argument !== undefined) inputs.push(this.#scalarSlot(node.argument, node));
    return this.#special({ kind: "curve-operation", node, inputs, outputs: [this.#newSlot(0)] });
  }

  #special(instruction: Special<Program>): number {
    const output = instruction.outputs[0] ?? -1;
    this.#words.push(special, output, this.#specials.length, 0, 0);
    this.#specials.push(instruction);
    return output;
  }

  #emit(operation: Code, a: number, b = a, c = a): number {
    const out = this.#newSlot(0);
    this.#words.push(operation, out, a, b, c);
    return out;
  }

  #constant(value: number): number {
    const present = this.#constants.get(value);
    if (present !== undefined) return present;
    const slot = this.#newSlot(value);
    this.#constants.set(value, slot);
    return slot;
  }

  #newSlot(initial: number): number {
    return this.#initial.push(initial) - 1;
  }

  #slotOf(id: NodeId): number {
    const slot = this.#slots.get(id);
    if (slot === undefined) throw new WorkingsError("graph-missing", `'${id}' is used before it is computed`, { node: id });
    return slot;
  }

  #scalarSlot(id: NodeId, user: GraphNode): number {
    const slot = this.#slotOf(id);
    if (this.#curveSlots.has(slot))
      throw new WorkingsError(
        "graph-shape",
        `${user.id} needs a number, but '${id}' is a curve or table; take its value at a point, its maximum or its integral`,
      );
    return slot;
  }

  #curveSlot(id: NodeId, user: GraphNode): number {
    const slot = this.#slotOf(id);
    if (!this.#curveSlots.has(slot)) throw new WorkingsError("graph-shape", `${user.id} needs a curve or table, but '${id}' is a number`);
    return slot;
  }
}
