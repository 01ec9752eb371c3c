/** Footnotes of one table: each text once, called by a letter. */
import { type Html, html, nothing } from "./html";

export class Footnotes {
  readonly #prefix: string;
  readonly #texts: Html[] = [];

  /** `prefix` begins the ids of the notes. */
  constructor(prefix: string) {
    this.#prefix = prefix;
  }

  /** The letter that calls a note. */
  mark(text: Html): Html {
    const known = this.#texts.findIndex((other) => other.text === text.text);
    const index = known < 0 ? this.#texts.push(text) - 1 : known;
    return html`<sup><a href="#${this.#id(index)}">${letter(index)}</a></sup>`;
  }

  list(): Html {
    if (this.#texts.length === 0) return nothing;
    const items = this.#texts.map((text, index) => html`<li id="${this.#id(index)}"><sup>${letter(index)}</sup> ${text}</li>`);
    return html`<ul class="footnotes source">${items}</ul>`;
  }

  #id(index: number): string {
    return `${this.#prefix}-${letter(index)}`;
  }
}

/** a … z, aa, ab … */
function letter(index: number): string {
  const own = String.fromCharCode(97 + (index % 26));
  return index < 26 ? own : letter(Math.floor(index / 26) - 1) + own;
}
