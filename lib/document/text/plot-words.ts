/** A plot in words: where each curve begins, ends and turns, what each bar spans, where the limits lie. */
import { formatInterval } from "../../quantity/format";
import { numberToTwelve, significantText } from "../../quantity/number-text";
import { unitOf } from "../../quantity/unit";
import type { Axis, PlotBlock } from "../../sheet/block";
import type { LineRow, PlotData } from "../../sheet/plot/data";
import { type Html, html } from "./html";

/** A folded list with the main facts of a plot, for readers who do not see it and for those who want its numbers. */
export function plotWords(block: PlotBlock, data: PlotData): Html {
  const items = [
    ...block.series
      .map(({ label }) =>
        curveWords(
          label,
          data.lines.filter(({ series }) => series === label),
          block,
        ),
      )
      .filter(Boolean),
    ...data.points.map(({ label, x, y }) => `${label}: ${amount(y, block.y)} at ${amount(x, block.x)}`),
    ...data.spreads.map(
      ({ label, nominal, low, high, worstLow, worstHigh, doubtLow, doubtHigh }) =>
        `${label}: ${amount(nominal, block.x)}; ${unitsWords(low, high, block.x)}${doubtWords(doubtLow, doubtHigh, block.x)}; worst case ${between(worstLow, worstHigh, block.x)}`,
    ),
    ...data.windows.map(({ label }) => `shaded, where the limits are met: ${label}`),
    ...data.rules.map(({ label, value, axis }) => `${label}: ${amount(value, block[axis])}`),
  ];
  return html`<details class="in-words"><summary>In words</summary><p>${axisWords(block)}</p><ul>${items.map((item) => html`<li>${item}</li>`)}</ul></details>`;
}

function axisWords({ x, y, spreads }: PlotBlock): string {
  return spreads === undefined ? `${y.label} against ${x.label}.` : `${x.label}.`;
}

function curveWords(label: string, rows: readonly LineRow[], { x, y }: PlotBlock): string {
  const [first] = rows;
  const last = rows.at(-1);
  if (!first || !last) return "";
  const at = (row: LineRow) => `${amount(row.y, y)} at ${amount(row.x, x)}`;
  const turns = [
    { word: "highest", row: extreme(rows, (a, b) => a > b) },
    { word: "lowest", row: extreme(rows, (a, b) => a < b) },
  ].filter(({ row }) => row.y !== first.y && row.y !== last.y);
  const band = (row: LineRow) =>
    row.low === undefined || row.high === undefined
      ? ""
      : ` (${unitsWords(row.low, row.high, y)}${doubtWords(row.doubtLow, row.doubtHigh, y)})`;
  return [
    `${label}: from ${at(first)}${band(first)} to ${at(last)}${band(last)}`,
    ...turns.map(({ word, row }) => `${word} ${at(row)}${band(row)}`),
  ].join("; ");
}

function unitsWords(low: number, high: number, axis: Axis): string {
  return low === high ? "units do not differ" : `95 % of units ${between(low, high, axis)}`;
}

function doubtWords(low: number | undefined, high: number | undefined, axis: Axis): string {
  return low === undefined || high === undefined ? "" : `, doubt ${between(low, high, axis)}`;
}

function extreme(rows: readonly LineRow[], beyond: (a: number, b: number) => boolean): LineRow {
  return rows.reduce((best, row) => (beyond(row.y, best.y) ? row : best));
}

function amount(value: number, { unit }: Axis): string {
  const number = significantText(numberToTwelve(value), 3);
  return unit === "1" || unit === "" ? number : `${number}\u00a0${unit}`;
}

/** Both ends, rounded outward. */
function between(low: number, high: number, axis: Axis): string {
  const unit = unitOf(axis.unit);
  return low === high ? amount(low, axis) : formatInterval(unit.toSI(low), unit.toSI(high), unit);
}
