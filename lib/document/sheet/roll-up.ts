/** Roll-ups and assumptions in the flow of a sheet, and the list of assumptions at the back of the book. */
import type { NodeId } from "../../graph/node";
import type { AssumptionBlock, CollectionBlock, ConfirmationBlock, ContributionBlock } from "../../sheet/block";
import { nodeAnchor, nodeLink, nodeOf, type View } from "../model/book-data";
import { nodeWords, symbolHtml } from "../model/names";
import { sheetId } from "../model/page-ids";
import { part } from "../model/parts";
import { type Html, html, nothing } from "../text/html";
import { live } from "../text/show";

const figure = (node: NodeId, show: "result" | "worst" | "interval", view: View): Html =>
  live({ node, show, unit: nodeOf(view, node).unit }, view.evaluation);

/** What this sheet adds to a roll-up. */
export function renderContribution(block: ContributionBlock, view: View): Html {
  const items = block.items.map(({ label, node }) => html`<li>${label}: ${nodeLink(node, figure(node, "result", view), view)}</li>`);
  return html`<div class="block contribution"><p class="kind">Adds to the ${block.budget} of the product</p><ul>${items}</ul></div>`;
}

/** A roll-up with its items and the sum. */
export function renderCollection(block: CollectionBlock, ref: string, view: View): Html {
  const rows = block.items.map(
    ({ label, sheet, node }) => html`<tr><th scope="row">${label}</th><td data-label="From"><a href="#${sheetId(sheet)}">${sheet}</a></td>
<td data-label="Value">${nodeLink(node, figure(node, "result", view), view)}</td><td data-label="95 % of units">${figure(node, "interval", view)}</td></tr>`,
  );
  const sum = nodeOf(view, block.node);
  return html`<div role="group" class="block budget"${nodeAnchor(block.node, ref, view)} aria-label="${block.budget} budget"><div class="scroll" tabindex="0" role="group" aria-label="Items of the ${block.budget} budget">
<table class="stacking"><caption>Budget: ${block.budget}</caption><thead><tr><th scope="col">Item</th><th scope="col">From</th><th scope="col">Value</th><th scope="col">95 % of units</th></tr></thead>
<tbody>${rows}</tbody><tfoot><tr><th scope="row">${nodeWords(sum)} ${symbolHtml(sum.symbol ?? "")}</th><td></td><td data-label="Value"><strong>${figure(block.node, "result", view)}</strong></td>
<td data-label="95 % of units">${figure(block.node, "interval", view)}; worst case ${figure(block.node, "worst", view)}</td></tr></tfoot></table></div></div>`;
}

export function renderAssumption(block: AssumptionBlock, view: View): Html {
  const node = nodeOf(view, block.node);
  return html`<p class="block assumption"><span class="kind">Assumption</span> ${nodeWords(node)}:
${nodeLink(block.node, figure(block.node, "result", view), view)}, ${figure(block.node, "worst", view)}. <a href="#assumptions">A later sheet computes it.</a></p>`;
}

export function renderConfirmation(block: ConfirmationBlock, ref: string, view: View): Html {
  const sheet = block.of.slice(0, block.of.indexOf("."));
  return html`<div class="block confirmation"><p><span class="kind">Assumption</span> of <a href="#${sheetId(sheet)}">${sheet}</a>: ${nodeWords(nodeOf(view, block.assumed))}:
${figure(block.assumed, "worst", view)} assumed; computed ${nodeLink(block.node, figure(block.node, "result", view), view)}, 95 % of units ${figure(block.node, "interval", view)}.</p>
${part("confirmation", ref, view)}</div>`;
}

/** The parts that sheets have chosen by preferred value. */
export function renderParts(view: View): Html {
  const chosen =
    Object.values(view.book.blocks).some((block) => block.type === "publish") && view.book.nodes.some(({ kind }) => kind === "select");
  if (!chosen) return nothing;
  return html`<section class="page back" id="parts" hidden="until-found" aria-labelledby="parts-title"><h2 id="parts-title">Parts chosen by preferred value</h2>${part("parts", "book", view)}</section>`;
}

/** Every assumption of the book, and the sheet that confirms it or none. */
export function renderAssumptions(view: View): Html {
  const blocks = Object.entries(view.book.blocks);
  const assumptions = blocks.flatMap(([ref, block]) =>
    block.type === "assumption" ? [{ of: `${sheetOf(ref)}.${block.name}`, block }] : [],
  );
  if (assumptions.length === 0) return nothing;
  const items = assumptions.map(({ of, block }) => {
    const answers = blocks.flatMap(([ref, other]) => (other.type === "confirmation" && other.of === of ? [{ ref, other }] : []));
    const words = answers.map(
      ({ ref, other }) => html`The <a href="#${sheetId(sheetOf(ref))}">${sheetOf(ref)}</a> sheet computes
${nodeLink(other.node, figure(other.node, "result", view), view)}, 95 % of units ${figure(other.node, "interval", view)}: ${part("confirmation", ref, view)}`,
    );
    return html`<li>${nodeWords(nodeOf(view, block.node))} (<a href="#${sheetId(sheetOf(of))}">${sheetOf(of)}</a>):
assumed ${figure(block.node, "worst", view)}. ${words.length > 0 ? words : html`<span class="badge badge-open">? no sheet computes it yet</span>`}</li>`;
  });
  return html`<section class="page back" id="assumptions" hidden="until-found" aria-labelledby="assumptions-title"><h2 id="assumptions-title">Assumptions</h2><ul>${items}</ul></section>`;
}

/** References begin with the sheet's name, as ids do. */
function sheetOf(reference: string): string {
  return reference.split(/[/.]/)[0] ?? "";
}
