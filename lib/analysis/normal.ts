/**
 * Quantiles of the standard normal distribution: M. J. Wichura, algorithm AS 241 (PPND16), Applied Statistics 37,
 * 1988, 477-484, relative accuracy about 1e-15. Only sums, products, quotients and square roots (its logarithm is
 * elementary.ts's), so every engine gives the same bits. Its branch for tails beyond 1.4e-11 is left out: draws are on a grid of 2⁻³².
 */

import { ln } from "../quantity/elementary";
import { erfc } from "../quantity/error-function";

/** Beyond this distance from ½ a probability lies on the flanks. */
const middle = 0.425;
const leastTail = 1.4e-11;

/** z with P(Z < z) = p, for 1.4e-11 ≤ p ≤ 1 − 1.4e-11; NaN outside. */
export function normalQuantile(p: number): number {
  const q = p - 0.5;
  return q <= middle && q >= -middle ? q * centre(0.180625 - q * q) : flankQuantile(q, q < 0 ? p : 1 - p);
}

/** P(Z < z) of the standard normal distribution, good to its last digits in either tail. */
export function normalProbability(z: number): number {
  return 0.5 * erfc(-z * Math.SQRT1_2);
}

/**
 * Makes a function that turns out[0..n), probabilities that are multiples of 2⁻³³ inside (0, 1), into mean + sigma·z, as
 * `normalQuantile` does one by one. The flanks, a seventh of all, come in a second loop: the first then has no branch.
 */
export function normalQuantiles(mean: number, sigma: number): (out: Float64Array, n: number) => void {
  const rows = 1024;
  const flankRows = new Int32Array(rows);
  const flankOffsets = new Float64Array(rows);
  return (out, n) => {
    for (let start = 0; start < n; start += rows) {
      const end = Math.min(start + rows, n);
      const flanks = centres(out, start, end, mean, sigma, flankRows, flankOffsets);
      for (let k = 0; k < flanks; k++) {
        const q = flankOffsets[k] as number;
        // q and ½ − |q| are exact on that grid.
        out[flankRows[k] as number] = mean + sigma * flankQuantile(q, 0.5 - Math.abs(q));
      }
    }
  };
}

/** Values as if all were central; lists those that are not, and returns how many they are. */
function centres(
  out: Float64Array,
  start: number,
  end: number,
  mean: number,
  sigma: number,
  flankRows: Int32Array,
  flankOffsets: Float64Array,
): number {
  let flanks = 0;
  for (let i = start; i < end; i++) {
    const q = (out[i] as number) - 0.5;
    flankRows[flanks] = i;
    flankOffsets[flanks] = q;
    // 1 beyond the middle, else 0: |q| is below ½, and no multiple of 2⁻³³ is within a rounding of the border.
    flanks += (Math.abs(q) * (1 / middle)) | 0;
    out[i] = mean + sigma * (q * centre(0.180625 - q * q));
  }
  return flanks;
}

/** q = p − ½; `tail` is the smaller of p and 1 − p. */
function flankQuantile(q: number, tail: number): number {
  if (!(tail >= leastTail)) return Number.NaN;
  const z = flank(Math.sqrt(-ln(tail)) - 1.6);
  return q < 0 ? -z : z;
}

function centre(r: number): number {
  const above =
    ((((((2509.0809287301227 * r + 33430.57558358813) * r + 67265.7709270087) * r + 45921.95393154987) * r + 13731.69376550946) * r +
      1971.5909503065513) *
      r +
      133.14166789178438) *
      r +
    3.3871328727963665;
  const below =
    ((((((5226.495278852854 * r + 28729.085735721943) * r + 39307.89580009271) * r + 21213.794301586597) * r + 5394.196021424751) * r +
      687.1870074920579) *
      r +
      42.31333070160091) *
      r +
    1;
  return above / below;
}

function flank(r: number): number {
  const above =
    ((((((0.0007745450142783414 * r + 0.022723844989269184) * r + 0.2417807251774506) * r + 1.2704582524523684) * r + 3.6478483247632045) *
      r +
      5.769497221460691) *
      r +
      4.630337846156546) *
      r +
    1.4234371107496835;
  const below =
    ((((((1.0507500716444169e-9 * r + 0.0005475938084995345) * r + 0.015198666563616457) * r + 0.14810397642748008) * r + 0.6897673349851) *
      r +
      1.6763848301838038) *
      r +
      2.053191626637759) *
      r +
    1;
  return above / below;
}
