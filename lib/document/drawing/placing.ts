/** Which box stands where in which rank (dagre), and which ranks a line passes between its boxes. */
import { Graph as Layout, layout } from "@dagrejs/dagre";
import type { Line, Size } from "./boxes";

export interface Wanted {
  readonly sizes: readonly Size[];
  readonly lines: readonly Line[];
  /** Of each box the drains that it leads to, counted from 0. */
  readonly drains?: readonly (readonly number[])[];
  /** Boxes that nothing follows go to further ranks while the drawing is wider than this. */
  readonly widest: number;
  readonly beside: number;
}

/** Rooms in the drawing's unit: between tracks, before an arrow's head, beside a box's corner, between the lines of a box, between rails. */
export const room = { track: 9, head: 15, corner: 12, port: 10, stub: 9, rail: 17, least: 26, clear: 5 };
export const margin = 2;

export interface Placed {
  readonly width: number;
  /** Left edge, and the rank counted from the top. */
  readonly boxes: readonly { readonly left: number; readonly rank: number }[];
  /** Of each line, from its upper box to its lower: what it passes by rank. */
  readonly ways: readonly { readonly from: number; readonly to: number; readonly upwards: boolean; readonly between: readonly number[] }[];
  readonly ranks: number;
}

/** Each box with room for its lines beside one another. */
export function withRoom(wanted: Wanted): Wanted {
  return { ...wanted, sizes: wanted.sizes.map((size, box) => wideEnough(size, box, wanted)) };
}

function wideEnough({ width, height }: Size, box: number, { lines, drains = [] }: Wanted): Size {
  const ends = lines.filter(({ from, to }) => from === box || to === box).length;
  const aside = room.stub * (drains[box]?.length ?? 0);
  // A single line leaves from the middle.
  return { width: Math.max(width, room.port * (ends + 1) + aside, 2 * (aside + room.port)), height };
}

/** Pushes boxes that nothing follows down, one at a time, while the drawing is too wide and that makes it narrower. */
export function placedWithin(wanted: Wanted): Placed {
  const pushed = wanted.sizes.map(() => 0);
  const leads = new Set(wanted.lines.map(({ from }) => from));
  let best = place(wanted, pushed);
  for (let round = 0; round < wanted.sizes.length && best.width > wanted.widest; round++) {
    const crowd = Array.from({ length: best.ranks }, (_, rank) => best.boxes.flatMap((box, index) => (box.rank === rank ? [index] : [])));
    const across = (row: readonly number[]) => row.reduce((sum, index) => sum + (wanted.sizes[index]?.width ?? 0) + wanted.beside, 0);
    const full = crowd.toSorted((a, b) => across(b) - across(a))[0] ?? [];
    const leaf = full.findLast((index) => !leads.has(index) && wanted.lines.some(({ to }) => to === index));
    if (leaf === undefined) return best;
    pushed[leaf] = (pushed[leaf] ?? 0) + 1;
    const next = place(wanted, pushed);
    if (next.width >= best.width) return best;
    best = next;
  }
  return best;
}

function place({ sizes, lines, beside }: Wanted, pushed: readonly number[]): Placed {
  const graph = new Layout({ multigraph: true });
  graph.setGraph({ rankdir: "TB", nodesep: beside, edgesep: 14, ranksep: 40 });
  graph.setDefaultEdgeLabel(() => ({}));
  sizes.forEach(({ width, height }, index) => {
    graph.setNode(`${index}`, { width, height });
  });
  lines.forEach(({ from, to, weight = 1 }, index) => {
    graph.setEdge(`${from}`, `${to}`, { weight, minlen: 1 + (pushed[to] ?? 0) }, `${index}`);
  });
  layout(graph);
  const at = sizes.map((_, index) => graph.node(`${index}`) as { x: number; y: number });
  const levels = [...new Set(at.map(({ y }) => Math.round(y)))].toSorted((a, b) => a - b);
  const boxes = at.map(({ x, y }, index) => ({ left: x - (sizes[index]?.width ?? 0) / 2, rank: levels.indexOf(Math.round(y)) }));
  const ways = lines.map(({ from, to }, index) => {
    const { points } = graph.edge({ v: `${from}`, w: `${to}`, name: `${index}` }) as { points: readonly { x: number; y: number }[] };
    const upwards = (boxes[from]?.rank ?? 0) > (boxes[to]?.rank ?? 0);
    const [upper, lower] = upwards ? [to, from] : [from, to];
    const passed = levels.slice((boxes[upper]?.rank ?? 0) + 1, boxes[lower]?.rank);
    const between = passed.map((level) => points.toSorted((a, b) => Math.abs(a.y - level) - Math.abs(b.y - level))[0]?.x ?? 0);
    return { from: upper, to: lower, upwards, between };
  });
  return shifted({ boxes, ways, ranks: levels.length }, sizes);
}

/** Dagre measures the boxes alone: lines that run outside them are drawn too. */
function shifted({ boxes, ways, ranks }: Omit<Placed, "width">, sizes: readonly Size[]): Placed {
  const passed = ways.flatMap(({ between }) => between);
  const shift = margin - Math.min(...boxes.map(({ left }) => left), ...passed);
  const right = Math.max(...boxes.map(({ left }, index) => left + (sizes[index]?.width ?? 0)), ...passed);
  return {
    width: right + shift + margin,
    boxes: boxes.map(({ left, rank }) => ({ left: left + shift, rank })),
    ways: ways.map((way) => ({ ...way, between: way.between.map((x) => x + shift) })),
    ranks,
  };
}
