/**
 * From the correlation of two values to that of their normal scores and back. The correlation of the values is a power series in
 * that of the scores, its coefficients the products of the Hermite coefficients of both quantile functions (F. G. Mehler, 1866);
 * what lies beyond the tenth power is lumped into one further term, so that both ends are exact.
 */
import type { GivenNode } from "../graph/node";
import { exp } from "../quantity/elementary";
import { drawer } from "./distribution";
import { normalProbability } from "./normal";

const orders = 10;
/** The grid of scores for the integrals: −8 to 8 in steps of 1/256, a node at 0 where split distributions have a corner. */
const reach = 8;
const steps = 256;
const count = 2 * reach * steps + 1;
const scoreAt = (i: number): number => i / steps - reach;

/** A distribution as the correlation sees it: standardised values over the grid and their Hermite coefficients. */
interface Shape {
  /** Normal and Student's t: values and scores correlate alike (for t the correlation of the budget, JCGM 100). */
  readonly isStraight: boolean;
  readonly values: Float64Array;
  readonly coefficients: readonly number[];
}

/** The correlation of the values of two givens as a function of that of their scores, rising, from −1 to 1. */
export function valueCorrelation(a: GivenNode, b: GivenNode): (scores: number) => number {
  const [first, second] = [shapeOf(a), shapeOf(b)];
  if (first.isStraight && second.isStraight) return (scores) => scores;
  const products = first.coefficients.map((c, k) => c * (second.coefficients[k] as number));
  const rising = products.reduce((sum, c) => sum + c, 0);
  const falling = products.reduce((sum, c, k) => sum + (k % 2 === 0 ? -c : c), 0);
  const beyond = [mean(first, second, 1) - rising, mean(first, second, -1) - falling] as const;
  return (scores) => {
    let power = 1;
    let sum = 0;
    for (const c of products) {
      power *= scores;
      sum += c * power;
    }
    return sum + (scores < 0 ? beyond[1] : beyond[0]) * power * scores * scores;
  };
}

/**
 * The correlation of the scores at which the values have a stated one; 1 and −1 stay: one value then determines the other.
 * Undefined where two distributions cannot be correlated so strongly.
 */
export function scoresFor(stated: number, a: GivenNode, b: GivenNode): number | undefined {
  if (stated === 0 || stated === 1 || stated === -1) return stated;
  const values = valueCorrelation(a, b);
  if (values(stated) === stated) return stated;
  let [low, high] = [-1, 1];
  if (stated < values(low) || stated > values(high)) return undefined;
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (values(middle) < stated) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** The strongest correlations that two distributions can have. */
export function strongest(a: GivenNode, b: GivenNode): readonly [low: number, high: number] {
  const values = valueCorrelation(a, b);
  return [values(-1), values(1)];
}

function shapeOf(given: GivenNode): Shape {
  const { spread } = given;
  const isStraight = spread.kind === "normal" && spread.scale === undefined;
  const known: GivenNode =
    isStraight && spread.freedom !== undefined
      ? { ...given, spread: { kind: "normal", sigma: spread.sigma, coverage: spread.coverage } }
      : given;
  const values = new Float64Array(count);
  drawer(known, grid)(values, 0, count);
  return standardised(isStraight, values);
}

const grid = {
  scores: (out: Float64Array, start: number, n: number): void => {
    for (let i = 0; i < n; i++) out[i] = scoreAt(start + i);
  },
  fill: (out: Float64Array, start: number, n: number): void => {
    for (let i = 0; i < n; i++) out[i] = normalProbability(scoreAt(start + i));
  },
};

function standardised(isStraight: boolean, values: Float64Array): Shape {
  let centre = 0;
  for (let i = 0; i < count; i++) centre += weightAt(i) * (values[i] as number);
  let variance = 0;
  for (let i = 0; i < count; i++) variance += weightAt(i) * ((values[i] as number) - centre) * ((values[i] as number) - centre);
  const deviation = Math.sqrt(variance);
  const standard = values.map((value) => (value - centre) / deviation);
  const coefficients: number[] = new Array(orders).fill(0);
  for (let i = 0; i < count; i++) addHermite(coefficients, scoreAt(i), weightAt(i) * (standard[i] as number));
  return { isStraight, values: standard, coefficients };
}

/** Adds a value's part of each coefficient: normalised Hermite polynomials, √(k + 1)·h_(k+1) = z·h_k − √k·h_(k−1). */
function addHermite(coefficients: number[], z: number, value: number): void {
  let [before, now] = [1, z];
  for (let k = 1; k <= coefficients.length; k++) {
    coefficients[k - 1] = (coefficients[k - 1] as number) + value * now;
    [before, now] = [now, (z * now - Math.sqrt(k) * before) / Math.sqrt(k + 1)];
  }
}

/** Mean product of the standardised values where the scores are equal, or opposite. */
function mean(a: Shape, b: Shape, sign: 1 | -1): number {
  let sum = 0;
  for (let i = 0; i < count; i++) sum += weightAt(i) * (a.values[i] as number) * (b.values[sign === 1 ? i : count - 1 - i] as number);
  return sum;
}

function weightAt(i: number): number {
  const z = scoreAt(i);
  return exp(-0.5 * z * z) / (steps * Math.sqrt(2 * Math.PI));
}
