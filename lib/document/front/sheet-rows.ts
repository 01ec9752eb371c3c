/** The sheets on the front page: question, answer, how the requirements stand. */
import type { View } from "../model/book-data";
import { sheetId } from "../model/page-ids";
import { part } from "../model/parts";
import { type Html, html, trusted } from "../text/html";

export interface RowOfSheet {
  readonly name: string;
  readonly title: string;
  readonly markup: Html;
}

export function renderSheetRows(sheets: readonly RowOfSheet[], view: View): Html {
  const rows = sheets.map(({ name, title, markup }) => {
    const told = (word: string) => paragraph(markup, word);
    return html`<li><h3>${part("mark", name, view)}<a href="#${sheetId(name)}">${title}</a></h3>${told("question")}${told("answer")}${part("thinnest", name, view)}</li>`;
  });
  return html`<section class="sheet-rows" aria-labelledby="sheets-title"><h2 id="sheets-title">The sheets</h2><ol>${rows}</ol></section>`;
}

/** The paragraph of a sheet that begins with "The question." or "The answer." in bold, with its bound numbers. */
function paragraph({ text }: Html, word: string): Html | false {
  const found = new RegExp(`<p><strong>The ${word}\\.</strong>(.*?)</p>`, "s").exec(text)?.[1];
  return found !== undefined && html`<p class="told"><span class="kind">The ${word}.</span>${trusted(found)}</p>`;
}
