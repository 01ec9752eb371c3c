/** Bounds of a share found by sampling: the score interval, E. B. Wilson, J. Am. Stat. Assoc. 22, 1927, 209-212. */

/** One-sided 95 % of the standard normal. */
const z = 1.6448536269514722;

/** Lower one-sided 95 % bound of the share of which `count` among `total` draws were seen. */
export function lowerBound(count: number, total: number): number {
  if (total === 0) return 0;
  const p = count / total;
  const square = (z * z) / total;
  const centre = p + square / 2;
  const spread = z * Math.sqrt((p * (1 - p)) / total + square / (4 * total));
  return Math.max(0, (centre - spread) / (1 + square));
}

/** Upper one-sided 95 % bound of that share. */
export function upperBound(count: number, total: number): number {
  return 1 - lowerBound(total - count, total);
}

/** The least count among `total` whose lower bound reaches `share`; more than `total` where none does. */
export function leastCount(total: number, share: number): number {
  let low = 0;
  let high = total + 1;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (middle <= total && lowerBound(middle, total) < share) low = middle + 1;
    else high = middle;
  }
  return low;
}
