/**
 * A table of power states as a picture, drawn from the table alone: a column for each state with its current, a band for each event. In
 * a band a line joins the states that the event leaves with the one it leads to; a state that it leaves as it is has a dot, one in which
 * it cannot happen a cross. So every cell of the table is seen, and no two lines of one event share a row.
 */
import { branchesOf, type Cell, impossible, stay } from "../../design/power-states";
import { WorkingsError } from "../../quantity/error";
import { formatNumber } from "../../quantity/format";
import { mA, uA } from "../../units";
import type { DrawnStates } from "../block";
import { type DrawingStyle, drawing, element, line, path, point, text, textWidth } from "./svg";

/** The name that a block has it under; it is no drawing of quantities alone. */
export const powerStates = "control.states";

const width = 660;
/** px: left edge of the columns, height of the heads, of a row, between bands. */
const [left, head, rowHeight, gap] = [92, 66, 13, 5];

/** States that one event leads to one state from; `conditional` where a condition decides. */
interface Group {
  readonly to: number;
  readonly from: readonly { readonly state: number; readonly conditional: boolean }[];
}

interface Band {
  readonly event: string;
  /** Groups side by side where none reaches into another. */
  readonly rows: readonly (readonly Group[])[];
  readonly stays: readonly number[];
  readonly impossible: readonly number[];
}

/** The picture; `currents` in A, by state. Throws WorkingsError "drawing" for a state without a current that can be drawn. */
export function drawPowerStates(table: DrawnStates, currents: Readonly<Record<string, number>>, style: DrawingStyle): string {
  const states = table.rows.map(({ state }) => state);
  const column = (width - left - 8) / states.length;
  const x = (state: number): number => left + (state + 0.5) * column;
  const bands = table.events.map(({ event }) => bandOf(table, states, event));
  const heights = bands.map(({ rows }) => (rows.length + 1) * rowHeight + gap);
  const tops = heights.map((_, i) => head + 14 + heights.slice(0, i).reduce((sum, height) => sum + height, 0));
  const bottom = head + 14 + heights.reduce((sum, height) => sum + height, 0);
  const lanes = states.map((_, i) => line(x(i), head, x(i), bottom, { opacity: 0.25 })).join("");
  const heads = states.map((state, i) => headOf(state, currentOf(state, currents), x(i), column, style)).join("");
  const drawn = bands.map((band, i) => drawBand(band, tops[i] as number, x, style)).join("");
  return drawing(width, bottom + 28, "Power states", described(table), style, lanes + heads + drawn + key(bottom + 18, style));
}

function currentOf(state: string, currents: Readonly<Record<string, number>>): string {
  const current = Object.hasOwn(currents, state) ? (currents[state] as number) : Number.NaN;
  if (!(current > 0 && current < Infinity))
    throw new WorkingsError("drawing", `the state '${state}' has no current above 0 A to be drawn with; give it one`);
  return formatNumber(current, current < 1e-3 ? uA : mA, 2);
}

function bandOf({ rows }: DrawnStates, states: readonly string[], event: string): Band {
  const cells = rows.map(({ next }) => cellOf(next, event));
  const found = new Map<number, Group["from"][number][]>();
  cells.forEach((cell, state) => {
    for (const { to, if: condition } of branchesOf(cell)) {
      const target = states.indexOf(to);
      if (target < 0 || target === state) continue;
      const conditional = condition !== undefined || branchesOf(cell).length > 1;
      found.set(target, [...(found.get(target) ?? []), { state, conditional }]);
    }
  });
  const leaves = new Set([...found.values()].flat().map(({ state }) => state));
  const others = states.map((_, state) => state).filter((state) => !leaves.has(state));
  return {
    event,
    rows: packed([...found].map(([to, from]) => ({ to, from }))),
    stays: others.filter((state) => cells[state] !== impossible),
    impossible: others.filter((state) => cells[state] === impossible),
  };
}

const cellOf = (next: Readonly<Record<string, Cell>>, event: string): Cell =>
  Object.hasOwn(next, event) ? (next[event] as Cell) : impossible;

const endsOf = ({ to, from }: Group): readonly [number, number] => {
  const all = [to, ...from.map(({ state }) => state)];
  return [Math.min(...all), Math.max(...all)];
};

