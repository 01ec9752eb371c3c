/** A derived result: its law, the law with numbers, the value, how far it spreads and what it depends on. */

import { typesetSymbol } from "../formula/typeset";
import type { GraphNode, NodeId } from "../graph/node";
import type { ResultBlock, SelectBlock } from "../sheet/block";
import { nodeAnchor, nodeLink, nodeOf, type View } from "./book-data";
import { type Html, html, nothing } from "./html";
import { mathml, substitutedMath } from "./math";
import { nameOf, nodeWords, sentence, symbolHtml, wordsHtml } from "./names";
import { part } from "./parts";
import { live, showText } from "./show";
import { withBoundUnits } from "./units-in-text";

export function renderResult(block: ResultBlock, ref: string, view: View): Html {
  const node = nodeOf(view, block.node);
  const name = typesetSymbol(node.symbol ?? nameOf(node.id));
  const law =
    block.law &&
    html`<div class="law${widthClass(block.law)}" tabindex="0" role="group" aria-label="law">${mathml(`${name} = ${block.law}`, true)}</div>`;
  const substituted =
    block.substituted &&
    html`<div class="law numbers${widthClass(block.substituted.latex)}" tabindex="0" role="group" aria-label="the law with numbers">${substitutedMath(
      { ...block.substituted, latex: `${name} = ${block.substituted.latex}` },
      (shown) => showText(shown, view.evaluation),
    )}</div>`;
  return html`<div role="group" class="block result"${nodeAnchor(node.id, ref, view)} aria-label="${nodeWords(node)}">
<p class="lead">${sentence(withBoundUnits(nodeWords(node)))}</p>
${modelWords(block, ref, view)}<div class="working">${law}${substituted}
<p class="value">${symbolHtml(node.symbol ?? nameOf(node.id))} = <strong>${live({ node: node.id, show: "result", unit: node.unit }, view.evaluation)}</strong></p></div>
${spreadNote(block.node, view, block.source)}
${part("warnings", node.id, view)}${part("contributions", node.id, view)}</div>`;
}

/** What a model does, said with the first of its outputs only. */
function modelWords({ model }: ResultBlock, ref: string, view: View): Html {
  if (model === undefined) return nothing;
  const [sheet = ""] = ref.split("/");
  const first = Object.entries(view.book.blocks).find(
    ([other, block]) => other.startsWith(`${sheet}/`) && block.type === "result" && block.model === model,
  );
  if (first?.[1].type !== "result" || first[0] === ref) return html`<p class="model">${wordsHtml(model)}</p>`;
  const node = nodeOf(view, first[1].node);
  return html`<p class="model">By the same model as ${nodeLink(node.id, symbolHtml(node.symbol ?? nameOf(node.id)), view)}.</p>`;
}

export function renderSelect(block: SelectBlock, ref: string, view: View): Html {
  const node = nodeOf(view, block.node);
  const wanted = nodeOf(view, block.of);
  const rule = ruleOf(nodeOf(view, block.parts?.[0] ?? block.node));
  return html`<div role="group" class="block result"${nodeAnchor(node.id, ref, view)} aria-label="${nodeWords(node)}">
<p class="lead">${sentence(withBoundUnits(nodeWords(node)))}</p>
<p class="value">${symbolHtml(node.symbol ?? nameOf(node.id))} = <strong>${live({ node: node.id, show: "nominal", unit: node.unit }, view.evaluation)}</strong>
<span class="aside-words">${pairWords(block, view)}chosen for ${live({ node: wanted.id, show: "nominal", unit: wanted.unit }, view.evaluation)} from the series ${rule}</span></p>
${spreadNote(block.node, view)}
${part("warnings", node.id, view)}</div>`;
}

function ruleOf(node: GraphNode): string {
  return node.kind === "select" ? `${node.series}, ${node.rule}` : "preferred value";
}

/** "1.2 kΩ and 150 Ω in series, ". */
function pairWords({ parts }: SelectBlock, view: View): Html | undefined {
  if (parts === undefined) return undefined;
  const [larger, smaller] = parts.map((id) => nodeOf(view, id)) as [GraphNode, GraphNode];
  const value = (node: GraphNode) => live({ node: node.id, show: "nominal", unit: node.unit }, view.evaluation);
  return html`${value(larger)} and ${value(smaller)} in ${larger.kind === "select" ? (larger.pair?.joined ?? "") : ""}, `;
}

/** A line that is wider than the column is set smaller; what is still too wide scrolls on a screen. */
export function widthClass(latex: string): string {
  // A number that stands for `\text{⟦0⟧}` takes about six letters with its unit.
  const letters = latex
    .replace(/\\text\{⟦\d+⟧\}/g, "000000")
    .replace(/\\(?:mathrm|left|right|,|;|cdot|frac|sqrt|text)/g, "")
    .replace(/[{}\\_^\s]/g, "").length;
  return letters > 85 ? " widest" : letters > 62 ? " wide" : "";
}

/** Beside the text on a wide screen, under it on a narrow one. */
function spreadNote(id: NodeId, view: View, source?: string): Html {
  const { unit } = nodeOf(view, id);
  const analysis = view.evaluation.analysis(id);
  const spread =
    (analysis.worst || analysis.interval) &&
    html`
<div><dt>worst case</dt><dd>${live({ node: id, show: "worst", unit }, view.evaluation)}</dd></div>
<div><dt>95 % of units</dt><dd>${live({ node: id, show: "interval", unit }, view.evaluation)}</dd></div>${
      analysis.expanded && html`<div><dt>expanded uncertainty</dt><dd>${part("expanded", id, view)}</dd></div>`
    }`;
  const origin = source && html`<div><dt>law from</dt><dd>${source}</dd></div>`;
  return spread || origin ? html`<dl class="note">${spread}${origin}</dl>` : nothing;
}
