/** Marks what is still to come after a change, where the reader may scroll to it before it stands. */
import { madeFrom } from "../text/show";
import type { LivePart, LiveText } from "./live-elements";
import type { Items } from "./messages";

export class Pending {
  constructor(
    private readonly texts: readonly LiveText[],
    private readonly parts: readonly LivePart[],
  ) {}

  readonly add = (items: Items): void => this.#mark(items, true);
  readonly remove = (items: Items): void => this.#mark(items, false);

  #mark({ texts, parts }: Items, isPending: boolean): void {
    // Nominal values stand already.
    const spreads = texts.map((index) => this.texts[index]).filter((entry) => entry && madeFrom[entry.shown.show] === "spread");
    const entries = [...spreads, ...parts.map((index) => this.parts[index])];
    for (const entry of entries) for (const element of entry?.elements ?? []) element.classList.toggle("pending", isPending);
  }
}
