/** The product in two drawings: its blocks with signal, power and return; and where the power goes, with the figures of the present state. */

import type { BlockRow } from "../../design/types";
import { unitOf } from "../../quantity/unit";
import { symbolSvg } from "../../sheet/symbol-html";
import { intervalText, nominalText } from "../../sheet/words";
import type { Corner } from "../drawing/boxes";
import { type FigureOf, nodeLink, nodeOf, type PowerPlace, type ProductDrawing, type View } from "../model/book-data";
import { computed, notComputed } from "../text/computed";
import { anchor, type Html, html, nothing } from "../text/html";
import { textOrNone } from "../text/show";

const words: Readonly<Record<FigureOf["kind"], string>> = {
  voltage: "gives",
  efficiency: "efficiency",
  loses: "loses",
  delivers: "gives in play",
  draws: "takes",
  shows: "",
};

/** Live: the block diagram, with the voltages of what gives power, and what the design file shows of other blocks. */
export function renderDiagram(view: View): Html {
  const { product } = view.book;
  if (product === undefined) return nothing;
  const { width, height, places, lines, joints } = product.diagram;
  const boxes = places.map(({ box: [x, y, w, h], lines: texts, figure, isReturn }) => {
    const row = (text: Html | string, at: number, name: string) =>
      html`<text class="${name}" x="${x + w / 2}" y="${y + 20 + at * 17}" text-anchor="middle">${text}</text>`;
    const names = texts.map((text, at) => row(text, at, "of"));
    const given = figure === undefined ? nothing : row(shortly(figure, view), texts.length, "spread");
    return html`<g class="${isReturn ? "block-return" : "block-box"}"><rect x="${x}" y="${y}" width="${w}" height="${h}" rx="${isReturn ? 12 : 2}"/>${names}${given}</g>`;
  });
  const dots = joints.map(([x, y]) => html`<circle class="joint" cx="${x}" cy="${y}" r="2.4"/>`);
  return html`<div class="scroll" tabindex="0" role="group" aria-label="Block diagram">
<svg viewBox="0 0 ${width} ${height}" width="${width}" height="${height}" role="group" aria-label="Block diagram; the table below says the same">
${lines.map(({ kind, corners }) => link(kind, corners))}${dots}${boxes}</svg></div>`;
}

/** The nominal value, linked to where it is shown; of what is no voltage, with its symbol. */
function shortly({ kind, node: id, short = "" }: FigureOf, view: View): Html | string {
  if (id === undefined) return short;
  const node = nodeOf(view, id);
  const symbol = kind === "shows" && node.symbol !== undefined && symbolSvg(node.symbol);
  return html`${symbol}${nodeLink(id, textOrNone({ node: id, show: "result", unit: node.unit }, view.evaluation), view)}`;
}

/** Live: the power tree. */
export function renderPower(view: View): Html {
  const { product } = view.book;
  if (product === undefined || product.power.places.length === 0) return nothing;
  const { width, height, places, lines } = product.power;
  return html`<figure class="product"><div class="scroll" tabindex="0" role="group" aria-label="Power tree">
<svg viewBox="0 0 ${width} ${height}" width="${width}" height="${height}" role="group" aria-label="Power tree: from what brings power to what takes it">
${lines.map((corners) => link("power", corners))}${places.map((place) => powerPlace(place, view))}</svg></div>
<figcaption>Where the power goes: what each block gives, how much it loses on the way, and what it takes in play.</figcaption></figure>`;
}

function powerPlace({ box: [x, y, w, h], lines, figures, note }: PowerPlace, view: View): Html {
  let row = 0;
  const line = (text: Html | string, name: string) => html`<text class="${name}" x="${x + 10}" y="${y + 20 + 17 * row++}">${text}</text>`;
  const heads = lines.map((text) => line(text, "block-name"));
  const values = figures.flatMap((figure) => figureTexts(figure, view).map((text, index) => line(text, index === 0 ? "figure" : "spread")));
  return html`<g class="block-box"><rect x="${x}" y="${y}" width="${w}" height="${h}" rx="2"/>${heads}${values}${note !== undefined && line(note, "spread")}</g>`;
}

