/** The list in the page's bar of what has moved since the book was published: changed givens, verdicts that flipped, choices in doubt, numbers before and after. */
import type { GraphNode } from "../../graph/node";
import type { Moved, Turned } from "../live/moved";
import { nameOf, nodeWords } from "../model/names";
import { anchor, type Html, html } from "../text/html";
import { badge } from "../text/verdict-text";

export function renderMovements({ turned, movements, flips, flags, assumptions, outside, problems }: Moved): Html {
  const doubts = Object.entries(flags).flatMap(([decision, texts]) => texts.map((text) => html`<li>${decision}: ${text}</li>`));
  return html`<ul class="changed">${turned.map(changedItem)}</ul>
${problems.length > 0 && html`<h3>Cannot be computed</h3><ul class="warnings">${problems.map((text) => html`<li>${text}</li>`)}</ul>`}
${flips.length > 0 && html`<h3>Verdicts</h3><ul>${flips.map(({ id, before, after }) => html`<li><a href="#${anchor("requirement", id)}">${id}</a>: ${badge(before)} → ${badge(after)}</li>`)}</ul>`}
${doubts.length > 0 && html`<h3>Decisions in doubt</h3><ul>${doubts}</ul>`}
${outside.length > 0 && html`<h3>Verdicts outside the range of a law</h3><ul>${outside.map((text) => html`<li>${text}</li>`)}</ul>`}
${assumptions.length > 0 && html`<h3>Assumptions not confirmed</h3><ul>${assumptions.map((text) => html`<li>${text}</li>`)}</ul>`}
${
  movements.length > 0 &&
  html`<h3>Numbers</h3><table class="moves"><thead><tr><th scope="col">result</th><th scope="col">before</th><th scope="col">after</th></tr></thead><tbody>${movements.map(
    ({ node, before, after }) =>
      html`<tr><th scope="row">${linked(node)} <span class="symbol">${nameOf(node.id)}</span></th><td>${before}</td><td>${after}</td></tr>`,
  )}</tbody></table>`
}`;
}

/** The words for a result, linked where the page shows it. */
function linked(node: GraphNode): Html {
  const target = anchor("node", node.id);
  return document.getElementById(target) ? html`<a href="#${target}">${nodeWords(node)}</a>` : html`${nodeWords(node)}`;
}

function changedItem({ kind, path, node, before, after, note }: Turned): Html {
  const words = node ? nodeWords(node) : path;
  return html`<li>${words}${!words.endsWith("?") && ":"} ${before} → ${after}${note !== undefined && ` (${note})`} <button type="button" data-reset-kind="${kind}" data-reset="${path}" aria-label="Reset ${path}">reset</button></li>`;
}
