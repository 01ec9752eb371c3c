/** Where lines pass the ranks of a drawing: at the edges of their own boxes, and beside the boxes of the ranks between. */
import { type Placed, room, type Wanted } from "./placing";
import { isStraight, type Passage } from "./tracks";

/** Of every line where it passes each rank, the edges of its boxes included. */
export function passesOf(placed: Placed, wanted: Wanted): number[][] {
  const { boxes, ways } = placed;
  const { sizes, drains = [] } = wanted;
  const middle = (box: number) => (boxes[box]?.left ?? 0) + (sizes[box]?.width ?? 0) / 2;
  const passes = ways.map(({ from, to, between }) => [middle(from), ...between, middle(to)]);
  const ends = boxes.map(() => ({ above: [] as number[], below: [] as number[] }));
  ways.forEach(({ from, to }, way) => {
    ends[from]?.below.push(way);
    ends[to]?.above.push(way);
  });
  const right = (box: number, side: "above" | "below") =>
    (sizes[box]?.width ?? 0) - (side === "below" ? room.stub * (drains[box]?.length ?? 0) : 0);
  ends.forEach((end, box) => {
    for (const side of ["above", "below"] as const) {
      const neighbour = (way: number) => passes[way]?.at(side === "above" ? -2 : 1) ?? 0;
      const sorted = end[side].toSorted((a, b) => neighbour(a) - neighbour(b) || a - b);
      if (sorted.length < 2) continue;
      sorted.forEach((way, index) => {
        const x = (boxes[box]?.left ?? 0) + (right(box, side) * (index + 1)) / (sorted.length + 1);
        (passes[way] as number[])[side === "above" ? (passes[way]?.length ?? 1) - 1 : 0] = x;
      });
    }
  });
  // A line that has a side of its box for itself slides along it, to go straight on.
  ends.forEach((end, box) => {
    for (const side of ["above", "below"] as const) {
      const [way, ...others] = end[side];
      const pass = way === undefined ? undefined : passes[way];
      if (pass === undefined || others.length > 0) continue;
      const next = pass.at(side === "above" ? -2 : 1) ?? 0;
      const left = boxes[box]?.left ?? 0;
      if (next < left + room.corner || next > left + right(box, side) - room.corner) continue;
      pass[side === "above" ? pass.length - 1 : 0] = next;
    }
  });
  separate(passes, placed, wanted);
  return passes.map(straightened);
}

/** Where one line leaves a rank straight above the place where another comes to the next one, the latter is moved aside. */
function separate(passes: readonly number[][], { boxes, ways, ranks }: Placed, { sizes }: Wanted): void {
  for (let rank = 0; rank + 1 < ranks; rank++) {
    const here = ways.flatMap(({ from }, way) => {
      const [at, pass] = [rank - (boxes[from]?.rank ?? 0), passes[way] as number[]];
      return at >= 0 && at + 1 < pass.length ? [{ way, at, pass }] : [];
    });
    for (const one of here) {
      for (const other of here) {
        const [above, below] = [one.pass[one.at] ?? 0, other.pass[other.at + 1] ?? 0];
        if (one.way === other.way || Math.abs(above - below) >= room.clear) continue;
        const isOrdered =
          !isStraight(passage(one)) &&
          !isStraight(passage(other)) &&
          Math.abs((other.pass[other.at] ?? 0) - (one.pass[one.at + 1] ?? 0)) >= room.clear;
        if (isOrdered) continue;
        const box = ways[other.way]?.to ?? 0;
        const middle = (boxes[box]?.left ?? 0) + (sizes[box]?.width ?? 0) / 2;
        other.pass[other.at + 1] = above + (other.at + 2 < other.pass.length || below < middle ? room.clear : -room.clear);
      }
    }
  }
}

const passage = ({ at, pass }: { readonly at: number; readonly pass: readonly number[] }): Passage => ({
  above: pass[at] ?? 0,
  below: pass[at + 1] ?? 0,
});

/** What is not quite straight is rounding. */
function straightened(pass: readonly number[]): number[] {
  const straight: number[] = [];
  for (const x of pass) {
    const last = straight.at(-1);
    straight.push(last !== undefined && Math.abs(x - last) < 1 ? last : x);
  }
  return straight;
}
