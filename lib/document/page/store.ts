/** The reader's changes, with every earlier state for undoing. */
import type { Changes, GivenChange, TableChange } from "../../graph/graph";

export type InputKind = "givens" | "tables" | "choices";
/** What a reader has turned an input to: a given, the points of a table, the name of an alternative. */
export type Change = GivenChange | TableChange | string;

export class Store {
  #past: Changes[] = [];
  #present: Changes = {};
  readonly #listeners: ((changes: Changes) => void)[] = [];

  get changes(): Changes {
    return this.#present;
  }

  get undoable(): boolean {
    return this.#past.length > 0;
  }

  listen(listener: (changes: Changes) => void): void {
    this.#listeners.push(listener);
  }

  /** Sets the value at a path, or gives it back to the design file where there is none. */
  set(kind: InputKind, path: string, change: Change | undefined): void {
    const others = Object.entries(this.#present[kind] ?? {}).filter(([key]) => key !== path);
    const entries = change === undefined ? others : [...others, [path, change] as const];
    this.#go({ ...this.#present, [kind]: Object.fromEntries(entries) });
  }

  /** All changes at once, in the place of those before: one step to undo. */
  replace(changes: Changes): void {
    this.#go(changes);
  }

  reset(): void {
    this.#go({});
  }

  undo(): void {
    const last = this.#past.pop();
    if (last) this.#tell(last);
  }

  #go(next: Changes): void {
    if (JSON.stringify(next) === JSON.stringify(this.#present)) return;
    this.#past.push(this.#present);
    this.#tell(next);
  }

  #tell(next: Changes): void {
    this.#present = next;
    for (const listener of this.#listeners) listener(next);
  }
}
