/**
 * Which slots of a tape vary in a block, and the columns that hold them. A column is used again as soon as its
 * last reader has run, so that a long formula still fits the caches; numbers that do not vary are spread over a
 * column of their own once a run.
 */
import { special } from "./code";
import { blockRows } from "./kernels";
import { downstream } from "./run";
import { type Tape, wordsPerInstruction } from "./tape";

export class Registers {
  readonly #tape: Tape<unknown>;
  readonly #varying: Uint8Array;
  readonly #list: Int32Array;
  readonly #lastRead: Int32Array;
  readonly #columns = new Map<number, Float64Array>();
  readonly #spread = new Map<number, Float64Array>();
  readonly #free: Float64Array[] = [];

  constructor(tape: Tape<unknown>, inputs: readonly number[], outputs: readonly number[]) {
    this.#tape = tape;
    this.#varying = new Uint8Array(tape.slotCount);
    for (const slot of inputs) this.#varying[slot] = 1;
    const all = downstream(tape.words, this.#varying, (index) => {
      const { inputs: read, outputs: written, kind } = tape.specials[index] as (typeof tape.specials)[number];
      return { inputs: read, outputs: written, passes: kind !== "select" };
    });
    const { list, lastRead } = this.#needed(all, outputs);
    this.#list = list;
    this.#lastRead = lastRead;
    for (const slot of inputs) if (!tape.curveSlots.has(slot)) this.#columns.set(slot, new Float64Array(blockRows));
  }

  isVarying(slot: number): boolean {
    return this.#varying[slot] === 1;
  }

  /** Places in the words of the varying instructions, in order. Those of specials get the columns they write. */
  *varyingInstructions(): Generator<number> {
    for (const k of this.#list) {
      const at = k * wordsPerInstruction;
      if (this.#tape.words[at] === special) this.#allocateOutputs(this.#tape.words[at + 2] as number);
      yield at;
    }
  }

  /** Columns of operands, varying or spread. */
  operands(slots: readonly [number, number, number]): readonly [Float64Array, Float64Array, Float64Array] {
    return [this.#operand(slots[0]), this.#operand(slots[1]), this.#operand(slots[2])];
  }

  /** A column for what the instruction at `at` writes; it may be that of an operand read here for the last time. */
  result(slot: number, at: number): Float64Array {
    const { words } = this.#tape;
    for (const operand of new Set(words.subarray(at + 2, at + wordsPerInstruction))) {
      const column = this.#columns.get(operand);
      if (column !== undefined && this.#lastRead[operand] === at) this.#free.push(column);
    }
    const column = this.#free.pop() ?? new Float64Array(blockRows);
    this.#columns.set(slot, column);
    return column;
  }

  /** The column of a varying slot. */
  column(slot: number): Float64Array {
    return this.#columns.get(slot) as Float64Array;
  }

  /** Spreads the numbers that do not vary. */
  bind(values: Float64Array, rows: number): void {
    for (const [slot, column] of this.#spread) column.fill(values[slot] as number, 0, rows);
  }

  #operand(slot: number): Float64Array {
    if (this.isVarying(slot)) return this.column(slot);
    let column = this.#spread.get(slot);
    if (column === undefined) {
      column = new Float64Array(blockRows);
      this.#spread.set(slot, column);
    }
    return column;
  }

  #allocateOutputs(index: number): void {
    for (const slot of this.#tape.specials[index]?.outputs ?? []) {
      if (!this.#tape.curveSlots.has(slot)) this.#columns.set(slot, new Float64Array(blockRows));
    }
  }

  /** Of the varying instructions those that the outputs need, and the place of the last reader of each slot. */
  #needed(all: Int32Array, outputs: readonly number[]): { list: Int32Array; lastRead: Int32Array } {
    const { words, specials, slotCount } = this.#tape;
    const lastRead = new Int32Array(slotCount).fill(-1);
    const list: number[] = [];
    for (const slot of outputs) lastRead[slot] = words.length;
    for (let j = all.length - 1; j >= 0; j--) {
      const at = (all[j] as number) * wordsPerInstruction;
      const instruction = words[at] === special ? specials[words[at + 2] as number] : undefined;
      const written = instruction?.outputs ?? [words[at + 1] as number];
      if (!written.some((slot) => lastRead[slot] !== -1)) continue;
      list.push(all[j] as number);
      for (const slot of instruction?.inputs ?? words.subarray(at + 2, at + wordsPerInstruction)) {
        // A column that a special reads is kept: its readers are rows of models, not one loop.
        if (instruction !== undefined) lastRead[slot] = words.length;
        else if (lastRead[slot] === -1) lastRead[slot] = at;
      }
    }
    return { list: Int32Array.from(list.reverse()), lastRead };
  }
}
