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
    this.#columns.set(key, column);
    this.#bytes += column.byteLength;
    for (const [oldest, { byteLength }] of this.#columns) {
      if (this.#bytes <= this.#budget || oldest === key) break;
      this.#columns.delete(oldest);
      this.#bytes -= byteLength;
    }
    return column;
  }

  clear(): void {
    this.#columns.clear();
    this.#bytes = 0;
  }
}
