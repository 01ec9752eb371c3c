/** Live: the preferred values that the chosen alternatives ask for, as a list of parts. */

import { inputsOf } from "../graph/inputs";
import type { GraphNode, NodeId, SelectNode } from "../graph/node";
import { unitOfNode } from "../graph/node-unit";
import { nodeLink, nodeOf, type View } from "./book-data";
import { type Html, html, nothing } from "./html";
import { nodeWords } from "./names";
import { live } from "./show";

/** One line a part: what for, value, series, tolerance. Parts of alternatives that were not chosen are left out. */
export function renderPartsList(view: View): Html {
  const parts = chosenParts(view);
  if (parts.length === 0) return nothing;
  const rows = parts.map(
    (node) => html`<tr><th scope="row">${nodeWords(node)} <span class="symbol">${node.id}</span></th>
<td data-label="Value">${nodeLink(node.id, live({ node: node.id, show: "nominal", unit: unitOfNode(node).symbol }, view.evaluation), view)}</td>
<td data-label="Series">${node.series}</td><td data-label="Tolerance">${toleranceOf(node, view)}</td></tr>`,
  );
  return html`<div class="scroll" tabindex="0" role="group" aria-label="Parts chosen by preferred value"><table class="stacking"><thead><tr><th scope="col">For</th><th scope="col">Value</th>
<th scope="col">Series</th><th scope="col">Tolerance</th></tr></thead><tbody>${rows}</tbody></table></div>`;
}

function toleranceOf({ deviation }: SelectNode, view: View): string {
  const given = deviation === undefined ? undefined : nodeOf(view, deviation);
  return given?.kind === "given" ? given.text : "–";
}

/** Selections behind what the sheets publish, in order of id. */
function chosenParts({ book, evaluation }: View): SelectNode[] {
  const published = Object.values(book.blocks).flatMap((block) => (block.type === "publish" ? Object.values(block.names) : []));
  const seen = new Set<NodeId>();
  const waiting = [...published];
  const found: SelectNode[] = [];
  for (let id = waiting.pop(); id !== undefined; id = waiting.pop()) {
    if (seen.has(id)) continue;
    seen.add(id);
    const node = evaluation.graph.get(id);
    if (node.kind === "select") found.push(node);
    waiting.push(...wayDown(node, evaluation.graph.get.bind(evaluation.graph)));
  }
  return found.toSorted((a, b) => (a.id < b.id ? -1 : 1));
}

function wayDown(node: GraphNode, get: (id: NodeId) => GraphNode): readonly NodeId[] {
  if (node.kind !== "switch") return inputsOf(node);
  const choice = get(node.choice);
  const chosen = choice.kind === "choice" ? node.cases[choice.chosen] : undefined;
  return chosen === undefined ? [] : [chosen];
}
