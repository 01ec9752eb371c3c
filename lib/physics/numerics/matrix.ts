/** Small square matrices, row after row in one array. */
import { WorkingsError } from "../../quantity/error";

/** The inverse, by elimination with the largest pivot of each column (Gauss and Jordan). Throws "nominal-domain" for a singular matrix. */
export function invert(matrix: Float64Array, size: number): Float64Array {
  const rest = Float64Array.from(matrix);
  const inverse = new Float64Array(size * size);
  for (let i = 0; i < size; i++) inverse[i * size + i] = 1;
  for (let column = 0; column < size; column++) {
    const pivot = pivotRow(rest, size, column);
    if (rest[pivot * size + column] === 0) {
      throw new WorkingsError(
        "nominal-domain",
        "the circuit has no single solution: a loop of sources without resistance, or a part without ground",
      );
    }
    for (const each of [rest, inverse]) {
      swapRows(each, size, pivot, column);
    }
    eliminate(rest, inverse, size, column);
  }
  return inverse;
}

/** out = matrix·x. */
export function product(matrix: Float64Array, size: number, x: Float64Array, out: Float64Array): void {
  for (let row = 0; row < size; row++) {
    let sum = 0;
    const at = row * size;
    for (let column = 0; column < size; column++) sum += (matrix[at + column] as number) * (x[column] as number);
    out[row] = sum;
  }
}

function pivotRow(matrix: Float64Array, size: number, column: number): number {
  let best = column;
  for (let row = column + 1; row < size; row++) {
    if (Math.abs(matrix[row * size + column] as number) > Math.abs(matrix[best * size + column] as number)) best = row;
  }
  return best;
}

function swapRows(matrix: Float64Array, size: number, p: number, q: number): void {
  if (p === q) return;
  for (let i = 0; i < size; i++) {
    const kept = matrix[p * size + i] as number;
    matrix[p * size + i] = matrix[q * size + i] as number;
    matrix[q * size + i] = kept;
  }
}

function eliminate(rest: Float64Array, inverse: Float64Array, size: number, column: number): void {
  const at = column * size;
  const pivot = 1 / (rest[at + column] as number);
  scaleRow(rest, at, size, pivot);
  scaleRow(inverse, at, size, pivot);
  for (let row = 0; row < size; row++) {
    const factor = rest[row * size + column] as number;
    if (row === column || factor === 0) continue;
    subtractRow(rest, row * size, at, size, factor);
    subtractRow(inverse, row * size, at, size, factor);
  }
}

function scaleRow(matrix: Float64Array, at: number, size: number, factor: number): void {
  for (let i = at; i < at + size; i++) matrix[i] = (matrix[i] as number) * factor;
}

function subtractRow(matrix: Float64Array, from: number, what: number, size: number, factor: number): void {
  for (let i = 0; i < size; i++) matrix[from + i] = (matrix[from + i] as number) - factor * (matrix[what + i] as number);
}
