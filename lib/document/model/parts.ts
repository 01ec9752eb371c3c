/** Live parts: markup that changes with the state of the book, made by the same pure function here and in the page. */
import type { Block, BlockOf } from "../../sheet/block";
import { kindOf } from "../../sheet/kinds";
import { renderBudgets } from "../live/budgets";
import { renderConfirmationWord } from "../live/confirmation";
import { renderDecisions, renderTradeOff } from "../live/decision";
import { renderDrawingPicture, renderPlotPicture } from "../live/figures";
import { renderMap } from "../live/map";
import { renderMark } from "../live/mark";
import { renderPartsList } from "../live/parts-list";
import { renderDiagram, renderPower } from "../live/product";
import { renderRequirementLine, renderThinnest, renderVerdictTable } from "../live/requirements";
import { renderExpanded, renderReadingFinding, renderWarnings } from "../live/result";
import { renderResultTable } from "../live/table";
import { renderWorkings } from "../live/workings";
import { type Html, html, nothing } from "../text/html";
import type { View } from "./book-data";

/** What the whole book, a node (for `reading` with a number) or a block shows. A block's own part has the name of its kind. */
export type PartKind =
  | ("verdicts" | "budgets" | "decisions" | "map" | "diagram" | "power" | "parts")
  | ("mark" | "thinnest")
  | ("warnings" | "expanded" | "reading")
  | ("workings" | "words" | Block["type"]);

/** A part in its container, which the page fills anew. */
export function part(kind: PartKind, ref: string, view: View): Html {
  return html`<div data-part="${kind}" data-ref="${ref}">${renderPart(kind, ref, view)}</div>`;
}

/** The present markup of a part. */
export function renderPart(kind: PartKind, ref: string, view: View): Html {
  const render = others[kind];
  return render === undefined ? renderBlockPart(kind, view.book.blocks[ref], ref, view) : render(ref, view);
}

const others: { readonly [K in PartKind]?: (ref: string, view: View) => Html } = {
  verdicts: (_, view) => renderVerdictTable(view),
  budgets: (_, view) => renderBudgets(view),
  map: (_, view) => renderMap(view),
  diagram: (_, view) => renderDiagram(view),
  power: (_, view) => renderPower(view),
  decisions: (_, view) => renderDecisions(view),
  parts: (_, view) => renderPartsList(view),
  mark: renderMark,
  thinnest: renderThinnest,
  warnings: renderWarnings,
  reading: renderReadingFinding,
  expanded: renderExpanded,
};

function renderBlockPart(kind: PartKind, block: Block | undefined, ref: string, view: View): Html {
  if (block === undefined) return nothing;
  if (kind === "words") return renderWords(block, view);
  if (kind === "workings") return block.type === "decision" ? renderWorkings(block, ref, view) : nothing;
  const render = block.type === kind ? (live[block.type] as Live<Block> | undefined) : undefined;
  return render === undefined ? nothing : render(block, ref, view);
}

function renderWords(block: Block, { book, evaluation }: View): Html {
  const statement = (id: string) => book.requirements.find((requirement) => requirement.id === id)?.statement ?? id;
  return html`${kindOf(block)
    .words(block, { evaluation, analyses: [], verdicts: [], statement })
    .map((line) => html`<p>${line}</p>`)}`;
}

type Live<B extends Block> = (block: B, ref: string, view: View) => Html;

const live: { readonly [T in Block["type"]]?: Live<BlockOf<T>> } = {
  requirement: (block, _, view) => renderRequirementLine(block, view),
  decision: (block, _, view) => renderTradeOff(block, view),
  table: renderResultTable,
  plot: renderPlotPicture,
  confirmation: (block, _, view) => renderConfirmationWord(block, view),
  drawing: renderDrawingPicture,
};

/** Whether a block of the kind has a part of its own. */
export const isLive = (kind: Block["type"]): boolean => live[kind] !== undefined;
