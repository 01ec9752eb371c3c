/**
 * A plot block as a Vega-Lite specification. Colours are CSS variables with fallbacks, so that the page may turn
 * them for a dark screen while a plain notebook front end still draws them; every series also has its own dash,
 * so that a grey print can be read.
 */

import type { TopLevelSpec } from "vega-lite";
import { entryOf } from "../../quantity/entry-of";
import type { Axis, PlotBlock, SeriesColour } from "../block";
import { isDoubted, namesAtEnds, type PlotData, pictureRows } from "./data";
import { plotHeight, spreadHeight } from "./end-labels";
import { innerWidth, linesOf, nameLength, type Room, textWidth } from "./room";

const palette: readonly (readonly [SeriesColour, string])[] = [
  ["blue", "#1d6fb8"],
  ["red", "#c0392b"],
  ["green", "#2b8a57"],
  ["violet", "#8a4fb0"],
  ["amber", "#b07a10"],
  ["grey", "#5a6570"],
];
const paint = (colour: SeriesColour) => `var(--series-${colour}, ${palette.find(([name]) => name === colour)?.[1]})`;

/** A colour for each label: the one asked for, else the next that nobody asked for. */
function colourRange(labels: readonly string[], asked: Readonly<Record<string, SeriesColour>> = {}): string[] {
  const free = palette.map(([name]) => name).filter((name) => !labels.some((label) => entryOf(asked, label) === name));
  let next = 0;
  return labels.map((label) => paint(entryOf(asked, label) ?? free[next++ % Math.max(1, free.length)] ?? "grey"));
}
const dashes = [
  [1, 0],
  [7, 3],
  [2, 2],
  [9, 3, 2, 3],
  [4, 4],
  [1, 3],
];
const ink = "var(--ink, #222)";
const faint = "var(--rule, #d5d5d5)";
/** Wide enough for the marks of any plot, as a system font stack: nothing is fetched. */
const font = "system-ui, 'Helvetica Neue', 'DejaVu Sans', sans-serif";

type Layer = Record<string, unknown>;

/** Vega-Lite 6 specification with its data inline, in the units of the axes. */
export function vegaLite(block: PlotBlock, data: PlotData, room: Room = "wide"): TopLevelSpec {
  const named = namesAtEnds(block, data.lines, data.ends, room);
  const width = innerWidth(block, named, room);
  const frame = { width, height: block.spreads === undefined ? plotHeight : spreadHeight(block.spreads.length), room };
  const layer = block.spreads === undefined ? curveLayers(block, data, frame, named.length > 0) : spreadLayers(block, data, frame);
  const spec: Layer = {
    $schema: "https://vega.github.io/schema/vega-lite/v6.json",
    description: block.caption,
    width,
    height: frame.height,
    padding: 6,
    datasets: pictureRows(data),
    layer,
    config: {
      font,
      background: null,
      view: { stroke: null },
      axis: {
        labelFontSize: 12,
        titleFontSize: 12,
        titleFontWeight: "normal",
        labelColor: ink,
        titleColor: ink,
        gridColor: faint,
        domainColor: ink,
        tickColor: ink,
        titlePadding: 8,
        labelFlush: false,
        tickCount: room === "wide" ? 7 : 4,
      },
      legend: {
        labelFontSize: 12,
        labelColor: ink,
        titleColor: ink,
        orient: "top",
        title: null,
        symbolType: "stroke",
        symbolOpacity: 1,
        symbolSize: 300,
        symbolStrokeWidth: 2,
        labelLimit: 300,
        columns: Math.max(1, Math.min(3, Math.floor(width / (Math.max(0, ...block.series.map(({ label }) => textWidth(label))) + 44)))),
      },
      text: { fontSize: 12, fill: ink },
    },
  };
  return spec as unknown as TopLevelSpec;
}

/** Of what an axis and its names are laid out in. */
interface Frame {
  readonly width: number;
  readonly height: number;
  readonly room: Room;
}

