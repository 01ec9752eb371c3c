/** Live parts: markup that changes with the state of the book, made by the same pure function here and in the page. */
import type { Block, BlockOf } from "../../sheet/block";
import { renderBudgets } from "../live/budgets";
import { renderConfirmationWord } from "../live/confirmation";
import { renderDecisions, renderTradeOff } from "../live/decision";
import { renderDrawingPicture, renderPlotPicture } from "../live/figures";
import { renderMap } from "../live/map";
import { renderPartsList } from "../live/parts-list";
import { renderDiagram, renderPower } from "../live/product";
import { renderRequirementLine, renderVerdictTable } from "../live/requirements";
import { renderContributions, renderExpanded, renderReadingFinding, renderWarnings } from "../live/result";
import { renderResultTable } from "../live/table";
import { renderWorkings } from "../live/workings";
import { type Html, html, nothing } from "../text/html";
import type { View } from "./book-data";

/** `contributions`, `expanded` and `warnings` refer to a node, `reading` to a node and a number, `verdicts`, `budgets`, `decisions`, `map`, `diagram`, `power` and `parts` to the whole book, the others to a block. */
export type PartKind =
  | "verdicts"
  | "budgets"
  | "decisions"
  | "map"
  | "diagram"
  | "power"
  | "requirement"
  | "decision"
  | "workings"
  | "table"
  | "plot"
  | "drawing"
  | "contributions"
  | "warnings"
  | "expanded"
  | "reading"
  | "confirmation"
  | "parts";

/** A part in its container, which the page fills anew. */
export function part(kind: PartKind, ref: string, view: View): Html {
  return html`<div data-part="${kind}" data-ref="${ref}">${renderPart(kind, ref, view)}</div>`;
}

/** The present markup of a part. */
export function renderPart(kind: PartKind, ref: string, view: View): Html {
  switch (kind) {
    case "verdicts":
      return renderVerdictTable(view);
    case "budgets":
      return renderBudgets(view);
    case "map":
      return renderMap(view);
    case "diagram":
      return renderDiagram(view);
    case "power":
      return renderPower(view);
    case "decisions":
      return renderDecisions(view);
    case "parts":
      return renderPartsList(view);
    case "warnings":
      return renderWarnings(ref, view);
    case "reading":
      return renderReadingFinding(ref, view);
    case "expanded":
      return renderExpanded(ref, view);
    case "contributions":
      return renderContributions(ref, view);
    default:
      return renderBlockPart(kind, view.book.blocks[ref], ref, view);
  }
}

function renderBlockPart(kind: PartKind, block: Block | undefined, ref: string, view: View): Html {
  if (kind === "workings" && block?.type === "decision") return renderWorkings(block, ref, view);
  const render = block?.type === kind ? (live[block.type] as Live<Block> | undefined) : undefined;
  return render === undefined || block === undefined ? nothing : render(block, ref, view);
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
