/** A decision: the question, the alternatives against the criteria, the choice, its reason, what would change it. */
import type { DecisionBlock } from "../../sheet/block";
import { nodeAnchor, nodeOf, type View } from "../model/book-data";
import { part } from "../model/parts";
import { anchor, type Html, html } from "../text/html";
import { type LinkResolver, markdown } from "../text/markdown";

export function renderDecision(block: DecisionBlock, ref: string, view: View, link: LinkResolver): Html {
  const choice = nodeOf(view, block.choice);
  const path = choice.kind === "choice" ? choice.path : choice.id;
  const chosen = choice.kind === "choice" ? choice.chosen : "";
  return html`<div role="group" class="block decision"${nodeAnchor(block.choice, ref, view)} aria-label="Decision: ${block.question}">
<p class="kind">Decision</p><p class="lead">${block.question}</p>
${part("decision", ref, view)}
<fieldset class="choice" data-choice="${path}"><legend>Chosen</legend>${block.alternatives.map(
    ({ name, label }) =>
      html`<label><input type="radio" name="${anchor(ref.replace("/", "-"), path)}" value="${name}" autocomplete="off" disabled${name === chosen && html` checked`}> ${label}</label>`,
  )}</fieldset>
<div class="reasons"><div class="reason"><p class="kind">Why</p>${markdown(block.reason, link)}</div>
<div class="reason"><p class="kind">What would change our mind</p>${markdown(block.reconsider, link)}</div></div>
${part("workings", ref, view)}</div>`;
}
