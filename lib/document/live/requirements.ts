/** Requirements: the table on the first screen, and the line in the sheet that answers one. */

import type { Verdict, VerdictWord } from "../../analysis/result";
import { worstOf } from "../../analysis/verdict";
import { format } from "../../quantity/format";
import type { Unit } from "../../quantity/quantity";
import { unitOf } from "../../quantity/unit";
import type { RequirementBlock } from "../../sheet/block";
import { doubtedText, outsideText } from "../../sheet/words";
import { nodeLink, type RequirementData, type View } from "../model/book-data";
import { type Computed, computed, notComputed } from "../text/computed";
import { anchor, type Html, html, nothing } from "../text/html";
import { withBoundUnits } from "../text/units-in-text";
import { decidedBy, decidingText, judgedText, limitText, marginText, outsideRange, probabilityText, toldBadge } from "../text/verdict-text";
import { renderDoubt } from "./confirmation";
import { renderYield } from "./yield";

interface Answer {
  readonly node: string;
  readonly verdict: Computed<Verdict>;
}

type Judged = Pick<RequirementData, "limit" | "judged" | "answers">;

function answersOf(requirement: Judged, { evaluation }: Pick<View, "evaluation">): Answer[] {
  return requirement.answers.map(({ node }) => ({
    node,
    verdict: computed(() => evaluation.verdict(node, requirement.limit, requirement.judged)),
  }));
}

/** One word for a requirement: its worst answer. One that cannot be computed shows nothing. */
export function requirementVerdict(requirement: Judged, view: Pick<View, "evaluation">): VerdictWord {
  return worstOf(answersOf(requirement, view).map(({ verdict }) => verdict.value?.verdict ?? "not shown"));
}

/** Why answers cannot be judged with the present values, in sentences. */
export function verdictProblems(requirements: readonly Judged[], view: Pick<View, "evaluation">): string[] {
  return requirements.flatMap((requirement) => answersOf(requirement, view).flatMap(({ verdict: { why } }) => why ?? []));
}

/** Verdicts that rest on laws used outside their range, in sentences. */
export function verdictsOutside(requirements: readonly (Judged & { readonly id: string })[], view: Pick<View, "evaluation">): string[] {
  return requirements.flatMap((requirement) =>
    answersOf(requirement, view).flatMap(({ verdict: { value } }) => {
      const text = value && outsideText(value);
      return value === undefined || text === undefined ? [] : `${requirement.id}: ${value.verdict}, ${text}`;
    }),
  );
}

/** How many with the thinnest margins stand first, behind all that do not hold or are not certain. */
const thinnest = 5;

/** Every requirement that a sheet answers, with limit, result, margin and verdict: those to look at first, the others folded. */
export function renderVerdictTable(view: View): Html {
  const answered = view.book.requirements.filter((requirement) => requirement.answers.length > 0);
  const isKept = (requirement: RequirementData) => ["holds", "holds for 95 %"].includes(requirementVerdict(requirement, view));
  const thin = answered
    .filter(isKept)
    .toSorted((a, b) => marginShare(a, view) - marginShare(b, view))
    .slice(0, thinnest);
  const first = answered.filter((requirement) => !isKept(requirement) || thin.includes(requirement));
  const others = answered.filter((requirement) => !first.includes(requirement));
  const rest =
    others.length > 0 &&
    html`<details class="others"><summary>${others.length === 1 ? "1 more holds" : `${others.length} more hold`}, with wider margins</summary>${verdictTable("Requirements with wider margins", others, view)}</details>`;
  return html`<p class="tally">${tally(view)}</p>${renderYield(view)}${first.length > 0 && verdictTable("Requirements and verdicts", first, view)}${rest}`;
}

/** The margin as a share of the limit, of the answer that has the least; infinite where no answer or no limit has one. */
export function marginShare(requirement: Judged, view: Pick<View, "evaluation">): number {
  const limits = [requirement.limit.low, requirement.limit.high].filter((limit) => limit !== undefined && limit !== 0);
  const scale = Math.min(...limits.map((limit) => Math.abs(limit as number)));
  const margins = answersOf(requirement, view).flatMap(({ verdict: { value } }) => (value === undefined ? [] : [value.margin]));
  return margins.length === 0 || !Number.isFinite(scale) ? Infinity : Math.min(...margins) / scale;
}

/** Live: of the requirements that a sheet answers the one with the thinnest margin, in short; nothing where it answers none. */
export function renderThinnest(sheet: string, view: View): Html {
  const own = view.book.requirements.filter(({ answers }) => answers.some((answer) => answer.sheet === sheet));
  const [first] = own.toSorted((a, b) => marginShare(a, view) - marginShare(b, view));
  if (first === undefined) return nothing;
  const [worst] = answersOf(first, view).toSorted(
    (a, b) => (a.verdict.value?.margin ?? -Infinity) - (b.verdict.value?.margin ?? -Infinity),
  );
  const margin = worst?.verdict.value === undefined ? notComputed : marginText(worst.verdict.value, unitOf(first.unit));
  const decided = worst?.verdict.value === undefined ? "" : decidedBy(worst.verdict.value, first.limit, unitOf(first.unit), view);
  return html`<p class="thinnest">Thinnest margin of ${own.length === 1 ? "one requirement" : `${own.length} requirements`}: <a href="#${anchor("requirement", first.id)}">${first.id}</a> ${margin} ${toldBadge(requirementVerdict(first, view), decided)}</p>`;
}