/** The value, linked to where it is shown; for a result, and for a given with a range, what units may have on a line of its own. */
function figureTexts({ kind, node: id, text: stated }: FigureOf, view: View): Html[] {
  if (id === undefined && stated !== undefined) return [html`${words[kind]} ${stated}`];
  if (id === undefined) return [html`${kind === "delivers" ? "" : `${words[kind]}: `}not computed yet`];
  const node = nodeOf(view, id);
  const unit = unitOf(node.unit);
  const analysis = computed(() => view.evaluation.analysis(id)).value;
  const computedText = analysis === undefined ? notComputed : nominalText(analysis, unit);
  const value = node.kind === "given" && kind === "voltage" ? node.text : computedText;
  const interval = analysis === undefined ? "" : intervalText(analysis, unit);
  const first = html`${words[kind]} ${nodeLink(id, value, view)}`;
  return kind === "voltage" ? [first] : [first, html`${interval === "" ? "" : `95 %: ${interval}`}`];
}

function blockTable(blocks: readonly BlockRow[]): Html {
  const nameOf = (id: string) => blocks.find((block) => block.id === id)?.name ?? id;
  const names = (ids: readonly string[]) => (ids.length === 0 ? "–" : ids.map(nameOf).join(", "));
  const rows = blocks.map(
    ({ name, does, signal, power, return: back }) => html`<tr><th scope="row">${name}</th><td data-label="Does">${does}</td>
<td data-label="Signal from">${names(signal)}</td><td data-label="Power from">${names(power)}</td><td data-label="Return">${names(back)}</td></tr>`,
  );
  return html`<div class="scroll" tabindex="0" role="group" aria-label="Blocks"><table class="stacking"><caption class="unseen">Blocks of the product</caption>
<thead><tr><th scope="col">Block</th><th scope="col">Does</th><th scope="col">Signal from</th><th scope="col">Power from</th><th scope="col">Return</th></tr></thead><tbody>${rows}</tbody></table></div>`;
}

/** From corner to corner, with a head where something flows. */
function link(kind: "signal" | "power" | "return", corners: readonly Corner[]): Html {
  const path = html`<polyline class="link-${kind}" points="${corners.map(([x, y]) => `${x},${y}`).join(" ")}"/>`;
  const [end, before] = [corners.at(-1), corners.at(-2)];
  if (kind === "return" || end === undefined || before === undefined) return path;
  const angle = Math.round((Math.atan2(end[1] - before[1], end[0] - before[0]) * 180) / Math.PI);
  return html`${path}<path class="head-${kind}" d="M-8,-4L0,0L-8,4Z" transform="translate(${end[0]},${end[1]}) rotate(${angle})"/>`;
}

function legend(kind: "signal" | "power" | "return"): Html {
  return html`<svg class="key" width="34" height="8" aria-hidden="true"><line class="link-${kind}" x1="1" y1="4" x2="33" y2="4"/></svg>`;
}

/** The section of the document; nothing for a design without blocks. */
export function productSection(product: ProductDrawing | undefined, diagram: Html, power: Html): Html {
  if (product === undefined) return nothing;
  return html`<section class="the-product" id="${anchor("section", "product")}" aria-labelledby="product-title"><h2 id="product-title">The product</h2>
<figure class="product">${diagram}<figcaption>The blocks: ${legend("signal")} signal, ${legend("power")} power, ${legend("return")} return. A block's return leads to a rail at the right, which it joins at a dot; each rail runs down to its return in the last row. Other lines that cross are not joined.</figcaption>
<details><summary>The blocks as a table</summary>${blockTable(product.blocks)}</details></figure><details class="power-fold"><summary>Where the power goes</summary>${power}</details></section>`;
}
