/** Marks what is still to come after a change, where the reader may scroll to it before it stands. */
import type { LivePart, LiveText } from "./live-elements";
import type { Items } from "./messages";

export class Pending {
  constructor(
    private readonly texts: readonly LiveText[],
    private readonly parts: readonly LivePart[],
  ) {}

  readonly add = (items: Items): void => this.#mark(items, true);
  readonly remove = (items: Items): void => this.#mark(items, false);

  clear(): void {
    this.remove({ texts: [...this.texts.keys()], parts: [...this.parts.keys()] });
  }

  #mark({ texts, parts }: Items, isPending: boolean): void {
    const entries = [...texts.map((index) => this.texts[index]), ...parts.map((index) => this.parts[index])];
    for (const entry of entries) for (const element of entry?.elements ?? []) element.classList.toggle("pending", isPending);
  }
}
