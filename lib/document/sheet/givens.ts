/** A sheet's givens, as a table of symbol, meaning, value and source, or side by side as a matrix. The page turns values into fields. */
import type { GivenNode, GraphNode, Provenance, TableNode } from "../../graph/node";
import { unitOf } from "../../quantity/unit";
import type { GivensBlock, TakenBlock } from "../../sheet/block";
import { nodeAnchor, nodeLink, nodeOf, type View } from "../model/book-data";
import { nodeWords, symbolHtml, symbolText } from "../model/names";
import { sheetId } from "../model/page-ids";
import { Footnotes } from "../text/footnotes";
import { anchor, type Html, html } from "../text/html";
import { leadingPadding, live, numberText } from "../text/show";
import type { Cite } from "../text/sources";
import { printedValue, withBoundUnits } from "../text/units-in-text";

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
  const line = run.flatMap(({ block }) => block.rows).map(({ symbol, node }) => shortGiven(symbol, nodeOf(view, node), view));
  return html`<details class="block givens-block"><summary><span class="kind">Givens</span> <span class="line">${line}</span></summary><div class="scroll" tabindex="0" role="group" aria-label="Givens of this sheet">
<table class="stacking givens"><caption>Givens</caption>
<thead><tr><th scope="col">Symbol</th><th scope="col">Meaning</th><th scope="col">Value</th><th scope="col">Source</th></tr></thead>
${bodies}</table></div></details>`;
}

/** A given in the line that stands for its table. */
function shortGiven(symbol: string, node: GraphNode, view: View): Html {
  const value = node.kind === "given" && html`\u00a0=\u00a0${live({ node: node.id, show: "nominal", unit: node.unit }, view.evaluation)}`;
  return html`<span>${symbolHtml(symbol)}${value}</span> `;
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
  const of = html`${symbols.map((symbol) => html`<span>${symbolHtml(symbol)}</span> `)}of ${matrix.labels.join(", ")}`;
  return html`<details class="block givens-block matrix-block"><summary><span class="kind">Givens</span> <span class="line">${of}</span></summary><div class="scroll" tabindex="0" role="group" aria-label="Givens side by side">
<table class="givens matrix"><caption>Givens, side by side</caption><thead><tr><th scope="col"><span class="unseen">of</span></th>${heads.map(
    (head) => html`<th scope="col">${head}</th>`,
  )}</tr></thead><tbody>${body}</tbody></table></div>${notes.list()}</details>`;
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
  const kind = node.knowledge === true && html` <span class="kind-of-spread">knowledge</span>`;
  return html`<span class="field" data-given="${node.path}">${printedValue(node.text)}</span>${kind}`;
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

/** One table of givens: the symbol and the words of each of its rows. */
interface GivenList {
  readonly rows: readonly { readonly symbol: string; readonly words: string }[];
}

/** Several lists of the same symbols side by side. */
interface Matrix {
  /** What each list is about: "green", "red", "amber". */
  readonly labels: readonly string[];
  /** What each quantity is, the label left out: "forward voltage of the … LED". */
  readonly quantities: readonly string[];
}

/** The matrix of neighbouring lists; undefined where they are not lists of the same symbols, or no words tell them apart. */
export function matrixOf(lists: readonly GivenList[]): Matrix | undefined {
  const [first] = lists;
  if (!first || lists.length < 2 || lists.some((list) => !sameSymbols(list, first))) return undefined;
  const rows = first.rows.map((_, row) => lists.map((list) => list.rows[row]?.words ?? ""));
  const labels = commonest(rows.map(differing));
  return labels && { labels, quantities: rows.map((words) => quantityOf(words, labels)) };
}

/** How many of the lists from `start` on make one matrix: the longest run of the same symbols that has one; else 1. */
export function matrixLength(lists: readonly GivenList[], start: number): number {
  const first = lists[start];
  let end = start;
  while (first && lists[end] && sameSymbols(lists[end] as GivenList, first)) end++;
  return matrixOf(lists.slice(start, end)) ? end - start : 1;
}

function sameSymbols(a: GivenList, b: GivenList): boolean {
  return a.rows.length === b.rows.length && a.rows.every(({ symbol }, row) => symbol === b.rows[row]?.symbol);
}

/** The words in which texts differ, between those with which all begin and all end. */
function differing(texts: readonly string[]): readonly string[] | undefined {
  const words = texts.map((text) => text.split(" "));
  const shortest = Math.min(...words.map(({ length }) => length));
  const alike = (at: (own: readonly string[]) => string | undefined) => new Set(words.map(at)).size === 1;
  let head = 0;
  while (head < shortest && alike((own) => own[head])) head++;
  let tail = 0;
  while (tail < shortest - head && alike((own) => own.at(-1 - tail))) tail++;
  const middles = words.map((own) => own.slice(head, own.length - tail).join(" "));
  return head + tail > 0 && middles.every(Boolean) && new Set(middles).size === texts.length ? middles : undefined;
}

/** The labels on which more than half of the rows agree. */
function commonest(found: readonly (readonly string[] | undefined)[]): readonly string[] | undefined {
  const same = (a: readonly string[] | undefined, b: readonly string[] | undefined) => a?.join("\n") === b?.join("\n");
  return found.find((labels) => labels !== undefined && found.filter((other) => same(labels, other)).length * 2 > found.length);
}

function quantityOf(texts: readonly string[], labels: readonly string[]): string {
  const stems = texts.map((text, index) => {
    const label = labels[index] ?? "";
    return text.includes(label) ? text.replace(label, "…").replace(/ of …$/, "") : text;
  });
  return [...new Set(stems)].join(", or ");
}

/** Results of other sheets that this one starts from. */
export function renderTaken(block: TakenBlock, view: View): Html {
  const rows = block.rows.map(({ symbol, node, from }) => {
    const taken = nodeOf(view, node);
    const sheet = from.slice(0, from.indexOf("."));
    return html`<tr><th scope="row">${symbolHtml(symbol)}</th><td data-label="Meaning">${nodeWords(taken)}</td>
<td data-label="Value" class="value">${nodeLink(node, live({ node, show: "result", unit: taken.unit }, view.evaluation), view)}</td>
<td data-label="From"><a href="#${sheetId(sheet)}">${sheet}</a></td></tr>`;
  });
  const line = block.rows.map(({ symbol, node }) => {
    const { unit } = nodeOf(view, node);
    return html`<span>${symbolHtml(symbol)}\u00a0=\u00a0${live({ node, show: "result", unit }, view.evaluation)}</span> `;
  });
  return html`<details class="block givens-block"><summary><span class="kind">From other sheets</span> <span class="line">${line}</span></summary><div class="scroll" tabindex="0" role="group" aria-label="Results of other sheets">
<table class="stacking"><caption>Taken from other sheets</caption>
<thead><tr><th scope="col">Symbol</th><th scope="col">Meaning</th><th scope="col">Value</th><th scope="col">From</th></tr></thead>
<tbody>${rows}</tbody></table></div></details>`;
}