function curveLayers(block: PlotBlock, data: PlotData, frame: Frame, direct: boolean): Layer[] {
  const labels = block.series.map((series) => series.label);
  const domain = { domain: labels };
  const legend = labels.length > 1 && !direct ? {} : { legend: null };
  const colour = { field: "series", type: "nominal", scale: { ...domain, range: colourRange(labels, block.colours) }, ...legend };
  const dash = { field: "series", type: "nominal", scale: { ...domain, range: dashes }, ...legend };
  const x = { field: "x", type: "quantitative", ...axisChannel(block.x, frame.width) };
  const y = { field: "y", type: "quantitative", ...axisChannel(block.y, frame.height) };
  const area = (low: string, high: string, opacity: number): Layer => ({
    data: { name: "lines" },
    transform: [{ filter: `isValid(datum.${low})` }],
    mark: { type: "area", opacity, clip: true },
    encoding: { x, y: { ...y, field: low }, y2: { field: high }, color: colour },
  });
  const layers: Layer[] = [];
  if (block.series.some(({ within }) => within !== undefined)) layers.push(...windowLayers(block, frame));
  if (block.series.some((series) => series.band === true)) layers.push(...bands(block, area));
  if (isDoubted(data)) layers.push(...["doubtLow", "doubtHigh"].map((end) => sideLine(end, [1, 3], x, y, colour)));
  const edges = (["edgeLow", "edgeHigh"] as const).filter((end) => data.lines.some((row) => row[end] !== undefined));
  layers.push(...edges.map((end) => sideLine(end, [5, 2], x, y, colour)));
  layers.push({
    data: { name: "lines" },
    mark: { type: "line", strokeWidth: 2, clip: true },
    encoding: { x, y, order: { field: "order", type: "quantitative" }, color: colour, strokeDash: dash },
  });
  if (data.rules.length > 0) layers.push(...ruleLayers(block));
  if (data.points.length > 0) layers.push(...pointLayers(x, y, colour));
  if (direct) {
    layers.push({
      data: { name: "ends" },
      mark: { type: "text", align: "left", dx: 6, baseline: "middle" },
      encoding: { x, y: { ...y, field: "labelY" }, text: { field: "series" }, color: colour },
    });
  }
  return layers;
}

/** A thin line beside a curve. */
function sideLine(end: string, strokeDash: readonly number[], x: Layer, y: Layer, colour: Layer): Layer {
  return {
    data: { name: "lines" },
    transform: [{ filter: `isValid(datum.${end})` }],
    mark: { type: "line", strokeWidth: 1.2, strokeDash, clip: true },
    encoding: { x, y: { ...y, field: end }, order: { field: "order", type: "quantitative" }, color: colour },
  };
}

/** Worst case behind the 95 % interval; of several series only the interval, thinly, since bands that cross turn to mud. */
function bands(block: PlotBlock, area: (low: string, high: string, opacity: number) => Layer): Layer[] {
  const several = block.series.filter((series) => series.band === true).length > 1;
  return several ? [area("low", "high", 0.14)] : [area("worstLow", "worstHigh", 0.12), area("low", "high", 0.28)];
}

/** Of a point's name: to the left of a point that has no room for it on its right. */
const onSide = (left: string, right: string) => ({
  expr: `scale('x', datum.x) + 9 + ${textWidth("x")}*length(datum.label) > width ? ${left} : ${right}`,
});

function pointLayers(x: Layer, y: Layer, colour: Layer): Layer[] {
  return [
    {
      data: { name: "points" },
      mark: { type: "point", filled: true, size: 60, opacity: 1, clip: true },
      encoding: { x, y, color: colour },
    },
    {
      data: { name: "points" },
      mark: { type: "text", align: onSide("'right'", "'left'"), dx: onSide("-9", "9"), dy: -9, clip: true },
      encoding: { x, y, text: { field: "label" } },
    },
  ];
}

