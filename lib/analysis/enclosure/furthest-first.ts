/** Parts of a box, the one with the furthest bound first: a binary heap. */
export class FurthestFirst<T extends { readonly bound: number }> {
  readonly #parts: T[] = [];

  get first(): T | undefined {
    return this.#parts[0];
  }

  add(part: T): void {
    const parts = this.#parts;
    let i = parts.length;
    while (i > 0 && (parts[(i - 1) >> 1] as T).bound < part.bound) {
      parts[i] = parts[(i - 1) >> 1] as T;
      i = (i - 1) >> 1;
    }
    parts[i] = part;
  }

  /** Takes the first one out. */
  take(): T | undefined {
    const parts = this.#parts;
    const [first] = parts;
    const last = parts.pop();
    if (last === undefined || parts.length === 0) return first;
    let i = 0;
    for (let child = 1; child < parts.length; child = 2 * i + 1) {
      if (child + 1 < parts.length && (parts[child + 1] as T).bound > (parts[child] as T).bound) child++;
      if ((parts[child] as T).bound <= last.bound) break;
      parts[i] = parts[child] as T;
      i = child;
    }
    parts[i] = last;
    return first;
  }
}
