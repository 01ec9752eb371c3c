/** Where the spread of a result comes from: made when a reader unfolds it, in the page alone. */
import { contributionGroups } from "../../analysis/contributions";
import type { Contribution } from "../../analysis/result";
import type { NodeId } from "../../graph/node";
import { nodeLink, nodeOf, type View } from "../model/book-data";
import { nodeWords, symbolHtml } from "../model/names";
import { computed } from "../text/computed";
import { type Html, html } from "../text/html";
import { bar, percent } from "../text/show";
import { isWithShares, warningsOf } from "./result";

/** Shares below this one are told together. */
const leastShown = 0.01;

/** Whether any given has a share that is shown. */
export function hasShares(contributions: readonly Contribution[]): boolean {
  return contributions.some(({ share }) => share >= leastShown);
}

/** Which givens the spread comes from, largest share first; where something is not known, of production and of knowledge apart. */
export function renderContributions(id: NodeId, view: View): Html {
  const all = computed(() => view.evaluation.analysis(id)).value?.contributions ?? [];
  const cautions = warningsOf(id, view).filter((text) => isWithShares(text, id, view));
  const told = cautions.map((text) => html`<p class="remark">${text}</p>`);
  if (!hasShares(all)) return html`${told}<p>No given with a spread reaches it.</p>`;
  const groups = contributionGroups(all);
  const bodies =
    groups.length === 1 && groups[0]?.kind === "production"
      ? contributionRows(all, view)
      : groups.map(({ kind, size, contributions }) => {
          const rows = contributionRows(contributions, view);
          const head = html`<tr class="group"><th scope="rowgroup">${kindWords[kind]}</th><td>${percent(size)} of all</td><td></td></tr>`;
          return html`${head}${rows}`;
        });
  return html`${told}
<table><thead><tr><th scope="col">given</th><th scope="col">share of the variance</th><th scope="col"><span class="unseen">as a bar</span></th></tr></thead><tbody>${bodies}</tbody></table>`;
}

const kindWords = { production: "how units differ (production)", knowledge: "what is not known (doubt)" } as const;

function contributionRows(contributions: readonly Contribution[], view: View): Html {
  const shares = contributions.filter(({ share }) => share >= leastShown).toSorted(largestFirst);
  const small = contributions.filter(({ share }) => share >= 0.0005 && share < leastShown);
  const rest = small.reduce((sum, { share }) => sum + share, 0);
  const others =
    small.length > 0 &&
    html`<tr><th scope="row">${small.length} more, each below ${percent(leastShown)}</th><td>${percent(rest)}</td><td></td></tr>`;
  const rows = shares.map(({ given, share }) => {
    const node = nodeOf(view, given);
    return html`<tr><th scope="row">${nodeLink(given, html`${node.symbol && html`${symbolHtml(node.symbol)} `}${nodeWords(node)}`, view)}</th>
<td>${percent(share)}</td><td>${bar(share, 120)}</td></tr>`;
  });
  return html`${rows}${others}`;
}

function largestFirst(a: Contribution, b: Contribution): number {
  return b.share - a.share || (a.given < b.given ? -1 : 1);
}
