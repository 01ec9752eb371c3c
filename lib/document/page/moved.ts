/** What moved since publication: changed givens, verdicts that flipped, choices in doubt, numbers before and after. */
import type { VerdictWord } from "../../analysis/result";
import type { Changes } from "../../graph/graph";
import type { GraphNode, NodeId } from "../../graph/node";
import { tableWords } from "../edit";
import { anchor, type Html, html } from "../html";
import { nameOf, nodeWords } from "../names";
import { badge } from "../verdict-text";
import type { LiveText } from "./live-elements";
import type { Summary } from "./messages";
import { changedPaths } from "./store";

export interface Movement {
  readonly node: GraphNode;
  readonly before: string;
  readonly after: string;
}

/** Results whose text differs from the published one; each node once, the text with honest digits first. */
export function movements(texts: readonly LiveText[], nodes: ReadonlyMap<NodeId, GraphNode>): Movement[] {
  const found = new Map<NodeId, Movement>();
  const ranked = (["result", "figure", "nominal", "number"] as const).flatMap((kind) =>
    texts.filter(({ shown: { show } }) => show === kind),
  );
  for (const { shown, before, text } of ranked) {
    const unit = (shown.show === "figure" || shown.show === "number") && shown.unit !== "1" ? `\u00a0${shown.unit}` : "";
    const node = nodes.get(shown.node);
    const computed = node && node.kind !== "given" && node.kind !== "table";
    if (computed && before !== text && !found.has(node.id)) found.set(node.id, { node, before: before + unit, after: text + unit });
  }
  return [...found.values()];
}

/** A requirement whose verdict is another than published. */
export interface Flip {
  readonly id: string;
  readonly before: VerdictWord;
  readonly after: VerdictWord;
}

export function flips(now: Summary["verdicts"], published: Summary["verdicts"]): Flip[] {
  return Object.entries(now).flatMap(([id, after]) => {
    const before = published[id] ?? "not shown";
    return before === after ? [] : [{ id, before, after }];
  });
}

/** `2 changes; 14 numbers moved; 1 verdict flipped`: for the bar and for the ear. */
export function headline(changes: Changes, moved: readonly Movement[], flipped: readonly unknown[], now: Summary): string {
  const flags = Object.keys(now.flags).length;
  return [
    count(changedPaths(changes).length, "change"),
    `${count(moved.length, "number")} moved`,
    `${count(flipped.length, "verdict")} flipped`,
    flags > 0 ? `${count(flags, "decision")} in doubt` : "",
    now.problems.length > 0 ? "some results cannot be computed" : "",
  ]
    .filter(Boolean)
    .join("; ");
}

function count(n: number, word: string): string {
  return `${n} ${word}${n === 1 ? "" : "s"}`;
}

export function renderMovements(
  changes: Changes,
  nodes: readonly GraphNode[],
  moved: readonly Movement[],
  flipped: readonly Flip[],
  now: Summary,
): Html {
  const changed = changedPaths(changes).map(({ kind, path }) => changedItem(kind, path, changes, nodes));
  const problems = now.problems.map((text) => html`<li>${text}</li>`);
  const flags = Object.values(now.flags)
    .flat()
    .map((text) => html`<li>${text}</li>`);
  return html`<ul class="changed">${changed}</ul>
${problems.length > 0 && html`<h3>Cannot be computed</h3><ul class="warnings">${problems}</ul>`}
${flipped.length > 0 && html`<h3>Verdicts</h3><ul>${flipped.map(({ id, before, after }) => html`<li><a href="#${anchor("requirement", id)}">${id}</a>: ${badge(before)} → ${badge(after)}</li>`)}</ul>`}
${flags.length > 0 && html`<h3>Decisions in doubt</h3><ul>${flags}</ul>`}
${
  moved.length > 0 &&
  html`<h3>Numbers</h3><table class="moves"><thead><tr><th scope="col">result</th><th scope="col">before</th><th scope="col">after</th></tr></thead><tbody>${moved.map(
    ({ node, before, after }) =>
      html`<tr><th scope="row">${linked(node)} <span class="symbol">${nameOf(node.id)}</span></th><td>${before}</td><td>${after}</td></tr>`,
  )}</tbody></table>`
}`;
}

/** The words for a result, linked where the page shows it. */
function linked(node: GraphNode): Html {
  const target = anchor("node", node.id);
  return document.getElementById(target) ? html`<a href="#${target}">${nodeWords(node)}</a>` : html`${nodeWords(node)}`;
}

function changedItem(kind: string, path: string, changes: Changes, nodes: readonly GraphNode[]): Html {
  const node = nodes.find((candidate) => "path" in candidate && candidate.path === path);
  const [before, after] =
    node?.kind === "given"
      ? [node.text, changes.givens?.[path]?.text ?? ""]
      : node?.kind === "choice"
        ? [node.chosen, changes.choices?.[path] ?? ""]
        : ["table", tableWords(changes.tables?.[path] ?? { x: [], y: [] })];
  return html`<li>${node ? nodeWords(node) : path}: ${before} → ${after} <button type="button" data-reset-kind="${kind}" data-reset="${path}" aria-label="Reset ${path}">reset</button></li>`;
}
