/** The live part of a decision: the trade-off table, and the flag where the choice no longer stands. */
import type { Verdict } from "../../analysis/result";
import { entryOf } from "../../quantity/entry-of";
import type { Unit } from "../../quantity/quantity";
import { unitOf } from "../../quantity/unit";
import type { Criterion, DecisionBlock } from "../../sheet/block";
import { type Assessment, assessDecision } from "../../sheet/decision";
import { nodeLink, nodeOf, type View } from "../model/book-data";
import { type Html, html, nothing } from "../text/html";
import { decimalPadding, live, textOrNone } from "../text/show";
import { withBoundUnits } from "../text/units-in-text";
import { decidedBy, decidingNumber, judgedText, limitText, outsideRange, rangePointText, toldBadge } from "../text/verdict-text";

export function renderTradeOff(block: DecisionBlock, view: View): Html {
  const assessment = assessDecision(block, view.evaluation);
  const { rows } = assessment;
  const columns = block.criteria.map((_, index) => column(block, index, rows, view));
  const body = rows.map(
    (row, index) => html`<tr${row.chosen && html` class="chosen-row"`}>
<th scope="row">${withBoundUnits(row.label)}${row.chosen && html` <span class="chosen">chosen</span>`}${
      row.dominatedBy !== undefined && html`<span class="dominated">dominated by “${row.dominatedBy}”</span>`
    }</th>
${columns.map(({ cells, label }) => html`<td data-label="${label}">${cells[index]}</td>`)}</tr>`,
  );
  return html`${flagged(assessment)}<div class="scroll" tabindex="0" role="group" aria-label="Alternatives against criteria: ${block.question}">
<table class="stacking trade"><caption class="unseen">Alternatives against criteria</caption>
<thead><tr><th scope="col">alternative</th>${columns.map(({ head }) => html`<th scope="col">${head}</th>`)}</tr></thead><tbody>${body}</tbody></table></div>`;
}

/** Live: every decision of the book with what was chosen, and whether the choice stands. */
export function renderDecisions(view: View): Html {
  const decisions = Object.values(view.book.blocks).filter((block) => block.type === "decision");
  if (decisions.length === 0) return nothing;
  const items = decisions.map((block) => {
    const { rows, flags } = assessDecision(block, view.evaluation);
    const label = rows.find(({ chosen }) => chosen)?.label ?? "nothing";
    return html`<li>${nodeLink(block.choice, block.question, view)} <strong>${label}</strong>${flags.length > 0 && html` <span class="in-doubt">in doubt</span>`}</li>`;
  });
  return html`<section class="decisions"><h2>Decisions</h2><ul>${items}</ul></section>`;
}

function flagged({ flags, open }: Assessment): Html {
  if (flags.length === 0) return nothing;
  return html`<div class="flag"><strong>${flags.length > open.length ? "This choice does not meet its criteria." : "This choice is not certain to stand."}</strong><ul>${flags.map((text) => html`<li>${text}</li>`)}</ul></div>`;
}

/** The range point that decided every alternative; empty where they differ. */
function commonPoint(verdicts: readonly (Verdict | undefined)[], view: View): string {
  const points = new Set(verdicts.flatMap((verdict) => (verdict === undefined ? [] : [rangePointText(verdict, view)])));
  return points.size === 1 ? ([...points][0] ?? "") : "";
}

/** The value that decided, without what the head of its column says. */
function decidedText(verdict: Verdict, unit: Unit<any>, common: string, view: View): Html {
  const number = decidingNumber(verdict, unit);
  if (verdict.judged === "typical") return html`<span class="unseen">typical ${number}</span>`;
  const words = verdict.judged === "95 %" ? html`<span class="unseen">for 95\u00a0% of units</span>` : html`worst case`;
  const point = common === "" ? rangePointText(verdict, view) : "";
  return html`${words} ${number}${point !== "" && `, ${point}`}`;
}

/** Whether what is best does not follow from the limit. */
const isOwnWay = ({ better }: Criterion) => better === "nearest" || better === "smallest spread";

function betterWords({ better, target }: Criterion, view: View): Html {
  if (target === undefined) return html`${better} is better`;
  return html`nearest to ${live({ node: target, show: "nominal", unit: nodeOf(view, target).unit }, view.evaluation)} is better`;
}

/** Head and cells of one criterion, in the unit of the first alternative. */
function column(block: DecisionBlock, index: number, rows: Assessment["rows"], view: View) {
  const criterion = block.criteria[index];
  if (!criterion) return { head: nothing, cells: [], label: "" };
  const ids = block.alternatives.map(({ values }) => entryOf(values, criterion.name));
  const first = ids.find((id) => id !== undefined);
  const unit = first === undefined ? undefined : unitOf(nodeOf(view, first).unit);
  const shown = ids.map((node) => (node === undefined || !unit ? undefined : ({ node, show: "number", unit: unit.symbol } as const)));
  const texts = shown.map((entry) => (entry ? textOrNone(entry, view.evaluation) : "–"));
  const padding = decimalPadding(texts);
  const inUnit = !unit || unit.symbol === "1" ? "" : ` in ${unit.symbol}`;
  const verdicts = rows.map(({ cells }) => cells[index]?.verdict);
  const common = commonPoint(verdicts, view);
  const limit =
    criterion.limit &&
    unit &&
    html`<span class="limit">${limitText(criterion.limit, unit)} ${judgedText(criterion.limit.judged)}${common !== "" && `, ${common}`}</span>`;
  const cells = shown.map((entry, row) => {
    const verdict = verdicts[row];
    const { remark } = rows[row]?.cells[index] ?? {};
    return html`<span class="figure">${entry ? nodeLink(entry.node, live(entry, view.evaluation), view) : "–"}${padding[row]}</span>${
      remark !== undefined && html`<span class="limit">${remark}</span>`
    }${
      verdict &&
      unit &&
      html`<span class="decided">${decidedText(verdict, unit, common, view)} ${toldBadge(verdict.verdict, decidedBy(verdict, criterion.limit ?? {}, unit, view))}</span>${outsideRange(verdict)}`
    }`;
  });
  return {
    head: html`${criterion.label}${inUnit}${limit}${(!limit || isOwnWay(criterion)) && html`<span class="better">${betterWords(criterion, view)}</span>`}`,
    cells,
    label: `${criterion.label}${inUnit}`,
  };
}
