/** A sheet's table of givens: symbol, meaning, value with spread, source. The page turns values into fields. */
import type { GraphNode } from "../../graph/node";
import type { TakenBlock } from "../../sheet/block";
import { nodeAnchor, nodeLink, nodeOf, type View } from "../model/book-data";
import { nodeWords, symbolHtml } from "../model/names";
import { anchor, type Html, html } from "../text/html";
import { leadingPadding, live } from "../text/show";
import { withBoundUnits } from "../text/units-in-text";
import { matrixLength, matrixOf } from "./given-matrix";
import { type Cite, renderGivenMatrix, type ShownGivens } from "./given-matrix-table";
import { givenValue, padded } from "./given-value";

/** Givens blocks that follow one another, under one heading; those that differ in one thing only as a matrix. */
export function renderGivens(run: readonly ShownGivens[], view: View, cite: Cite): Html {
  const lists = run.map(({ block }) => ({
    rows: block.rows.map(({ symbol, node }) => ({ symbol, words: nodeWords(nodeOf(view, node)) })),
  }));
  const tables: Html[] = [];
  let plain: ShownGivens[] = [];
  const close = () => {
    if (plain.length > 0) tables.push(givensTable(plain, view, cite));
    plain = [];
  };
  for (let start = 0; start < run.length; ) {
    const length = matrixLength(lists, start);
    const matrix = length > 1 ? matrixOf(lists.slice(start, start + length)) : undefined;
    if (matrix) {
      close();
      tables.push(renderGivenMatrix(matrix, run.slice(start, start + length), view, cite));
    } else plain.push(...run.slice(start, start + length));
    start += length;
  }
  close();
  return html`${tables}`;
}

function givensTable(run: readonly ShownGivens[], view: View, cite: Cite): Html {
  const bodies = run.map(({ block, ref }) => {
    const nodes = block.rows.map(({ node }) => nodeOf(view, node));
    const padding = leadingPadding(nodes.map((node) => (node.kind === "given" ? node.text : "")));
    return html`<tbody>${block.rows.map(({ symbol }, row) => givenRow(symbol, nodes[row] as GraphNode, padding[row] ?? "", ref, view, cite))}</tbody>`;
  });
  return html`<div class="block givens-block"><div class="scroll" tabindex="0" role="group" aria-label="Givens of this sheet">
<table class="stacking givens"><caption>Givens</caption>
<thead><tr><th scope="col">Symbol</th><th scope="col">Meaning</th><th scope="col">Value</th><th scope="col">Source</th></tr></thead>
${bodies}</table></div></div>`;
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

function givenRow(symbol: string, node: GraphNode, padding: string, ref: string, view: View, cite: Cite): Html {
  const source = "provenance" in node ? cite(node.provenance) : html`computed`;
  return html`<tr${nodeAnchor(node.id, ref, view)}><th scope="row">${symbolHtml(symbol)}</th>
<td data-label="Meaning">${withBoundUnits(nodeWords(node))}</td><td data-label="Value" class="value">${padded(padding, givenValue(node, view))}</td>
<td data-label="Source" class="source">${source}</td></tr>`;
}
