/** Instructions backwards: what the adjoint of each result adds to those of its operands. */
import { cos, cosh, ln, sin, sinh } from "../quantity/elementary";
import { power } from "../quantity/power";
import { wordsPerInstruction } from "./tape";

/**
 * Runs the instructions of `words`, last first as they stand there, adding adjoint·∂result/∂operand to the adjoints
 * of the operands. Steps and comparisons add nothing. One long switch, since this loop is what a budget costs.
 */
export function runBackwards(words: Int32Array, values: Float64Array, adjoint: Float64Array): void {
  for (let at = 0; at < words.length; at += wordsPerInstruction) {
    const seed = adjoint[words[at + 1] as number] as number;
    if (seed === 0) continue;
    const p = words[at + 2] as number;
    const q = words[at + 3] as number;
    const a = values[p] as number;
    const b = values[q] as number;
    switch (words[at]) {
      case 0:
        plus(adjoint, p, seed);
        plus(adjoint, q, seed);
        break;
      case 1:
        plus(adjoint, p, seed);
        plus(adjoint, q, -seed);
        break;
      case 2:
        plus(adjoint, p, seed * b);
        plus(adjoint, q, seed * a);
        break;
      case 3:
        plus(adjoint, p, seed / b);
        plus(adjoint, q, (-seed * a) / (b * b));
        break;
      case 4:
        plus(adjoint, p, -seed);
        break;
      case 6:
        plus(adjoint, p, (0.5 * seed) / (values[words[at + 1] as number] as number));
        break;
      case 8:
        plus(adjoint, p, seed * (values[words[at + 1] as number] as number));
        break;
      case 9:
        plus(adjoint, p, seed / a);
        break;
      default:
        rarely(words, at, values, adjoint, seed);
    }
  }
}

function plus(adjoint: Float64Array, slot: number, amount: number): void {
  adjoint[slot] = (adjoint[slot] as number) + amount;
}

function rarely(words: Int32Array, at: number, values: Float64Array, adjoint: Float64Array, seed: number): void {
  const operation = words[at] as number;
  const p = words[at + 2] as number;
  const q = words[at + 3] as number;
  const r = words[at + 4] as number;
  const a = values[p] as number;
  const b = values[q] as number;
  const c = values[r] as number;
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
    case 40:
      plus(adjoint, p, seed * b);
      plus(adjoint, q, seed * a);
      plus(adjoint, r, seed);
      break;
    case 41:
      plus(adjoint, p, seed * b);
      plus(adjoint, q, seed * a);
      plus(adjoint, r, -seed);
      break;
    case 42:
      plus(adjoint, p, -seed * b);
      plus(adjoint, q, -seed * a);
      plus(adjoint, r, seed);
      break;
    case 43:
      plus(adjoint, p, seed * c);
      plus(adjoint, q, seed * c);
      plus(adjoint, r, seed * (a + b));
      break;
    case 44:
      plus(adjoint, p, seed * c);
      plus(adjoint, q, -seed * c);
      plus(adjoint, r, seed * (a - b));
      break;
    case 45:
      plus(adjoint, p, seed / c);
      plus(adjoint, q, seed / c);
      plus(adjoint, r, (-seed * (a + b)) / (c * c));
      break;
    case 46:
      plus(adjoint, p, seed / c);
      plus(adjoint, q, -seed / c);
      plus(adjoint, r, (-seed * (a - b)) / (c * c));
      break;
    case 47:
      plus(adjoint, p, seed * b * c);
      plus(adjoint, q, seed * a * c);
      plus(adjoint, r, seed * a * b);
      break;
    case 48:
      plus(adjoint, p, (seed * b) / c);
      plus(adjoint, q, (seed * a) / c);
      plus(adjoint, r, (-seed * a * b) / (c * c));
      break;
    case 49:
      plus(adjoint, p, seed / b);
      plus(adjoint, q, (-seed * a) / (b * b));
      plus(adjoint, r, seed);
      break;
    case 50:
      plus(adjoint, p, seed);
      plus(adjoint, q, seed);
      plus(adjoint, r, seed);
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