/** Each group in the first row in which it touches no other. */
function packed(groups: readonly Group[]): readonly (readonly Group[])[] {
  const rows: Group[][] = [];
  for (const group of groups) {
    const [low, high] = endsOf(group);
    const free = rows.find((row) => row.every((other) => endsOf(other)[0] > high || endsOf(other)[1] < low));
    if (free === undefined) rows.push([group]);
    else free.push(group);
  }
  return rows;
}

function headOf(state: string, current: string, x: number, column: number, style: DrawingStyle): string {
  const words = [...state.split(" "), current];
  const first = 10 + (head - 10) / 2 + 4 - 7 * (words.length - 1);
  return (
    element("rect", { x: x - column / 2 + 2, y: 10, width: column - 4, height: head - 10, "stroke-width": 1.5 }) +
    words.map((word, i) => text(x, first + 14 * i, word, "middle", style)).join("")
  );
}

function drawBand({ event, rows, stays, impossible: never }: Band, top: number, x: (state: number) => number, style: DrawingStyle): string {
  const y = (row: number): number => top + (row + 0.5) * rowHeight;
  const last = y(rows.length);
  return (
    line(8, top - gap / 2, width - 8, top - gap / 2, { opacity: 0.25 }) +
    text(left - 8, y(0) + 4, event, "end", style) +
    rows.flatMap((row, i) => row.map((group) => arrow(group, x, y(i), style))).join("") +
    stays.map((state) => element("circle", { cx: x(state), cy: last, r: 1.5, fill: style.ink, stroke: "none" })).join("") +
    never.map((state) => cross(x(state), last)).join("")
  );
}

function arrow(group: Group, x: (state: number) => number, y: number, style: DrawingStyle): string {
  const [low, high] = endsOf(group);
  const target = x(group.to);
  const heads = [low < group.to ? -1 : 0, high > group.to ? 1 : 0].filter((side) => side !== 0);
  return (
    line(x(low), y, x(high), y, { "stroke-width": 1.5 }) +
    heads
      .map((side) =>
        path([point(target + 8 * side, y - 4), point(target, y), point(target + 8 * side, y + 4)], false, { "stroke-width": 1.5 }),
      )
      .join("") +
    group.from.map(({ state, conditional }) => source(x(state), y, conditional, style)).join("")
  );
}

/** Full where the event always leads on, open where a condition decides. */
function source(x: number, y: number, conditional: boolean, style: DrawingStyle): string {
  const fill = conditional ? (style.paper ?? "var(--paper, #ffffff)") : style.accent;
  return element("circle", { cx: x, cy: y, r: 3.5, fill, stroke: style.accent, "stroke-width": 1.5 });
}

const cross = (x: number, y: number): string =>
  line(x - 2.5, y - 2.5, x + 2.5, y + 2.5, { opacity: 0.5 }) + line(x - 2.5, y + 2.5, x + 2.5, y - 2.5, { opacity: 0.5 });

function key(y: number, style: DrawingStyle): string {
  const parts: readonly (readonly [string, (x: number) => string])[] = [
    ["leads on", (x) => source(x, y - 4, false, style)],
    ["if its condition holds", (x) => source(x, y - 4, true, style)],
    ["changes nothing", (x) => element("circle", { cx: x, cy: y - 4, r: 1.5, fill: style.ink, stroke: "none" })],
    ["cannot happen", (x) => cross(x, y - 4)],
  ];
  let x = left;
  return parts
    .map(([words, mark]) => {
      const drawn = mark(x) + text(x + 10, y, words, "start", style);
      x += 30 + textWidth(words);
      return drawn;
    })
    .join("");
}

/** The whole table in words. */
function described({ start, events, rows }: DrawnStates): string {
  const sentences = rows.flatMap(({ state, next }) =>
    events.flatMap(({ event }) => {
      const cell = cellOf(next, event);
      const ways = branchesOf(cell)
        .filter(({ to }) => to !== impossible && to !== stay && to !== state)
        .map(({ to, if: condition }) => (condition === undefined ? to : `${to} if ${condition}`));
      return ways.length === 0 ? [] : [`From ${state}, ${event} leads to ${ways.join(", else ")}.`];
    }),
  );
  return `It wakes up in ${start}. ${sentences.join(" ")} All other events change nothing or cannot happen.`;
}
