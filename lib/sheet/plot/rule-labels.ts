/** Where the name of a rule stands: at one end of it, before or after it, where it lies over no curve and over no other rule or name. */
import type { Axis, PlotBlock } from "../block";
import type { LineRow, RuleRow, SpreadRow } from "./data";
import { heights, plotHeight, spreadHeight } from "./end-labels";
import { textWidth } from "./room";

type Bare = Pick<RuleRow, "axis" | "label" | "value">;

/** Left, right, upper and lower end in the plot, its origin being the left upper corner. */
interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

interface Candidate {
  readonly row: Omit<RuleRow, keyof Bare>;
  readonly room: Box;
}

const tall = 15;
const inset = 4;

/** Each rule with the place of its name. Of places that are equally free the first is taken: at the left above, at the top on the right. */
export function withPlaces(
  rules: readonly Bare[],
  lines: readonly LineRow[],
  spreads: readonly SpreadRow[],
  block: PlotBlock,
  plotWidth: number,
): RuleRow[] {
  const height = block.spreads === undefined ? plotHeight : spreadHeight(block.spreads.length);
  const along = (axis: "x" | "y") => rules.flatMap((rule) => (rule.axis === axis ? [rule.value] : []));
  const across = scaleOf([...lines.map(({ x }) => x), ...spreads.flatMap(spanOf), ...along("x")], block.x, plotWidth);
  const sides = sideLines(lines);
  const heightsOf = lines.flatMap((row) => [row.y, row.low ?? row.y, row.high ?? row.y, row.edgeLow ?? row.y, row.edgeHigh ?? row.y]);
  const up = scaleOf([...heightsOf, ...sides.flat().map(({ y }) => y), ...along("y")], block.y, height);
  const down = (value: number) => height - up(value);
  const strokes = [lines, ...sides].flatMap((drawn) => strokesOf(drawn, across, down));
  const ruled = rules.map(({ axis, value }) => (axis === "x" ? upright(across(value), height) : level(down(value), plotWidth)));
  const taken: Box[] = [];
  return rules.map((rule, index) => {
    const at = rule.axis === "x" ? across(rule.value) : down(rule.value);
    const others = ruled.filter((_, other) => other !== index);
    const candidates =
      rule.axis === "x" ? besideUpright(rule.label, at, height, block.spreads !== undefined) : besideLevel(rule.label, at, plotWidth);
    const cost = ({ room }: Candidate) =>
      [...strokes, ...others, ...taken].filter((other) => overlap(room, other)).length + (isWithin(room, height, plotWidth) ? 0 : 100);
    const best = candidates.reduce((a, b) => (cost(b) < cost(a) ? b : a));
    taken.push(best.room);
    return { axis: rule.axis, label: rule.label, value: rule.value, ...best.row };
  });
}

/** The lines beside a curve, as curves of their own: of its doubt, and those held against limits. */
function sideLines(lines: readonly LineRow[]): LineRow[][] {
  return (["doubtLow", "doubtHigh", "edgeLow", "edgeHigh"] as const).map((end) =>
    lines.flatMap((row): LineRow[] => {
      const y = row[end];
      return y === undefined ? [] : [{ ...row, y }];
    }),
  );
}

function besideLevel(label: string, at: number, plotWidth: number): Candidate[] {
  const width = textWidth(label);
  return [false, true].flatMap((below) =>
    (["left", "right"] as const).map((end): Candidate => {
      const left = end === "left" ? inset : plotWidth - inset - width;
      const top = below ? at + 3 : at - 3 - tall;
      return {
        row: {
          along: end === "left" ? inset : -inset,
          align: end,
          baseline: below ? "top" : "bottom",
          dx: 0,
          dy: below ? 4 : -3,
        },
        room: { left, right: left + width, top, bottom: top + tall },
      };
    }),
  );
}

/** Bars fill a plot up to its edges: there the names stand above it. */
function besideUpright(label: string, at: number, height: number, aboveAll: boolean): Candidate[] {
  const width = textWidth(label);
  if (aboveAll)
    return (["left", "right"] as const).map((align) => {
      const left = align === "left" ? at : at - width;
      const dx = align === "left" ? -1 : 1;
      return { row: { along: 0, align, baseline: "bottom", dx, dy: -3 }, room: { left, right: left + width, top: -tall, bottom: 0 } };
    });
  return [false, true].flatMap((low) =>
    (["left", "right"] as const).map((align): Candidate => {
      const left = align === "left" ? at + 4 : at - 4 - width;
      const top = low ? height - tall - 1 : 0;
      return {
        row: { along: low ? height - inset : inset, align, baseline: "bottom", dx: align === "left" ? 4 : -4, dy: low ? 0 : 10 },
        room: { left, right: left + width, top, bottom: top + tall },
      };
    }),
  );
}

/** A name may reach a little over the right edge, where there is room for the names of curves. */
function isWithin({ left, right, top, bottom }: Box, height: number, plotWidth: number): boolean {
  return left >= 0 && right <= plotWidth + 40 && top >= -tall && bottom <= height;
}

/** Up to where names may stand above the plot. */
const upright = (x: number, height: number): Box => ({ left: x - 1, right: x + 1, top: -tall, bottom: height });
const level = (y: number, plotWidth: number): Box => ({ left: 0, right: plotWidth, top: y - 1, bottom: y + 1 });

/** The curves in short pieces, each as the room it takes. */
function strokesOf(lines: readonly LineRow[], across: (x: number) => number, down: (y: number) => number): Box[] {
  return lines.slice(1).flatMap((row, index): Box[] => {
    const last = lines[index] as LineRow;
    if (last.series !== row.series) return [];
    const [[x, y], [u, v]] = [
      [across(last.x), down(last.y)],
      [across(row.x), down(row.y)],
    ] as [[number, number], [number, number]];
    const pieces = Math.max(1, Math.ceil(Math.abs(u - x) / 8), Math.ceil(Math.abs(v - y) / 8));
    return Array.from({ length: pieces }, (_, piece) => {
      const [a, b] = [piece / pieces, (piece + 1) / pieces];
      const [p, q, r, s] = [x + a * (u - x), x + b * (u - x), y + a * (v - y), y + b * (v - y)];
      return { left: Math.min(p, q), right: Math.max(p, q), top: Math.min(r, s), bottom: Math.max(r, s) };
    });
  });
}

function overlap(a: Box, b: Box): boolean {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

const spanOf = ({ worstLow, worstHigh }: SpreadRow) => [worstLow, worstHigh];

/** From a value to its place along an axis of this length. */
function scaleOf(values: readonly number[], axis: Axis, length: number): (value: number) => number {
  const isRounded = axis.scale === "linear" && axis.low === undefined && axis.high === undefined && values.length > 0;
  const drawn = isRounded ? roundEnds(Math.min(...values), Math.max(...values)) : {};
  return heights(values, { ...axis, ...drawn }, length).toHeight;
}

/** A linear axis without stated ends is drawn to whole steps of 1, 2 or 5, some ten of them. */
function roundEnds(low: number, high: number): { low: number; high: number } {
  const wanted = (high - low) / 10;
  if (!(wanted > 0)) return { low, high };
  const power = Number(`1e${wanted.toExponential().split("e")[1]}`);
  const share = wanted / power;
  const step = power * (share >= Math.sqrt(50) ? 10 : share >= Math.sqrt(10) ? 5 : share >= Math.SQRT2 ? 2 : 1);
  return { low: Math.floor(low / step) * step, high: Math.ceil(high / step) * step };
}
