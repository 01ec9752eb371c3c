/**
 * How far inside a limit a result stays for 95 % of production with 95 % confidence over what is not known. D(k) is the distance inside
 * the limit that 95 % of units keep if the truth is k, and the figure sought its 5 % quantile over k (one-sided tolerance limit: ISO
 * 16269-6 for the words; drawn, not by its tables, since what is not known is stated and not sampled).
 *
 * Drawn in independent replicates: each a block of units, the same for every truth, and a block of truths spread evenly
 * (`stratified.ts`). A surrogate sorts the truths: D as if both kinds of spread only added, S(k) = D(0) + f(k) − f(0), which costs no
 * evaluation. D itself is computed for truths about the critical rank, a line through what was computed corrects S, and it goes on until
 * no truth whose corrected S could lie on the other side of the quantile is left, or the budget is spent. The mean of the replicates is
 * the estimate, and their scatter its standard error: of the truths, and of the units.
 */
import type { BlockInput, BlockPlan } from "../graph/block";
import type { GivenNode } from "../graph/node";
import { distanceInside } from "./interval";
import { combined, hasKind } from "./kinds";
import type { Limit, RangePoint } from "./result";
import type { Sampler } from "./sampler";
import { stratifiedRows } from "./stratified";
import type { Study } from "./study";

/** 1 − 95 %: of units, and of truths. */
const tail = 0.05;

const leastReplicates = 8;
const mostReplicates = 64;

/** In additions, for one result at one range point; of a model's rows, in multiples of the draws. */
const budget = 2 ** 28;
const costlyBudget = 2;
/** Of a replicate's units, the share that is computed where a model is called. */
const costlyUnits = 1 / 2;

/** Truths nearer to the quantile than so many deviations of the corrected surrogate are computed. */
const doubtful = 4;
/** Truths computed between two looks at the correction. */
const atATime = 6;

export interface NestedShare {
  readonly at: RangePoint;
  /** The value of the unit that decides, SI. */
  readonly deciding: number;
  /** Its distance inside the limit, and the standard error of that. */
  readonly distance: number;
  readonly standardError: number;
  /** The share of units within the limit where the truth is as bad as is to be allowed for. */
  readonly share: number;
  /** How likely the truth is one with which 95 % of units keep the limit. */
  readonly confidence: number;
}

/** One truth computed: D, the share of units inside, and which limit is the nearer one for the unit that decides. */
interface Computed {
  readonly distance: number;
  readonly share: number;
  readonly isLow: boolean;
}

interface Replicate {
  readonly distance: number;
  readonly share: number;
  readonly isLow: boolean;
  readonly confidence: number;
  /** Standard deviation of the correction where the budget ended before all that is doubtful was computed; else 0. */
  readonly open: number;
}

/** At the range point where the distance is least. */
export function nestedShare(study: Study, sampler: Sampler, points: readonly RangePoint[], limit: Limit): NestedShare {
  const nested = points.map((at) => new Nested(study, sampler, at, limit));
  if (nested.length === 1) return (nested[0] as Nested).found();
  const sorted = nested.map((one) => ({ one, guess: one.guess() })).sort((a, b) => a.guess - b.guess);
  let least: NestedShare | undefined;
  let correction = 0;
  for (const { one, guess } of sorted) {
    if (least !== undefined && guess - correction > least.distance) break;
    const found = one.found();
    correction = Math.max(correction, Math.abs(found.distance - guess) + 2 * found.standardError);
    if (least === undefined || found.distance < least.distance) least = found;
  }
  return least as NestedShare;
}

class Nested {
  readonly #study: Study;
  readonly #sampler: Sampler;
  readonly #at: RangePoint;
  readonly #limit: Limit;
  /** Truths of a replicate, and units. */
  readonly #rows: number;
  readonly #units: number;
  readonly #replicates: number;
  readonly #plan: BlockPlan;

