/** Givens of several alternatives as one matrix: a value in each cell, its source as a footnote's letter. */
import type { GraphNode, Provenance } from "../../graph/node";
import type { GivensBlock } from "../../sheet/block";
import { nodeAnchor, nodeOf, type View } from "../model/book-data";
import { symbolHtml, symbolText } from "../model/names";
import { Footnotes } from "../text/footnotes";
import { anchor, type Html, html } from "../text/html";
import { leadingPadding } from "../text/show";
import { withBoundUnits } from "../text/units-in-text";
import type { Matrix } from "./given-matrix";
import { givenValue, padded } from "./given-value";

/** Citation of a source as a link into the bibliography. */
export type Cite = (provenance: Provenance) => Html;

/** A givens block and its reference. */
export interface ShownGivens {
  readonly block: GivensBlock;
  readonly ref: string;
}

interface Cell {
  readonly node: GraphNode;
  readonly ref: string;
}

/** Rows are quantities and columns alternatives; turned where there are more alternatives than quantities. */
export function renderGivenMatrix(matrix: Matrix, run: readonly ShownGivens[], view: View, cite: Cite): Html {
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
