/** Where the names of curves stand beside their right ends: at the end itself, or moved up or down until no two overlap. */
import { exp, ln } from "../../quantity/elementary";
import type { Axis } from "../block";
import type { EndRow, LineRow } from "./data";
import { type Room, textWidth } from "./room";

export const plotHeight = 300;
/** Of a plot of so many bars. */
export const spreadHeight = (bars: number) => 46 * Math.max(1, bars);
const decade = ln(10);
/** Label heights apart at which two names do not touch. */
const spacing = 16;
/** A name further than this from its curve's end would be taken for another curve's. */
const reach = 24;
/** Wider names would take the room of the curves. */
const widest: Readonly<Record<Room, number>> = { wide: 170, narrow: 90 };

/** The last point of every line, and the height of its name. Heights are those of an axis that spans the values drawn, or its stated ends. */
export function endLabels(lines: readonly LineRow[], axis: Axis): EndRow[] {
  const last = new Map<string, LineRow>();
  for (const row of lines) last.set(row.series, row);
  const { toHeight, fromHeight } = heights(spanned(lines), axis, plotHeight);
  const ends = [...last.values()].toSorted((a, b) => a.y - b.y);
  const places = spread(ends.map(({ y }) => toHeight(y)));
  const at = new Map(ends.map((row, index) => [row.series, moved(row.y, toHeight(row.y), places[index] ?? 0, fromHeight)]));
  return [...last.values()].map(({ series, x, y }) => ({ series, x, y, labelY: at.get(series) ?? y }));
}

/** True when every line ends at the right edge, and no name is too far from its line or too long. */
export function namedAtEnds(lines: readonly LineRow[], ends: readonly EndRow[], axis: Axis, room: Room = "wide"): boolean {
  const { toHeight } = heights(spanned(lines), axis, plotHeight);
  const right = Math.max(...lines.map((row) => row.x));
  const left = Math.min(...lines.map((row) => row.x));
  return (
    ends.every(({ series }) => textWidth(series) <= widest[room]) &&
    ends.every((end) => right - end.x <= 0.02 * (right - left)) &&
    ends.every(({ y, labelY }) => Math.abs(toHeight(labelY) - toHeight(y)) <= reach)
  );
}

function moved(y: number, from: number, to: number, fromHeight: (height: number) => number): number {
  return Math.abs(to - from) < 1e-6 ? y : fromHeight(to);
}

function spanned(lines: readonly LineRow[]): number[] {
  return lines.flatMap((row) => [row.y, row.low ?? row.y, row.high ?? row.y, row.edgeLow ?? row.y, row.edgeHigh ?? row.y]);
}

/** Between values and heights along an axis of this length that is drawn for these values. */
export function heights(values: readonly number[], axis: Axis, length: number) {
  const toScale = axis.scale === "log" ? ln : (value: number) => value;
  const fromScale = axis.scale === "log" ? exp : (value: number) => value;
  // A logarithmic axis without stated ends is drawn to whole decades.
  const rounded = (value: number, round: (x: number) => number) => (axis.scale === "log" ? decade * round(value / decade) : value);
  const low = axis.low === undefined ? rounded(toScale(Math.min(...values)), Math.floor) : toScale(axis.low);
  const high = axis.high === undefined ? rounded(toScale(Math.max(...values)), Math.ceil) : toScale(axis.high);
  const span = high - low || 1;
  return {
    toHeight: (value: number) => ((toScale(value) - low) / span) * length,
    fromHeight: (height: number) => fromScale(low + (height / length) * span),
  };
}

/** Rising heights moved as little as is needed to be `spacing` apart: neighbours that touch are set about their mean. */
function spread(wanted: readonly number[]): number[] {
  const groups: { mean: number; count: number }[] = [];
  for (const height of wanted) {
    groups.push({ mean: height, count: 1 });
    for (let touching = lastTwo(groups); touching; touching = lastTwo(groups)) {
      const [a, b] = touching;
      const count = a.count + b.count;
      groups.splice(-2, 2, { mean: (a.mean * a.count + b.mean * b.count) / count, count });
    }
  }
  return groups.flatMap(({ mean, count }) => Array.from({ length: count }, (_, index) => mean + (index - (count - 1) / 2) * spacing));
}

type Group = { mean: number; count: number };

/** The last two groups, where they touch. */
function lastTwo(groups: readonly Group[]): readonly [Group, Group] | undefined {
  const a = groups.at(-2);
  const b = groups.at(-1);
  return a && b && b.mean - a.mean < (spacing * (a.count + b.count)) / 2 - 1e-9 ? [a, b] : undefined;
}
