/** What each sheet takes from which others, as the head of the sheet says it: what to have read before. */
import type { SheetOutputs } from "../../book/outputs";
import type { NodeId } from "../../graph/node";
import type { Block } from "../../sheet/block";
import { type Html, html, nothing } from "../text/html";
import { nodeOf, type View } from "./book-data";
import { nodeWords } from "./names";
import { sheetId } from "./page-ids";

/** One thing that a sheet takes from another. */
interface Taking {
  readonly by: string;
  readonly from: string;
  readonly what: string;
}

/** The names of the sheets in reading order, and everything taken. */
export interface ReadingOrder {
  readonly names: readonly string[];
  readonly takings: readonly Taking[];
}

export function readingOrder(sheets: readonly SheetOutputs[], view: View): ReadingOrder {
  const words = (id: NodeId) => nodeWords(nodeOf(view, id));
  const takings = sheets.flatMap((sheet) =>
    sheet.displays.flatMap(({ display }) => taken(display.block, words).map((own) => ({ by: sheet.name, ...own }))),
  );
  return { names: sheets.map(({ name }) => name), takings: takings.filter(({ by, from }) => by !== from) };
}

function taken(block: Block, words: (id: NodeId) => string): readonly Omit<Taking, "by">[] {
  switch (block.type) {
    case "taken":
      return block.rows.map(({ node, from }) => ({ from: sheetOf(from), what: words(node) }));
    case "collection":
      return block.items.map(({ sheet }) => ({ from: sheet, what: `its share of the ${block.budget}` }));
    case "confirmation":
      return [{ from: sheetOf(block.of), what: "an assumption to confirm" }];
    default:
      return [];
  }
}

/** References begin with the sheet's name. */
function sheetOf(reference: string): string {
  return reference.split(".")[0] ?? "";
}

/** The head of a sheet: its place in the book, what it takes from which sheets, and which take from it. */
export function renderPlace(name: string, { names, takings }: ReadingOrder): Html {
  const before = takings.filter(({ by }) => by === name);
  const after = takings.filter(({ from }) => from === name);
  return html`<div class="sheet-head"><p class="sheet-name">Sheet ${names.indexOf(name) + 1} of ${names.length}: <span class="id">${name}</span> <a class="up" href="#contents">contents</a></p>
<dl>${listed("Takes", "from", before, names) ?? html`<div><dt>Takes</dt><dd>nothing from other sheets: it starts from givens</dd></div>`}${listed("Gives", "by", after, names)}</dl></div>`;
}

/** By sheet, in reading order, what was taken: "from battery: power for the logic, …". */
function listed(term: string, side: "from" | "by", takings: readonly Taking[], names: readonly string[]): Html | undefined {
  const sheets = names.filter((name) => takings.some((taking) => taking[side] === name));
  if (sheets.length === 0) return undefined;
  const items = sheets.map((name, index) => {
    const things = [...new Set(takings.filter((taking) => taking[side] === name).map(({ what }) => what))];
    return html`${index > 0 ? "; " : nothing}${side === "from" ? "from" : "to"} <a href="#${sheetId(name)}">${name}</a>: ${things.join(", ")}`;
  });
  return html`<div><dt>${term}</dt><dd>${items}</dd></div>`;
}
