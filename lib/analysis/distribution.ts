/**
 * What a given's spread says about its value: draws and standard uncertainty (its limits: `quantity/limits.ts`). JCGM 101:2008 6.4.
 * Where the spread is stated in decibels or as a factor it is read on that scale and turned into SI: x = reference·10^(L/factor).
 */
import type { GivenNode } from "../graph/node";
import { discreteMoments } from "../quantity/discrete";
import { WorkingsError } from "../quantity/error";
import { fromLevel, toLevel } from "../quantity/level";
import { ownLimits, scaleOf } from "../quantity/limits";
import type { Discrete, LogScale, Normal } from "../quantity/spread";
import { normalQuantiles } from "./normal";
import { studentScores } from "./student";

/** Numbers in (0, 1) by position: a stream, or midpoints of equal parts; where they are made from normal scores, those too. */
export interface Source {
  fill(out: Float64Array, start: number, n: number): void;
  scores?(out: Float64Array, start: number, n: number): void;
}

/** A tolerance, of either kind (`kinds.ts`): it is drawn. A spread without width is none. */
export function isTolerance(given: GivenNode): boolean {
  return given.spread.kind !== "range" && hasWidth(given);
}

/** A condition of use: never drawn. */
export function isRange(given: GivenNode): boolean {
  return given.spread.kind === "range" && hasWidth(given);
}

/**
 * Makes values, SI, of parts t of the way from the low to the high limit, on the scale of the spread; of a list, its members in order. A
 * doubt beside the spread widens the limits.
 */
export function betweenLimits(given: GivenNode): (t: number) => number {
  if (given.spread.kind === "discrete") return binAt(given.spread);
  const [low, high] = wholeLimits(given);
  const scale = scaleOf(given.spread);
  return (t) => onScale(t === 1 ? high : low + (high - low) * t, scale);
}

/** The part t at which the nominal lies. */
export function nominalPart(given: GivenNode): number {
  if (given.spread.kind === "discrete") return partOfBin(given.spread, given.nominal);
  const [low, high] = wholeLimits(given);
  return Math.min(1, Math.max(0, (levelOf(given) - low) / (high - low)));
}

/** Fills out[0..n) with draws `start` to `start + n` of the given's spread; of a doubt beside it nothing (`kinds.ts`). */
export function drawer(given: GivenNode, stream: Source): (out: Float64Array, start: number, n: number) => void {
  const draw = levelDrawer(given, stream);
  const scale = scaleOf(given.spread);
  if (scale === undefined) return draw;
  return (out, start, n) => {
    draw(out, start, n);
    for (let i = 0; i < n; i++) out[i] = fromLevel(out[i] as number, scale);
  };
}

/** Standard uncertainty of the given's spread, SI, a doubt beside it left out: the standard deviation of its distribution, but of readings their σ (JCGM 100:2008 4.2.3); 0 for exact values and ranges. */
export function standardUncertainty(given: GivenNode): number {
  if (!isTolerance(given)) return 0;
  const scale = scaleOf(given.spread);
  return scale === undefined ? levelDeviation(given) : deviationThroughScale(asKnown(given), scale);
}

/** How much wider the draws are than the standard uncertainty: √(ν/(ν − 2)) for Student's t (JCGM 101:2008 6.4.9.4), infinite up to ν = 2. */
export function widening({ spread }: GivenNode): number {
  if (spread.kind !== "normal" || spread.freedom === undefined) return 1;
  return spread.freedom > 2 ? Math.sqrt(spread.freedom / (spread.freedom - 2)) : Infinity;
}

/** Degrees of freedom of the standard uncertainty; infinite where it is taken as known. */
export function freedomOf({ spread }: GivenNode): number {
  return "freedom" in spread && spread.freedom !== undefined ? spread.freedom : Infinity;
}

/** On a scale of levels the moments of Student's t do not exist: its normal core stands for them. */
function asKnown(given: GivenNode): GivenNode {
  if (given.spread.kind !== "normal") return given;
  const { freedom: _, ...spread } = given.spread;
  return { ...given, spread };
}

function hasWidth(given: GivenNode): boolean {
  const [low, high] = wholeLimits(given);
  return high > low;
}

/** Limits on the scale of the spread, with the doubt beside it: deviations add. */
function wholeLimits(given: GivenNode): readonly [number, number] {
  const [low, high] = levelLimits(given);
  if (given.doubt === undefined) return [low, high];
  const [down, up] = ownLimits(given.doubt, given.nominal);
  const centre = levelOf(given);
  return [low + (down - centre), high + (up - centre)];
}

/** Limits on the scale of the spread. */
function levelLimits(given: GivenNode): readonly [number, number] {
  if (given.spread.kind === "normal") levelOf(given);
  return ownLimits(given.spread, given.nominal);
}

/** An SI value from one on the scale of the spread. */
function onScale(level: number, scale: LogScale | undefined): number {
  return scale === undefined ? level : fromLevel(level, scale);
}

/** The nominal on the scale of the spread. Throws "level" where it has none. */
function levelOf({ id, nominal, spread }: GivenNode): number {
  const scale = scaleOf(spread);
  if (scale !== undefined && !(nominal / scale.reference > 0)) {
    throw new WorkingsError("level", `${id}: a spread in decibels or as a factor needs a value above 0, but the nominal is ${nominal}`, {
      node: id,
    });
  }
  return scale === undefined ? nominal : toLevel(nominal, scale);
}

