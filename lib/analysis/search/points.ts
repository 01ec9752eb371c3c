/** Points of the unit cube, one column a coordinate: what a search evaluates in one block. */

/** Coordinates of one point, each in 0 to 1. */
export type At = Float64Array;

export interface Found {
  readonly value: number;
  readonly at: At;
}

export class Points {
  readonly dimensions: number;
  n = 0;
  #columns: Float64Array[];

  constructor(dimensions: number, capacity = 16) {
    this.dimensions = dimensions;
    this.#columns = Array.from({ length: dimensions }, () => new Float64Array(capacity));
  }

  /** As long as the points, or longer. */
  get columns(): readonly Float64Array[] {
    return this.#columns;
  }

  add(at: ArrayLike<number>): void {
    this.#grow();
    for (let k = 0; k < this.dimensions; k++) (this.#columns[k] as Float64Array)[this.n] = at[k] as number;
    this.n++;
  }

  /** A point that differs from `at` in one coordinate. */
  addMoved(at: ArrayLike<number>, k: number, moved: number): void {
    this.add(at);
    (this.#columns[k] as Float64Array)[this.n - 1] = moved;
  }

  /** at + part·direction, each coordinate kept between its limits. */
  addAlong(at: ArrayLike<number>, direction: ArrayLike<number>, part: number): void {
    this.#grow();
    for (let k = 0; k < this.dimensions; k++) {
      const moved = (at[k] as number) + part * (direction[k] as number);
      (this.#columns[k] as Float64Array)[this.n] = Math.max(0, Math.min(1, moved));
    }
    this.n++;
  }

  at(i: number): At {
    // Loops, not Float64Array.from: this is where a search of a cheap law spends its time.
    const at = new Float64Array(this.dimensions);
    for (let k = 0; k < at.length; k++) at[k] = (this.#columns[k] as Float64Array)[i] as number;
    return at;
  }

  #grow(): void {
    if (this.dimensions === 0 || this.n < (this.#columns[0] as Float64Array).length) return;
    this.#columns = this.#columns.map((column) => {
      const longer = new Float64Array(2 * column.length + 1);
      longer.set(column);
      return longer;
    });
  }
}

/**
 * The point `index` (from 0) of a low-discrepancy sequence: an additive recurrence with powers of the root of x^(d+1) = x + 1
 * (M. Roberts, "The unreasonable effectiveness of quasirandom sequences", 2018; from memory).
 */
export function sequence(d: number): (index: number) => At {
  const root = positiveRoot(d);
  const steps = new Float64Array(d);
  for (let k = 0, step = 1 / root; k < d; k++, step /= root) steps[k] = step;
  return (index) => {
    const at = new Float64Array(d);
    for (let k = 0; k < d; k++) at[k] = (0.5 + (index + 1) * (steps[k] as number)) % 1;
    return at;
  };
}

/** The root above 1, by halving. */
function positiveRoot(d: number): number {
  let low = 1;
  let high = 2;
  for (let step = 0; step < 60; step++) {
    const middle = (low + high) / 2;
    let power = 1;
    for (let k = 0; k <= d; k++) power *= middle;
    if (power > middle + 1) high = middle;
    else low = middle;
  }
  return low;
}

/** The first of the best by `sign` (1: highest); one without a value never is. */
export function bestIndex(values: Float64Array, n: number, sign: 1 | -1): number {
  let best = 0;
  for (let i = 1; i < n; i++) {
    const value = values[i] as number;
    const present = values[best] as number;
    if (value * sign > present * sign || (Number.isNaN(present) && !Number.isNaN(value))) best = i;
  }
  return best;
}

export function isBetter(a: Found, b: Found, sign: 1 | -1): boolean {
  return a.value * sign > b.value * sign || (Number.isNaN(b.value) && !Number.isNaN(a.value));
}

export function distance(a: At, b: At): number {
  let most = 0;
  for (let k = 0; k < a.length; k++) most = Math.max(most, Math.abs((a[k] as number) - (b[k] as number)));
  return most;
}
