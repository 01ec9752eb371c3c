/**
 * Preferred numbers of IEC 60063:2015. E3 to E24 are the historical two-digit values, not rounded powers of ten;
 * E48 to E192 have three digits, one value of E192 (920) differing from the rounded power (919).
 */
import { log10 } from "../quantity/elementary";
import { WorkingsError } from "../quantity/error";
import type { SelectNode } from "./node";

export type Series = SelectNode["series"];
export type SelectionRule = SelectNode["rule"];

const e24 = [100, 110, 120, 130, 150, 160, 180, 200, 220, 240, 270, 300, 330, 360, 390, 430, 470, 510, 560, 620, 680, 750, 820, 910];

const e192 = [
  100, 101, 102, 104, 105, 106, 107, 109, 110, 111, 113, 114, 115, 117, 118, 120, 121, 123, 124, 126, 127, 129, 130, 132, 133, 135, 137,
  138, 140, 142, 143, 145, 147, 149, 150, 152, 154, 156, 158, 160, 162, 164, 165, 167, 169, 172, 174, 176, 178, 180, 182, 184, 187, 189,
  191, 193, 196, 198, 200, 203, 205, 208, 210, 213, 215, 218, 221, 223, 226, 229, 232, 234, 237, 240, 243, 246, 249, 252, 255, 258, 261,
  264, 267, 271, 274, 277, 280, 284, 287, 291, 294, 298, 301, 305, 309, 312, 316, 320, 324, 328, 332, 336, 340, 344, 348, 352, 357, 361,
  365, 370, 374, 379, 383, 388, 392, 397, 402, 407, 412, 417, 422, 427, 432, 437, 442, 448, 453, 459, 464, 470, 475, 481, 487, 493, 499,
  505, 511, 517, 523, 530, 536, 542, 549, 556, 562, 569, 576, 583, 590, 597, 604, 612, 619, 626, 634, 642, 649, 657, 665, 673, 681, 690,
  698, 706, 715, 723, 732, 741, 750, 759, 768, 777, 787, 796, 806, 816, 825, 835, 845, 856, 866, 876, 887, 898, 909, 920, 931, 942, 953,
  965, 976, 988,
];

const every = (values: readonly number[], step: number): number[] => values.filter((_, i) => i % step === 0);

/** The values of one decade, 100 to 999, of every series. */
export const preferredNumbers: Readonly<Record<Series, readonly number[]>> = {
  E3: every(e24, 8),
  E6: every(e24, 4),
  E12: every(e24, 2),
  E24: e24,
  E48: every(e192, 4),
  E96: every(e192, 2),
  E192: e192,
};

/**
 * The preferred value for x, in the unit of x (coherent SI). "nearest" is by least relative error |ln(value/x)|,
 * the smaller of two equally near. A value within 1e-9 of a preferred one counts as that one. x > 0, else throws.
 */
export function preferred(x: number, series: Series, rule: SelectionRule): number {
  if (!(x > 0) || x === Infinity) {
    throw new WorkingsError("not-finite", `a preferred value is chosen for a positive number, not for ${Number(x.toPrecision(4))}`);
  }
  const { below, above } = neighbours(x, preferredNumbers[series]);
  if (rule === "not below") return above;
  if (rule === "not above") return below;
  return x * x <= below * above ? below : above;
}

export type Arrangement = "series" | "parallel";

/** Two preferred values that stand for one, the larger first; `value` is what they make together. */
export interface PreferredPair {
  readonly parts: readonly [larger: number, smaller: number];
  readonly value: number;
}

/** The smaller effect of a pair is at least this part of the target: beyond two decades the tolerance of the other hides it. */
const leastEffect = 1e-2;
/** Errors that differ by less are equal. */
const equalErrors = 1e-9;

