/** What is wrong with a drawing of boxes and lines: boxes that overlap, lines through boxes or on one another, what is off the sheet. */
import type { BlockRow } from "../../lib/design/types";
import type { Box, Corner } from "../../lib/document/drawing/boxes";
import type { ProductDrawing } from "../../lib/document/model/book-data";

export interface Drawn {
  readonly width: number;
  readonly height: number;
  readonly boxes: readonly Box[];
  readonly lines: readonly { readonly kind: string; readonly corners: readonly Corner[] }[];
}

/** Block diagram and power tree. */
export function drawings(product: ProductDrawing | undefined): Drawn[] {
  if (product === undefined) return [];
  const { diagram, power } = product;
  const boxes = (places: readonly { readonly box: Box }[]) => places.map(({ box }) => box);
  return [
    { ...diagram, boxes: boxes(diagram.places) },
    { ...power, boxes: boxes(power.places), lines: power.lines.map((corners) => ({ kind: "power", corners })) },
  ];
}

interface Segment {
  readonly line: number;
  /** Of a return: where its rail stands, which is its rightmost place. */
  readonly rail?: number;
  readonly low: Corner;
  readonly high: Corner;
}

export function faults({ width, height, boxes, lines }: Drawn): string[] {
  const segments = lines.flatMap(({ kind, corners }, line) =>
    corners.slice(1).map((end, index): Segment => {
      const start = corners[index] as Corner;
      return {
        line,
        ...(kind === "return" && { rail: Math.max(...corners.map(([x]) => x)) }),
        low: [Math.min(start[0], end[0]), Math.min(start[1], end[1])],
        high: [Math.max(start[0], end[0]), Math.max(start[1], end[1])],
      };
    }),
  );
  const outside = [...boxes.map(([x, y, w, h]) => [x, y, x + w, y + h]), ...segments.map(({ low, high }) => [...low, ...high])].filter(
    ([left = 0, top = 0, right = 0, bottom = 0]) => left < 0 || top < 0 || right > width || bottom > height,
  );
  return [
    ...outside.map((place) => `off the sheet: ${place}`),
    ...boxes.flatMap((a, index) => boxes.slice(index + 1).flatMap((b) => (overlap(a, b) ? [`boxes overlap: ${a} and ${b}`] : []))),
    ...segments.filter(({ low, high }) => low[0] !== high[0] && low[1] !== high[1]).map(({ low, high }) => `aslant: ${low} ${high}`),
    ...segments.flatMap((segment) => boxes.filter((box) => enters(segment, box)).map((box) => `line ${segment.line} crosses box ${box}`)),
    ...segments.flatMap((a, index) =>
      segments.slice(index + 1).flatMap((b) => (lieTogether(a, b) ? [`lines ${a.line} and ${b.line} lie together at ${a.low}`] : [])),
    ),
  ];
}

function overlap([x, y, width, height]: Box, [a, b, w, h]: Box): boolean {
  return x < a + w && a < x + width && y < b + h && b < y + height;
}

/** A line ends at the edge of its boxes, so it goes into none. */
function enters({ low, high }: Segment, [x, y, width, height]: Box): boolean {
  const edge = 0.3;
  return low[0] < x + width - edge && high[0] > x + edge && low[1] < y + height - edge && high[1] > y + edge;
}

/** Lines to one rail share it, and their track, on purpose. */
function lieTogether(a: Segment, b: Segment): boolean {
  if (a.line === b.line || (a.rail !== undefined && a.rail === b.rail)) return false;
  const along = (axis: 0 | 1) => Math.min(a.high[axis], b.high[axis]) - Math.max(a.low[axis], b.low[axis]);
  const isUpright = ({ low, high }: Segment) => low[0] === high[0];
  if (isUpright(a) !== isUpright(b)) return false;
  const [across, length] = isUpright(a) ? ([0, 1] as const) : ([1, 0] as const);
  return Math.abs(a.low[across] - b.low[across]) < 2.5 && along(length) > 1;
}

/** Blocks of a product that nobody designed: power from earlier blocks, signal from any, one or two of three returns. */
export function atRandom(seed: number): BlockRow[] {
  let state = seed;
  const below = (count: number): number => {
    // Numerical Recipes' quick generator.
    state = (Math.imul(1664525, state) + 1013904223) >>> 0;
    return Math.floor((state / 2 ** 32) * count);
  };
  const count = 4 + below(18);
  const rows = Array.from({ length: count }, (_, index): BlockRow => {
    const one = (range: number) => (range > 0 && below(3) > 0 ? [`b${below(range)}`] : []);
    return {
      id: `b${index}`,
      name: ["block", "wide block of two lines", "x"][below(3)] as string,
      does: "something",
      signal: one(count).filter((id) => id !== `b${index}`),
      power: one(index),
      return: [...new Set(below(4) === 0 ? [] : [`r${below(3)}`, `r${below(3)}`].slice(0, 1 + below(2)))],
      ...(below(3) === 0 && { voltage: "V" }),
    };
  });
  const ground = (id: string, back: readonly string[]): BlockRow => ({
    id,
    name: `return ${id}`,
    does: "back",
    signal: [],
    power: [],
    return: back,
  });
  return [...rows, ground("r0", []), ground("r1", ["r0"]), ground("r2", ["r0"])];
}
