/**
 * What a step leaves and for how long, in a section of second order of f_0 and Q (two sections of first order are one of
 * Q ≤ 1/2). With α = ω_0/(2·Q) and δ² = ω_0² − α², the output of a high-pass after a step V_0, and the error of a
 * low-pass, are V_0·e^(−αt)·(C ∓ α·S), C = cos δt, S = sin(δt)/δ, cosh and sinh where δ² < 0. Extremes lie where the
 * slope is zero; beyond the last one outside the band the wave is monotone until it stays inside.
 */
import { asin, cos, exp, expm1, log1p, sin } from "../../quantity/elementary";
import { WorkingsError } from "../../quantity/error";

export type SettlingKind = "high-pass" | "low-pass";

export interface Settling {
  /** Time after which the wave stays within ±V_e, s. */
  readonly t: number;
  /** Largest excursion to the other side of zero, V, ≥ 0: undershoot of a high-pass, overshoot of a low-pass. */
  readonly V_u: number;
}

/** α in 1/s, ω_0² in 1/s². */
interface Pair {
  readonly alpha: number;
  readonly square: number;
}

/** Settling of a step V_0 (V) to within ±V_e (V, > 0). f_0 in Hz, Q > 0. Throws "model-argument" outside those. */
export function settling(kind: SettlingKind, V_0: number, V_e: number, f_0: number, Q: number): Settling {
  if (!(f_0 > 0 && Q > 0 && V_e > 0)) {
    throw new WorkingsError("model-argument", `settling needs f_0 > 0 Hz, Q > 0 and V_e > 0 V; got ${f_0} Hz, ${Q} and ${V_e} V`);
  }
  const omega = 2 * Math.PI * f_0;
  const pair = { alpha: omega / (2 * Q), square: omega * omega };
  const step = Math.abs(V_0);
  const wave = (t: number): number => step * unitWave(kind, pair, t);
  const extremes = extremeTimes(kind, pair);
  const first = extremes(1);
  const V_u = Number.isFinite(first) ? Math.max(0, -wave(first)) : 0;
  // No later extreme is as large as the step
  return { t: step <= V_e ? 0 : lastOutside(wave, extremes, V_e, 1 / pair.alpha), V_u };
}

/** Step response of a high-pass, or error of a low-pass, at t (s), from 1. */
function unitWave(kind: SettlingKind, { alpha, square }: Pair, t: number): number {
  const sign = kind === "high-pass" ? -1 : 1;
  const rest = square - alpha * alpha;
  if (rest > 0) {
    const delta = Math.sqrt(rest);
    return exp(-alpha * t) * (cos(delta * t) + (sign * alpha * sin(delta * t)) / delta);
  }
  // Real poles: e^(−slow·t) and e^(−fast·t), the slow one without a difference of near numbers
  const fast = alpha + Math.sqrt(-rest);
  const slow = square / fast;
  const half = (fast - slow) / 2;
  const lag = half * t < 1e-8 ? t * exp(-slow * t) : (-expm1(-2 * half * t) * exp(-slow * t)) / (2 * half);
  const even = (exp(-slow * t) + exp(-fast * t)) / 2;
  return even + sign * alpha * lag;
}

/** Time of the k-th extreme after 0; infinite where there is none. */
function extremeTimes(kind: SettlingKind, { alpha, square }: Pair): (k: number) => number {
  const rest = square - alpha * alpha;
  if (rest > 0) {
    const delta = Math.sqrt(rest);
    const first = kind === "high-pass" ? 2 * asin(delta / Math.sqrt(square)) : Math.PI;
    return (k) => (first + (k - 1) * Math.PI) / delta;
  }
  if (kind === "low-pass") return () => Infinity;
  const fast = alpha + Math.sqrt(-rest);
  const slow = square / fast;
  const only = fast === slow ? 2 / alpha : (2 * log1p((fast - slow) / slow)) / (fast - slow);
  return (k) => (k === 1 ? only : Infinity);
}

/** From the last extreme outside ±V_e (the 0th being the start) to where the wave enters for good; `alone` is a time (s) to look ahead by. */
function lastOutside(wave: (t: number) => number, extremes: (k: number) => number, V_e: number, alone: number): number {
  let k = 0;
  while (Number.isFinite(extremes(k + 1)) && Math.abs(wave(extremes(k + 1))) > V_e) k++;
  let low = k === 0 ? 0 : extremes(k);
  let high = extremes(k + 1);
  if (!Number.isFinite(high)) {
    let stride = alone;
    while (Math.abs(wave(low + stride)) > V_e) stride *= 2;
    high = low + stride;
  }
  for (let step = 0; step < 60; step++) {
    const middle = (low + high) / 2;
    if (Math.abs(wave(middle)) > V_e) low = middle;
    else high = middle;
  }
  return high;
}
