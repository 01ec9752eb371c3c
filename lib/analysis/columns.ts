/** Columns of draws, kept up to a budget of bytes; the oldest go first. */
export class ColumnCache {
  readonly #columns = new Map<string, Float64Array>();
  readonly #budget: number;
  #bytes = 0;

  constructor(budget: number) {
    this.#budget = budget;
  }

  /** The column of that key, made if it is not there. */
  get(key: string, make: () => Float64Array): Float64Array {
    const present = this.#columns.get(key);
    if (present !== undefined) return present;
    const column = make();
    this.#add(key, column);
    return column;
  }

  /** Columns of another cache whose keys are kept, no longer than `rows`. */
  takeOver(other: ColumnCache, isKept: (key: string) => boolean, rows: number): void {
    for (const [key, column] of other.#columns) if (isKept(key) && !this.#columns.has(key)) this.#add(key, column.subarray(0, rows));
  }

  #add(key: string, column: Float64Array): void {
    this.#columns.set(key, column);
    this.#bytes += column.byteLength;
    for (const [oldest, { byteLength }] of this.#columns) {
      if (this.#bytes <= this.#budget || oldest === key) break;
      this.#columns.delete(oldest);
      this.#bytes -= byteLength;
    }
  }

  clear(): void {
    this.#columns.clear();
    this.#bytes = 0;
  }
}
