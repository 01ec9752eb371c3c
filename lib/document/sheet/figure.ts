/** Plots and drawings with their captions, and cautions. */
import type { CautionBlock, DrawingBlock, PlotBlock } from "../../sheet/block";
import type { View } from "../model/book-data";
import { part } from "../model/parts";
import { anchor, type Html, html } from "../text/html";
import { inlineMarkdown, type LinkResolver, markdown } from "../text/markdown";

export function renderFigure(block: PlotBlock | DrawingBlock, ref: string, view: View, link: LinkResolver): Html {
  return html`<figure class="block ${block.type}" id="${anchor("figure", `${ref.split("/")[0]}.${block.name}`)}">
<div class="scroll" tabindex="0" role="group" aria-label="${block.caption}">${part(block.type, ref, view)}</div>
<figcaption>${inlineMarkdown(block.caption, link)}</figcaption></figure>`;
}

export function renderCaution(block: CautionBlock, link: LinkResolver): Html {
  return html`<aside class="block caution" role="note"><p><strong>Caution: ${block.subject}</strong></p>${markdown(block.text, link)}</aside>`;
}
