/**
 * The extremes of a law over the unit cube. What is tried, each within a stated budget of operations (never of time, so that the same
 * is found on every machine):
 *
 * 1. all 2^d corners where they fit the budget; where the law is shown to go one way along every input, that is exact and all;
 * 2. where they do not fit: climbs from corner to corner by single flips and pairs, from the corner towards which the values rise at
 *    the nominal, from those towards which they rise with each input at each of its ends, and from corners spread over the box;
 * 3. points of a low-discrepancy sequence, points on lines through the nominal, and each input moved to its ends from some of them;
 * 4. climbs (`climb.ts`) from the best of all these, from where a guide (a value inside the law, `guides.ts`) is at its extremes or
 *    passes through zero, and from the sequence, until the stopping rule of multistart is met: no more extremes are to be expected
 *    than were found (C. G. E. Boender and A. H. G. Rinnooy Kan, Math. Programming 37 (1987) 59; Rinnooy Kan and Timmer, Global
 *    Optimization, in Handbooks in OR & MS vol. 1, 1989);
 * 5. whole lines through the best, along each input, finer where the values turn round often; and climbs from their peaks.
 *
 * Apart from 1 this is no proof: what gives cause for doubt is told with each extreme.
 */
import { alongKinks } from "./along-kinks";
import { type Climbed, type ClimbOptions, climb } from "./climb";
import { cornerStarts } from "./corner-starts";
import { bestCorners } from "./corners";
import { doubtsOf } from "./doubt";
import { guidedStarts } from "./guided-starts";
import { followLines } from "./lines";
import { type Law, Objective } from "./objective";
import { Optima } from "./optima";
import { type At, bestIndex, distance, type Found, isBetter, Points, sequence } from "./points";
import { type Sample, type SampleSize, settled, spanOf, takeSample } from "./sample";

export interface SearchOptions {
  /** Operations that all corners may cost (rows, where models are called), and their number of inputs at most. */
  readonly cornerBudget: number;
  readonly corners: number;
  /** Operations that the climbs towards one extreme may cost (rows, where models are called). */
  readonly budget: number;
  readonly sample: SampleSize;
  readonly climb: Pick<ClimbOptions, "rounds" | "steps" | "directions" | "pairs">;
  /** Climbs from the best points; from guides. */
  readonly best: number;
  readonly guided: number;
  /** Climbs from the sequence: at least and at most. */
  readonly spread: readonly [number, number];
  /** Leading places through which lines are drawn; points on each line; where the values turn round often. */
  readonly line: number;
  readonly lines: readonly [number, number];
}

export interface Extreme extends Found {
  /** Whether it lies between the limits of an input. */
  readonly inside: boolean;
  /** In words, why a better one may have been missed. */
  readonly doubts: readonly string[];
}

export interface Extremes {
  readonly low: Extreme;
  readonly high: Extreme;
  readonly tried: number;
  /** Points without a value. */
  readonly failed: number;
  /** Whether they are shown to be the extremes, and nothing lies beyond. */
  readonly isProved: boolean;
}

/** A line through the nominal that turns round more often than so wants finer lines. */
const often = 6;

/**
 * `nominal` is a point of the cube. `ways`: of each coordinate the way that the law is known to go along it, 1 or −1, anything else
 * where it is not. `near`: the extremes of a law that is nearly the same, from which alone it is then climbed.
 */
export function findExtremes(law: Law, nominal: At, options: SearchOptions, ways: Int8Array, near?: readonly [At, At]): Extremes {
  const { extreme, ...counts } = search(law, nominal, options, ways, near);
  return { ...counts, low: extreme(-1), high: extreme(1) };
}

/** The highest value (sign 1) or the lowest alone. */
export function findExtreme(
  law: Law,
  nominal: At,
  options: SearchOptions,
  sign: 1 | -1,
  near?: At,
): Omit<Extremes, "low" | "high"> & { readonly extreme: Extreme } {
  const { extreme, ...counts } = search(law, nominal, options, new Int8Array(nominal.length), near && [near, near]);
  return { ...counts, extreme: extreme(sign) };
}

interface Search extends Omit<Extremes, "low" | "high"> {
  readonly extreme: (sign: 1 | -1) => Extreme;
}

