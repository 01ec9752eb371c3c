/**
 * What bounds a class-AB output: the swing its rail leaves, the current its devices or its protection allow, and heat.
 * The stage is ideal but for a headroom V_h and a resistance R_s in series with the load; a sine drives a resistive load.
 * Heat as a function of level rises and falls again: the level that heat allows is the lowest at which it reaches the
 * limit, since louder ones are only reached through it.
 *
 * Near its quiescent current a real stage runs in class A. Of two devices held to I_1·I_2 = I_q², the one rail carries
 * i/2 + √(i²/4 + I_q²); over a sine its mean is (2/π)·√(I_q² + I_p²/4)·E(k), the complete elliptic integral with
 * k² = (I_p²/4)/(I_q² + I_p²/4): I_q without signal, I_p/π far above it.
 */
import { WorkingsError } from "../../quantity/error";
import { refined } from "../numerics/extremes";

/** Rail V_s and headroom V_h (V), series resistance R_s and load R_L (Ω), quiescent current I_q (A). */
export interface OutputStage {
  readonly V_s: number;
  readonly V_h: number;
  readonly R_s: number;
  readonly R_L: number;
  readonly I_q: number;
}

/** What binds, as `audio.outputLimits` numbers it: `outputLimitNames[limit - 1]`. */
export const outputLimitNames = ["voltage", "current", "heat"] as const;

/** Largest sine at the load by each limit: peaks in V; `limit` 1 voltage, 2 current, 3 heat. */
export interface OutputBounds {
  readonly V_v: number;
  readonly V_i: number;
  readonly V_h: number;
  readonly V_p: number;
  readonly limit: number;
}

/** The largest undistorted sine of a stage that may carry the peak I_max (A) and keep the heat P_max (W). */
export function outputBounds(stage: OutputStage, I_max: number, P_max: number): OutputBounds {
  const { V_s, V_h, R_s, R_L } = stage;
  if (!(R_L > 0 && R_s >= 0)) throw new WorkingsError("model-argument", `a load needs R_L > 0 Ω and R_s ≥ 0 Ω; got ${R_L} Ω and ${R_s} Ω`);
  const bounds = [(Math.max(0, V_s - V_h) * R_L) / (R_L + R_s), I_max * R_L, hotCurrent(stage, P_max) * R_L] as const;
  const V_p = Math.min(...bounds);
  return { V_v: bounds[0], V_i: bounds[1], V_h: bounds[2], V_p, limit: 1 + bounds.indexOf(V_p) };
}

/** Lowest peak current (A) at which the heat reaches P_max, no more than the rail could drive: 2·V_s·(I_q + I/π) − I²·R/2. */
function hotCurrent({ V_s, R_s, R_L, I_q }: OutputStage, P_max: number): number {
  const R = R_L + R_s;
  const rest = P_max - 2 * V_s * I_q;
  if (rest <= 0) return 0;
  const half = (2 * V_s) / Math.PI;
  const root = half * half - 2 * R * rest;
  return root <= 0 ? V_s / R : Math.min(V_s / R, (2 * rest) / (half + Math.sqrt(root)));
}

/** Mean current (A) of each rail of a stage with I_1·I_2 = I_q² and a sine of the peak I_p. */
export function meanRailCurrent(I_q: number, I_p: number): number {
  if (!(I_q >= 0 && I_p >= 0)) throw new WorkingsError("model-argument", `currents of a stage are 0 A or more; got ${I_q} A and ${I_p} A`);
  // Below that share E(k) is 1 to the last digit, and the mean below would not converge at 0
  if (I_q <= 1e-12 * I_p) return I_p / Math.PI;
  const most = Math.sqrt(I_q * I_q + (I_p * I_p) / 4);
  return (2 / Math.PI) * most * ellipticE(I_p / 2 / most, I_q / most);
}

/** E(k) by the arithmetic-geometric mean, with k' = √(1 − k²) given so that it is exact near 0. NIST DLMF 19.8 (from memory). */
function ellipticE(k: number, complement: number): number {
  let [a, g, c, weight] = [1, complement, k, 0.5];
  let sum = weight * c * c;
  // Each c is about the square of the last: the next one is below the last digit
  while (Math.abs(c) > 1e-8 * a) {
    [a, g, c] = [(a + g) / 2, Math.sqrt(a * g), (a - g) / 2];
    weight *= 2;
    sum += weight * c * c;
  }
  return (Math.PI / (2 * a)) * (1 - sum);
}

export interface StageHeat {
  /** Mean current of each rail, A. */
  readonly I_s: number;
  /** Power from both rails, W. */
  readonly P_s: number;
  /** Heat of the output devices, W: without that of R_s. */
  readonly P_h: number;
  /** Power in the load over that from the rails. */
  readonly eta: number;
}

/** Heat of a stage that gives the load a sine of the peak V_p (V); the headroom does not enter. */
export function stageHeat({ V_s, R_s, R_L, I_q }: OutputStage, V_p: number): StageHeat {
  const I_p = V_p / R_L;
  const I_s = meanRailCurrent(I_q, I_p);
  const P_s = 2 * V_s * I_s;
  const load = (I_p * I_p * R_L) / 2;
  return { I_s, P_s, P_h: P_s - (I_p * I_p * (R_L + R_s)) / 2, eta: load / P_s };
}

/** Greatest heat of a stage over all levels up to the peak V_m (V), and the peak at which it is. */
export function greatestHeat(stage: OutputStage, V_m: number): { readonly P_h: number; readonly V_p: number } {
  const heat = (V: number): number => stageHeat(stage, V).P_h;
  const count = 32;
  const grid = Array.from({ length: count + 1 }, (_, i) => (V_m * i) / count);
  const values = grid.map(heat);
  const best = values.reduce((top, value, i) => (value > (values[top] as number) ? i : top), 0);
  const inside = refined(heat, grid[Math.max(0, best - 1)] as number, grid[Math.min(count, best + 1)] as number, 1);
  // More by rounding alone is no greater heat.
  return inside.y > (values[best] as number) * (1 + 1e-12)
    ? { P_h: inside.y, V_p: inside.x }
    : { P_h: values[best] as number, V_p: grid[best] as number };
}
