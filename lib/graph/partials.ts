/** Instructions backwards: what the adjoint of each result adds to those of its operands. */
import { cos, cosh, ln, sin, sinh } from "../quantity/elementary";
import { power } from "../quantity/power";
import { Code } from "./code";
import { wordsPerInstruction } from "./tape";

/**
 * Runs the instructions of `words` in the order in which they stand, that is the last of the formula first. Each adds
 * (adjoint of its result)·∂result/∂operand to the adjoint of each operand, and sets that of its result to 0, ready for the next run.
 * Steps and comparisons add nothing. This loop is most of the time of a budget, hence one switch without calls for
 * the operations that formulas hold most. The derivatives of a quotient are found from its value, by one division.
 */
export function runBackwards(words: Int32Array, values: Float64Array, adjoint: Float64Array): void {
  for (let at = 0; at < words.length; at += wordsPerInstruction) {
    const result = words[at + 1] as number;
    const seed = adjoint[result] as number;
    if (seed === 0) continue;
    adjoint[result] = 0;
    const p = words[at + 2] as number;
    const q = words[at + 3] as number;
    switch (words[at]) {
      case Code.add:
        adjoint[p] = (adjoint[p] as number) + seed;
        adjoint[q] = (adjoint[q] as number) + seed;
        break;
      case Code.subtract:
        adjoint[p] = (adjoint[p] as number) + seed;
        adjoint[q] = (adjoint[q] as number) - seed;
        break;
      case Code.multiply:
        adjoint[p] = (adjoint[p] as number) + seed * (values[q] as number);
        adjoint[q] = (adjoint[q] as number) + seed * (values[p] as number);
        break;
      case Code.divide: {
        const part = seed / (values[q] as number);
        adjoint[p] = (adjoint[p] as number) + part;
        adjoint[q] = (adjoint[q] as number) - part * (values[result] as number);
        break;
      }
      case Code.negate:
        adjoint[p] = (adjoint[p] as number) - seed;
        break;
      case Code.sqrt:
        adjoint[p] = (adjoint[p] as number) + (0.5 * seed) / (values[result] as number);
        break;
      case Code.exp:
        adjoint[p] = (adjoint[p] as number) + seed * (values[result] as number);
        break;
      case Code.ln:
        adjoint[p] = (adjoint[p] as number) + seed / (values[p] as number);
        break;
      default:
        addOther(words, at, seed, values, adjoint);
    }
  }
}

function addTo(adjoint: Float64Array, slot: number, amount: number): void {
  adjoint[slot] = (adjoint[slot] as number) + amount;
}

/** The same for one instruction, at `at`, whose operation is rare. */
function addOther(words: Int32Array, at: number, seed: number, values: Float64Array, adjoint: Float64Array): void {
  const operation = words[at] as number;
  const p = words[at + 2] as number;
  const q = words[at + 3] as number;
  const r = words[at + 4] as number;
  const a = values[p] as number;
  const b = values[q] as number;
  switch (operation) {
    case Code.power:
      addTo(adjoint, p, b === 0 ? 0 : seed * b * power(a, b - 1));
      if (a > 0) addTo(adjoint, q, seed * power(a, b) * ln(a));
      break;
    case Code.atan2: {
      const square = a * a + b * b;
      addTo(adjoint, p, (seed * b) / square);
      addTo(adjoint, q, (-seed * a) / square);
      break;
    }
    case Code.min:
      addTo(adjoint, a <= b ? p : q, seed);
      break;
    case Code.max:
      addTo(adjoint, a >= b ? p : q, seed);
      break;
    case Code.if:
      addTo(adjoint, a !== 0 ? q : r, seed);
      break;
    default:
      addTo(adjoint, p, seed * slope(operation, a, values[words[at + 1] as number] as number));
  }
}

/** f′(a) of a function of one argument; `value` is f(a). */
function slope(operation: number, a: number, value: number): number {
  switch (operation) {
    case Code.cbrt:
      return value / (3 * a);
    case Code.log10:
      return 1 / (a * Math.LN10);
    case Code.log2:
      return 1 / (a * Math.LN2);
    case Code.sin:
      return cos(a);
    case Code.cos:
      return -sin(a);
    case Code.tan:
      return 1 + value * value;
    case Code.asin:
      return 1 / Math.sqrt(1 - a * a);
    case Code.acos:
      return -1 / Math.sqrt(1 - a * a);
    case Code.atan:
      return 1 / (1 + a * a);
    case Code.sinh:
      return cosh(a);
    case Code.cosh:
      return sinh(a);
    case Code.tanh:
      return 1 - value * value;
    case Code.abs:
      return Math.sign(a);
    default:
      return 0;
  }
}
