/** The interpreter of a tape on numbers. */
import type { OperationValue } from "../formula/operations";
import { Code, operationsByCode, special } from "./code";
import { wordsPerInstruction } from "./tape";

/**
 * Runs all instructions of `words` in order. `onSpecial` evaluates a special instruction by its index and says
 * whether its results are finite; it is told whether all before it were. Returns whether everything computed is finite.
 */
export function runInstructions(words: Int32Array, values: Float64Array, onSpecial: (index: number, finite: boolean) => boolean): boolean {
  let finite = true;
  for (let at = 0; at < words.length; at += wordsPerInstruction) {
    const next = runArithmetic(words, at, values);
    if (finite) finite = areFinite(words, at, next, values);
    at = next;
    if (at >= words.length) break;
    if (words[at] === special) {
      finite = onSpecial(words[at + 2] as number, finite) && finite;
    } else {
      const value = (operationsByCode[words[at] as number] as OperationValue)(
        values[words[at + 2] as number] as number,
        values[words[at + 3] as number] as number,
        values[words[at + 4] as number] as number,
      );
      values[words[at + 1] as number] = value;
      finite &&= Number.isFinite(value);
    }
  }
  return finite;
}

/** Runs from `start` up to the first instruction that is not plain arithmetic; no calls, so that it stays in registers. */
function runArithmetic(words: Int32Array, start: number, values: Float64Array): number {
  let at = start;
  for (; at < words.length; at += wordsPerInstruction) {
    const a = values[words[at + 2] as number] as number;
    const b = values[words[at + 3] as number] as number;
    let value: number;
    switch (words[at]) {
      case Code.add:
        value = a + b;
        break;
      case Code.subtract:
        value = a - b;
        break;
      case Code.multiply:
        value = a * b;
        break;
      case Code.divide:
        value = a / b;
        break;
      case Code.negate:
        value = -a;
        break;
      case Code.sqrt:
        value = Math.sqrt(a);
        break;
      default:
        return at;
    }
    values[words[at + 1] as number] = value;
  }
  return at;
}

/** Whether the results of the instructions from `start` to `end` are finite: x − x is 0 for those alone. */
function areFinite(words: Int32Array, start: number, end: number, values: Float64Array): boolean {
  let sum = 0;
  for (let at = start + 1; at < end; at += wordsPerInstruction) {
    const value = values[words[at] as number] as number;
    sum += value - value;
  }
  return sum === 0;
}

/** The instructions at the positions in `list`, one after another: what a change recalculates. */
export function extract(words: Int32Array, list: Int32Array): Int32Array {
  const part = new Int32Array(list.length * wordsPerInstruction);
  for (let j = 0; j < list.length; j++) {
    const at = (list[j] as number) * wordsPerInstruction;
    for (let field = 0; field < wordsPerInstruction; field++) part[j * wordsPerInstruction + field] = words[at + field] as number;
  }
  return part;
}

/** Positions of the instructions that read, directly or not, one of the marked slots; marks what they write. */
export function downstream(
  words: Int32Array,
  marked: Uint8Array,
  specialAt: (index: number) => { readonly inputs: readonly number[]; readonly outputs: readonly number[]; readonly passes: boolean },
): Int32Array {
  const list: number[] = [];
  for (let k = 0; k * wordsPerInstruction < words.length; k++) {
    const at = k * wordsPerInstruction;
    if (words[at] === special) {
      const { inputs, outputs, passes } = specialAt(words[at + 2] as number);
      if (!passes || !inputs.some((slot) => marked[slot] === 1)) continue;
      for (const slot of outputs) marked[slot] = 1;
    } else {
      if (marked[words[at + 2] as number] !== 1 && marked[words[at + 3] as number] !== 1 && marked[words[at + 4] as number] !== 1) continue;
      marked[words[at + 1] as number] = 1;
    }
    list.push(k);
  }
  return Int32Array.from(list);
}
