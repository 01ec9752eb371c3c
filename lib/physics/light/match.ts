/**
 * Whether N LEDs look alike: the logarithm of each intensity is spread evenly over a bin of width w and has a normal part
 * of standard deviation sigma on top (light pipe, current, place within the eye's reach). With f and F the density and the
 * distribution of one, P(largest − smallest ≤ u) = N·∫ f(x)·(F(x + u) − F(x))^(N−1) dx, summed by the trapezoidal rule.
 */
import { normalProbability } from "../../analysis/normal";
import { exp } from "../../quantity/elementary";
import { WorkingsError } from "../../quantity/error";
import { power } from "../../quantity/power";

const steps = 256;
const reach = 8;
/** Below this share of the other, a width or a deviation counts as a little more of the other, of the same variance. */
const trifle = 1 / 200;
const perRootTau = 0.3989422804014327;

/** Probability, 0 to 1, that N (≥ 1) logarithms lie within u (≥ 0) of one another; w, sigma ≥ 0. Throws "nominal-domain" otherwise. */
export function matchProbability(N: number, w: number, sigma: number, u: number): number {
  if (!(Number.isInteger(N) && N >= 1 && w >= 0 && sigma >= 0 && u >= 0)) {
    throw new WorkingsError("nominal-domain", `${N} LEDs, bin ${w}, deviation ${sigma}, ratio ${u}: a ratio is at least 1, a number whole`);
  }
  if (N === 1 || (w === 0 && sigma === 0)) return 1;
  if (sigma <= trifle * w) return evenMatch(N, Math.min(1, u / Math.sqrt(w * w + 12 * sigma * sigma)));
  return smoothMatch(N, w, sigma, u);
}

/** Range of N even draws from a unit interval at most q (0 to 1): N·q^(N−1) − (N − 1)·q^N. */
export function evenMatch(N: number, q: number): number {
  return N * power(q, N - 1) - (N - 1) * power(q, N);
}

function smoothMatch(N: number, w: number, sigma: number, u: number): number {
  const { density, distribution } = spread(w, sigma);
  const low = -reach * sigma;
  const step = (w - 2 * low) / steps;
  let sum = 0;
  for (let i = 0; i <= steps; i++) {
    const x = low + i * step;
    sum += density(x) * power(distribution(x + u) - distribution(x), N - 1);
  }
  return Math.min(1, N * sum * step);
}

/** An even part of width w from 0 on, and a normal one. */
function spread(w: number, sigma: number) {
  const phi = (z: number): number => perRootTau * exp(-0.5 * z * z);
  if (w <= trifle * sigma) {
    const both = Math.sqrt(sigma * sigma + (w * w) / 12);
    return { density: (x: number) => phi(x / both) / both, distribution: (x: number) => normalProbability(x / both) };
  }
  const primitive = (z: number): number => z * normalProbability(z) + phi(z);
  return {
    density: (x: number) => (normalProbability(x / sigma) - normalProbability((x - w) / sigma)) / w,
    distribution: (x: number) => ((primitive(x / sigma) - primitive((x - w) / sigma)) * sigma) / w,
  };
}
