/** Live: the preferred values that the chosen alternatives ask for, as a list of parts. */

import { spelledName } from "../../graph/identity";
import { unitOf } from "../../quantity/unit";
import { nodeLink, type View } from "../model/book-data";
import { chosenParts, toleranceText } from "../model/chosen-parts";
import { nodeWords } from "../model/names";
import { type Html, html, nothing } from "../text/html";
import { live } from "../text/show";

/** One line a part: what for, value, series, tolerance. Parts of alternatives that were not chosen are left out. */
export function renderPartsList(view: View): Html {
  const parts = chosenParts(Object.values(view.book.blocks), view.evaluation.graph);
  if (parts.length === 0) return nothing;
  const rows = parts.map(
    (node) => html`<tr><th scope="row">${nodeWords(node)} <span class="symbol">${spelledName(node.id)}</span></th>
<td data-label="Value">${nodeLink(node.id, live({ node: node.id, show: "nominal", unit: unitOf(node.unit).symbol }, view.evaluation), view)}</td>
<td data-label="Series">${node.series}</td><td data-label="Tolerance">${toleranceText(node, view.evaluation.graph)}</td></tr>`,
  );
  return html`<div class="scroll" tabindex="0" role="group" aria-label="Parts chosen by preferred value"><table class="stacking"><thead><tr><th scope="col">For</th><th scope="col">Value</th>
<th scope="col">Series</th><th scope="col">Tolerance</th></tr></thead><tbody>${rows}</tbody></table></div>`;
}
