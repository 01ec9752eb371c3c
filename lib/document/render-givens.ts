/** A sheet's table of givens: symbol, meaning, value with spread, source. The page turns values into fields. */
import type { GivenNode, GraphNode, Provenance, TableNode } from "../graph/node";
import type { GivensBlock, TakenBlock } from "../sheet/block";
import { nodeAnchor, nodeLink, nodeOf, unitWith, type View } from "./book-data";
import { anchor, type Html, html } from "./html";
import { nodeWords, symbolHtml } from "./names";
import { live, numberText } from "./show";

/** Citation of a source as a link into the bibliography. */
export type Cite = (provenance: Provenance) => Html;

export function renderGivens(block: GivensBlock, ref: string, view: View, cite: Cite): Html {
  const rows = block.rows.map(({ symbol, node }) => givenRow(symbol, nodeOf(view, node), ref, view, cite));
  return html`<div class="block givens-block"><div class="scroll" tabindex="0" role="group" aria-label="Givens of this sheet">
<table class="stacking givens"><caption>Givens</caption>
<thead><tr><th scope="col">Symbol</th><th scope="col">Meaning</th><th scope="col">Value</th><th scope="col">Source</th></tr></thead>
<tbody>${rows}</tbody></table></div></div>`;
}

/** Results of other sheets that this one starts from. */
export function renderTaken(block: TakenBlock, view: View): Html {
  const rows = block.rows.map(({ symbol, node, from }) => {
    const taken = nodeOf(view, node);
    const sheet = from.slice(0, from.indexOf("."));
    return html`<tr><th scope="row">${symbolHtml(symbol)}</th><td data-label="Meaning">${nodeWords(taken)}</td>
<td data-label="Value" class="value">${nodeLink(node, live({ node, show: "result", unit: taken.unit }, view.evaluation), view)}</td>
<td data-label="From"><a href="#${anchor("sheet", sheet)}">${sheet}</a></td></tr>`;
  });
  return html`<div class="block"><div class="scroll" tabindex="0" role="group" aria-label="Results of other sheets">
<table class="stacking"><caption>Taken from other sheets</caption>
<thead><tr><th scope="col">Symbol</th><th scope="col">Meaning</th><th scope="col">Value</th><th scope="col">From</th></tr></thead>
<tbody>${rows}</tbody></table></div></div>`;
}

function givenRow(symbol: string, node: GraphNode, ref: string, view: View, cite: Cite): Html {
  const source = "provenance" in node ? cite(node.provenance) : html`computed`;
  return html`<tr${nodeAnchor(node.id, ref, view)}><th scope="row">${symbolHtml(symbol)}</th>
<td data-label="Meaning">${nodeWords(node)}</td><td data-label="Value" class="value">${givenValue(node, view)}</td>
<td data-label="Source" class="source">${source}</td></tr>`;
}

/** The value of a given in a form that the page can make editable; of anything else, its number. */
export function givenValue(node: GraphNode, view: View): Html {
  switch (node.kind) {
    case "given":
      return scalarField(node);
    case "table":
      return tableField(node);
    case "choice":
      return html`<span class="chosen">${node.chosen}</span>`;
    default:
      return nodeLink(node.id, live({ node: node.id, show: "nominal", unit: node.unit }, view.evaluation), view);
  }
}

function scalarField(node: GivenNode): Html {
  return html`<span class="field" data-given="${node.path}" data-label="${nodeWords(node)}">${node.text}</span>`;
}

function tableField(node: TableNode): Html {
  const x = unitWith(node.xUnit, { dimension: node.xDimension });
  const y = unitWith(node.unit, node);
  const rows = node.x.map(
    (value, index) =>
      html`<tr><td>${numberText(x.fromSI(value), 6)}</td><td>${numberText(y.fromSI(node.y[index] ?? Number.NaN), 6)}</td></tr>`,
  );
  const rule = {
    linear: "straight lines",
    "log-y": "straight lines of the logarithm",
    "log-log": "straight lines of both logarithms",
    monotone: "a monotone cubic",
  }[node.interpolation];
  return html`<details class="points"><summary>${node.x.length} points, ${node.yName} against ${node.xName}</summary>
<table data-table="${node.path}"><caption>Between the points: ${rule}; outside them: an error.</caption>
<thead><tr><th scope="col">${node.xName}${unitIn(node.xUnit)}</th><th scope="col">${node.yName}${unitIn(node.unit)}</th></tr></thead><tbody>${rows}</tbody></table></details>`;
}

function unitIn(unit: string): string {
  return unit === "1" ? "" : ` in ${unit}`;
}
