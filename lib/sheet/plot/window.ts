/**
 * Where every curve that is to keep a limit keeps it, as its requirement is judged: by the worst case, by the 95 % interval, or by the
 * nominal value. Each of those is a curve of straight lines between the points of the sweep, so its crossing is found between two points.
 *
 * The curves hold for the swept given exactly; a unit's value strays from the nominal one. The window is that of nominal values: it
 * is narrower by what the given's own tolerance takes at either end.
 */
import type { Evaluation } from "../../analysis/evaluation";
import type { JudgedBy } from "../../analysis/result";
import { numberToTwelve } from "../../quantity/number-text";
import { unitOf } from "../../quantity/unit";
import type { PlotBlock, PlotSeries } from "../block";
import type { LineRow } from "./data";

/** In the unit of the x axis. */
interface Span {
  readonly from: number;
  readonly to: number;
}

export interface WindowRow extends Span {
  readonly middle: number;
  /** Both ends, rounded inward. */
  readonly label: string;
}

interface Point {
  readonly x: number;
  /** What is left to the limit, negative beyond it. */
  readonly left: number;
}

/** The windows of a plot, from left to right; none where no series has a limit to keep. */
export function windowsOf(block: PlotBlock, lines: readonly LineRow[], evaluation: Evaluation): WindowRow[] {
  const limited = block.series.filter(({ within }) => within !== undefined);
  if (limited.length === 0) return [];
  const kept = limited.flatMap((series) => marginsOf(series, block, lines).map(whereKept)).reduce(both);
  const { before, after } = straying(limited, block, evaluation);
  return kept
    .map(({ from, to }) => ({ from: from + before, to: to - after }))
    .filter(({ from, to }) => from < to)
    .map(({ from, to }) => ({ from, to, middle: (from + to) / 2, label: inward({ from, to }, block.x.unit) }));
}

/** Three digits, as many decimals at both ends. */
function inward({ from, to }: Span, unit: string): string {
  const decimals = Math.max(0, 2 - Number(to.toExponential().split("e")[1]));
  const step = Number(`1e-${decimals}`);
  const [low, high] = [Math.ceil(numberToTwelve(from / step)) * step, Math.floor(numberToTwelve(to / step)) * step];
  return `${low.toFixed(decimals)} to ${high.toFixed(decimals)}${unit === "1" || unit === "" ? "" : `\u00a0${unit}`}`;
}

type Spread = Pick<LineRow, "y"> & Partial<LineRow>;

/** What of a curve is held against its limits: of 95 % of units what is not known is taken off as well, as if it only added. */
export function judgedEnds(judged: JudgedBy, row: Spread): { readonly low: number; readonly high: number } {
  const { y, low = y, high = y, worstLow = y, worstHigh = y, doubtLow = y, doubtHigh = y } = row;
  if (judged === "worst case") return { low: worstLow, high: worstHigh };
  return judged === "typical" ? { low: y, high: y } : { low: low + doubtLow - y, high: high + doubtHigh - y };
}

/** The limits that curves are to keep, as rules, where the plot has none there already. In the units of the axes. */
export function limitRules(block: PlotBlock, stated: readonly { readonly axis: "x" | "y"; readonly value: number }[]) {
  const unit = unitOf(block.y.unit);
  const limits = block.series.flatMap(({ label, within }) =>
    [within?.low, within?.high].flatMap((si) =>
      si === undefined ? [] : [{ axis: "y" as const, label: `limit of ${label}`, value: unit.fromSI(si) }],
    ),
  );
  const isThere = (value: number) => stated.some((rule) => rule.axis === "y" && Math.abs(rule.value - value) <= 1e-9 * Math.abs(value));
  return limits.filter(({ value }) => !isThere(value));
}

/** What is left to each limit of a series, along it. */
function marginsOf({ label, within }: PlotSeries, block: PlotBlock, lines: readonly LineRow[]): Point[][] {
  if (within === undefined) return [];
  const { low, high, judged } = within;
  const rows = lines.filter(({ series }) => series === label);
  const unit = unitOf(block.y.unit);
  return [
    ...(high === undefined ? [] : [rows.map((row) => ({ x: row.x, left: unit.fromSI(high) - judgedEnds(judged, row).high }))]),
    ...(low === undefined ? [] : [rows.map((row) => ({ x: row.x, left: judgedEnds(judged, row).low - unit.fromSI(low) }))]),
  ];
}

function whereKept(points: readonly Point[]): Span[] {
  const windows: { from: number; to: number }[] = [];
  let from = (points[0]?.left ?? -1) >= 0 ? points[0]?.x : undefined;
  points.slice(1).forEach((point, index) => {
    const last = points[index] as Point;
    const crossing = last.x + ((point.x - last.x) * last.left) / (last.left - point.left);
    if (last.left < 0 && point.left >= 0) from = crossing;
    if (last.left >= 0 && point.left < 0 && from !== undefined) {
      windows.push({ from, to: crossing });
      from = undefined;
    }
  });
  const end = points.at(-1);
  return from === undefined || end === undefined ? windows : [...windows, { from, to: end.x }];
}

function both(some: readonly Span[], others: readonly Span[]): Span[] {
  return some.flatMap((a) =>
    others.flatMap((b) => {
      const [from, to] = [Math.max(a.from, b.from), Math.min(a.to, b.to)];
      return from < to ? [{ from, to }] : [];
    }),
  );
}

/** How far the swept given may stray below and above its nominal value. */
function straying(limited: readonly PlotSeries[], block: PlotBlock, evaluation: Evaluation): { before: number; after: number } {
  const unit = unitOf(block.x.unit);
  const swept = limited.flatMap(({ curve }) => {
    const node = curve === undefined ? undefined : evaluation.graph.get(curve);
    return node?.kind === "sweep" ? [evaluation.analysis(node.over)] : [];
  });
  const apart = (a: number, b: number) => Math.abs(unit.fromSI(a) - unit.fromSI(b));
  return {
    before: Math.max(0, ...swept.map(({ nominal, worst }) => apart(nominal, worst?.low ?? nominal))),
    after: Math.max(0, ...swept.map(({ nominal, worst }) => apart(nominal, worst?.high ?? nominal))),
  };
}
