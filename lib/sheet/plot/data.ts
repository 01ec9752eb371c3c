/** The numbers of a plot, in the units of its axes: what the sheet draws and the page draws again after a change. */
import type { Evaluation } from "../../analysis/evaluation";
import { log10 } from "../../quantity/elementary";
import { WorkingsError } from "../../quantity/error";
import { unitOf } from "../../quantity/unit";
import type { PlotBlock, PlotSeries } from "../block";
import { endLabels, namedAtEnds } from "./end-labels";
import { innerWidth, type Room } from "./room";
import { withPlaces } from "./rule-labels";
import { judgedEnds, limitRules, type WindowRow, windowsOf } from "./window";

export interface LineRow {
  readonly series: string;
  readonly order: number;
  readonly x: number;
  readonly y: number;
  readonly low?: number;
  readonly high?: number;
  readonly worstLow?: number;
  readonly worstHigh?: number;
  /** What the middle unit could be, where something is not known. */
  readonly doubtLow?: number;
  readonly doubtHigh?: number;
  /** What is held against the limits of the series, where that is not the curve itself. */
  readonly edgeLow?: number;
  readonly edgeHigh?: number;
}
interface PointRow {
  readonly series: string;
  readonly x: number;
  readonly y: number;
  readonly label: string;
}
export interface SpreadRow {
  readonly label: string;
  readonly nominal: number;
  readonly low: number;
  readonly high: number;
  readonly worstLow: number;
  readonly worstHigh: number;
  readonly doubtLow?: number;
  readonly doubtHigh?: number;
}
export interface RuleRow {
  readonly axis: "x" | "y";
  readonly label: string;
  readonly value: number;
  /** Place of the name along the rule, in pixels from the left or the top, or, negative, from the right; and how it is set there. */
  readonly along: number;
  readonly align: "left" | "right";
  readonly baseline: "top" | "bottom";
  readonly dx: number;
  readonly dy: number;
}
export interface EndRow {
  readonly series: string;
  readonly x: number;
  readonly y: number;
  /** Where the name of the series stands. */
  readonly labelY: number;
}

/** A type, not an interface, so that it is assignable to `Record<string, object[]>`. */
export type PlotData = {
  lines: LineRow[];
  points: PointRow[];
  ends: EndRow[];
  spreads: SpreadRow[];
  rules: RuleRow[];
  windows: WindowRow[];
};

/**
 * Evaluates every series, point, spread and rule of a plot. Points that a logarithmic axis has no place for (≤ 0) are left out, which
 * `omittedWords` tells. Throws "drawing" where nothing is left.
 */
export function plotData(block: PlotBlock, evaluation: Evaluation, room: Room = "wide"): PlotData {
  const x = unitOf(block.x.unit);
  const y = unitOf(block.y.unit);
  const all = block.series.flatMap((series) => seriesRows(block, series, evaluation));
  const lines = all.filter((row) => drawable(row, block));
  if (all.length > 0 && lines.length === 0)
    throw new WorkingsError("drawing", `nothing of the plot '${block.name}' can be drawn: a logarithmic axis has no place for 0 or less`);
  const spreads = (block.spreads ?? []).map(({ label, node }) => spreadRow(label, node, block, evaluation));
  const stated = (block.rules ?? []).map((rule) => ({ ...rule, value: (rule.axis === "x" ? x : y).fromSI(rule.value) }));
  const rules = [...stated, ...limitRules(block, stated)];
  const ends = endLabels(lines, block.y);
  const width = innerWidth(block, namesAtEnds(block, lines, ends, room), room);
  return {
    lines,
    points: block.series.flatMap((series) =>
      (series.points ?? [])
        .filter((point) => point.label !== undefined)
        .map((point) => ({
          series: series.label,
          x: x.fromSI(evaluation.nominal(point.x)),
          y: y.fromSI(evaluation.nominal(point.y)),
          label: point.label ?? "",
        })),
    ),
    ends,
    spreads,
    rules: withPlaces(rules, lines, spreads, block, width),
    windows: windowsOf(block, lines, evaluation),
  };
}

/** Whether something is not known. */
export function isDoubted({ lines, spreads }: Pick<PlotData, "lines" | "spreads">): boolean {
  return lines.some(({ doubtLow }) => doubtLow !== undefined) || spreads.some(({ doubtLow }) => doubtLow !== undefined);
}

/** The names that stand beside the right ends of curves: of several curves, where there is room for all. */
export function namesAtEnds(block: PlotBlock, lines: readonly LineRow[], ends: readonly EndRow[], room: Room): readonly string[] {
  return block.series.length > 1 && namedAtEnds(lines, ends, block.y, room) ? block.series.map(({ label }) => label) : [];
}

/**
 * The rows as a picture needs them: numbers to a millionth of themselves, finer where a column varies by less than that of its size.
 * Words are made from the rows as they are.
 */
