/** Live: the share of units that meet all requirements together; each verdict judges one requirement alone. */

import type { RequirementData, View } from "../model/book-data";
import { computed, notComputed } from "../text/computed";
import { anchor, type Html, html, nothing } from "../text/html";
import { grouped, percent } from "../text/show";

/** One sentence over all answered requirements that depend on tolerances; nothing where there are fewer than two. */
export function renderYield(view: View): Html {
  const asked = view.book.requirements
    .filter(({ judged }) => judged !== "typical")
    .flatMap((requirement) => requirement.answers.map(({ node }) => ({ requirement, node, limit: requirement.limit })))
    .filter(({ node }) => computed(() => view.evaluation.analysis(node).interval).value !== null);
  if (asked.length < 2) return nothing;
  const failed = asked.filter(({ node }) => computed(() => view.evaluation.analysis(node)).value === undefined);
  if (failed.length > 0) {
    const links = [...new Set(failed.map(({ requirement }) => requirement.id))].map(
      (id, index) => html`${index > 0 && ", "}<a href="#${anchor("requirement", id)}">${id}</a>`,
    );
    return html`<p class="yield">Yield by design: ${notComputed} with these values, since it needs ${links}</p>`;
  }
  const found = view.evaluation.yieldOf(asked);
  const weakest = asked
    .map(({ requirement }, index) => ({ requirement, share: found.each[index] as number }))
    .filter(({ share }) => share < 0.9995)
    .toSorted((a, b) => a.share - b.share)
    .slice(0, 3);
  const isDoubted = asked.some(({ node }) => view.evaluation.analysis(node).doubt !== undefined);
  const sampling = `${grouped(found.samples)} units drawn; the share lies between ${percent(found.lower)} and ${percent(found.upper)}`;
  return html`<p class="yield">Yield by design: <strong>${percent(found.estimate)}</strong> of units drawn from the stated spreads of production${isDoubted && ", what is not known being at its best estimate,"} meet ${requirements(asked)}
<span class="deciding">${sampling}${weakest.length > 0 && html`; fewest meet ${shares(weakest)}`}</span></p>`;
}

function requirements(asked: readonly { readonly requirement: RequirementData }[]): string {
  return `all ${new Set(asked.map(({ requirement }) => requirement.id)).size} requirements that depend on tolerances`;
}

function shares(weakest: readonly { readonly requirement: RequirementData; readonly share: number }[]): Html[] {
  return weakest.map(
    ({ requirement, share }, index) =>
      html`${index > 0 && ", "}<a href="#${anchor("requirement", requirement.id)}">${requirement.id}</a> (${percent(share)})`,
  );
}
