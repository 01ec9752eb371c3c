/** A share as a bar; the number stands beside it. */
import { type Html, html } from "./html";
import { numberText } from "./show";

/** `share` from 0 to 1; the length of the whole in CSS pixels. */
export function bar(share: number, length: number): Html {
  const width = numberText(Math.max(0, Math.min(1, share)) * length, 4);
  return html`<svg class="bar" width="${length}" height="8" aria-hidden="true"><path d="M0,0h${width}v8H0z"/></svg>`;
}