/**
 * The best two members of a series for x, in the unit of x: values that add (`series`: resistors or inductors in series,
 * capacitors in parallel), or whose reciprocals add (`parallel`: the other way round). Best by least relative error |value/x − 1| among
 * those that the rule allows; of equally good pairs the one whose parts are nearest to each other, which share stress most evenly.
 * x > 0, else throws.
 */
export function preferredPair(x: number, series: Series, arrangement: Arrangement, rule: SelectionRule = "nearest"): PreferredPair {
  if (!(x > 0) || x === Infinity) {
    throw new WorkingsError(
      "not-finite",
      `a pair of preferred values is chosen for a positive number, not for ${Number(x.toPrecision(4))}`,
    );
  }
  const pairs = pairsFor(x, preferredNumbers[series], arrangement).filter(({ value }) => isAllowed(value, x, rule));
  return pairs.reduce((best, pair) => (isBetter(pair, best, x) ? pair : best));
}

/** Of every first value from the half to the whole of x (for reciprocals from x to its double), both neighbours of what is missing. */
function pairsFor(x: number, decade: readonly number[], arrangement: Arrangement): PreferredPair[] {
  const inSeries = arrangement === "series";
  const [low, high] = inSeries ? [x / 2, x] : [x, 2 * x];
  const limit = inSeries ? leastEffect * x : x / leastEffect;
  const isFelt = (second: number) => (inSeries ? second >= limit * (1 - 1e-9) : second <= limit * (1 + 1e-9));
  return valuesBetween(low, high, decade).flatMap((first) => {
    const missing = inSeries ? x - first : (x * first) / (first - x);
    const { below, above } = neighbours(missing > 0 && isFelt(missing) ? missing : limit, decade);
    return [below, above].filter(isFelt).map((second) => pairOf(first, second, arrangement));
  });
}

/** Members from the one at or below `low` to the one at or above `high`: with a neighbour beyond each end, no pair is missed. */
function valuesBetween(low: number, high: number, decade: readonly number[]): number[] {
  const first = neighbours(low, decade).below;
  const last = neighbours(high, decade).above;
  const exponents = [decadeOf(low) - 1, decadeOf(low), decadeOf(low) + 1, decadeOf(low) + 2];
  const values = exponents.flatMap((e) => decade.map((value) => scaled(value, e)));
  return values.filter((value) => value >= first * (1 - 1e-9) && value <= last * (1 + 1e-9));
}

function pairOf(first: number, second: number, arrangement: Arrangement): PreferredPair {
  const value = arrangement === "series" ? first + second : (first * second) / (first + second);
  return { parts: [Math.max(first, second), Math.min(first, second)], value };
}

function isAllowed(value: number, x: number, rule: SelectionRule): boolean {
  if (rule === "not below") return value >= x * (1 - equalErrors);
  return rule === "nearest" || value <= x * (1 + equalErrors);
}

function isBetter(a: PreferredPair, b: PreferredPair, x: number): boolean {
  const difference = Math.abs(a.value / x - 1) - Math.abs(b.value / x - 1);
  if (Math.abs(difference) > equalErrors) return difference < 0;
  return a.parts[0] / a.parts[1] < b.parts[0] / b.parts[1];
}

/** The preferred values on both sides of x; both are x where it is one itself. */
function neighbours(x: number, decade: readonly number[]): { below: number; above: number } {
  const exponent = decadeOf(x);
  const candidates = [exponent - 1, exponent, exponent + 1].flatMap((e) => decade.map((value) => scaled(value, e)));
  let below = candidates[0] as number;
  for (const value of candidates) {
    if (value > x * (1 + 1e-9)) return { below, above: below >= x * (1 - 1e-9) ? below : value };
    below = value;
  }
  return { below, above: below };
}

/** The whole e with 100·10^e ≤ x < 1000·10^e, give or take one: the neighbours cover three decades. */
function decadeOf(x: number): number {
  return Math.floor(log10(x)) - 2;
}

/** value·10^e, correctly rounded: read as the decimal number that it is. */
function scaled(value: number, e: number): number {
  return Number(`${value}e${e}`);
}
