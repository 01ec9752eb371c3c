/** The block diagram and the power tree of the product, from the blocks of the design file: what stands where. */
import type { BlockRow } from "../design/types";
import type { NodeId } from "../graph/node";
import { arrange, type Box, type Corner, type Size, wrap } from "./arrange";
import type { FigureOf, PowerPlace, ProductDrawing } from "./book-data";

const lineHeight = 17;
const letter = 7.4;
const padding = 10;
const gap = 34;

/** Undefined for a design without blocks. `resolve` finds the node of a given's path or a result's name. */
export function productDrawing(blocks: readonly BlockRow[], resolve: (name: string) => NodeId | undefined): ProductDrawing | undefined {
  if (blocks.length === 0) return undefined;
  const returns = blocks.filter(({ id }) => blocks.some((other) => other.return.includes(id)));
  return { diagram: diagram(blocks, returns), power: power(blocks, resolve), blocks };
}

/** Signal and power run from left to right; the returns stand in a row below, each block bearing the letters of its own. */
function diagram(blocks: readonly BlockRow[], returns: readonly BlockRow[]): ProductDrawing["diagram"] {
  const above = blocks.filter((block) => !returns.includes(block));
  const texts = above.map((block) => ({ block, lines: wrap(block.name, 15) }));
  const sizes = texts.map(({ block, lines }) => sizeOf(lines, block.return.length > 0 ? 1 : 0));
  const links = above.flatMap((block, to) =>
    (["signal", "power"] as const).flatMap((kind) =>
      block[kind].flatMap((name) => {
        const from = above.findIndex(({ id }) => id === name);
        return from < 0 ? [] : [{ kind, from, to, weight: kind === "signal" ? 6 : 1 }];
      }),
    ),
  );
  const arranged = arrange(sizes, links, { direction: "right", beside: 26, between: 36 });
  const letters = new Map(returns.map(({ id }, index) => [id, String.fromCharCode(65 + index)]));
  const places = texts.map(({ block, lines }, index) => ({
    id: block.id,
    box: arranged.boxes[index] as Box,
    lines,
    returns: block.return.flatMap((id) => letters.get(id) ?? []),
  }));
  const row = returnRow(returns, letters, arranged.height + gap);
  return {
    width: Math.max(arranged.width, row.width),
    height: returns.length === 0 ? arranged.height : arranged.height + gap + row.height,
    places: [...places, ...row.places],
    lines: [
      ...links.map(({ kind }, index) => ({ kind, corners: arranged.corners[index] as readonly Corner[] })),
      ...row.lines.map((corners) => ({ kind: "return" as const, corners })),
    ],
  };
}

/** The returns beside one another; what joins two of them runs below the row. */
function returnRow(returns: readonly BlockRow[], letters: ReadonlyMap<string, string>, top: number) {
  let left = 2;
  const places = returns.map((block) => {
    const lines = wrap(block.name, 22);
    const { width, height } = sizeOf(lines, 1);
    const box: Box = [left, top, width, height];
    left += width + gap;
    return { id: block.id, box, lines, returns: [letters.get(block.id) ?? ""], isReturn: true };
  });
  const tallest = Math.max(0, ...places.map(({ box }) => box[3]));
  const middle = (id: string): number => {
    const [x = 0, , width = 0] = places.find((place) => place.id === id)?.box ?? [];
    return x + width / 2;
  };
  const joints = returns.flatMap((block) => block.return.filter((id) => letters.has(id)).map((id) => [block.id, id] as const));
  const lines = joints.map(([from, to], index): Corner[] => {
    const depth = top + tallest + 14 + 10 * index;
    const foot = (id: string) => top + (places.find((place) => place.id === id)?.box[3] ?? 0);
    const shift = 5 * index;
    return [
      [middle(from) + shift, foot(from)],
      [middle(from) + shift, depth],
      [middle(to) - shift, depth],
      [middle(to) - shift, foot(to)],
    ];
  });
  return { places, lines, width: left - gap + 2, height: tallest + (joints.length === 0 ? 4 : 20 + 10 * joints.length) };
}

/** From what stores or brings power to what uses it. */
function power(blocks: readonly BlockRow[], resolve: (name: string) => NodeId | undefined): ProductDrawing["power"] {
  const feeds = (id: string) => blocks.some((other) => other.power.includes(id));
  const taking = blocks.filter(({ id, power: sources }) => sources.length > 0 || feeds(id));
  const figures = taking.map((block) => figuresOf(block, feeds(block.id), resolve));
  const texts = taking.map(({ name }) => wrap(name, 24));
  const sizes = texts.map((lines, index) => ({
    ...sizeOf(lines, rowsFor(figures[index] as FigureOf[], taking[index] as BlockRow)),
    width: 208,
  }));
  const links = taking.flatMap((block, to) => block.power.map((name) => ({ from: taking.findIndex(({ id }) => id === name), to })));
  const arranged = arrange(sizes, links, { direction: "down", beside: 16, between: 26 });
  const places = taking.map(
    ({ id, note }, index): PowerPlace => ({
      id,
      box: arranged.boxes[index] as Box,
      lines: texts[index] as string[],
      figures: figures[index] as FigureOf[],
      ...(note && { note }),
    }),
  );
  return { width: arranged.width, height: arranged.height, places, lines: arranged.corners };
}

function figuresOf(block: BlockRow, feedsOthers: boolean, resolve: (name: string) => NodeId | undefined): FigureOf[] {
  const figure = (kind: FigureOf["kind"], name: string): FigureOf => {
    const node = resolve(name);
    return { kind, name, ...(node !== undefined && { node }) };
  };
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
export function rowsOf({ node, kind }: FigureOf): number {
  return node === undefined || kind === "voltage" ? 1 : 2;
}

function rowsFor(figures: readonly FigureOf[], { note }: BlockRow): number {
  return figures.reduce((sum, figure) => sum + rowsOf(figure), 0) + (note === undefined ? 0 : 1);
}

function sizeOf(lines: readonly string[], more: number): Size {
  const longest = Math.max(...lines.map((text) => text.length), more > 0 ? 5 : 0);
  return { width: Math.ceil(longest * letter) + 2 * padding, height: (lines.length + more) * lineHeight + 2 * padding - 4 };
}