/** The requirements that no sheet computes yet, folded away: a reader should see first what is known. */
export function renderUnanswered(view: View): Html {
  const open = view.book.requirements.filter((requirement) => requirement.answers.length === 0);
  if (open.length === 0) return nothing;
  const count = open.length === 1 ? "1 requirement that no sheet computes yet" : `${open.length} requirements that no sheet computes yet`;
  return html`<details class="unanswered"><summary>${count}</summary>${verdictTable("Requirements not shown", open, view)}</details>`;
}

function verdictTable(name: string, requirements: readonly RequirementData[], view: View): Html {
  const rows = requirements.flatMap((requirement) => requirementRows(requirement, view));
  return html`<div class="scroll" tabindex="0" role="group" aria-label="${name}"><table class="stacking verdicts">
<caption class="unseen">${name}</caption>
<thead><tr><th scope="col">Requirement</th><th scope="col">Limit</th><th scope="col">Result</th><th scope="col">Margin</th><th scope="col">Verdict</th></tr></thead>
<tbody>${rows}</tbody></table></div>`;
}

function tally(view: View): string {
  const { requirements } = view.book;
  const words = requirements.map((requirement) => requirementVerdict(requirement, view));
  const count = (word: VerdictWord) => words.filter((own) => own === word).length;
  const holding = count("holds") + count("holds for 95 %");
  const unanswered = requirements.filter(({ answers }) => answers.length === 0).length;
  const outside = requirements.filter((requirement) =>
    answersOf(requirement, view).some(({ verdict: { value } }) => value?.outside !== undefined),
  ).length;
  const failed = count("not shown") - unanswered;
  const sentences = [
    `${holding} of ${words.length} requirements hold`,
    count("does not hold") > 0 ? `${count("does not hold")} ${count("does not hold") === 1 ? "does" : "do"} not` : "",
    count("not sure") > 0 ? `${count("not sure")} ${count("not sure") === 1 ? "is" : "are"} not sure` : "",
    count("too close to call") > 0
      ? `${count("too close to call")} ${count("too close to call") === 1 ? "is" : "are"} too close to call`
      : "",
    outside > 0 ? `${outside} ${outside === 1 ? "is" : "are"} judged outside the range of a law` : "",
    failed > 0 ? `${failed} ${notComputed} with these values` : "",
    unanswered > 0 ? `no sheet computes ${unanswered} of them yet` : "",
  ];
  return `${sentences.filter(Boolean).join("; ")}.`;
}

function requirementRows(requirement: RequirementData, view: View): Html[] {
  const unit = unitOf(requirement.unit);
  const head = (index: number) => html`<th scope="row"${index === 0 && html` id="${anchor("requirement", requirement.id)}"`}>
<span class="id">${requirement.id}</span> ${withBoundUnits(requirement.statement)}${requirement.where && html` <span class="where">${withBoundUnits(requirement.where)}</span>`}</th>
<td data-label="Limit">${limitText(requirement.limit, unit)} <span class="judged">${judgedText(requirement.judged)}</span></td>`;
  const answers = answersOf(requirement, view);
  if (answers.length === 0) {
    return [
      html`<tr>${head(0)}<td data-label="Result">nothing computes it</td><td data-label="Margin">–</td><td data-label="Verdict">${toldBadge("not shown", "")}</td></tr>`,
    ];
  }
  return answers.map(({ node, verdict: { value, why } }, index) =>
    value === undefined
      ? html`<tr>${head(index)}<td data-label="Result">${nodeLink(node, notComputed, view)} <span class="deciding">${why}</span></td>
<td data-label="Margin">–</td><td data-label="Verdict">${toldBadge("not shown", "")}</td></tr>`
      : html`<tr>${head(index)}
<td data-label="Result">${nodeLink(node, format({ si: view.evaluation.nominal(node), unit }, { prefix: false }), view)}
<span class="deciding">${decidingText(value, unit, view)}</span></td>
<td data-label="Margin">${marginText(value, unit)}</td><td data-label="Verdict">${toldBadge(value.verdict, decidedBy(value, requirement.limit, unit, view))}${besideVerdict(value, unit)}${outsideRange(value)}${renderDoubt(node, view)}</td></tr>`,
  );
}

/** Why a verdict is not sure, and what is not known. */
function besideVerdict(verdict: Verdict, unit: Unit<any>): Html {
  const text = verdict.doubt ?? doubtedText(verdict, unit);
  return text === undefined ? nothing : html` <span class="deciding">${text}</span>`;
}

/** One requirement in the flow of its sheet. */
export function renderRequirementLine(block: RequirementBlock, view: View): Html {
  const requirement = view.book.requirements.find(({ id }) => id === block.requirement);
  if (!requirement) return html`<p>The design file has no requirement <code>${block.requirement}</code>.</p>`;
  const unit = unitOf(requirement.unit);
  const { value: verdict, why } = computed(() => view.evaluation.verdict(block.node, requirement.limit, requirement.judged));
  const asked = html`<p><span class="kind">Requirement</span> <a href="#${anchor("requirement", requirement.id)}">${requirement.id}</a>: ${withBoundUnits(requirement.statement)}</p>
<p>${limitText(requirement.limit, unit)} ${judgedText(requirement.judged)};`;
  if (verdict === undefined) return html`${asked} ${notComputed}: ${why}. ${toldBadge("not shown", "")}</p>`;
  const probability = probabilityText(verdict, unit);
  return html`${asked} ${decidingText(verdict, unit, view)};
margin ${marginText(verdict, unit)}. ${toldBadge(verdict.verdict, decidedBy(verdict, requirement.limit, unit, view))}${outsideRange(verdict)}${probability && html` <span class="deciding">${probability}</span>`}${renderDoubt(block.node, view)}</p>`;
}
