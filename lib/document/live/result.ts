/** Live parts of a result: its warnings, its expanded uncertainty, and whether a reading lies within it. */

import { meets } from "../../analysis/reading";
import { isOfShares } from "../../analysis/warnings";
import type { NodeId } from "../../graph/node";
import { unitOf } from "../../quantity/unit";
import { nodeOf, type View } from "../model/book-data";
import { computed, notComputed } from "../text/computed";
import { type Html, html, nothing } from "../text/html";
import { numberText } from "../text/show";

/** Why a result cannot be computed, that it is frozen, and every warning of the analysis. */
export function renderWarnings(id: NodeId, view: View): Html {
  const words = warningsOf(id, view).filter((text) => !isWithShares(text, id, view));
  return words.length === 0 ? nothing : html`<ul class="warnings">${words.map((text) => html`<li>${text}</li>`)}</ul>`;
}

/** What is about the shares alone stands with them; a preferred value shows none. */
export function isWithShares(text: string, id: NodeId, view: View): boolean {
  return isOfShares(text) && nodeOf(view, id).kind !== "select";
}

export function warningsOf(id: NodeId, view: View): readonly string[] {
  const { value, why } = computed(() => view.evaluation.analysis(id));
  if (value === undefined) return [`It ${notComputed} with these values: ${why}`];
  if (!value.frozen) return value.warnings;
  return ["Frozen: made from a plain number that was read out of a result, so it follows no change and no tolerance.", ...value.warnings];
}

/** U = k·u at 95 %, where a given states its degrees of freedom. JCGM 100:2008 G.6.4. */
export function renderExpanded(id: string, view: View): Html {
  const expanded = computed(() => view.evaluation.analysis(id)).value?.expanded;
  if (!expanded) return nothing;
  const node = nodeOf(view, id);
  const unit = unitOf(node.unit);
  const width = unit.log ? undefined : Math.abs(unit.fromSI(expanded.uncertainty) - unit.fromSI(0));
  const amount =
    width === undefined ? "" : `${numberText(width, 2)}${unit.symbol === "1" ? "" : `\u00a0${unit.affine ? "K" : unit.symbol}`}, `;
  const freedom = expanded.freedom === null ? "" : `, ν_eff\u00a0=\u00a0${numberText(Math.floor(expanded.freedom), 3)}`;
  return html`${amount}k\u00a0=\u00a0${numberText(expanded.coverage, 3)}${freedom}`;
}

/** Whether a reading lies within the 95 % interval; `ref` is the node and the value read, SI, on two lines. */
export function renderReadingFinding(ref: string, view: View): Html {
  const [id = "", text = ""] = ref.split("\n");
  const inside = computed(() => meets(Number(text), id, view.evaluation)).value;
  const evidence = evidenceWord(id, Number(text), view);
  if (inside === undefined) return html`<span class="badge badge-open"><span aria-hidden="true">?</span> ${notComputed}</span>`;
  return html`<span class="badge badge-${inside ? "holds" : "fails"}"><span aria-hidden="true">${inside ? "✓" : "✕"}</span> ${inside ? "inside" : "outside"}</span>${evidence}`;
}

/** Whether the reading counts in what is not known. */
function evidenceWord(of: NodeId, nominal: number, { book, evaluation }: View): Html {
  const node = book.nodes.find((one) => one.kind === "reading" && one.of === of && one.nominal === nominal);
  const learned = node && computed(() => evaluation.learned(node.id)).value;
  if (learned === undefined) return nothing;
  return html` ${learned.isUsed ? "evidence: it narrows what is not known" : `evidence, but not used: ${learned.refused}`}`;
}
