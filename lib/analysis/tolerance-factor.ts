/**
 * Factors k of statistical tolerance intervals of a normal distribution with unknown mean and deviation (ISO 16269-6:2014): with a stated
 * confidence at least a share of the population lies within mean ± k·s of n values, or below mean + k·s. By integration over the mean,
 * which is what the tables of the standard hold to three decimals.
 */
import { exp } from "../quantity/elementary";
import { chiSquareProbability } from "./chi-square";
import { normalProbability, normalQuantile } from "./normal";

/** The factor for `count` values, at least 2. */
export function toleranceFactor(count: number, share: number, confidence: number, sides: "one" | "two" = "two"): number {
  const reached = sides === "two" ? twoSided(count, share) : oneSided(count, share);
  let [low, high] = [0, 4 * normalQuantile((1 + share) / 2)];
  while (reached(high) < confidence) high *= 2;
  while (high - low > 1e-9 * high) {
    const middle = (low + high) / 2;
    if (reached(middle) < confidence) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

const steps = 120;
/** Of the mean's own distribution. */
const reach = 8;

/** Simpson's rule over the score u of the mean, u/√n being its distance from the true one in deviations. */
function overMean(f: (u: number) => number): number {
  const h = (2 * reach) / steps;
  let sum = 0;
  for (let i = 0; i <= steps; i++) {
    const u = -reach + i * h;
    sum += (i === 0 || i === steps ? 1 : i % 2 === 1 ? 4 : 2) * exp(-0.5 * u * u) * f(u);
  }
  return ((sum * h) / 3) * (1 / Math.sqrt(2 * Math.PI));
}

/** P(s ≥ r(x)/k) over the mean x, where ± r about x holds the share: Φ(x + r) − Φ(x − r). */
function twoSided(count: number, share: number): (k: number) => number {
  const radii = new Map<number, number>();
  const radius = (u: number): number => {
    const key = Math.abs(u);
    const known = radii.get(key);
    if (known !== undefined) return known;
    const x = key / Math.sqrt(count);
    let [low, high] = [0, x + normalQuantile((1 + share) / 2) + 1];
    for (let i = 0; i < 60; i++) {
      const r = (low + high) / 2;
      if (normalProbability(x + r) - normalProbability(x - r) < share) low = r;
      else high = r;
    }
    radii.set(key, (low + high) / 2);
    return (low + high) / 2;
  };
  return (k) => overMean((u) => 1 - chiSquareProbability((count - 1) * (radius(u) / k) ** 2, count - 1));
}

/** P(x + k·s ≥ z): the non-central t distribution. */
function oneSided(count: number, share: number): (k: number) => number {
  const z = normalQuantile(share);
  return (k) =>
    overMean((u) => {
      const needed = z - u / Math.sqrt(count);
      return needed <= 0 ? 1 : 1 - chiSquareProbability((count - 1) * (needed / k) ** 2, count - 1);
    });
}