function search(law: Law, nominal: At, options: SearchOptions, ways: Int8Array, near: readonly [At, At] | undefined): Search {
  const objective = new Objective(law);
  const d = objective.dimensions;
  if (near !== undefined) return searchNear(objective, nominal, options, near);
  const rows = 1 << d;
  const all =
    d <= options.corners && rows * (objective.isCostly ? 1 : objective.operations) <= options.cornerBudget
      ? objective.corners()
      : undefined;
  if (all?.areExtremes && !all.values.some(Number.isNaN)) {
    const extreme = (sign: 1 | -1): Extreme => ({ ...(bestCorners(all.values, d, sign, 1)[0] as Found), inside: false, doubts: [] });
    return { extreme, tried: objective.tried, failed: objective.failed, isProved: true };
  }
  const sample = takeSample(objective, nominal, options.sample, ways);
  const { tried, failed } = objective;
  const span = Math.max(spanOf(sample.values, sample.points.n), all === undefined ? 0 : spanOf(all.values, rows));
  const extreme = (sign: 1 | -1): Extreme => new Ascent(objective, options, nominal, sample, all?.values, span, sign).find();
  return { extreme, tried, failed, isProved: false };
}

/** The search for the highest (sign 1) or the lowest (−1) value. */
class Ascent {
  readonly #objective: Objective;
  readonly #options: SearchOptions;
  readonly #nominal: At;
  readonly #sample: Sample;
  readonly #corners: Float64Array | undefined;
  readonly #span: number;
  readonly #sign: 1 | -1;
  readonly #limit: number;
  readonly #free: Uint8Array;
  readonly #all: Uint8Array;
  readonly #optima: Optima;
  readonly #along: ClimbOptions["along"];

  constructor(
    objective: Objective,
    options: SearchOptions,
    nominal: At,
    sample: Sample,
    corners: Float64Array | undefined,
    span: number,
    sign: 1 | -1,
  ) {
    this.#objective = objective;
    this.#options = options;
    this.#nominal = nominal;
    this.#sample = sample;
    this.#corners = corners;
    this.#span = span;
    this.#sign = sign;
    this.#limit = objective.spent + options.budget;
    this.#free = Uint8Array.from(sample.trend, (trend) => (trend === 0 ? 1 : 0));
    this.#all = new Uint8Array(nominal.length).fill(1);
    this.#along = alongKinks(objective, sample);
    this.#optima = new Optima(sign, span, corners !== undefined);
  }

  readonly #mayGoOn = (): boolean => this.#objective.spent < this.#limit;

