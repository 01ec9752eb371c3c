/**
 * Mean rectified value of a signal from its crest factor. The signal is taken as Gaussian noise of rms 1 cut off at ±a:
 * music is near it, a → ∞ is noise (mean rectified/rms = √(2/π) = 0.798, crest factor without bound) and a → 0 a square
 * wave (1, crest factor 1). At the crest factor of a sine it is 2.8 % below the sine's 2·√2/π. The family is a
 * convention: common practice, no source.
 */
import { exp, expm1 } from "../../quantity/elementary";
import { WorkingsError } from "../../quantity/error";

const rootTwoPi = Math.sqrt(2 * Math.PI);
/** Above it a cut moves neither moment by one part in 10¹². */
const widest = 8;

/** Mean rectified over rms of a signal of crest factor C (≥ 1): from 1 down to √(2/π). Throws "nominal-domain" below 1. */
export function rectifiedShare(C: number): number {
  if (!(C >= 1)) throw new WorkingsError("nominal-domain", `the crest factor is ${C}; a peak is at least the rms value, so 1 or more`);
  if (C === 1) return 1;
  const { mean, square } = moments(C >= widest ? C : cutFor(C));
  return mean / Math.sqrt(square);
}

/** Where noise of rms 1 is to be cut for the crest factor C: a/√square(a) rises with a and is at least a. */
function cutFor(C: number): number {
  let low = 0;
  let high = C;
  for (let step = 0; step < 60; step++) {
    const middle = (low + high) / 2;
    if (middle * middle < C * C * moments(middle).square) low = middle;
    else high = middle;
  }
  return high;
}

/** Mean rectified and mean square of noise of rms 1 cut off at ±a. */
function moments(a: number): { readonly mean: number; readonly square: number } {
  const density = exp((-a * a) / 2) / rootTwoPi;
  const inside = centralShare(a, density);
  const outside = 1 - inside;
  return {
    mean: (2 * -expm1((-a * a) / 2)) / rootTwoPi + a * outside,
    square: inside - 2 * a * density + a * a * outside,
  };
}

/** Share of noise of rms 1 inside ±a: 2·φ(a)·Σ a^(2n+1)/(2n+1)!!, all terms positive. */
function centralShare(a: number, density: number): number {
  if (a >= widest) return 1;
  let term = a;
  let total = a;
  for (let n = 1; term > 1e-17 * total; n++) {
    term *= (a * a) / (2 * n + 1);
    total += term;
  }
  return 2 * density * total;
}
