/**
 * The readings of a pilot batch: what they say of how units differ, and whether they contradict what the design file states of it. All
 * figures are numbers in the given's unit; in decibels its levels.
 *
 * Intervals of mean and deviation by Student's t and chi-square; tolerance interval by ISO 16269-6:2014; capability Cp and Cpk of the
 * stated limits with lower 95 % bounds (ISO 22514-2 for the words; of Cp by chi-square, of Cpk by A. F. Bissell, Applied Statistics 39,
 * 1990, 331-340); normality by Anderson and Darling with both moments fitted (R. B. D'Agostino and M. A. Stephens, Goodness-of-Fit
 * Techniques, 1986, table 4.9). The sources are given from memory.
 */
import type { GivenNode } from "../graph/node";
import { exp, ln } from "../quantity/elementary";
import { limitsOf } from "../quantity/limits";
import { unitOf } from "../quantity/unit";
import { chiSquareProbability, chiSquareQuantile } from "./chi-square";
import { drawer } from "./distribution";
import { spreadParts } from "./kinds";
import { normalProbability, normalQuantile } from "./normal";
import { moments } from "./quantile";
import { studentQuantile } from "./student";
import { toleranceFactor } from "./tolerance-factor";

export interface Capability {
  readonly cp: number;
  readonly cpk: number;
  /** Lower 95 % bounds. */
  readonly cpLow: number;
  readonly cpkLow: number;
}

export interface BatchStatistics {
  readonly count: number;
  readonly mean: number;
  /** Of one unit, n − 1 in the denominator. */
  readonly deviation: number;
  /** 95 % confidence. */
  readonly meanWithin: readonly [low: number, high: number];
  readonly deviationWithin: readonly [low: number, high: number];
  /** At least 95 % of units, with 95 % confidence, if they are normal. */
  readonly tolerance: readonly [low: number, high: number];
  /** Of the stated limits; absent where the given states none. */
  readonly capability?: Capability;
  /** Units beyond the stated limits. */
  readonly outside: number;
  /** How likely a normal batch looks as little normal as this one. */
  readonly normality: number;
  /** What the batch and the stated spread cannot both have right, in sentences. */
  readonly contradictions: readonly string[];
  /** What it says beyond that. */
  readonly remarks: readonly string[];
}

/** A test that a right statement fails once in a hundred batches. */
const level = 0.01;
/** Below this the batch is called not normal. */
const leastNormality = 0.05;

/** `values`: SI, one a unit, at least five. */
export function batchStatistics(values: readonly number[], given: GivenNode): BatchStatistics {
  const unit = unitOf(given.unit);
  const numbers = Float64Array.from(values, (value) => unit.fromSI(value));
  const { mean, deviation } = moments(numbers);
  const count = numbers.length;
  const t = studentQuantile(0.975, count - 1) * (deviation / Math.sqrt(count));
  const chi = (p: number) => deviation * Math.sqrt((count - 1) / chiSquareQuantile(p, count - 1));
  const k = toleranceFactor(count, 0.95, 0.95);
  const stated = statedOf(given, unit.fromSI);
  const normality = deviation > 0 ? normalityOf(numbers, mean, deviation) : 1;
  const outside = stated.limits === undefined ? 0 : numbers.filter((x) => !isWithin(x, stated.limits as readonly [number, number])).length;
  return {
    count,
    mean,
    deviation,
    meanWithin: [mean - t, mean + t],
    deviationWithin: [chi(0.975), chi(0.025)],
    tolerance: [mean - k * deviation, mean + k * deviation],
    ...(stated.limits !== undefined && deviation > 0 && { capability: capabilityOf(mean, deviation, count, stated.limits) }),
    outside,
    normality,
    ...judged({ mean, deviation, count, outside, normality }, stated, given),
  };
}

interface Stated {
  readonly mean: number;
  /** Of units, and of what is not known of their middle. */
  readonly deviation: number;
  readonly doubt: number;
  /** How many of the units lie beyond the limits: none of an even spread, some of a normal one. */
  readonly beyond: number;
  readonly limits?: readonly [low: number, high: number];
}

