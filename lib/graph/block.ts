/** A tape run on blocks of rows: only what varies gets columns, everything else stays one number. */
import { Code, special } from "./code";
import type { Column, CurveData } from "./curve";
import { blockRows, type Kernel, kernel } from "./kernels";
import type { CurveArgument } from "./model";
import type { NodeId } from "./node";
import { Registers } from "./registers";
import { evaluateModel, evaluateReading, type ModelArgumentValues, modelOutput, noCurve, type ProgramState, toArgument } from "./state";
import { type CurveReading, type ModelCall, type Special, type Sweep, type Tape, wordsPerInstruction } from "./tape";

/** Rows of an input: a whole column, or a function that fills rows `start` to `start + n` into `out`. */
export type BlockInput = Column | ((out: Float64Array, start: number, n: number) => void);

/** The program of a sweep, as far as blocks need it. */
export interface InnerProgram {
  plan(varying: readonly NodeId[], outputs: readonly NodeId[]): BlockPlan;
}

interface Arithmetic {
  readonly kernel: Kernel;
  readonly out: Float64Array;
  readonly a: Float64Array;
  readonly b: Float64Array;
  readonly c: Float64Array;
}

interface SpecialStep {
  readonly special: Special<InnerProgram>;
  readonly index: number;
}

type Step = Arithmetic | SpecialStep;

/** What a model is given, and whether it varies from row to row. */
interface Argument {
  readonly moves: boolean;
  readonly read: (row: number) => number | CurveArgument;
}

/** Where the rows of a model's output go. */
type Rows = { readonly numbers: Float64Array; readonly curves?: never } | { readonly numbers?: never; readonly curves: CurveData[] };

export class BlockPlan {
  readonly #tape: Tape<InnerProgram>;
  readonly #inputs: readonly number[];
  readonly #outputs: readonly number[];
  readonly #steps: Step[] = [];
  readonly #registers: Registers;
  /** Rows of curves in the block that is running, by slot. */
  readonly #curves = new Map<number, CurveData[]>();
  /** Places of the instructions that run for each block, in the words of the tape. */
  readonly positions: readonly number[];

  constructor(tape: Tape<InnerProgram>, inputs: readonly number[], outputs: readonly number[]) {
    this.#tape = tape;
    this.#inputs = inputs;
    this.#outputs = outputs;
    this.#registers = new Registers(tape, inputs, outputs);
    const positions: number[] = [];
    for (const at of this.#registers.varyingInstructions()) {
      positions.push(at);
      this.#addStep(at);
    }
    this.positions = positions;
  }

  /** Whether a slot has a column. */
  isVarying(slot: number): boolean {
    return this.#registers.isVarying(slot);
  }

  /** What a row costs, in additions: a function of a number as ten, a reading of a curve as thirty (both roughly, as measured). */
  get operations(): number {
    return this.positions.reduce((sum, at) => sum + weightOf(this.#tape.words[at] as number), 0);
  }

  /** How many instructions run for each block. */
  get length(): number {
    return this.#steps.length;
  }

  /** Whether a model or sweep is evaluated row by row, which costs far more than arithmetic. */
  get isCostly(): boolean {
    return this.#steps.some((step) => "special" in step && step.special.kind !== "curve-operation");
  }

  /** The outputs' columns of `rows` rows about a state. Rows without a value are NaN. */
  run(state: ProgramState, rows: number, inputs: readonly BlockInput[]): Column[] {
    this.#registers.bind(state.values, Math.min(rows, blockRows));
    const results = this.#outputs.map((slot): Float64Array | CurveData[] =>
      this.#tape.curveSlots.has(slot) ? new Array<CurveData>(rows) : new Float64Array(rows),
    );
    for (let start = 0; start < rows; start += blockRows) {
      const n = Math.min(blockRows, rows - start);
      this.#fill(inputs, start, n);
      for (const step of this.#steps) {
        if ("kernel" in step) step.kernel(step.out, step.a, step.b, step.c, n);
        else this.#runSpecial(step, state, n);
      }
      for (const [i, result] of results.entries()) this.#store(this.#outputs[i] as number, result, state, start, n);
    }
    return results;
  }

  #addStep(at: number): void {
    const { words, specials } = this.#tape;
    if (words[at] === special) {
      const index = words[at + 2] as number;
      this.#steps.push({ special: specials[index] as Special<InnerProgram>, index });
      return;
    }
    const [operation, out, a, b, c] = words.subarray(at, at + wordsPerInstruction) as unknown as [number, number, number, number, number];
    const operands = this.#registers.operands([a, b, c]);
    this.#steps.push({ kernel: kernel(operation), a: operands[0], b: operands[1], c: operands[2], out: this.#registers.result(out, at) });
  }

