/**
 * Tables as a notebook front end and a code host show them: plain HTML that is readable without any style, a row a line, so that a diff
 * shows what changed. End tags that HTML lets out are left out.
 */
import { type Html, html, type Part } from "./html";

/** A cell of words, set left: front ends set numbers, and all that is not said otherwise, right. */
export interface Words {
  readonly words: Part;
}

export type Cell = Words | Part;

/** A head and its rows. */
export function htmlTable(head: readonly Cell[], rows: readonly (readonly Cell[])[]): Html {
  const line = (cells: readonly Part[]) => html`<tr>${cells}\n`;
  return html`<table>\n${line(head.map(headCell))}${rows.map((row) => line(row.map(bodyCell)))}</table>`;
}

/** Parts one under the other in a cell. */
export function stacked(parts: readonly Part[]): Html {
  return html`${parts.map((part, index) => (index === 0 ? html`${part}` : html`<br>${part}`))}`;
}

/** Parts as paragraphs. */
export function paragraphs(parts: readonly Part[]): Html {
  return html`${parts.map((part) => html`<p>${part}</p>\n`)}`;
}

const isWords = (cell: Cell): cell is Words => typeof cell === "object" && cell !== null && "words" in cell;

const headCell = (cell: Cell) => (isWords(cell) ? html`<th style="text-align:left">${cell.words}` : html`<th>${cell}`);
const bodyCell = (cell: Cell) => (isWords(cell) ? html`<td style="text-align:left">${cell.words}` : html`<td>${cell}`);
