/**
 * Two lumps that warm from the ambient: contents C_i, in which the heat P is made, behind R_i in a case C_s, from which R_o leads to
 * the air. C_i·x_i' = P − (x_i − x_s)/R_i and C_s·x_s' = (x_i − x_s)/R_i − x_s/R_o, in closed form: the case begins without slope and comes
 * as x_s = P·R_o·(1 − (λ_1·e^(−λ_2·t) − λ_2·e^(−λ_1·t))/(λ_1 − λ_2)), λ_1 and λ_2 the rates of the pair. Both resistances as constant.
 */
import { exp } from "../../quantity/elementary";

/** Capacities J/K, resistances K/W, heat W. */
export interface Lumps {
  readonly P: number;
  readonly C_i: number;
  readonly C_s: number;
  readonly R_i: number;
  readonly R_o: number;
}

/** Rises above the ambient after the time t (s), K, of contents and case, and the longer of both time constants, s. */
export function twoLumps(
  { P, C_i, C_s, R_i, R_o }: Lumps,
  t: number,
): { readonly x_i: number; readonly x_s: number; readonly tau: number } {
  const [a, b, c] = [1 / (C_i * R_i), 1 / (C_s * R_i), 1 / (C_s * R_o)];
  const sum = a + b + c;
  // Above (b + c − a)² + 4·a·b > 0, so the rates are never equal
  const fast = (sum + Math.sqrt(sum * sum - 4 * a * c)) / 2;
  const slow = (a * c) / fast;
  const [quick, long] = [exp(-fast * t), exp(-slow * t)];
  const left = (fast * long - slow * quick) / (fast - slow);
  const slope = (fast * slow * (long - quick)) / (fast - slow);
  return { x_i: P * (R_i + R_o) * (1 - left) + P * R_o * slope * C_s * R_i, x_s: P * R_o * (1 - left), tau: 1 / slow };
}
