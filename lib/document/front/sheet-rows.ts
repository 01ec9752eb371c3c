/** The sheets on the front page: question, answer, how the requirements stand. */
import type { SheetOutputs } from "../../book/outputs";
import type { View } from "../model/book-data";
import { sheetId } from "../model/page-ids";
import { part } from "../model/parts";
import { type Html, html } from "../text/html";
import { inlineMarkdown, type LinkResolver, paragraphAfter } from "../text/markdown";

export interface RowOfSheet {
  readonly sheet: SheetOutputs;
  readonly title: string;
  readonly link: LinkResolver;
}

export function renderSheetRows(rows: readonly RowOfSheet[], view: View): Html {
  const items = rows.map(({ sheet, title, link }) => {
    const told = (word: string) => toldParagraph(sheet, word, link);
    return html`<li><h3>${part("mark", sheet.name, view)}<a href="#${sheetId(sheet.name)}">${title}</a></h3>${told("question")}${told("answer")}${part("thinnest", sheet.name, view)}</li>`;
  });
  return html`<section class="sheet-rows" aria-labelledby="sheets-title"><h2 id="sheets-title">The sheets</h2><ol>${items}</ol></section>`;
}

/** The paragraph of a sheet that begins with "The question." or "The answer." in bold, with its bound numbers. */
function toldParagraph({ pieces }: SheetOutputs, word: string, link: LinkResolver): Html | false {
  for (const piece of pieces) {
    const found = piece.kind === "prose" ? paragraphAfter(piece.markdown, `The ${word}.`) : undefined;
    if (found !== undefined) return html`<p class="told"><span class="kind">The ${word}.</span> ${inlineMarkdown(found, link)}</p>`;
  }
  return false;
}