function levelDrawer(given: GivenNode, uniforms: Source): (out: Float64Array, start: number, n: number) => void {
  const { spread } = given;
  const centre = levelOf(given);
  const [low, high] = levelLimits(given);
  switch (spread.kind) {
    case "rectangular":
      return (out, start, n) => {
        uniforms.fill(out, start, n);
        spreadOut(out, n, low, high - low);
      };
    case "normal":
      return normalDrawer(centre, spread, uniforms);
    case "discrete": {
      const quantile = binQuantile(spread);
      return (out, start, n) => {
        uniforms.fill(out, start, n);
        for (let i = 0; i < n; i++) out[i] = quantile(out[i] as number);
      };
    }
    case "triangular":
      return (out, start, n) => {
        uniforms.fill(out, start, n);
        for (let i = 0; i < n; i++) out[i] = triangularQuantile(low, centre, high, out[i] as number);
      };
    case "split":
      return (out, start, n) => {
        uniforms.fill(out, start, n);
        for (let i = 0; i < n; i++) out[i] = splitQuantile(low, centre, high, out[i] as number);
      };
    case "exact":
    case "range":
      return (out, _start, n) => {
        out.fill(given.nominal, 0, n);
      };
  }
}

function normalDrawer(centre: number, { sigma, freedom }: Normal, uniforms: Source): (out: Float64Array, start: number, n: number) => void {
  if (freedom === undefined && uniforms.scores === undefined) {
    const toNormal = normalQuantiles(centre, sigma);
    return (out, start, n) => {
      uniforms.fill(out, start, n);
      toNormal(out, n);
    };
  }
  const scores = scoresOf(uniforms);
  const deviate = freedom === undefined ? (z: number) => z : studentScores(freedom);
  return (out, start, n) => {
    scores(out, start, n);
    for (let i = 0; i < n; i++) out[i] = centre + sigma * deviate(out[i] as number);
  };
}

/** Standard normal scores from a source, its own where it has them. */
export function scoresOf(source: Source): (out: Float64Array, start: number, n: number) => void {
  if (source.scores !== undefined) return source.scores.bind(source);
  const toNormal = normalQuantiles(0, 1);
  return (out, start, n) => {
    source.fill(out, start, n);
    toNormal(out, n);
  };
}

/** Members of a list in rising order with the probability up to and with each. */
function binQuantile({ values, shares }: Discrete): (p: number) => number {
  const bins = values.map((value, i) => ({ value, share: shares?.[i] ?? 1 / values.length })).sort((a, b) => a.value - b.value);
  const upTo: number[] = [];
  for (const { share } of bins) upTo.push((upTo.at(-1) ?? 0) + share);
  return (p) => {
    let i = 0;
    while (i < bins.length - 1 && p >= (upTo[i] as number)) i++;
    return (bins[i] as { readonly value: number }).value;
  };
}

function binAt({ values }: Discrete): (t: number) => number {
  const sorted = [...values].sort((a, b) => a - b);
  return (t) => sorted[Math.round(t * (sorted.length - 1))] as number;
}

function partOfBin({ values }: Discrete, nominal: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  const distances = sorted.map((value) => Math.abs(value - nominal));
  return distances.indexOf(Math.min(...distances)) / (sorted.length - 1);
}

function spreadOut(out: Float64Array, n: number, low: number, width: number): void {
  for (let i = 0; i < n; i++) out[i] = low + width * (out[i] as number);
}

function triangularQuantile(low: number, mode: number, high: number, p: number): number {
  const rising = (mode - low) / (high - low);
  if (p < rising) return low + Math.sqrt(p * (high - low) * (mode - low));
  return high - Math.sqrt((1 - p) * (high - low) * (high - mode));
}

function splitQuantile(low: number, median: number, high: number, p: number): number {
  return p < 0.5 ? low + 2 * p * (median - low) : median + (2 * p - 1) * (high - median);
}

/** Standard deviation on the scale of the spread. */
function levelDeviation(given: GivenNode): number {
  const { spread } = given;
  const [low, high] = levelLimits(given);
  const below = levelOf(given) - low;
  const above = high - levelOf(given);
  switch (spread.kind) {
    case "rectangular":
      return (high - low) / Math.sqrt(12);
    case "normal":
      return spread.sigma;
    case "discrete":
      return discreteMoments(spread.values, spread.shares).deviation;
    case "triangular":
      // (a² + b² + c² − ab − ac − bc)/18 with a = −below, b = above, c = 0.
      return Math.sqrt((below * below + above * above + below * above) / 18);
    case "split":
      return Math.sqrt((below * below + above * above) / 6 - ((above - below) * (above - below)) / 16);
    case "exact":
    case "range":
      return 0;
  }
}

/** √(E x² − (E x)²) of x = reference·10^(L/factor), by the midpoint rule over equal probabilities. */
function deviationThroughScale(given: GivenNode, scale: LogScale): number {
  const count = 4096;
  const draws = new Float64Array(count);
  const midpoints: Source = {
    fill: (out, start, n) => {
      for (let i = 0; i < n; i++) out[i] = (start + i + 0.5) / count;
    },
  };
  levelDrawer(given, midpoints)(draws, 0, count);
  let mean = 0;
  for (const level of draws) mean += fromLevel(level, scale) / count;
  let variance = 0;
  for (const level of draws) variance += ((fromLevel(level, scale) - mean) * (fromLevel(level, scale) - mean)) / count;
  return Math.sqrt(variance);
}
