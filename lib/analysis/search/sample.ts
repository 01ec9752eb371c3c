/** What a search knows before it climbs: values at points spread over the box, and along which inputs they go one way. */
import type { Objective } from "./objective";
import { type At, Points, sequence } from "./points";

export interface SampleSize {
  /** Points of the low-discrepancy sequence. */
  readonly points: number;
  /** Points along each line through the nominal, ends included. */
  readonly line: number;
  /** Points, the nominal among them, from which each input is moved to both its ends. */
  readonly bases: number;
}

export interface Sample {
  readonly points: Points;
  readonly values: Float64Array;
  /** A column of each guide. */
  readonly guides: readonly Float64Array[];
  /** Of each coordinate 1 where the values only rise along it, −1 where they only fall, 0 where they do both, or nothing is seen. */
  readonly trend: Int8Array;
  /** How often a line through the nominal turns round, at most. */
  readonly turns: number;
}

/** `ways`: 1 or −1 along the coordinates of which it is known how values go; anything else where the sample has to tell. */
export function takeSample(objective: Objective, nominal: At, { points: count, line, bases }: SampleSize, ways: Int8Array): Sample {
  const d = objective.dimensions;
  const points = new Points(d, 1 + count + d * (line + 2 * bases));
  const at = sequence(d);
  points.add(nominal);
  for (let i = 0; i < count; i++) points.add(at(i));
  const firstLine = points.n;
  for (let k = 0; k < d; k++) for (let i = 0; i < line; i++) points.addMoved(nominal, k, i / (line - 1));
  const firstEnd = points.n;
  for (let base = 0; base < bases; base++) {
    for (let k = 0; k < d; k++) for (const end of [0, 1]) points.addMoved(base === 0 ? nominal : at(base - 1), k, end);
  }
  const { values, guides } = objective.evaluateGuided(points.columns, points.n);
  const tolerance = 1e-12 * spanOf(values, points.n);
  const trends = Array.from({ length: d }, () => new Trend(tolerance));
  let turns = 0;
  for (let k = 0; k < d; k++) {
    const along = new Trend(tolerance);
    for (let i = 1; i < line; i++) along.add(values[firstLine + k * line + i - 1] as number, values[firstLine + k * line + i] as number);
    turns = Math.max(turns, along.turns);
    (trends[k] as Trend).join(along);
    for (let base = 0; base < bases; base++) {
      const low = firstEnd + 2 * (base * d + k);
      (trends[k] as Trend).add(values[low] as number, values[base] as number);
      (trends[k] as Trend).add(values[base] as number, values[low + 1] as number);
    }
  }
  const trend = Int8Array.from(trends, ({ sign }, k) => (Math.abs(ways[k] as number) === 1 ? (ways[k] as number) : sign));
  return { points, values, guides, trend, turns };
}

class Trend {
  turns = 0;
  readonly #tolerance: number;
  #rises = false;
  #falls = false;
  #last = 0;
  #hasGap = false;

  constructor(tolerance: number) {
    this.#tolerance = tolerance;
  }

  get sign(): number {
    return this.#hasGap || this.#rises === this.#falls ? 0 : this.#rises ? 1 : -1;
  }

  add(from: number, to: number): void {
    const change = to - from;
    if (Number.isNaN(change)) this.#hasGap = true;
    else if (change > this.#tolerance) this.#step(1);
    else if (change < -this.#tolerance) this.#step(-1);
  }

  join(other: Trend): void {
    this.#rises ||= other.#rises;
    this.#falls ||= other.#falls;
    this.#hasGap ||= other.#hasGap;
  }

  #step(sign: 1 | -1): void {
    if (sign > 0) this.#rises = true;
    else this.#falls = true;
    if (this.#last === -sign) this.turns++;
    this.#last = sign;
  }
}

export function spanOf(values: Float64Array, n: number): number {
  let low = Infinity;
  let high = -Infinity;
  for (let i = 0; i < n; i++) {
    const value = values[i] as number;
    if (value < low) low = value;
    if (value > high) high = value;
  }
  return high > low ? high - low : Number.MIN_VALUE;
}

/** A point with those inputs along which values go one way at the end towards which they rise (fall, for sign −1). */
export function settled(at: At, trend: Int8Array, sign: 1 | -1): At {
  return at.map((t, k) => (trend[k] === 0 ? t : (trend[k] as number) * sign > 0 ? 1 : 0));
}
