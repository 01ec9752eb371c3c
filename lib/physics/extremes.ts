/** Extremes of a smooth function of frequency: where a list of points shows one, then to the golden section. */

export interface Extreme {
  readonly x: number;
  readonly y: number;
  /** −1 for a minimum, 1 for a maximum. */
  readonly sign: -1 | 1;
}

const golden = (Math.sqrt(5) - 1) / 2;
const rounds = 40;

/** Minima and maxima between the first and the last of `points` (increasing), as far as the points show them. */
export function extremesOf(f: (x: number) => number, points: ArrayLike<number>): Extreme[] {
  const values = Array.from(points, f);
  const found: Extreme[] = [];
  for (let i = 1; i + 1 < points.length; i++) {
    const [before, here, after] = [values[i - 1] as number, values[i] as number, values[i + 1] as number];
    const sign = here < before && here <= after ? -1 : here > before && here >= after ? 1 : 0;
    if (sign !== 0) found.push(refined(f, points[i - 1] as number, points[i + 1] as number, sign));
  }
  return found;
}

/** The extreme of that sign between `from` and `to`, by the golden section. */
export function refined(f: (x: number) => number, from: number, to: number, sign: -1 | 1): Extreme {
  let [low, high] = [from, to];
  let [left, right] = [high - golden * (high - low), low + golden * (high - low)];
  let [atLeft, atRight] = [sign * f(left), sign * f(right)];
  for (let round = 0; round < rounds; round++) {
    if (atLeft > atRight) {
      [high, right, atRight] = [right, left, atLeft];
      left = high - golden * (high - low);
      atLeft = sign * f(left);
    } else {
      [low, left, atLeft] = [left, right, atRight];
      right = low + golden * (high - low);
      atRight = sign * f(right);
    }
  }
  return atLeft > atRight ? { x: left, y: sign * atLeft, sign } : { x: right, y: sign * atRight, sign };
}
