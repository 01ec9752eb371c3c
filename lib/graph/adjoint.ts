/**
 * Derivatives of one result by many inputs. Where everything between is arithmetic, by one sweep forwards and one
 * backwards over the instructions (reverse mode). Where a model, sweep or curve lies between, by central differences
 * over the whole program in one block (JCGM 100:2008 5.1.3 note 2).
 */
import { special } from "./code";
import type { NodeId } from "./node";
import { runBackwards } from "./partials";
import type { Program } from "./program";
import { downstream, extract } from "./run";
import type { ProgramState } from "./state";
import { wordsPerInstruction } from "./tape";

export class Adjoint {
  readonly #output: number;
  readonly #inputs: readonly number[];
  /** The instructions that matter, last first. */
  readonly #reverse: Int32Array;
  /** By slot; 0 between runs in every slot that a run reads, inputs apart. */
  readonly #adjoint: Float64Array;
  /** True where the result depends on an input through arithmetic alone; else use `centralDifferences`. */
  readonly isArithmetic: boolean;

  constructor(program: Program, output: NodeId, inputs: readonly NodeId[]) {
    const { tape } = program;
    this.#output = program.slot(output);
    this.#inputs = inputs.map((id) => program.slot(id));
    const marked = new Uint8Array(tape.slotCount);
    for (const slot of this.#inputs) marked[slot] = 1;
    const list = downstream(tape.words, marked, (index) => {
      const { inputs: read, outputs, kind } = tape.specials[index] as (typeof tape.specials)[number];
      return { inputs: read, outputs, passes: kind !== "select" };
    });
    const needed = neededBy(
      tape.words,
      list,
      this.#output,
      (index) => tape.specials[index]?.outputs ?? [],
      (index) => tape.specials[index]?.inputs ?? [],
    );
    this.isArithmetic = needed.every((k) => tape.words[k * wordsPerInstruction] !== special);
    this.#reverse = extract(tape.words, needed);
    this.#adjoint = new Float64Array(tape.slotCount);
  }

  /**
   * ∂output/∂input at a state, in the order of the inputs, into an array of that length: the same one can serve for many states. A held
   * preferred value has none; a step function 0.
   */
  derivatives({ values }: ProgramState, into: Float64Array = new Float64Array(this.#inputs.length)): Float64Array {
    const adjoint = this.#adjoint;
    const inputs = this.#inputs;
    for (let k = 0; k < inputs.length; k++) adjoint[inputs[k] as number] = 0;
    adjoint[this.#output] = 1;
    runBackwards(this.#reverse, values, adjoint);
    for (let k = 0; k < inputs.length; k++) into[k] = adjoint[inputs[k] as number] as number;
    return into;
  }
}

/** Positions of the instructions that the output needs, last first. */
function neededBy(
  words: Int32Array,
  list: Int32Array,
  output: number,
  outputs: (index: number) => readonly number[],
  inputs: (index: number) => readonly number[],
): Int32Array {
  const wanted = new Set<number>([output]);
  const positions: number[] = [];
  for (let j = list.length - 1; j >= 0; j--) {
    const at = (list[j] as number) * wordsPerInstruction;
    const isSpecial = words[at] === special;
    const written = isSpecial ? outputs(words[at + 2] as number) : [words[at + 1] as number];
    if (!written.some((slot) => wanted.has(slot))) continue;
    positions.push(list[j] as number);
    for (const slot of isSpecial ? inputs(words[at + 2] as number) : words.subarray(at + 2, at + wordsPerInstruction)) wanted.add(slot);
  }
  return Int32Array.from(positions);
}

/**
 * (f(x + h) − f(x − h))/2h for each input in one block; `steps` are the h, SI, > 0. Where one side has no value the
 * other and the middle serve; NaN where neither side has one.
 */
export function centralDifferences(
  program: Program,
  state: ProgramState,
  output: NodeId,
  inputs: readonly NodeId[],
  steps: readonly number[],
): number[] {
  const rows = 2 * inputs.length + 1;
  const columns = inputs.map((id, k) => {
    const column = new Float64Array(rows).fill(program.valueIn(state, id) as number);
    column[2 * k] = (column[2 * k] as number) + (steps[k] as number);
    column[2 * k + 1] = (column[2 * k + 1] as number) - (steps[k] as number);
    return column;
  });
  const values = program.plan(inputs, [output]).run(state, rows, columns)[0] as Float64Array;
  return columns.map((column, k) => {
    const sides = [2 * k, 2 * k + 1].map((row) => (Number.isFinite(values[row]) ? row : rows - 1)) as [number, number];
    const [above, below] = sides.map((row) => ({ x: column[row] as number, y: values[row] as number })) as [Place, Place];
    return (above.y - below.y) / (above.x - below.x);
  });
}

interface Place {
  readonly x: number;
  readonly y: number;
}
