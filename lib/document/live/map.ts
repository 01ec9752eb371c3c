/** Live: the map of decisions, with what was chosen and which verdicts follow. Its places were laid out when the book was published. */
import type { DecisionBlock } from "../../sheet/block";
import { assessDecision } from "../../sheet/decision";
import type { MapLayout, MapPlace, View } from "../model/book-data";
import { anchor, type Html, html, nothing } from "../text/html";
import { verdictMark } from "../text/verdict-text";
import { requirementVerdict } from "./requirements";

export function renderMap(view: View): Html {
  const { map } = view.book;
  if (map.places.length === 0) return nothing;
  return html`<figure class="map"><div class="scroll" tabindex="0" role="group" aria-label="Map of decisions">
<svg viewBox="0 0 ${map.width} ${map.height}" width="${map.width}" height="${map.height}" role="group" aria-label="Map of decisions; the list below says the same">
${map.lines.map(({ corners }) => arrow(corners))}${map.places.map((place) => renderPlace(place, view))}</svg></div>
<figcaption>From top to bottom: what has to be chosen first, and what rests on it.</figcaption>
<details><summary>The map as a list</summary><ul>${map.places.map((place, index) => renderItem(place, index, map, view))}</ul></details></figure>`;
}

function renderPlace(place: MapPlace, view: View): Html {
  const [x, y, width, height] = place.box;
  const frame = (name: string) => html`<rect class="${name}" x="${x}" y="${y}" width="${width}" height="${height}" rx="3"/>`;
  const line = (row: number, text: string, name: string) =>
    html`<text class="${name}" x="${x + 10}" y="${y + 20 + row * 18}">${text}</text>`;
  if (place.decision !== undefined) {
    const { label, doubtful } = chosen(place.decision, view);
    return html`<a href="#${anchor("node", place.decision)}">${frame(doubtful ? "place doubtful" : "place")}${place.lines.map((text, row) => line(row, text, "asks"))}
${line(place.lines.length, label, "takes")}</a>`;
  }
  const rows = (place.requirements ?? []).map((id, row) => {
    const { mark, name } = verdictOf(id, view);
    return html`<a href="#${anchor("requirement", id)}">${line(row, `${mark} ${id}`, `verdict-${name}`)}</a>`;
  });
  return html`<g>${frame("place asked")}${rows}</g>`;
}

/** Straight from corner to corner, with a head that points down. */
function arrow(corners: MapLayout["lines"][number]["corners"]): Html {
  const [x, y] = corners.at(-1) ?? [0, 0];
  return html`<polyline class="rests" points="${corners.map(([a, b]) => `${a},${b}`).join(" ")}"/><path class="head" d="M${x - 3.5},${y - 7}L${x},${y}L${x + 3.5},${y - 7}Z"/>`;
}

function renderItem(place: MapPlace, index: number, map: MapLayout, view: View): Html {
  const before = map.lines.filter(({ to }) => to === index).flatMap(({ from }) => map.places[from]?.decision ?? []);
  const rests = before.length > 0 ? `; rests on: ${before.map((choice) => questionOf(choice, view)).join(" ")}` : "";
  if (place.decision !== undefined)
    return html`<li><a href="#${anchor("node", place.decision)}">${questionOf(place.decision, view)}</a> ${chosen(place.decision, view).label}${rests}</li>`;
  const words = (place.requirements ?? []).map((id) => `${id} ${verdictOf(id, view).word}`);
  return html`<li>${words.join(", ")}${rests}</li>`;
}

function chosen(choice: string, view: View): { readonly label: string; readonly doubtful: boolean } {
  const block = decisionOf(choice, view);
  if (!block) return { label: "", doubtful: false };
  const { rows, flags } = assessDecision(block, view.evaluation);
  return { label: rows.find((row) => row.chosen)?.label ?? "nothing", doubtful: flags.length > 0 };
}

function decisionOf(choice: string, { book }: View): DecisionBlock | undefined {
  return Object.values(book.blocks).find((block): block is DecisionBlock => block.type === "decision" && block.choice === choice);
}

function questionOf(choice: string, view: View): string {
  return decisionOf(choice, view)?.question ?? choice;
}

function verdictOf(id: string, view: View) {
  const requirement = view.book.requirements.find((row) => row.id === id);
  const word = requirement ? requirementVerdict(requirement, view) : "not shown";
  return { word, ...verdictMark(word) };
}
