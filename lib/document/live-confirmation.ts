/** Live: whether an assumption is confirmed. */
import { confirmationWord } from "../sheet/assumption-word";
import type { ConfirmationBlock } from "../sheet/block";
import type { View } from "./book-data";
import { type Html, html } from "./html";

/** Live: the word on one confirmation. */
export function renderConfirmationWord(block: ConfirmationBlock, view: View): Html {
  const word = confirmationWord(view.evaluation, block.assumed, block.node);
  const look = word === "confirmed" ? "badge-holds" : word === "not confirmed" ? "badge-fails" : "badge-most";
  const mark = word === "not confirmed" ? "✕" : "✓";
  return html`<p><span class="badge ${look}">${mark} ${word}</span></p>`;
}
