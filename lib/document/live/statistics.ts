/** Statistics that a reader may ask of a result: made when they are unfolded, in the page alone, and the same lines as `workings why --coverage`. */
import type { Evaluation } from "../../analysis/evaluation";
import type { NodeId } from "../../graph/node";
import { type StatisticsAsked, statisticsLines } from "../../sheet/statistics-words";
import { computed, notComputed } from "../text/computed";
import { type Html, html } from "../text/html";

/** Shares that an interval can be asked to hold: one and three standard deviations of a normal spread among them. */
export const coverages: readonly number[] = [0.6827, 0.9, 0.95, 0.99];

/** What there is to choose; `others` are results by the name that sheets publish them under. */
export function statisticsFields(id: NodeId, { coverage, beside }: StatisticsAsked, others: ReadonlyMap<string, NodeId>): Html {
  const shares = coverages.map(
    (share) =>
      html`<option value="${String(share)}"${share === coverage && html` selected`}>${String(Math.round(share * 1e4) / 100)} %</option>`,
  );
  const named = [...others].filter(([, node]) => node !== id);
  const results = named.map(([name, node]) => html`<option value="${node}"${node === beside && html` selected`}>${name}</option>`);
  return html`<p><label>intervals that hold <select data-asked="coverage">${shares}</select></label> <label>correlation with <select data-asked="beside"><option value="">no other result</option>${results}</select></label></p>`;
}

/** Moments, intervals and draws of units and of what is not known, expanded uncertainty, correlation. */
export function renderStatistics(id: NodeId, evaluation: Evaluation, asked: StatisticsAsked): Html {
  const { value: lines, why } = computed(() => statisticsLines(id, evaluation, asked));
  if (lines === undefined) return html`<p>They ${notComputed} with these values: ${why}</p>`;
  return html`<ul>${lines.map((line) => html`<li>${line.trim()}</li>`)}</ul>`;
}
