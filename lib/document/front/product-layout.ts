/** The block diagram and the power tree of the product, from the blocks of the design file: what stands where. */
import type { BlockRow } from "../../design/types";
import type { NodeId } from "../../graph/node";
import { type Box, type Corner, type Size, wrap } from "../drawing/boxes";
import { inRanks } from "../drawing/ranks";
import type { FigureOf, PowerPlace, ProductDrawing } from "../model/book-data";
import { returnRow } from "./return-row";

const lineHeight = 17;
const letter = 8;
const padding = 10;
/** About the measure of the page: neither drawing is cut off on a screen, nor made small on paper. */
const widest = 650;
const powerWidth = 196;

/** What the design file states for a figure that no sheet reads. */
export type Stated = Pick<FigureOf, "text" | "short">;

/** Undefined for a design without blocks. `resolve` finds the node of a given's path or a result's name, `stated` a given that has none. */
export function productDrawing(
  blocks: readonly BlockRow[],
  resolve: (name: string) => NodeId | undefined,
  stated: (name: string) => Stated | undefined = () => undefined,
): ProductDrawing | undefined {
  if (blocks.length === 0) return undefined;
  const figure = (kind: FigureOf["kind"], name: string): FigureOf => {
    const node = resolve(name);
    return { kind, name, ...(node === undefined ? stated(name) : { node }) };
  };
  return { diagram: diagram(blocks, figure), power: power(blocks, figure), blocks };
}

type Figure = (kind: FigureOf["kind"], name: string) => FigureOf;

/** Signal and power run down; each return is a rail at the right that leads to its place below. */
function diagram(blocks: readonly BlockRow[], figure: Figure): ProductDrawing["diagram"] {
  const returns = blocks.filter(({ id }) => blocks.some((other) => other.return.includes(id)));
  const above = blocks.filter((block) => !returns.includes(block));
  const texts = above.map(({ name }) => wrap(name, 17));
  const figures = above.map((block) => inDiagram(block, figure));
  const links = above.flatMap((block, to) =>
    (["signal", "power"] as const).flatMap((kind) =>
      block[kind].flatMap((name) => {
        const from = above.findIndex(({ id }) => id === name);
        return from < 0 || from === to ? [] : [{ kind, from, to, weight: kind === "signal" ? 6 : 1 }];
      }),
    ),
  );
  const ranked = inRanks({
    sizes: texts.map((lines, index) => sizeOf(lines, figures[index] === undefined ? 0 : 1)),
    lines: links,
    drains: above.map((block) => block.return.map((id) => returns.findIndex((other) => other.id === id)).filter((drain) => drain >= 0)),
    widest,
    beside: 20,
  });
  const names = returns.map(({ name }) => wrap(name, 17));
  const grounded = returns.map((block) => inDiagram(block, figure));
  const row = returnRow(
    returns,
    names.map((lines, index) => sizeOf(lines, grounded[index] === undefined ? 0 : 1)),
    ranked,
  );
  const places = above.map(({ id }, index) => {
    const shown = figures[index];
    return { id, box: ranked.boxes[index] as Box, lines: texts[index] as string[], ...(shown && { figure: shown }) };
  });
  const grounds = returns.map(({ id }, index) => {
    const shown = grounded[index];
    return { id, box: row.boxes[index] as Box, lines: names[index] as string[], isReturn: true, ...(shown && { figure: shown }) };
  });
  const back = row.lines.map((corners) => ({ kind: "return" as const, corners }));
  const there = links.map(({ kind }, index) => ({ kind, corners: ranked.corners[index] as readonly Corner[] }));
  return { width: row.width, height: row.height, places: [...places, ...grounds], lines: [...back, ...there], joints: row.joints };
}

/** The voltage of what gives power, of others what the design file shows. */
function inDiagram({ voltage, shows }: BlockRow, figure: Figure): FigureOf | undefined {
  if (voltage !== undefined) return figure("voltage", voltage);
  return shows === undefined ? undefined : figure("shows", shows);
}

/** From what stores or brings power to what uses it. */
function power(blocks: readonly BlockRow[], figure: Figure): ProductDrawing["power"] {
  const feeds = (id: string) => blocks.some((other) => other.power.includes(id));
  const taking = blocks.filter(({ id, power: sources }) => sources.length > 0 || feeds(id));
  const figures = taking.map((block) => figuresOf(block, feeds(block.id), figure));
  const texts = taking.map(({ name }) => wrap(name, 22));
  const sizes = texts.map((lines, index) => ({
    ...sizeOf(lines, rowsFor(figures[index] as FigureOf[], taking[index] as BlockRow)),
    width: powerWidth,
  }));
  const links = taking.flatMap((block, to) =>
    block.power.flatMap((name) => {
      const from = taking.findIndex(({ id }) => id === name);
      return from < 0 || from === to ? [] : [{ from, to }];
    }),
  );
  const ranked = inRanks({ sizes, lines: links, widest, beside: 16 });
  const places = taking.map(
    ({ id, note }, index): PowerPlace => ({
      id,
      box: ranked.boxes[index] as Box,
      lines: texts[index] as string[],
      figures: figures[index] as FigureOf[],
      ...(note && { note }),
    }),
  );
  return { width: ranked.width, height: ranked.height, places, lines: ranked.corners };
}

function figuresOf(block: BlockRow, feedsOthers: boolean, figure: Figure): FigureOf[] {
  const known = [
    ...(block.voltage === undefined ? [] : [figure("voltage", block.voltage)]),
    ...(block.efficiency === undefined ? [] : [figure("efficiency", block.efficiency)]),
    ...(block.loses === undefined ? [] : [figure("loses", block.loses)]),
    ...(block.draws === undefined ? [] : [figure(feedsOthers ? "delivers" : "draws", block.draws)]),
  ];
  const unknown = feedsOthers ? "delivers" : "draws";
  return known.length > 0 && (feedsOthers || block.draws !== undefined) ? known : [...known, { kind: unknown, name: "" }];
}

/** A result takes a line more, for the 95 % of units. */
function rowsOf({ node, kind }: FigureOf): number {
  return node === undefined || kind === "voltage" ? 1 : 2;
}

function rowsFor(figures: readonly FigureOf[], { note }: BlockRow): number {
  return figures.reduce((sum, figure) => sum + rowsOf(figure), 0) + (note === undefined ? 0 : 1);
}

function sizeOf(lines: readonly string[], more: number): Size {
  const longest = Math.max(...lines.map((text) => text.length), more > 0 ? 8 : 0);
  return { width: Math.ceil(longest * letter) + 2 * padding, height: (lines.length + more) * lineHeight + 2 * padding - 4 };
}
