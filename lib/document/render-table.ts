/** A table of results: the laws once, then the results side by side. */

import { typesetSymbol } from "../formula/typeset";
import type { TableBlock } from "../sheet/block";
import type { View } from "./book-data";
import { type Html, html } from "./html";
import { mathml } from "./math";
import { symbolHtml } from "./names";
import { part } from "./parts";

export function renderTable(block: TableBlock, ref: string, view: View): Html {
  const laws = block.laws.map(
    ({ symbol, law, model, source }) =>
      html`<li>${
        law
          ? html`<div class="law" tabindex="0" role="group" aria-label="law">${mathml(`${typesetSymbol(symbol)} = ${law}`, true)}</div>`
          : html`${symbolHtml(symbol)}: ${model}`
      }${source && html` <span class="remark">${source}</span>`}</li>`,
  );
  return html`<div role="group" class="block results" aria-label="${block.caption}">${laws.length > 0 && html`<ul class="laws">${laws}</ul>`}${part("table", ref, view)}</div>`;
}
