/**
 * One operation on columns. The arithmetic of formulas has its own loops, unrolled by four (which halves their time);
 * the functions, which cost more than a call, share one loop.
 */
import type { OperationValue } from "../formula/operations";
import { exp, ln } from "../quantity/elementary";
import { Code, operationsByCode } from "./code";

/** Rows of one block: 8 kB a column, so that a formula's columns stay in the caches nearest to the core. */
export const blockRows = 1024;

/**
 * out[i] = operation(a[i], b[i], c[i]) for i < n. Columns have `blockRows` rows: a loop may write up to three rows
 * more than n, which nothing reads.
 */
export type Kernel = (out: Float64Array, a: Float64Array, b: Float64Array, c: Float64Array, n: number) => void;

const arithmetic: Readonly<Partial<Record<number, Kernel>>> = {
  [Code.add]: (out, a, b, _c, n) => {
    for (let i = 0; i < n; i += 4) {
      out[i] = (a[i] as number) + (b[i] as number);
      out[i + 1] = (a[i + 1] as number) + (b[i + 1] as number);
      out[i + 2] = (a[i + 2] as number) + (b[i + 2] as number);
      out[i + 3] = (a[i + 3] as number) + (b[i + 3] as number);
    }
  },
  [Code.subtract]: (out, a, b, _c, n) => {
    for (let i = 0; i < n; i += 4) {
      out[i] = (a[i] as number) - (b[i] as number);
      out[i + 1] = (a[i + 1] as number) - (b[i + 1] as number);
      out[i + 2] = (a[i + 2] as number) - (b[i + 2] as number);
      out[i + 3] = (a[i + 3] as number) - (b[i + 3] as number);
    }
  },
  [Code.multiply]: (out, a, b, _c, n) => {
    for (let i = 0; i < n; i += 4) {
      out[i] = (a[i] as number) * (b[i] as number);
      out[i + 1] = (a[i + 1] as number) * (b[i + 1] as number);
      out[i + 2] = (a[i + 2] as number) * (b[i + 2] as number);
      out[i + 3] = (a[i + 3] as number) * (b[i + 3] as number);
    }
  },
  [Code.divide]: (out, a, b, _c, n) => {
    for (let i = 0; i < n; i += 4) {
      out[i] = (a[i] as number) / (b[i] as number);
      out[i + 1] = (a[i + 1] as number) / (b[i + 1] as number);
      out[i + 2] = (a[i + 2] as number) / (b[i + 2] as number);
      out[i + 3] = (a[i + 3] as number) / (b[i + 3] as number);
    }
  },
};

const functions: Readonly<Partial<Record<number, Kernel>>> = {
  [Code.sqrt]: (out, a, _b, _c, n) => {
    for (let i = 0; i < n; i++) out[i] = Math.sqrt(a[i] as number);
  },
  [Code.exp]: (out, a, _b, _c, n) => {
    for (let i = 0; i < n; i++) out[i] = exp(a[i] as number);
  },
  [Code.ln]: (out, a, _b, _c, n) => {
    for (let i = 0; i < n; i++) out[i] = ln(a[i] as number);
  },
  [Code.min]: (out, a, b, _c, n) => {
    for (let i = 0; i < n; i++) out[i] = Math.min(a[i] as number, b[i] as number);
  },
  [Code.max]: (out, a, b, _c, n) => {
    for (let i = 0; i < n; i++) out[i] = Math.max(a[i] as number, b[i] as number);
  },
};

/** The loop of an operation. */
export function kernel(operation: Code): Kernel {
  return arithmetic[operation] ?? functions[operation] ?? loopOver(operationsByCode[operation] as OperationValue);
}

function loopOver(value: OperationValue): Kernel {
  return (out, a, b, c, n) => {
    for (let i = 0; i < n; i++) out[i] = value(a[i] as number, b[i] as number, c[i] as number);
  };
}
