/**
 * Boxes in ranks from top to bottom, with right-angled lines. Which box stands where in its rank is dagre's; the lines are laid here: past
 * a rank they run straight down beside its boxes, sideways only in the gaps between ranks, so that no line crosses a box.
 *
 * A drain is a common return such as a ground, to which many boxes lead: drawn as a rail, a vertical line at the right past all ranks, which
 * each box joins by a line in the gap below it.
 */
import type { Box, Corner, Size } from "./boxes";
import { passesOf } from "./passes";
import { margin, type Placed, placedWithin, room, type Wanted, withRoom } from "./placing";
import { isStraight, type Passage, tracksOf } from "./tracks";

export interface Ranked extends Size {
  readonly boxes: readonly Box[];
  /** Of each line, from box to box. */
  readonly corners: readonly (readonly Corner[])[];
  /** By drain: its place across, and the lines to it, each ending on the rail. */
  readonly rails: readonly Rail[];
}

interface Rail {
  readonly x: number;
  /** The highest line that joins it; undefined where none does. */
  readonly top?: number;
  readonly stubs: readonly (readonly Corner[])[];
}

export function inRanks(asked: Wanted): Ranked {
  const wanted = withRoom(asked);
  return drawn(placedWithin(wanted), wanted);
}

interface Gap {
  readonly passages: readonly (Passage & { readonly way: number })[];
  /** By drain the places from which boxes lead to it; only those that are led to. */
  readonly stubs: readonly { readonly drain: number; readonly from: readonly { readonly box: number; readonly x: number }[] }[];
}

function gapsOf(placed: Placed, wanted: Wanted, across: readonly (readonly number[])[]): Gap[] {
  const { drains = [], sizes } = wanted;
  return Array.from({ length: placed.ranks }, (_, rank) => {
    const passages = placed.ways.flatMap(({ from }, way) => {
      const at = rank - (placed.boxes[from]?.rank ?? 0);
      const [above, below] = [across[way]?.[at], across[way]?.[at + 1]];
      return at < 0 || above === undefined || below === undefined ? [] : [{ way, above, below }];
    });
    const stubs = new Map<number, { box: number; x: number }[]>();
    placed.boxes.forEach(({ left, rank: own }, box) => {
      if (own !== rank) return;
      (drains[box] ?? []).forEach((drain, index) => {
        const x = left + (sizes[box]?.width ?? 0) - room.stub * (index + 1);
        stubs.set(drain, [...(stubs.get(drain) ?? []), { box, x }]);
      });
    });
    const leftmost = (from: readonly { x: number }[]) => Math.min(...from.map(({ x }) => x));
    const sorted = [...stubs].toSorted(([, a], [, b]) => leftmost(b) - leftmost(a));
    return { passages, stubs: sorted.map(([drain, from]) => ({ drain, from })) };
  });
}

function drawn(placed: Placed, wanted: Wanted): Ranked {
  const { sizes, drains = [] } = wanted;
  const across = passesOf(placed, wanted);
  const gaps = gapsOf(placed, wanted, across);
  const count = Math.max(0, ...drains.flat().map((drain) => drain + 1));
  const width = Math.ceil(placed.width + (count === 0 ? 0 : room.rail * (count + 1)));
  const railX = (drain: number) => width - margin - 6 - room.rail * (count - 1 - drain);
  const boxes: Box[] = sizes.map(({ width: w, height }, box) => [round(placed.boxes[box]?.left ?? 0), 0, w, height]);
  const corners: Corner[][] = placed.ways.map(() => []);
  const stubs: Corner[][][] = Array.from({ length: count }, () => []);
  let top = margin;
  gaps.forEach((gap, rank) => {
    const inRank = boxes.flatMap((_, box) => (placed.boxes[box]?.rank === rank ? [box] : []));
    const tall = Math.max(...inRank.map((box) => sizes[box]?.height ?? 0));
    for (const box of inRank) (boxes[box] as [number, number, number, number])[1] = round(top + (tall - (sizes[box]?.height ?? 0)) / 2);
    const foot = (box: number) => (boxes[box]?.[1] ?? 0) + (sizes[box]?.height ?? 0);
    const floor = top + tall;
    gap.stubs.forEach(({ drain, from }, index) => {
      const y = floor + room.track * (index + 1);
      for (const { box, x } of from) stubs[drain]?.push([corner(x, foot(box)), corner(x, y), corner(railX(drain), y)]);
    });
    const tracks = tracksOf(gap.passages);
    const first = floor + room.track * (gap.stubs.length + 1);
    gap.passages.forEach((passage, index) => {
      const y = first + room.track * (tracks[index] ?? 0);
      if (!isStraight(passage)) corners[passage.way]?.push(corner(passage.above, y), corner(passage.below, y));
    });
    const used = gap.stubs.length + Math.max(0, ...tracks.map((track) => (track ?? -1) + 1));
    top = floor + (rank === gaps.length - 1 ? room.track * gap.stubs.length + margin : Math.max(room.least, room.track * used + room.head));
  });
  placed.ways.forEach(({ from, to, upwards }, way) => {
    const [upper, lower] = [boxes[from] as Box, boxes[to] as Box];
    const line = corners[way] as Corner[];
    line.unshift(corner(across[way]?.[0] ?? 0, upper[1] + upper[3]));
    line.push(corner(across[way]?.at(-1) ?? 0, lower[1]));
    if (upwards) line.reverse();
  });
  const rails = stubs.map((lines, drain) => ({
    x: round(railX(drain)),
    stubs: lines,
    ...(lines.length > 0 && { top: Math.min(...lines.map((line) => line.at(-1)?.[1] ?? 0)) }),
  }));
  return { width, height: Math.ceil(top), boxes, corners, rails };
}

const corner = (x: number, y: number): Corner => [round(x), round(y)];

function round(value: number): number {
  return Math.round(value * 10) / 10;
}
