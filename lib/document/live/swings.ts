/** What a result is worth when each given alone is moved: made when a reader unfolds it, in the page alone. */
import type { SwingEnd } from "../../analysis/swing";
import type { NodeId } from "../../graph/node";
import { format } from "../../quantity/format";
import { unitOf } from "../../quantity/unit";
import { givenAt, ruleText } from "../../sheet/swing-words";
import { nodeLink, nodeOf, type View } from "../model/book-data";
import { nodeWords, symbolHtml } from "../model/names";
import { computed, notComputed } from "../text/computed";
import { type Html, html } from "../text/html";

/** Rows by size of the difference; the given's value at both ends of its step, the result's beside them. */
export function renderSwings(id: NodeId, view: View): Html {
  const { value: swings, why } = computed(() => view.evaluation.swings(id));
  if (swings === undefined) return html`<p>It ${notComputed} with these values: ${why}</p>`;
  if (swings.length === 0) return html`<p>No given moves it.</p>`;
  const unit = unitOf(nodeOf(view, id).unit);
  const rows = swings.map(({ given, rule, low, high }) => {
    const node = nodeOf(view, given);
    const end = ({ value, result }: SwingEnd) =>
      html`<td>${result === undefined ? "no value" : format({ si: result, unit })} <span class="deciding">at ${givenAt(node, value)}</span></td>`;
    return html`<tr><th scope="row">${nodeLink(given, html`${node.symbol && html`${symbolHtml(node.symbol)} `}${nodeWords(node)}`, view)}</th>
${end(low)}${end(high)}<td>${ruleText(rule)}</td></tr>`;
  });
  return html`<table><thead><tr><th scope="col">given, moved alone</th><th scope="col">low end</th><th scope="col">high end</th><th scope="col">moved by</th></tr></thead><tbody>${rows}</tbody></table>`;
}
