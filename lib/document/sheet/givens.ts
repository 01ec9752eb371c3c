/** A sheet's givens, as a table of symbol, meaning, value and source, or side by side as a matrix. The page turns values into fields. */
import type { GivenNode, GraphNode, Provenance, TableNode } from "../../graph/node";
import { unitOf } from "../../quantity/unit";
import type { GivensBlock, TakenBlock } from "../../sheet/block";
import { nodeAnchor, nodeLink, nodeOf, type View } from "../model/book-data";
import { nodeWords, symbolHtml, symbolText } from "../model/names";
import { Footnotes } from "../text/footnotes";
import { anchor, type Html, html } from "../text/html";
import { leadingPadding, live, numberText } from "../text/show";
import type { Cite } from "../text/sources";
import { printedValue, withBoundUnits } from "../text/units-in-text";
import { type Matrix, matrixLength, matrixOf } from "./given-matrix";

/** A givens block and its reference. */
export interface ShownGivens {
  readonly block: GivensBlock;
  readonly ref: string;
}

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

function givenRow(symbol: string, node: GraphNode, padding: string, ref: string, view: View, cite: Cite): Html {
  const source = "provenance" in node ? cite(node.provenance) : html`computed`;
  return html`<tr${nodeAnchor(node.id, ref, view)}><th scope="row">${symbolHtml(symbol)}</th>
<td data-label="Meaning">${withBoundUnits(nodeWords(node))}</td><td data-label="Value" class="value">${padded(padding, givenValue(node, view))}</td>
<td data-label="Source" class="source">${source}</td></tr>`;
}

interface Cell {
  readonly node: GraphNode;
  readonly ref: string;
}

/** Rows are quantities and columns alternatives; turned where there are more alternatives than quantities. */
function renderGivenMatrix(matrix: Matrix, run: readonly ShownGivens[], view: View, cite: Cite): Html {
  const notes = new Footnotes(anchor("source-of", run[0]?.ref ?? ""));
  const symbols = run[0]?.block.rows.map(({ symbol }) => symbol) ?? [];
  const cells = symbols.map((_, row) => run.map(({ block, ref }): Cell => ({ node: nodeOf(view, block.rows[row]?.node ?? ""), ref })));
  const turned = run.length > symbols.length;
  const filled = cells.map((row) => {
    const padding = leadingPadding(row.map(({ node }) => (turned && node.kind === "given" ? node.text : "")));
    return row.map(
      ({ node }, index) =>
        html`${padded(padding[index] ?? "", givenValue(node, view))}${"provenance" in node && notes.mark(cite(shared(node.provenance)))}`,
    );
  });
  const at = (row: number, column: number, label: string) =>
    html`<td${nodeAnchor(cells[row]?.[column]?.node.id ?? "", cells[row]?.[column]?.ref ?? "", view)} data-label="${label}">${filled[row]?.[column]}</td>`;
  const quantities = symbols.map((symbol, row) => html`${symbolHtml(symbol)} <span class="better">${matrix.quantities[row]}</span>`);
  const heads = turned ? quantities : matrix.labels.map((label) => html`${withBoundUnits(label)}`);
  const body = turned
    ? matrix.labels.map(
        (label, column) =>
          html`<tr><th scope="row">${withBoundUnits(label)}</th>${symbols.map((symbol, row) => at(row, column, symbolText(symbol)))}</tr>`,
      )
    : quantities.map(
        (head, row) => html`<tr><th scope="row">${head}</th>${matrix.labels.map((label, column) => at(row, column, label))}</tr>`,
      );
  return html`<div class="block givens-block matrix-block"><div class="scroll" tabindex="0" role="group" aria-label="Givens side by side">
<table class="givens matrix"><caption>Givens, side by side</caption><thead><tr><th scope="col"><span class="unseen">of</span></th>${heads.map(
    (head) => html`<th scope="col">${head}</th>`,
  )}</tr></thead><tbody>${body}</tbody></table></div>${notes.list()}</div>`;
}

/** A source without the line that states the value, which the register tells: what several cells have in common. */
function shared({ source, note, fromMemory }: Provenance): Provenance {
  return { source, ...(note !== undefined && { note }), ...(fromMemory !== undefined && { fromMemory }) };
}

/** A scalar as a field, a table as its points; of anything else, its number. */
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
  return html`<span class="field" data-given="${node.path}">${printedValue(node.text)}</span>`;
}

function tableField(node: TableNode): Html {
  const x = unitOf(node.xUnit);
  const y = unitOf(node.unit);
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

/** A value after the figure spaces that bring its decimal point under those of its column. */
function padded(padding: string, value: Html): Html {
  return padding === "" ? value : html`<span class="padding" aria-hidden="true">${padding}</span>${value}`;
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
