/** Live: the budgets on the first screen: each item as a bar, the sum, and the limit of the sum. */

import type { GraphNode, NodeId } from "../../graph/node";
import { entryOf } from "../../quantity/entry-of";
import { unitOf } from "../../quantity/unit";
import type { CollectionBlock } from "../../sheet/block";
import { nodeLink, nodeOf, type RequirementData, type View } from "../model/book-data";
import { nodeWords, sentence } from "../model/names";
import { computed } from "../text/computed";
import { anchor, type Html, html, nothing } from "../text/html";
import { bar, live } from "../text/show";
import { badge, limitText } from "../text/verdict-text";
import { requirementVerdict } from "./requirements";

interface Item {
  readonly label: string;
  readonly node: NodeId;
}

export function renderBudgets(view: View): Html {
  const collections = Object.values(view.book.blocks).filter((block) => block.type === "collection");
  if (collections.length === 0) return nothing;
  return html`<section class="budgets" aria-labelledby="budgets-title"><h2 id="budgets-title">Budgets</h2>
<div class="side-by-side">${collections.map((block) => renderBudget(block, view))}</div></section>`;
}

function renderBudget(block: CollectionBlock, view: View): Html {
  const total = totalOf(block, view);
  const items: readonly Item[] = [...block.items, ...total.more];
  const { unit } = nodeOf(view, block.node);
  const values = items.map(({ node }) => computed(() => view.evaluation.nominal(node)).value ?? 0);
  const largest = Math.max(...values.map((value) => Math.abs(value)));
  // In a budget of zeros no item has a share.
  const shares = values.map((value) => (largest > 0 ? value / largest : 0));
  const figure = (node: NodeId) => live({ node, show: "result", unit }, view.evaluation);
  const rows = items.map(
    ({ label, node }, index) => html`<tr><th scope="row">${label}</th><td>${bar(shares[index] ?? 0, 90)}</td>
<td>${nodeLink(node, figure(node), view)}</td></tr>`,
  );
  const sum = html`<span class="line"><strong>${sentence(block.budget)}</strong> ${figure(total.node)}${total.requirement && html` of ${limitText(total.requirement.limit, unitOf(total.requirement.unit))} ${badge(requirementVerdict(total.requirement, view))}`}</span>`;
  return html`<details class="budget-fold"><summary>${sum}</summary><table class="budget-bars"><caption>${sentence(block.budget)}</caption><thead class="unseen"><tr><th scope="col">Item</th><th scope="col">Share</th><th scope="col">Value</th></tr></thead>
<tbody>${rows}</tbody><tfoot><tr><th scope="row" colspan="2">${nodeWords(nodeOf(view, total.node))}</th><td><strong>${nodeLink(total.node, figure(total.node), view)}</strong></td></tr>
${total.requirement && limitRow(total.requirement, view)}</tfoot></table></details>`;
}

function limitRow(requirement: RequirementData, view: View): Html {
  return html`<tr><th scope="row" colspan="2"><a href="#${anchor("requirement", requirement.id)}">limit</a> ${badge(requirementVerdict(requirement, view))}</th>
<td>${limitText(requirement.limit, unitOf(requirement.unit))}</td></tr>`;
}

interface Total {
  readonly node: NodeId;
  /** What is added to the roll-up on the way to the total. */
  readonly more: readonly Item[];
  readonly requirement?: RequirementData;
}

/** The requirement's result where it is the roll-up, or the roll-up and a few things more; else the roll-up itself. */
function totalOf({ node }: CollectionBlock, view: View): Total {
  for (const requirement of view.book.requirements) {
    for (const answer of requirement.answers) {
      if (answer.node === node) return { node, more: [], requirement };
      const found = chosenCase(nodeOf(view, answer.node), view);
      if (found.kind !== "formula" || !Object.values(found.arguments).includes(node) || !isSum(found)) continue;
      const others = Object.values(found.arguments).filter((id) => id !== node);
      return { node: answer.node, more: others.map((id) => ({ label: nodeWords(nodeOf(view, id)), node: id })), requirement };
    }
  }
  return { node, more: [] };
}

function chosenCase(node: GraphNode, view: View): GraphNode {
  if (node.kind !== "switch") return node;
  const choice = nodeOf(view, node.choice);
  const id = choice.kind === "choice" ? entryOf(node.cases, choice.chosen) : undefined;
  return id === undefined ? node : chosenCase(nodeOf(view, id), view);
}

function isSum({ text }: { readonly text: string }): boolean {
  return /^[\w\s]+(\+[\w\s]+)+$/.test(text);
}
