/**
 * Tracks of one gap between two ranks of boxes. A line comes in from above at one place and leaves below at another; sideways it runs in
 * a track. Tracks are ordered so that lines cross seldom, and no two lines lie on one another.
 */

/** From where a line enters the gap to where it leaves it. */
export interface Passage {
  readonly above: number;
  readonly below: number;
}

/** Verticals closer than this would touch. */
const near = 5;
/** Horizontals in one track are this far apart at least. */
const apart = 10;
/** More than all crossings that a gap can have. */
const overlaid = 1000;

export const isStraight = ({ above, below }: Passage) => Math.abs(above - below) < 0.5;

/** The track of each passage, counted from 0 downwards; undefined for one that goes straight. */
export function tracksOf(passages: readonly Passage[]): (number | undefined)[] {
  const order = ordered(
    passages.flatMap((passage, index) => (isStraight(passage) ? [] : [index])),
    passages,
  );
  const tracks: (number | undefined)[] = passages.map(() => undefined);
  for (const index of order) {
    const passage = passages[index] as Passage;
    const before = order.slice(0, order.indexOf(index)).filter((other) => touches(passages[other] as Passage, passage));
    tracks[index] = Math.max(-1, ...before.map((other) => tracks[other] ?? -1)) + 1;
  }
  return tracks;
}

/** From the top: always the one that costs least above what is left, compared with below it. */
function ordered(wanted: readonly number[], passages: readonly Passage[]): number[] {
  const left = wanted.toSorted((a, b) => (passages[a] as Passage).above - (passages[b] as Passage).above);
  const order: number[] = [];
  while (left.length > 0) {
    const costs = left.map((one) =>
      left.reduce((sum, other) => {
        const [a, b] = [passages[one] as Passage, passages[other] as Passage];
        return one === other ? sum : sum + cost(a, b) - Math.min(cost(b, a), overlaid - 1);
      }, 0),
    );
    order.push(...left.splice(costs.indexOf(Math.min(...costs)), 1));
  }
  return order;
}

/** Crossings of two lines, the first of them in the upper track; lines that would lie on one another count as many. */
function cost(upper: Passage, lower: Passage): number {
  const crosses = (x: number, { above, below }: Passage) => x > Math.min(above, below) && x < Math.max(above, below);
  const lies = Math.abs(upper.below - lower.above) < near ? overlaid : 0;
  return lies + (crosses(lower.above, upper) ? 1 : 0) + (crosses(upper.below, lower) ? 1 : 0);
}

function touches(a: Passage, b: Passage): boolean {
  const [low, high] = [
    Math.max(Math.min(a.above, a.below), Math.min(b.above, b.below)),
    Math.min(Math.max(a.above, a.below), Math.max(b.above, b.below)),
  ];
  return low - high < apart;
}