  #fill(inputs: readonly BlockInput[], start: number, n: number): void {
    this.#inputs.forEach((slot, i) => {
      const input = inputs[i] as BlockInput;
      if (typeof input === "function") input(this.#registers.column(slot), start, n);
      else if (input instanceof Float64Array) this.#registers.column(slot).set(input.subarray(start, start + n));
      else this.#curves.set(slot, input.slice(start, start + n));
    });
  }

  #store(slot: number, result: Float64Array | CurveData[], state: ProgramState, start: number, n: number): void {
    if (result instanceof Float64Array) {
      if (this.#registers.isVarying(slot)) result.set(this.#registers.column(slot).subarray(0, n), start);
      else result.fill(state.values[slot] as number, start, start + n);
    } else {
      for (let i = 0; i < n; i++) result[start + i] = this.#curveAt(slot, state, i);
    }
  }

  #curveAt(slot: number, state: ProgramState, row: number): CurveData {
    return this.#curves.get(slot)?.[row] ?? state.curves[slot] ?? noCurve;
  }

  #numberAt(slot: number, state: ProgramState, row: number): number {
    return this.#registers.isVarying(slot) ? (this.#registers.column(slot)[row] as number) : (state.values[slot] as number);
  }

  #runSpecial({ special: instruction, index }: SpecialStep, state: ProgramState, n: number): void {
    if (instruction.kind === "model") this.#runModel(instruction, state, n);
    else if (instruction.kind === "curve-operation") this.#runReading(instruction, state, n);
    else if (instruction.kind === "sweep") this.#runSweep(instruction, index, state, n);
  }

  #runModel(call: ModelCall, state: ProgramState, n: number): void {
    const inputs = call.symbols.map((symbol, i) => ({ symbol, ...this.#argument(call.inputs[i] as number, state) }));
    const moving = inputs.filter(({ moves }) => moves);
    const outputs = call.outputs.map((slot, i) => ({ slot, name: call.outputNames[i] as string, ...this.#rowsOf(slot, n) }));
    // One object for all rows: what does not vary is put into it once.
    const args: ModelArgumentValues = Object.fromEntries(inputs.map(({ symbol, read }) => [symbol, read(0)]));
    for (let row = 0; row < n; row++) {
      for (const { symbol, read } of moving) args[symbol] = read(row);
      const results = evaluateModel(call, args, false);
      for (const { name, numbers, curves } of outputs) {
        const output = modelOutput(call, results, name, false);
        if (numbers !== undefined) numbers[row] = typeof output === "number" ? output : Number.NaN;
        else curves[row] = typeof output === "number" ? noCurve : output;
      }
    }
    for (const { slot, curves } of outputs) if (curves !== undefined) this.#curves.set(slot, curves);
  }

  #rowsOf(slot: number, n: number): Rows {
    return this.#tape.curveSlots.has(slot) ? { curves: new Array<CurveData>(n) } : { numbers: this.#registers.column(slot) };
  }

  #argument(slot: number, state: ProgramState): Argument {
    if (!this.#tape.curveSlots.has(slot)) return this.#numberArgument(slot, state);
    if (this.#curves.has(slot)) return { moves: true, read: (row) => toArgument(this.#curveAt(slot, state, row)) };
    const constant = toArgument(state.curves[slot]);
    return { moves: false, read: () => constant };
  }

  #numberArgument(slot: number, state: ProgramState): Argument {
    if (!this.#registers.isVarying(slot)) return { moves: false, read: () => state.values[slot] as number };
    const column = this.#registers.column(slot);
    return { moves: true, read: (row) => column[row] as number };
  }

  #runReading({ node, inputs, outputs }: CurveReading, state: ProgramState, n: number): void {
    const [curve, argument] = inputs as readonly [number, number | undefined];
    const out = this.#registers.column(outputs[0] as number);
    for (let row = 0; row < n; row++) {
      const x = argument === undefined ? 0 : this.#numberAt(argument, state, row);
      out[row] = evaluateReading(node, this.#curveAt(curve, state, row), x, false);
    }
  }

  /** One inner block a point, about the state of that point. */
  #runSweep({ node, program, inputs, inputIds, outputs }: Sweep<InnerProgram>, index: number, state: ProgramState, n: number): void {
    const varying = inputIds.filter((_, i) => this.#registers.isVarying(inputs[i] as number));
    const columns = inputs
      .filter((slot) => this.#registers.isVarying(slot))
      .map((slot): Column => this.#curves.get(slot) ?? this.#registers.column(slot).subarray(0, n));
    const plan = program.plan(varying, [node.of]);
    const ys = (state.inner.get(index) ?? []).map((inner) => plan.run(inner, n, columns)[0] as Float64Array);
    const x = Float64Array.from(node.points);
    this.#curves.set(
      outputs[0] as number,
      Array.from({ length: n }, (_, row) => ({ x, y: Float64Array.from(ys, (y) => y[row] as number) })),
    );
  }
}

function weightOf(operation: number): number {
  if (operation === special) return 30;
  return operation <= Code.negate || operation === Code.sqrt || operation === Code.abs || operation >= Code.min ? 1 : 10;
}