  find(): Extreme {
    const sign = this.#sign;
    for (const start of this.#cornerStarts()) this.#climbFrom(start, this.#free);
    // Before climbs that would spend the budget on one of many periods each.
    if (this.#sample.turns > often) this.#lines(1);
    for (const start of this.#bestOfSample(this.#options.best)) this.#climbFrom(start, this.#free);
    const guided = guidedStarts(this.#objective, this.#sample, this.#options, sign, this.#mayGoOn);
    for (const start of guided) this.#climbFrom(start, this.#objective.isCostly ? this.#free : this.#all);
    this.#lines(this.#options.line);
    const before = this.#optima.best;
    this.#spread();
    if (isBetter(this.#optima.best, before, sign)) this.#lines(1);
    this.#climbFrom(this.#optima.best, this.#all);
    const best = snapped(this.#objective, this.#optima.best, sign, this.#span);
    const inside = best.at.some((t) => t > 0 && t < 1);
    const doubts = doubtsOf(this.#objective, this.#sample, this.#optima, guided, best, this.#span, sign, !this.#mayGoOn());
    return { ...best, inside, doubts };
  }

  #climbFrom(start: Found, free: Uint8Array): void {
    this.#optima.add(this.#climb(start, free));
  }

  #climb(start: Found, free: Uint8Array): Climbed {
    const options = { ...this.#options.climb, free, along: this.#along, mayGoOn: this.#mayGoOn };
    return climb(this.#objective.values, start, this.#sign, this.#span, options, this.#optima.list);
  }

  /** Lines through the leading places and the nominal, and a climb from where each ends. */
  #lines(places: number): void {
    if (!this.#free.includes(1)) return;
    const { values } = this.#objective;
    const { lines } = this.#options;
    const count = lines[this.#sample.turns > often ? 1 : 0];
    for (const start of [...this.#optima.leading(places), { at: this.#nominal, value: this.#sample.values[0] as number }]) {
      this.#climbFrom(followLines(values, start, this.#free, count, this.#sign, this.#mayGoOn), this.#free);
    }
  }

  #cornerStarts(): Found[] {
    if (this.#corners !== undefined) return bestCorners(this.#corners, this.#nominal.length, this.#sign, this.#free.includes(1) ? 6 : 1);
    return cornerStarts(this.#objective, this.#nominal, this.#sample.trend, this.#sign, this.#mayGoOn);
  }

  /** The best points of the sample, and the best of those far from it and from one another. */
  #bestOfSample(count: number): Found[] {
    const { points, values } = this.#sample;
    const order = Array.from(values.keys())
      .filter((i) => !Number.isNaN(values[i] as number))
      .sort((i, j) => this.#sign * ((values[j] as number) - (values[i] as number)) || i - j);
    const starts: Found[] = [];
    for (const i of order) {
      if (starts.length >= count) break;
      const start = { value: values[i] as number, at: points.at(i) };
      if (starts.every(({ at }) => distance(at, start.at) > 0.25)) starts.push(start);
    }
    return starts;
  }

  /** Climbs from points spread evenly, until no more extremes are expected. Inputs along which values go one way start at their end. */
  #spread(): void {
    if (!this.#free.includes(1)) return;
    const d = this.#nominal.length;
    const at = sequence(d);
    const [least, most] = this.#options.spread;
    for (let i = 0; i < most; i++) {
      if (!this.#mayGoOn() || (i >= least && this.#optima.isComplete)) return;
      const place = settled(at(this.#options.sample.points + i), this.#sample.trend, this.#sign);
      const points = new Points(d, 1);
      points.add(place);
      const value = this.#objective.values(points)[0] as number;
      this.#optima.addSpread(this.#climb({ at: place, value }, this.#free));
    }
  }
}

/** Coordinates that do not matter are put at a limit, so that an extreme is called inside only where it is. */
function snapped(objective: Objective, found: Found, sign: 1 | -1, span: number): Found {
  let best = found;
  for (let k = 0; k < found.at.length; k++) {
    const t = best.at[k] as number;
    if (t <= 0 || t >= 1) continue;
    const points = new Points(found.at.length, 2);
    for (const end of [0, 1]) points.addMoved(best.at, k, end);
    const values = objective.values(points);
    const i = bestIndex(values, 2, sign);
    const value = values[i] as number;
    if (value * sign >= best.value * sign - 1e-9 * span) best = { value, at: points.at(i) };
  }
  return best;
}

/** Climbs from the extremes of a law close by, and from the best point on a line through the nominal. */
function searchNear(objective: Objective, nominal: At, options: SearchOptions, near: readonly [At, At]): Search {
  const sample = takeSample(objective, nominal, { points: 0, line: 9, bases: 1 }, new Int8Array(nominal.length));
  const span = spanOf(sample.values, sample.points.n);
  const { tried, failed } = objective;
  const all = new Uint8Array(nominal.length).fill(1);
  const extreme = (sign: 1 | -1): Extreme => {
    const at = near[sign === -1 ? 0 : 1];
    const points = new Points(nominal.length, 1);
    points.add(at);
    const start = { at, value: objective.values(points)[0] as number };
    const i = bestIndex(sample.values, sample.points.n, sign);
    const other = { at: sample.points.at(i), value: sample.values[i] as number };
    const { directions: _, ...rest } = options.climb;
    const up = (from: Found): Found =>
      climb(objective.values, from, sign, span, { ...rest, directions: 0, pairs: 0, free: all, mayGoOn: () => true });
    const first = up(start);
    const best = snapped(objective, isBetter(other, first, sign) ? up(other) : first, sign, span);
    return { ...best, inside: best.at.some((t) => t > 0 && t < 1), doubts: [] };
  };
  return { extreme, tried, failed, isProved: false };
}