export function pictureRows(data: PlotData): PlotData {
  return {
    lines: rounded(data.lines),
    points: rounded(data.points),
    ends: rounded(data.ends),
    spreads: rounded(data.spreads),
    rules: rounded(data.rules),
    windows: rounded(data.windows),
  };
}

function rounded<R extends object>(rows: readonly R[]): R[] {
  const digits = new Map<string, number>();
  const finite = (key: string) => rows.map((row) => (row as Record<string, unknown>)[key]).filter(Number.isFinite) as number[];
  const digitsOf = (key: string): number => {
    const values = finite(key);
    const size = Math.max(...values.map(Math.abs));
    const span = Math.max(...values) - Math.min(...values);
    return span === 0 ? 12 : Math.min(15, 6 + Math.max(0, Math.round(log10(size / span))));
  };
  const round = (key: string, value: unknown) => {
    if (typeof value !== "number" || !Number.isFinite(value)) return value;
    if (!digits.has(key)) digits.set(key, digitsOf(key));
    return Number(value.toPrecision(digits.get(key)));
  };
  return rows.map((row) => Object.fromEntries(Object.entries(row).map(([key, value]) => [key, round(key, value)])) as R);
}

/** A sentence for each series of which points are left out. */
export function omittedWords(block: PlotBlock, evaluation: Evaluation): string[] {
  return block.series.flatMap((series) => {
    const rows = seriesRows(block, series, evaluation);
    const omitted = rows.filter((row) => !drawable(row, block)).length;
    return omitted === 0
      ? []
      : [`${series.label}: ${omitted} of ${rows.length} points are not drawn; a logarithmic axis has no place for 0 or less`];
  });
}

function seriesRows(block: PlotBlock, series: PlotSeries, evaluation: Evaluation): LineRow[] {
  const x = unitOf(block.x.unit);
  const y = unitOf(block.y.unit);
  const rows: LineRow[] = [];
  const push = (atX: number, atY: number, band: Partial<LineRow> = {}) =>
    rows.push({ series: series.label, order: rows.length, x: x.fromSI(atX), y: y.fromSI(atY), ...band });
  if (series.curve !== undefined) {
    const curve = evaluation.curve(series.curve);
    const band = series.band === true ? evaluation.band(series.curve) : undefined;
    for (let i = 0; i < curve.x.length; i++) {
      const a = curve.x[i] ?? Number.NaN;
      const b = curve.y[i] ?? Number.NaN;
      if (series.transposed === true) push(b, a);
      else push(a, b, band && withEdges(series, b, bandAt(band, i, y.fromSI), y.fromSI));
    }
  }
  if (series.points !== undefined && series.points.length > 1) {
    for (const point of series.points) push(evaluation.nominal(point.x), evaluation.nominal(point.y));
  }
  return rows;
}

function drawable(row: LineRow, { x, y }: PlotBlock): boolean {
  const hasPlace = (value: number, scale: "linear" | "log") => Number.isFinite(value) && (scale === "linear" || value > 0);
  return hasPlace(row.x, x.scale) && hasPlace(row.y, y.scale);
}

type Band = ReturnType<Evaluation["band"]>;

function bandAt(band: Band, i: number, toUnit: (si: number) => number): Partial<LineRow> {
  const at = (column: ArrayLike<number>) => toUnit(column[i] ?? Number.NaN);
  const { doubtLow, doubtHigh } = band;
  const doubt = doubtLow && doubtHigh && { doubtLow: at(doubtLow), doubtHigh: at(doubtHigh) };
  return { low: at(band.low), high: at(band.high), worstLow: at(band.worstLow), worstHigh: at(band.worstHigh), ...doubt };
}

function withEdges({ within }: PlotSeries, y: number, band: Partial<LineRow>, toUnit: (si: number) => number): Partial<LineRow> {
  if (within === undefined || within.judged === "typical") return band;
  const { low, high } = judgedEnds(within.judged, { y: toUnit(y), ...band });
  return { ...band, ...(within.low !== undefined && { edgeLow: low }), ...(within.high !== undefined && { edgeHigh: high }) };
}

function spreadRow(label: string, node: string, block: PlotBlock, evaluation: Evaluation): SpreadRow {
  const toUnit = unitOf(block.x.unit).fromSI;
  const { nominal, worst, interval, doubt } = evaluation.analysis(node);
  return {
    label,
    nominal: toUnit(nominal),
    low: toUnit(interval?.low ?? nominal),
    high: toUnit(interval?.high ?? nominal),
    worstLow: toUnit(worst?.low ?? nominal),
    worstHigh: toUnit(worst?.high ?? nominal),
    ...(doubt && { doubtLow: toUnit(doubt.low), doubtHigh: toUnit(doubt.high) }),
  };
}
