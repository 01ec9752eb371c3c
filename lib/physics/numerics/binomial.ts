/**
 * The binomial distribution, summed from its largest term downwards, which is found by logarithms of factorials
 * (Stirling's series from 16 on, relative error below 1e-13), so that nothing underflows for any number of units.
 */

import { exp, ln, log1p } from "../../quantity/elementary";
import { WorkingsError } from "../../quantity/error";

const halfLogTau = 0.9189385332046727;
const exactBelow = 16;
const least = 1e-18;

/** P(X ≤ k) of n independent trials of the probability p (0 to 1). Throws "nominal-domain" for n that is no whole number ≥ 0, or p outside. */
export function binomialAtMost(k: number, n: number, p: number): number {
  if (!(Number.isInteger(n) && n >= 0 && p >= 0 && p <= 1)) {
    throw new WorkingsError(
      "nominal-domain",
      `${n} trials of the probability ${p}: the number must be whole, the probability between 0 and 1`,
    );
  }
  const most = Math.floor(k);
  if (most < 0) return 0;
  if (most >= n || p === 0) return 1;
  if (p === 1) return 0;
  const odds = p / (1 - p);
  if (most <= n * p) return falling(most, n, p, (i) => i / ((n - i + 1) * odds), -1);
  return 1 - falling(most + 1, n, p, (i) => ((n - i) / (i + 1)) * odds, 1);
}

/** Terms from `first` away from the middle; `ratio` is the next term over the one at i, 0 after the last. */
function falling(first: number, n: number, p: number, ratio: (i: number) => number, step: 1 | -1): number {
  let term = exp(logTerm(first, n, p));
  let sum = 0;
  for (let i = first; term > least * sum; i += step) {
    sum += term;
    term *= ratio(i);
  }
  return Math.min(1, sum);
}

function logTerm(k: number, n: number, p: number): number {
  return logFactorial(n) - logFactorial(k) - logFactorial(n - k) + k * ln(p) + (n - k) * log1p(-p);
}

/** ln n! of a whole number n ≥ 0. */
export function logFactorial(n: number): number {
  if (n < exactBelow) {
    let product = 1;
    for (let i = 2; i <= n; i++) product *= i;
    return ln(product);
  }
  const x = n + 1;
  const square = 1 / (x * x);
  const series = (1 / 12 - square * (1 / 360 - square * (1 / 1260 - square / 1680))) / x;
  return (x - 0.5) * ln(x) - x + halfLogTau + series;
}
