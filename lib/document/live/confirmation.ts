/** Live: whether assumptions are confirmed, and what rests on those that are not. */
import type { NodeId } from "../../graph/node";
import { confirmationWord } from "../../sheet/assumption-word";
import type { Block, ConfirmationBlock } from "../../sheet/block";
import { decidedAncestors } from "../model/alternative";
import { nodeLink, nodeOf, type View } from "../model/book-data";
import { nodeWords } from "../model/names";
import { computed, notComputed } from "../text/computed";
import { type Html, html, nothing } from "../text/html";
import { textOrNone } from "../text/show";

/** Live: the word on one confirmation. */
export function renderConfirmationWord(block: ConfirmationBlock, view: View): Html {
  const { value: word, why } = computed(() => confirmationWord(view.evaluation, block.assumed, block.node));
  if (word === undefined) return html`<p><span class="badge badge-open">? ${notComputed}</span> ${why}</p>`;
  const look = word === "confirmed" ? "badge-holds" : word === "not confirmed" ? "badge-fails" : "badge-most";
  const mark = word === "not confirmed" ? "✕" : "✓";
  return html`<p><span class="badge ${look}">${mark} ${word}</span></p>`;
}

/** Assumptions that what a later sheet computes does not confirm, or for which it computes nothing, in the present state. */
export function unconfirmed(blocks: readonly Block[], { evaluation }: Pick<View, "evaluation">): ConfirmationBlock[] {
  return blocks.filter(
    (block): block is ConfirmationBlock =>
      block.type === "confirmation" &&
      (computed(() => confirmationWord(evaluation, block.assumed, block.node)).value ?? "not confirmed") === "not confirmed",
  );
}

/** `thickness of the board (enclosure.board): assumed 1 mm, computed 1.6 mm`. */
export function unconfirmedText({ of, assumed, node }: ConfirmationBlock, { evaluation }: Pick<View, "evaluation">): string {
  const text = (id: NodeId) => textOrNone({ node: id, show: "nominal", unit: evaluation.graph.get(id).unit }, evaluation);
  return `${nodeWords(evaluation.graph.get(assumed))} (${of}): assumed ${text(assumed)}, computed ${text(node)}`;
}

/** What a verdict rests on that is not confirmed; nothing where all is well. */
export function renderDoubt(node: NodeId, view: View): Html {
  const broken = unconfirmed(Object.values(view.book.blocks), view);
  if (broken.length === 0) return nothing;
  const behind = new Set(decidedAncestors(node, view.evaluation.graph));
  const doubtful = broken.filter(({ assumed }) => behind.has(assumed));
  if (doubtful.length === 0) return nothing;
  const links = doubtful.map(
    ({ assumed }, index) => html`${index > 0 && ", "}${nodeLink(assumed, nodeWords(nodeOf(view, assumed)), view)}`,
  );
  return html` <span class="doubt">rests on an assumption that is not confirmed: ${links}</span>`;
}
