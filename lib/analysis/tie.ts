/** Givens of which one determines the others: they move together between their limits. */
import type { GivenNode } from "../graph/node";
import { nominalPart } from "./distribution";
import { correlatedGroups, scoreCorrelation } from "./shared";

export interface Tied {
  /** One of each set that moves together, and all that move alone. */
  readonly leaders: readonly GivenNode[];
  /** Parts of the way of every given from those of the leaders. */
  readonly follow: (parts: readonly Float64Array[]) => readonly Float64Array[];
}

/** A correlation of scores this near to ±1 is one. */
const whole = 1 - 1e-8;

export function tie(givens: readonly GivenNode[]): Tied {
  if (correlatedGroups(givens).length === 0) return { leaders: givens, follow: (parts) => parts };
  const leaders: GivenNode[] = [];
  const followers = givens.map((given) => {
    const at = leaders.findIndex((leader) => Math.abs(scoreCorrelation(leader, given)) >= whole);
    if (at < 0) return { at: leaders.push(given) - 1, map: (part: number) => part };
    return { at, map: partFrom(leaders[at] as GivenNode, given) };
  });
  return { leaders, follow: (parts) => followers.map(({ at, map }) => (parts[at] as Float64Array).map(map)) };
}

/** Ends go with ends and nominal with nominal, straight between; turned round for a coefficient of −1. */
function partFrom(leader: GivenNode, given: GivenNode): (part: number) => number {
  const from = nominalPart(leader);
  const own = nominalPart(given);
  const opposite = scoreCorrelation(leader, given) < 0;
  const to = opposite ? 1 - own : own;
  return (part) => {
    if (part === 0 || part === 1) return opposite ? 1 - part : part;
    const moved = part <= from ? (part / from) * to : to + ((part - from) / (1 - from)) * (1 - to);
    return opposite ? 1 - moved : moved;
  };
}