  constructor(study: Study, sampler: Sampler, at: RangePoint, limit: Limit) {
    this.#study = study;
    this.#sampler = sampler;
    this.#at = at;
    this.#limit = limit;
    const rows = sampler.rows(study);
    this.#rows = Math.max(2, Math.min(stratifiedRows, Math.floor(rows / leastReplicates)));
    this.#plan = study.program.plan(
      study.tolerances.map((given) => given.id),
      [study.id],
    );
    this.#units = this.#plan.isCostly ? Math.ceil(this.#rows * costlyUnits) : this.#rows;
    this.#replicates = Math.max(1, Math.min(mostReplicates, Math.floor(rows / this.#rows)));
  }

  /** The distance by the surrogate alone. */
  guess(): number {
    return mean(this.#each((r) => quantileOf(Float64Array.from(this.#surrogate(r)).sort(), tail)));
  }

  found(): NestedShare {
    const evaluate = this.#evaluator();
    const found = this.#each((r) => critical(this.#surrogate(r), this.#most, (truths) => evaluate(r, truths)));
    const distances = found.map(({ distance }) => distance);
    const distance = mean(distances);
    const scatter = Math.sqrt(distances.reduce((sum, d) => sum + (d - distance) ** 2, 0) / Math.max(1, distances.length - 1));
    const open = Math.max(...found.map((replicate) => replicate.open));
    // Truths that evidence has drawn anew stand for fewer than they are.
    const fewer = this.#sampler.evidence?.effectiveShare(this.#study) ?? 1;
    const isLow = 2 * found.filter((replicate) => replicate.isLow).length >= found.length;
    const { low = -Infinity, high = Infinity } = this.#limit;
    return {
      at: this.#at,
      deciding: isLow ? low + distance : high - distance,
      distance,
      standardError: Math.sqrt((scatter * scatter) / found.length / fewer + open * open),
      share: mean(found.map(({ share }) => share)),
      confidence: mean(found.map(({ confidence }) => confidence)),
    };
  }

  #each<T>(of: (replicate: number) => T): T[] {
    return Array.from({ length: this.#replicates }, (_, r) => of(r));
  }

  /** Of each truth of a replicate, D as if the two kinds only added; −Infinity where the result has no value. */
  #surrogate(r: number): Float64Array {
    const { id } = this.#study;
    const from = r * this.#rows;
    const units = this.#sampler.column(id, this.#at, "production").slice(from, from + this.#units);
    const truths = this.#sampler.column(id, this.#at, "knowledge").subarray(from, from + this.#rows);
    const nominal = this.#study.program.valueIn(this.#study.stateAt(this.#at), id) as number;
    const { low, high } = this.#limit;
    const above = low === undefined ? Infinity : worstQuantile(units, (value) => value - low);
    const below = high === undefined ? Infinity : worstQuantile(units, (value) => high - value);
    return truths.map((truth) => {
      const moved = Math.min(above + (truth - nominal), below - (truth - nominal));
      return Number.isNaN(moved) ? -Infinity : moved;
    });
  }

  get #most(): number {
    const { isCostly, operations } = this.#plan;
    const rows = isCostly ? costlyBudget * this.#sampler.rows(this.#study) : budget / Math.max(1, operations);
    return Math.max(4, Math.min(this.#rows, Math.floor(rows / (this.#units * this.#replicates))));
  }

  /** Computes truths of a replicate, by their place in it, with the units of the replicate. */
  #evaluator(): (replicate: number, truths: readonly number[]) => Computed[] {
    const { tolerances } = this.#study;
    const units = this.#units;
    const state = this.#study.stateAt(this.#at);
    const columns = tolerances.map((given) => this.#segments(given));
    return (r, truths) => {
      const from = r * this.#rows;
      const inputs = columns.map((fill) => {
        const out = new Float64Array(truths.length * units);
        truths.forEach((truth, k) => {
          fill(out, k * units, from, from + truth);
        });
        return out;
      });
      const values = this.#plan.run(state, truths.length * units, inputs)[0] as Float64Array;
      return truths.map((_, k) => computed(values.subarray(k * units, (k + 1) * units), this.#limit));
    };
  }

  /** Fills out[at..at + units) with a given's values in the units from `from` on, its truth being that of row `truth`. */
  #segments(given: GivenNode): (out: Float64Array, at: number, from: number, truth: number) => void {
    const rows = this.#units;
    const truths = hasKind(given, "knowledge") ? reader(this.#sampler.draws(given, "knowledge")) : undefined;
    const units = hasKind(given, "production") ? reader(this.#sampler.draws(given, "production")) : undefined;
    if (units === undefined) return (out, at, _, truth) => void out.fill(truths?.(truth, 1)[0] ?? given.nominal, at, at + rows);
    if (truths === undefined) return (out, at, from) => out.set(units(from, rows), at);
    const combine = combined(given);
    return (out, at, from, truth) => {
      const value = truths(truth, 1)[0] as number;
      units(from, rows).forEach((unit, i) => {
        out[at + i] = combine(unit, value);
      });
    };
  }
}

function reader(input: BlockInput): (start: number, n: number) => Float64Array {
  if (input instanceof Float64Array) return (start, n) => input.subarray(start, start + n);
  return (start, n) => {
    const out = new Float64Array(n);
    if (typeof input === "function") input(out, start, n);
    return out;
  };
}

/** The 5 % quantile of D over the truths of a replicate, D computed for at most so many of them. */
function critical(surrogate: Float64Array, most: number, compute: (truths: readonly number[]) => Computed[]): Replicate {
  const order = Array.from(surrogate.keys()).sort((a, b) => (surrogate[a] as number) - (surrogate[b] as number) || a - b);
  const known = new Map<number, Computed>();
  const learn = (truths: readonly number[]): void => {
    compute(truths).forEach((found, k) => {
      known.set(truths[k] as number, found);
    });
  };
  const { rank } = place(order.length, tail);
  learn([
    ...new Set([rank, rank + 1, Math.round(rank / 2), Math.round(1.6 * rank)].map((k) => order[clamp(k - 1, order.length)] as number)),
  ]);
  for (;;) {
    const { values, deviation } = corrected(surrogate, known);
    const sorted = Array.from(values.keys()).sort((a, b) => (values[a] as number) - (values[b] as number) || a - b);
    const { rank, part } = place(sorted.length, tail);
    const ends = [rank, rank + 1].map((k) => sorted[clamp(k - 1, sorted.length)] as number) as [number, number];
    const quantile = between(values[ends[0]] as number, values[ends[1]] as number, part);
    const away = (truth: number): number => Math.abs((values[truth] as number) - quantile);
    const asked = sorted
      .filter((truth) => !known.has(truth) && Number.isFinite(values[truth]))
      .filter((truth) => ends.includes(truth) || away(truth) <= doubtful * deviation)
      .sort((a, b) => away(a) - away(b) || a - b)
      .slice(0, Math.min(atATime, most - known.size));
    if (asked.length > 0) {
      learn(asked);
      continue;
    }
    const left = sorted.some((truth) => !known.has(truth) && Number.isFinite(values[truth]) && away(truth) <= doubtful * deviation);
    const [first, second] = ends.map((truth) => known.get(truth));
    const nearest = first ?? second ?? (known.values().next().value as Computed);
    return {
      distance: quantile,
      share: first && second ? between(first.share, second.share, part) : nearest.share,
      isLow: nearest.isLow,
      confidence: values.reduce((count, value) => count + (value >= 0 ? 1 : 0), 0) / values.length,
      open: left ? deviation : 0,
    };
  }
}

/** D where it was computed, elsewhere the surrogate on the line through what was; and the deviation of those from the line. */
function corrected(surrogate: Float64Array, known: ReadonlyMap<number, Computed>): { values: Float64Array; deviation: number } {
  const pairs = [...known]
    .map(([truth, { distance }]) => [surrogate[truth] as number, distance] as const)
    .filter(([s, d]) => Number.isFinite(s) && Number.isFinite(d));
  const s0 = mean(pairs.map(([s]) => s));
  const d0 = mean(pairs.map(([, d]) => d));
  const squares = pairs.reduce((sum, [s]) => sum + (s - s0) ** 2, 0);
  const rise = squares > 0 ? pairs.reduce((sum, [s, d]) => sum + (s - s0) * (d - d0), 0) / squares : 1;
  const slope = rise > 0 ? rise : 1;
  const rest = pairs.reduce((sum, [s, d]) => sum + (d - d0 - slope * (s - s0)) ** 2, 0);
  const values = surrogate.map((s, truth) => known.get(truth)?.distance ?? d0 + slope * (s - s0));
  return {
    values: values.map((value) => (Number.isNaN(value) ? -Infinity : value)),
    deviation: Math.sqrt(rest / Math.max(1, pairs.length - 2)),
  };
}

function computed(values: Float64Array, limit: Limit): Computed {
  const inside = values.reduce((count, value) => count + (distanceInside(value, limit) >= 0 ? 1 : 0), 0);
  const { low = -Infinity, high = Infinity } = limit;
  const isLow = worstQuantile(values, (value) => value - low) <= worstQuantile(values, (value) => high - value);
  return { distance: worstQuantile(values, (value) => distanceInside(value, limit)), share: inside / values.length, isLow };
}

/** The 5 % quantile of a distance; units without a value are the worst. */
function worstQuantile(values: Float64Array, distance: (value: number) => number): number {
  const distances = values.map((value) => (Number.isFinite(value) ? distance(value) : -Infinity));
  return quantileOf(distances.sort(), tail);
}

/**
 * A quantile of sorted values, nearly unbiased in the median whatever the distribution: rank (n + 1/3)·p + 1/3. R. J. Hyndman and Y. Fan,
 * The American Statistician 50, 1996, 361-365, definition 8.
 */
function quantileOf(sorted: Float64Array, p: number): number {
  const { rank, part } = place(sorted.length, p);
  return between(sorted[clamp(rank - 1, sorted.length)] as number, sorted[clamp(rank, sorted.length)] as number, part);
}

function place(n: number, p: number): { readonly rank: number; readonly part: number } {
  const at = Math.max(1, Math.min(n, (n + 1 / 3) * p + 1 / 3));
  return { rank: Math.floor(at), part: at - Math.floor(at) };
}

function between(a: number, b: number, part: number): number {
  return part === 0 || a === b ? a : a + part * (b - a);
}

function clamp(index: number, length: number): number {
  return Math.max(0, Math.min(length - 1, index));
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
