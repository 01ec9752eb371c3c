/** A table of results: the laws once, then the results side by side. */
import { typesetSymbol } from "../../formula/typeset";
import type { TableBlock } from "../../sheet/block";
import type { View } from "../model/book-data";
import { symbolHtml, wordsHtml } from "../model/names";
import { part } from "../model/parts";
import { type Html, html } from "../text/html";
import { mathml } from "../text/math";

type Law = TableBlock["laws"][number];

export function renderTable(block: TableBlock, ref: string, view: View): Html {
  const laws = block.laws.filter((law, index) => block.laws.findIndex((other) => sameModel(law, other)) === index);
  const items = laws.map((law) => lawItem(law, law.model === undefined ? [law] : block.laws.filter((other) => sameModel(law, other))));
  return html`<div role="group" class="block results" aria-label="${block.caption}">${items.length > 0 && html`<details class="worked laws-fold"><summary>${items.length === 1 ? "The law" : `The ${items.length} laws`} of this table</summary><ul class="laws">${items}</ul></details>`}${part("table", ref, view)}</div>`;
}

/** Several outputs of one model are told once. */
function sameModel(a: Law, b: Law): boolean {
  return a === b || (a.model !== undefined && a.model === b.model);
}

function lawItem({ symbol, law, model, source }: Law, together: readonly Law[]): Html {
  const symbols = together.map((other, index) => html`${index > 0 && ", "}${symbolHtml(other.symbol)}`);
  const words =
    law === undefined
      ? html`${symbols}: ${wordsHtml(model ?? "")}`
      : html`<div class="law" tabindex="0" role="group" aria-label="law">${mathml(`${typesetSymbol(symbol)} = ${law}`, true)}</div>`;
  return html`<li>${words}${source && html` <span class="remark">${source}</span>`}</li>`;
}
