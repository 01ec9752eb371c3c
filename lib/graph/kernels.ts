/**
 * One operation on columns. The arithmetic of formulas has its own loops, unrolled by four (which halves their time);
 * the functions, which cost more than a call, share one loop.
 */
import { exp, ln } from "../quantity/elementary";
import { code, fused } from "./code";
import { scalar } from "./scalar";

/** Rows of one block: 8 kB a column, so that a formula's columns stay in the caches nearest to the core. */
export const blockRows = 1024;

/**
 * out[i] = operation(a[i], b[i], c[i]) for i < n. Columns have `blockRows` rows: a loop may write up to three rows
 * more than n, which nothing reads.
 */
export type Kernel = (out: Float64Array, a: Float64Array, b: Float64Array, c: Float64Array, n: number) => void;

const arithmetic: Readonly<Partial<Record<number, Kernel>>> = {
  [code.add]: (out, a, b, _c, n) => {
    for (let i = 0; i < n; i += 4) {
      out[i] = (a[i] as number) + (b[i] as number);
      out[i + 1] = (a[i + 1] as number) + (b[i + 1] as number);
      out[i + 2] = (a[i + 2] as number) + (b[i + 2] as number);
      out[i + 3] = (a[i + 3] as number) + (b[i + 3] as number);
    }
  },
  [code.subtract]: (out, a, b, _c, n) => {
    for (let i = 0; i < n; i += 4) {
      out[i] = (a[i] as number) - (b[i] as number);
      out[i + 1] = (a[i + 1] as number) - (b[i + 1] as number);
      out[i + 2] = (a[i + 2] as number) - (b[i + 2] as number);
      out[i + 3] = (a[i + 3] as number) - (b[i + 3] as number);
    }
  },
  [code.multiply]: (out, a, b, _c, n) => {
    for (let i = 0; i < n; i += 4) {
      out[i] = (a[i] as number) * (b[i] as number);
      out[i + 1] = (a[i + 1] as number) * (b[i + 1] as number);
      out[i + 2] = (a[i + 2] as number) * (b[i + 2] as number);
      out[i + 3] = (a[i + 3] as number) * (b[i + 3] as number);
    }
  },
  [code.divide]: (out, a, b, _c, n) => {
    for (let i = 0; i < n; i += 4) {
      out[i] = (a[i] as number) / (b[i] as number);
      out[i + 1] = (a[i + 1] as number) / (b[i + 1] as number);
      out[i + 2] = (a[i + 2] as number) / (b[i + 2] as number);
      out[i + 3] = (a[i + 3] as number) / (b[i + 3] as number);
    }
  },
  [fused.multiplyAdd]: (out, a, b, c, n) => {
    for (let i = 0; i < n; i += 4) {
      out[i] = (a[i] as number) * (b[i] as number) + (c[i] as number);
      out[i + 1] = (a[i + 1] as number) * (b[i + 1] as number) + (c[i + 1] as number);
      out[i + 2] = (a[i + 2] as number) * (b[i + 2] as number) + (c[i + 2] as number);
      out[i + 3] = (a[i + 3] as number) * (b[i + 3] as number) + (c[i + 3] as number);
    }
  },
  [fused.multiplySubtract]: (out, a, b, c, n) => {
    for (let i = 0; i < n; i += 4) {
      out[i] = (a[i] as number) * (b[i] as number) - (c[i] as number);
      out[i + 1] = (a[i + 1] as number) * (b[i + 1] as number) - (c[i + 1] as number);
      out[i + 2] = (a[i + 2] as number) * (b[i + 2] as number) - (c[i + 2] as number);
      out[i + 3] = (a[i + 3] as number) * (b[i + 3] as number) - (c[i + 3] as number);
    }
  },
  [fused.subtractMultiply]: (out, a, b, c, n) => {
    for (let i = 0; i < n; i += 4) {
      out[i] = (c[i] as number) - (a[i] as number) * (b[i] as number);
      out[i + 1] = (c[i + 1] as number) - (a[i + 1] as number) * (b[i + 1] as number);
      out[i + 2] = (c[i + 2] as number) - (a[i + 2] as number) * (b[i + 2] as number);
      out[i + 3] = (c[i + 3] as number) - (a[i + 3] as number) * (b[i + 3] as number);
    }
  },
  [fused.addMultiply]: (out, a, b, c, n) => {
    for (let i = 0; i < n; i += 4) {
      out[i] = ((a[i] as number) + (b[i] as number)) * (c[i] as number);
      out[i + 1] = ((a[i + 1] as number) + (b[i + 1] as number)) * (c[i + 1] as number);
      out[i + 2] = ((a[i + 2] as number) + (b[i + 2] as number)) * (c[i + 2] as number);
      out[i + 3] = ((a[i + 3] as number) + (b[i + 3] as number)) * (c[i + 3] as number);
    }
  },
  [fused.differenceMultiply]: (out, a, b, c, n) => {
    for (let i = 0; i < n; i += 4) {
      out[i] = ((a[i] as number) - (b[i] as number)) * (c[i] as number);
      out[i + 1] = ((a[i + 1] as number) - (b[i + 1] as number)) * (c[i + 1] as number);
      out[i + 2] = ((a[i + 2] as number) - (b[i + 2] as number)) * (c[i + 2] as number);
      out[i + 3] = ((a[i + 3] as number) - (b[i + 3] as number)) * (c[i + 3] as number);
    }
  },
  [fused.addDivide]: (out, a, b, c, n) => {
    for (let i = 0; i < n; i += 4) {
      out[i] = ((a[i] as number) + (b[i] as number)) / (c[i] as number);
      out[i + 1] = ((a[i + 1] as number) + (b[i + 1] as number)) / (c[i + 1] as number);
      out[i + 2] = ((a[i + 2] as number) + (b[i + 2] as number)) / (c[i + 2] as number);
      out[i + 3] = ((a[i + 3] as number) + (b[i + 3] as number)) / (c[i + 3] as number);
    }
  },
  [fused.differenceDivide]: (out, a, b, c, n) => {
    for (let i = 0; i < n; i += 4) {
      out[i] = ((a[i] as number) - (b[i] as number)) / (c[i] as number);
      out[i + 1] = ((a[i + 1] as number) - (b[i + 1] as number)) / (c[i + 1] as number);
      out[i + 2] = ((a[i + 2] as number) - (b[i + 2] as number)) / (c[i + 2] as number);
      out[i + 3] = ((a[i + 3] as number) - (b[i + 3] as number)) / (c[i + 3] as number);
    }
  },
  [fused.multiplyMultiply]: (out, a, b, c, n) => {
    for (let i = 0; i < n; i += 4) {
      out[i] = (a[i] as number) * (b[i] as number) * (c[i] as number);
      out[i + 1] = (a[i + 1] as number) * (b[i + 1] as number) * (c[i + 1] as number);
      out[i + 2] = (a[i + 2] as number) * (b[i + 2] as number) * (c[i + 2] as number);
      out[i + 3] = (a[i + 3] as number) * (b[i + 3] as number) * (c[i + 3] as number);
    }
  },
  [fused.multiplyDivide]: (out, a, b, c, n) => {
    for (let i = 0; i < n; i += 4) {
      out[i] = ((a[i] as number) * (b[i] as number)) / (c[i] as number);
      out[i + 1] = ((a[i + 1] as number) * (b[i + 1] as number)) / (c[i + 1] as number);
      out[i + 2] = ((a[i + 2] as number) * (b[i + 2] as number)) / (c[i + 2] as number);
      out[i + 3] = ((a[i + 3] as number) * (b[i + 3] as number)) / (c[i + 3] as number);
    }
  },
  [fused.divideAdd]: (out, a, b, c, n) => {
    for (let i = 0; i < n; i += 4) {
      out[i] = (a[i] as number) / (b[i] as number) + (c[i] as number);
      out[i + 1] = (a[i + 1] as number) / (b[i + 1] as number) + (c[i + 1] as number);
      out[i + 2] = (a[i + 2] as number) / (b[i + 2] as number) + (c[i + 2] as number);
      out[i + 3] = (a[i + 3] as number) / (b[i + 3] as number) + (c[i + 3] as number);
    }
  },
  [fused.addAdd]: (out, a, b, c, n) => {
    for (let i = 0; i < n; i += 4) {
      out[i] = (a[i] as number) + (b[i] as number) + (c[i] as number);
      out[i + 1] = (a[i + 1] as number) + (b[i + 1] as number) + (c[i + 1] as number);
      out[i + 2] = (a[i + 2] as number) + (b[i + 2] as number) + (c[i + 2] as number);
      out[i + 3] = (a[i + 3] as number) + (b[i + 3] as number) + (c[i + 3] as number);
    }
  },
};

const functions: Readonly<Partial<Record<number, Kernel>>> = {
  [code.sqrt]: (out, a, _b, _c, n) => {
    for (let i = 0; i < n; i++) out[i] = Math.sqrt(a[i] as number);
  },
  [code.exp]: (out, a, _b, _c, n) => {
    for (let i = 0; i < n; i++) out[i] = exp(a[i] as number);
  },
  [code.ln]: (out, a, _b, _c, n) => {
    for (let i = 0; i < n; i++) out[i] = ln(a[i] as number);
  },
  [code.min]: (out, a, b, _c, n) => {
    for (let i = 0; i < n; i++) out[i] = Math.min(a[i] as number, b[i] as number);
  },
  [code.max]: (out, a, b, _c, n) => {
    for (let i = 0; i < n; i++) out[i] = Math.max(a[i] as number, b[i] as number);
  },
};

/** The loop of an operation. */
export function kernel(operation: number): Kernel {
  return arithmetic[operation] ?? functions[operation] ?? shared(operation);
}

function shared(operation: number): Kernel {
  return (out, a, b, c, n) => {
    for (let i = 0; i < n; i++) out[i] = scalar(operation, a[i] as number, b[i] as number, c[i] as number);
  };
}