function statedOf(given: GivenNode, fromSI: (si: number) => number): Stated {
  const drawn = (kind: "production" | "knowledge") => {
    const part = spreadParts(given).find((one) => one.kind === kind);
    return part === undefined ? undefined : moments(midpoints(part.node).map(fromSI));
  };
  const units = drawn("production");
  const { spread } = given;
  const limits = limitsOf(spread, given.nominal).map(fromSI) as [number, number];
  const beyond = spread.kind === "normal" ? 2 * normalProbability(-spread.coverage) : 0;
  return {
    mean: units?.mean ?? fromSI(given.nominal),
    deviation: units?.deviation ?? 0,
    doubt: drawn("knowledge")?.deviation ?? 0,
    beyond,
    ...(units !== undefined && { limits: [Math.min(...limits), Math.max(...limits)] as const }),
  };
}

function midpoints(given: GivenNode): Float64Array {
  const out = new Float64Array(4096);
  drawer(given, {
    fill: (to, start, n) => {
      for (let i = 0; i < n; i++) to[i] = (start + i + 0.5) / out.length;
    },
  })(out, 0, out.length);
  return out;
}

function capabilityOf(mean: number, deviation: number, count: number, [low, high]: readonly [number, number]): Capability {
  const cp = (high - low) / (6 * deviation);
  const cpk = Math.min(high - mean, mean - low) / (3 * deviation);
  const z = normalQuantile(0.95);
  return {
    cp,
    cpk,
    cpLow: cp * Math.sqrt(chiSquareQuantile(0.05, count - 1) / (count - 1)),
    cpkLow: cpk - z * Math.sqrt(1 / (9 * count) + (cpk * cpk) / (2 * (count - 1))),
  };
}

/** P of the modified statistic A*² = A²·(1 + 0.75/n + 2.25/n²). */
function normalityOf(numbers: Float64Array, mean: number, deviation: number): number {
  const n = numbers.length;
  const sorted = numbers.slice().sort();
  let sum = 0;
  for (let i = 0; i < n; i++) {
    const below = normalProbability(((sorted[i] as number) - mean) / deviation);
    const above = normalProbability(-((sorted[n - 1 - i] as number) - mean) / deviation);
    sum += (2 * i + 1) * (ln(below) + ln(above));
  }
  const a = (-n - sum / n) * (1 + 0.75 / n + 2.25 / (n * n));
  if (a >= 0.6) return exp(1.2937 - 5.709 * a + 0.0186 * a * a);
  if (a > 0.34) return exp(0.9177 - 4.279 * a - 1.38 * a * a);
  if (a > 0.2) return 1 - exp(-8.318 + 42.796 * a - 59.938 * a * a);
  return 1 - exp(-13.436 + 101.14 * a - 223.73 * a * a);
}

interface Fitted {
  readonly mean: number;
  readonly deviation: number;
  readonly count: number;
  readonly outside: number;
  readonly normality: number;
}

function judged(
  { mean, deviation, count, outside, normality }: Fitted,
  stated: Stated,
  { path }: GivenNode,
): Pick<BatchStatistics, "contradictions" | "remarks"> {
  const contradictions: string[] = [];
  const remarks: string[] = [];
  if (stated.deviation === 0) {
    contradictions.push(`units differ, and ${path} states no spread between them`);
    return { contradictions, remarks };
  }
  const error = Math.sqrt((deviation * deviation) / count + stated.doubt * stated.doubt);
  if (Math.abs(mean - stated.mean) > studentQuantile(1 - level / 2, count - 1) * error)
    contradictions.push(
      `their mean lies further from the stated middle than ${count} units allow${stated.doubt > 0 ? ", the doubt counted" : ""}`,
    );
  const p = chiSquareProbability((count - 1) * (deviation / stated.deviation) ** 2, count - 1);
  if (p > 1 - level) contradictions.push("they scatter more than the stated spread does");
  if (p < level) remarks.push("they scatter less than the stated spread does: a narrower one may be stated");
  const expected = 1 - exp(count * ln(1 - stated.beyond));
  if (outside > 0 && expected < level) contradictions.push(`${outside} of ${count} lie beyond the stated limits`);
  else if (outside > 0) remarks.push(`${outside} of ${count} ${outside === 1 ? "lies" : "lie"} beyond the stated limits`);
  if (normality < leastNormality)
    remarks.push("they do not look normal (Anderson and Darling): tolerance interval and capability are rough");
  return { contradictions, remarks };
}

function isWithin(x: number, [low, high]: readonly [number, number]): boolean {
  // A value at the limit, and the rounding of its conversion.
  const rounding = 1e-9 * Math.max(Math.abs(low), Math.abs(high));
  return x >= low - rounding && x <= high + rounding;
}
