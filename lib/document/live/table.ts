/** The live part of a results table: one row a thing, one column a law, decimal points above one another. */
import type { TableBlock } from "../../sheet/block";
import { nodeAnchor, nodeOf, type View } from "../model/book-data";
import { symbolHtml, symbolText, wordsHtml } from "../model/names";
import { computed } from "../text/computed";
import { type Html, html } from "../text/html";
import { decimalPadding, live, type Shown, textOrNone } from "../text/show";
import { withBoundUnits } from "../text/units-in-text";

export function renderResultTable(block: TableBlock, ref: string, view: View): Html {
  const columns = block.columns.map((column, index) => ({ ...column, ...columnCells(block, index, ref, view) }));
  const head = columns.map(
    ({ symbol, meaning, unit }) =>
      html`<th scope="col">${symbolHtml(symbol)}${unit !== "1" && ` in ${unit}`} <span class="better">${wordsHtml(meaning)}</span></th>`,
  );
  const rows = block.rows.map(
    ({ label }, row) =>
      html`<tr><th scope="row">${withBoundUnits(label)}</th>${columns.map(
        ({ symbol, meaning, unit, cells }) =>
          html`<td data-label="${meaning || symbolText(symbol)}${unit !== "1" && ` in ${unit}`}">${cells[row]}</td>`,
      )}</tr>`,
  );
  return html`<div class="scroll" tabindex="0" role="group" aria-label="${block.caption}"><table class="stacking trade">
<caption>${block.caption}</caption><thead><tr><th scope="col"><span class="unseen">of</span></th>${head}</tr></thead><tbody>${rows}</tbody></table></div>`;
}

/** Cells of one column in the unit of its first. */
function columnCells(
  block: TableBlock,
  index: number,
  ref: string,
  view: View,
): { readonly unit: string; readonly cells: readonly (Html | string)[] } {
  const ids = block.rows.map(({ cells }) => cells[index]);
  const first = ids.find((id) => id !== undefined);
  const unit = first === undefined ? "1" : nodeOf(view, first).unit;
  const shown = ids.map((node): Shown | undefined => (node === undefined ? undefined : { node, show: "figure", unit }));
  const texts = shown.map((entry) => (entry ? textOrNone(entry, view.evaluation) : "–"));
  const padding = decimalPadding(texts);
  return { unit, cells: shown.map((entry, row) => (entry ? cell(entry, padding[row] ?? "", ref, view) : "–")) };
}

function cell(shown: Shown, padding: string, ref: string, view: View): Html {
  const worst = computed(() => view.evaluation.analysis(shown.node)).value?.worst;
  return html`<span class="figure"${nodeAnchor(shown.node, ref, view)}>${live(shown, view.evaluation)}${padding}</span>${
    worst && html`<span class="limit">${live({ ...shown, show: "bounds" }, view.evaluation)}</span>`
  }`;
}