function ruleLayers(block: PlotBlock): Layer[] {
  return (["x", "y"] as const)
    .filter((axis) => block.rules?.some((rule) => rule.axis === axis))
    .flatMap((axis) => {
      const position = { [axis]: { field: "value", type: "quantitative" } };
      const only = [{ filter: `datum.axis === '${axis}'` }];
      const place = (key: string) => ({ expr: `datum.${key}` });
      const along = { expr: "datum.along < 0 ? width + datum.along : datum.along" };
      const label = { ...position, [axis === "y" ? "x" : "y"]: { value: along } };
      return [
        { data: { name: "rules" }, transform: only, mark: { type: "rule", strokeDash: [6, 3], stroke: ink }, encoding: position },
        {
          data: { name: "rules" },
          transform: only,
          mark: { type: "text", align: place("align"), baseline: place("baseline"), dx: place("dx"), dy: place("dy") },
          encoding: { ...label, text: { field: "label" } },
        },
      ];
    });
}

/** What is shaded: where every curve keeps its limit. */
function windowLayers({ x }: PlotBlock, { width }: Frame): Layer[] {
  const from = { field: "from", type: "quantitative", ...axisChannel(x, width) };
  return [
    {
      data: { name: "windows" },
      mark: { type: "rect", color: "var(--good, #1d6b3f)", opacity: 0.16, clip: true },
      encoding: { x: from, x2: { field: "to" } },
    },
    {
      data: { name: "windows" },
      mark: { type: "text", baseline: "top" },
      encoding: { x: { ...from, field: "middle" }, y: { value: 4 }, text: { field: "label" } },
    },
  ];
}

/** Thin bar: worst case; thick bar: 95 % interval; dotted frame: doubt; tick: nominal. */
function spreadLayers(block: PlotBlock, plotted: PlotData, { width, room }: Frame): Layer[] {
  const data = { name: "spreads" };
  const y = {
    field: "label",
    type: "nominal",
    sort: null,
    title: null,
    axis: { labelLimit: 320, labelExpr: inLines(nameLength[room]), grid: false, ticks: false, domain: false },
  };
  const labels = (block.spreads ?? []).map(({ label }) => label);
  const named = labels.some((label) => entryOf(block.colours, label) !== undefined);
  const range = colourRange(labels, block.colours);
  const color = { field: "label", type: "nominal", scale: { domain: labels, range }, legend: null };
  const x = (field: string): Layer => ({ field, type: "quantitative", ...axisChannel(block.x, width) });
  const bar = (low: string, high: string, size: number, opacity: number): Layer => ({
    data,
    mark: { type: "bar", size, opacity, ...(named ? {} : { color: paint("blue") }) },
    encoding: { y, x: x(low), x2: { field: high }, ...(named && { color }) },
  });
  const layers = [
    bar("worstLow", "worstHigh", 4, 0.45),
    bar("low", "high", 14, 0.45),
    ...(isDoubted(plotted) ? [doubtFrame(data, y, x)] : []),
    { data, mark: { type: "tick", thickness: 3, size: 22, color: ink, opacity: 1 }, encoding: { y, x: x("nominal") } },
  ];
  return (block.rules?.length ?? 0) > 0 ? [...layers, ...ruleLayers(block)] : layers;
}

function doubtFrame(data: Layer, y: Layer, x: (field: string) => Layer): Layer {
  return {
    data,
    transform: [{ filter: "isValid(datum.doubtLow)" }],
    mark: { type: "bar", size: 20, filled: false, fillOpacity: 0, stroke: ink, strokeWidth: 1.5, strokeDash: [1, 3] },
    encoding: { y, x: x("doubtLow"), x2: { field: "doubtHigh" } },
  };
}

/** Vega's expression for a name in lines, as `linesOf` sets them. */
const inLines = (length: number) => `slice(split(replace(datum.label, regexp('(.{1,${length}})( +|$)', 'g'), '$1\\n'), '\\n'), 0, -1)`;

function axisChannel(axis: Axis, length: number): Layer {
  const unit = axis.unit === "1" || axis.unit === "" ? "" : ` in ${axis.unit}`;
  const limits: Layer = {};
  if (axis.low !== undefined) limits["domainMin"] = axis.low;
  if (axis.high !== undefined) limits["domainMax"] = axis.high;
  return {
    title: linesOf(`${axis.label}${unit}`, Math.floor(length / textWidth("x"))),
    scale: { type: axis.scale, zero: false, nice: axis.low === undefined && axis.high === undefined, ...limits },
  };
}
