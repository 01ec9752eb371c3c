/**
 * The root of an increasing function between two bounds, by straight lines between them (regula falsi with the Illinois
 * rule: the value at a bound that stays is halved), which needs some ten values for what halving needs fifty; by halving
 * where the function is too flat or too steep for that.
 */
import { WorkingsError } from "../../quantity/error";

/** Rounds by lines, then rounds in all: sixty halvings reach the last place from any bracket. */
const [byLines, mostSteps] = [40, 100];
/** Some units in the last place. */
const fineness = 4 * Number.EPSILON;

/**
 * x with f(x) = 0 between `low` and `high`, f increasing, to some units in the last place of the larger bound. Throws
 * "not-finite" where f does not change its sign between them, with `what` saying what was looked for.
 */
export function increasingRoot(f: (x: number) => number, low: number, high: number, what: string): number {
  let [a, b] = [low, high];
  let [atA, atB] = [f(a), f(b)];
  if (!(atA <= 0 && atB >= 0)) {
    throw new WorkingsError("not-finite", `there is no ${what} between ${low} and ${high} (SI): the balance is ${atA} and ${atB} there`);
  }
  if (atA === 0) return a;
  if (atB === 0) return b;
  const step = fineness * Math.max(Math.abs(a), Math.abs(b));
  let side = 0;
  for (let round = 0; round < mostSteps && b - a > 2 * step; round++) {
    // A line that ends at a bound would stay there: a small step past the root closes the bracket from the other side
    const meet = round < byLines ? (a * atB - b * atA) / (atB - atA) : (a + b) / 2;
    const x = Math.min(Math.max(meet, a + step), b - step);
    const y = f(x);
    if (y === 0) return x;
    if (y < 0) {
      [a, atA] = [x, y];
      if (side < 0) atB /= 2;
      side = -1;
    } else {
      [b, atB] = [x, y];
      if (side > 0) atA /= 2;
      side = 1;
    }
  }
  return (a + b) / 2;
}
