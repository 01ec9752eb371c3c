/** The last row of the block diagram: the returns beside one another, each below the rail that leads to it, and what joins two of them. */
import type { BlockRow } from "../../design/types";
import type { Box, Corner, Size } from "../drawing/boxes";
import type { Ranked } from "../drawing/ranks";

export interface ReturnRow extends Size {
  /** In the order of the returns. */
  readonly boxes: readonly Box[];
  readonly lines: readonly (readonly Corner[])[];
  /** Where lines meet on a rail. */
  readonly joints: readonly Corner[];
}

const track = 9;
const least = 20;
const most = 60;
const margin = 2;

/** Lays the row below what is ranked; `height` is that of both, `width` what both need. */
export function returnRow(returns: readonly Pick<BlockRow, "id" | "return">[], sizes: readonly Size[], above: Ranked): ReturnRow {
  if (returns.length === 0) return { width: above.width, height: above.height, boxes: [], lines: [], joints: [] };
  const needed = sizes.reduce((sum, size) => sum + size.width, 0);
  const gaps = Math.max(1, returns.length - 1);
  const gap = Math.max(least, Math.min(most, (above.width - 2 * margin - needed) / gaps));
  const width = Math.max(above.width, needed + gap * (returns.length - 1) + 2 * margin);
  const shift = width - above.width;
  const top = above.height + track * returns.length + 6;
  // Flush right, so that no box stands further right than its rail.
  let right = width - margin;
  const boxes = sizes
    .toReversed()
    .map((size): Box => {
      right -= size.width;
      const box: Box = [right, top, size.width, size.height];
      right -= gap;
      return box;
    })
    .toReversed();
  const rails = above.rails.map(({ x, ...rail }) => ({ ...rail, x: x + shift }));
  const stubs = rails.flatMap(({ x, stubs }) => stubs.map((line): Corner[] => [...line.slice(0, -1), [x, line.at(-1)?.[1] ?? 0]]));
  const down = boxes.flatMap((box, index): Corner[][] => {
    const { x, top: from } = rails[index] ?? { x: 0 };
    return from === undefined ? [] : [downTo(box, [x, from], above.height + track * (index + 1) - 4)];
  });
  const { beside, far } = joints(returns, boxes);
  return {
    width,
    height: top + Math.max(...sizes.map(({ height }) => height)) + (far.length === 0 ? 2 * margin : 16 + track * far.length),
    boxes,
    lines: [...stubs, ...down, ...beside, ...far],
    joints: rails.flatMap(({ x, stubs }) => [...new Set(stubs.map((line) => line.at(-1)?.[1] ?? 0))].map((y): Corner => [x, y])),
  };
}

/** From the head of a rail to the middle of the box's upper edge, or straight down where the box is below the rail. */
function downTo([left, top, width]: Box, [x, from]: Corner, at: number): Corner[] {
  const middle = left + width / 2;
  const head: Corner = [x, from];
  return x > left + width || x - middle > 1 ? [head, [x, at], [middle, at], [middle, top]] : [head, [x, top]];
}

/** Neighbours are joined from side to side, others below the row. */
function joints(returns: readonly Pick<BlockRow, "id" | "return">[], boxes: readonly Box[]) {
  const index = (id: string) => returns.findIndex((other) => other.id === id);
  const pairs = returns.flatMap((block, from) => block.return.map(index).flatMap((to) => (to < 0 ? [] : [[from, to] as const])));
  const isBeside = ([a, b]: readonly [number, number]) => Math.abs(a - b) === 1;
  const beside = pairs.filter(isBeside).map(([a, b]): Corner[] => {
    const [left, top, width, height] = boxes[Math.min(a, b)] as Box;
    const [next, , , other] = boxes[Math.max(a, b)] as Box;
    const y = top + Math.min(height, other) / 2;
    return [corner(left + width, y), corner(next, y)];
  });
  const tallest = Math.max(...boxes.map(([, top, , height]) => top + height));
  const rest = pairs.filter((pair) => !isBeside(pair));
  const far = rest.map(([a, b], count): Corner[] => {
    const foot = (box: number, aside: number): Corner => {
      const [left, top, width, height] = boxes[box] as Box;
      return corner(left + width / 2 + aside, top + height);
    };
    const [one, other] = [foot(a, 6 * (count + 1)), foot(b, -6 * (count + 1))];
    const depth = tallest + 12 + track * count;
    return [one, [one[0], depth], [other[0], depth], other];
  });
  return { beside, far };
}

const corner = (x: number, y: number): Corner => [Math.round(x * 10) / 10, Math.round(y * 10) / 10];
