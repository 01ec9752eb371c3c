/** Instructions backwards: what the adjoint of each result adds to those of its operands. */
import { cos, cosh, ln, sin, sinh } from "../quantity/elementary";
import { power } from "../quantity/power";
import { wordsPerInstruction } from "./tape";

/**
 * Runs the instructions of `words`, last first as they stand there, adding adjoint·∂result/∂operand to the adjoints
 * of the operands, and leaves those of the results at 0 for the next run. Steps and comparisons add nothing. One long switch without calls for what formulas hold most: this
 * loop is what a budget costs, and a number passed to a function that stays one is put on the heap. Each case touches
 * its own operands alone: adding 0 to one that was just written to waits for that writing. A quotient's derivatives are taken from the
 * quotient itself, which is there: one division instead of two.
 */
export function runBackwards(words: Int32Array, values: Float64Array, adjoint: Float64Array): void {
  for (let at = 0; at < words.length; at += wordsPerInstruction) {
    const result = words[at + 1] as number;
    const seed = adjoint[result] as number;
    if (seed === 0) continue;
    adjoint[result] = 0;
    const p = words[at + 2] as number;
    const q = words[at + 3] as number;
    const r = words[at + 4] as number;
    switch (words[at]) {
      case 0:
        adjoint[p] = (adjoint[p] as number) + seed;
        adjoint[q] = (adjoint[q] as number) + seed;
        break;
      case 1:
        adjoint[p] = (adjoint[p] as number) + seed;
        adjoint[q] = (adjoint[q] as number) - seed;
        break;
      case 2:
        adjoint[p] = (adjoint[p] as number) + seed * (values[q] as number);
        adjoint[q] = (adjoint[q] as number) + seed * (values[p] as number);
        break;
      case 3: {
        const part = seed / (values[q] as number);
        adjoint[p] = (adjoint[p] as number) + part;
        adjoint[q] = (adjoint[q] as number) - part * (values[result] as number);
        break;
      }
      case 4:
        adjoint[p] = (adjoint[p] as number) - seed;
        break;
      case 6:
        adjoint[p] = (adjoint[p] as number) + (0.5 * seed) / (values[result] as number);
        break;
      case 8:
        adjoint[p] = (adjoint[p] as number) + seed * (values[result] as number);
        break;
      case 9:
        adjoint[p] = (adjoint[p] as number) + seed / (values[p] as number);
        break;
      case 40:
        adjoint[p] = (adjoint[p] as number) + seed * (values[q] as number);
        adjoint[q] = (adjoint[q] as number) + seed * (values[p] as number);
        adjoint[r] = (adjoint[r] as number) + seed;
        break;
      case 41:
        adjoint[p] = (adjoint[p] as number) + seed * (values[q] as number);
        adjoint[q] = (adjoint[q] as number) + seed * (values[p] as number);
        adjoint[r] = (adjoint[r] as number) - seed;
        break;
      case 42:
        adjoint[p] = (adjoint[p] as number) - seed * (values[q] as number);
        adjoint[q] = (adjoint[q] as number) - seed * (values[p] as number);
        adjoint[r] = (adjoint[r] as number) + seed;
        break;
      case 43: {
        const part = seed * (values[r] as number);
        adjoint[p] = (adjoint[p] as number) + part;
        adjoint[q] = (adjoint[q] as number) + part;
        adjoint[r] = (adjoint[r] as number) + seed * ((values[p] as number) + (values[q] as number));
        break;
      }
      case 44: {
        const part = seed * (values[r] as number);
        adjoint[p] = (adjoint[p] as number) + part;
        adjoint[q] = (adjoint[q] as number) - part;
        adjoint[r] = (adjoint[r] as number) + seed * ((values[p] as number) - (values[q] as number));
        break;
      }
      case 45: {
        const part = seed / (values[r] as number);
        adjoint[p] = (adjoint[p] as number) + part;
        adjoint[q] = (adjoint[q] as number) + part;
        adjoint[r] = (adjoint[r] as number) - part * (values[result] as number);
        break;
      }
      case 46: {
        const part = seed / (values[r] as number);
        adjoint[p] = (adjoint[p] as number) + part;
        adjoint[q] = (adjoint[q] as number) - part;
        adjoint[r] = (adjoint[r] as number) - part * (values[result] as number);
        break;
      }
      case 47: {
        const part = seed * (values[r] as number);
        adjoint[p] = (adjoint[p] as number) + part * (values[q] as number);
        adjoint[q] = (adjoint[q] as number) + part * (values[p] as number);
        adjoint[r] = (adjoint[r] as number) + seed * (values[p] as number) * (values[q] as number);
        break;
      }
      case 48: {
        const part = seed / (values[r] as number);
        adjoint[p] = (adjoint[p] as number) + part * (values[q] as number);
        adjoint[q] = (adjoint[q] as number) + part * (values[p] as number);
        adjoint[r] = (adjoint[r] as number) - part * (values[result] as number);
        break;
      }
      case 49: {
        const part = seed / (values[q] as number);
        adjoint[p] = (adjoint[p] as number) + part;
        adjoint[q] = (adjoint[q] as number) - part * ((values[p] as number) / (values[q] as number));
        adjoint[r] = (adjoint[r] as number) + seed;
        break;
      }
      case 50:
        adjoint[p] = (adjoint[p] as number) + seed;
        adjoint[q] = (adjoint[q] as number) + seed;
        adjoint[r] = (adjoint[r] as number) + seed;
        break;
      default:
        rarely(words, at, seed, values, adjoint);
    }
  }
}

function plus(adjoint: Float64Array, slot: number, amount: number): void {
  adjoint[slot] = (adjoint[slot] as number) + amount;
}

/** The instruction at `at`. */
function rarely(words: Int32Array, at: number, seed: number, values: Float64Array, adjoint: Float64Array): void {
  const operation = words[at] as number;
  const p = words[at + 2] as number;
  const q = words[at + 3] as number;
  const r = words[at + 4] as number;
  const a = values[p] as number;
  const b = values[q] as number;
  switch (operation) {
    case 5:
      plus(adjoint, p, b === 0 ? 0 : seed * b * power(a, b - 1));
      if (a > 0) plus(adjoint, q, seed * power(a, b) * ln(a));
      break;
    case 18: {
      const square = a * a + b * b;
      plus(adjoint, p, (seed * b) / square);
      plus(adjoint, q, (-seed * a) / square);
      break;
    }
    case 27:
      plus(adjoint, a <= b ? p : q, seed);
      break;
    case 28:
      plus(adjoint, a >= b ? p : q, seed);
      break;
    case 29:
      plus(adjoint, a !== 0 ? q : r, seed);
      break;
    default:
      plus(adjoint, p, seed * slope(operation, a, values[words[at + 1] as number] as number));
  }
}

/** f′(a) of a function of one argument; `value` is f(a). */
function slope(operation: number, a: number, value: number): number {
  switch (operation) {
    case 7:
      return value / (3 * a);
    case 10:
      return 1 / (a * Math.LN10);
    case 11:
      return 1 / (a * Math.LN2);
    case 12:
      return cos(a);
    case 13:
      return -sin(a);
    case 14:
      return 1 + value * value;
    case 15:
      return 1 / Math.sqrt(1 - a * a);
    case 16:
      return -1 / Math.sqrt(1 - a * a);
    case 17:
      return 1 / (1 + a * a);
    case 19:
      return cosh(a);
    case 20:
      return sinh(a);
    case 21:
      return 1 - value * value;
    case 22:
      return Math.sign(a);
    default:
      return 0;
  }
}
