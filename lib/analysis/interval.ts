/** The 95 % interval, and the share of units that meet a limit, at range points. */

import { leastCount, lowerBound, upperBound } from "./probability";
import { finiteValues, orderStatistic, quantile } from "./quantile";
import { rangePoints } from "./range-points";
import type { Interval, Limit, RangePoint, WorstCase } from "./result";
import type { Sampler } from "./sampler";
import type { Study } from "./study";

const share = 0.95;
const tail = (1 - share) / 2;

/** Range points up to which every one is drawn in full. */
const drawnInFull = 9;
const pilotRows = 512;

/** Range points that can decide: with many, a pilot picks those of the lowest and the highest quantiles. */
export function decidingPoints(study: Study, sampler: Sampler, worst: WorstCase | null): RangePoint[] {
  const points = rangePoints(study, worst);
  if (points.length <= drawnInFull) return points;
  const pilots = points.map((point) => {
    const values = finiteValues(sampler.sample(study, point, pilotRows, "both"));
    return { point, low: quantile(values, tail), high: quantile(values, 1 - tail) };
  });
  const lowest = [...pilots].sort((a, b) => a.low - b.low).slice(0, 3);
  const highest = [...pilots].sort((a, b) => b.high - a.high).slice(0, 3);
  const kept = new Set([points[0] as RangePoint, ...lowest.map(({ point }) => point), ...highest.map(({ point }) => point)]);
  return points.filter((point) => kept.has(point));
}

/** The interval at one range point. */
export function intervalAt(values: Float64Array, at?: RangePoint): Interval {
  const finite = finiteValues(values);
  const interval = { low: quantile(finite, tail), high: quantile(finite, 1 - tail), samples: finite.length };
  return at === undefined || Object.keys(at).length === 0 ? interval : { ...interval, at };
}

/** The hull of intervals. */
export function union(intervals: readonly Interval[]): Interval {
  return {
    low: Math.min(...intervals.map((interval) => interval.low)),
    high: Math.max(...intervals.map((interval) => interval.high)),
    samples: Math.min(...intervals.map((interval) => interval.samples)),
  };
}

export interface Share {
  readonly estimate: number;
  readonly lower: number;
  readonly upper: number;
  /** The unit whose distance from the limit decides: enough others do as well for the lower bound to reach 95 %. */
  readonly deciding: number;
}

/**
 * The share of units within a limit, and its bounds (Wilson, one-sided 95 % each). Units without a value fail. One
 * value alone is no sample: every unit has it.
 */
export function shareWithin(values: Float64Array, limit: Limit): Share {
  const [only = Number.NaN] = values;
  if (values.length === 1) {
    const estimate = distanceInside(only, limit) >= 0 ? 1 : 0;
    return { estimate, lower: estimate, upper: estimate, deciding: only };
  }
  const distances = values.map((value) => (Number.isFinite(value) ? distanceInside(value, limit) : -Infinity));
  const count = distances.reduce((sum, distance) => sum + (distance >= 0 ? 1 : 0), 0);
  const rank = Math.max(1, values.length + 1 - leastCount(values.length, share));
  const distance = orderStatisticOf(distances, rank);
  const index = distances.indexOf(distance);
  return {
    estimate: count / values.length,
    lower: lowerBound(count, values.length),
    upper: upperBound(count, values.length),
    deciding: values[index] as number,
  };
}

/** Standard error of the distance inside the limit that 95 % keep: half of what lies between the values one deviation of the rank off. */
export function distanceError(values: Float64Array, limit: Limit): number {
  const distances = finiteValues(values.map((value) => distanceInside(value, limit))).sort();
  const rank = (1 - share) * distances.length;
  const deviation = Math.sqrt(rank * share);
  const at = (place: number): number => distances[Math.max(0, Math.min(distances.length - 1, Math.round(place) - 1))] as number;
  return distances.length === 0 ? 0 : (at(rank + deviation) - at(rank - deviation)) / 2;
}

/** Distance to the nearer limit, positive inside. */
export function distanceInside(value: number, { low = -Infinity, high = Infinity }: Limit): number {
  return Math.min(value - low, high - value);
}

/** Infinite distances have no place in a histogram. */
function orderStatisticOf(distances: Float64Array, rank: number): number {
  return distances.every((distance) => Number.isFinite(distance))
    ? orderStatistic(distances, rank)
    : (distances.slice().sort()[rank - 1] as number);
}
