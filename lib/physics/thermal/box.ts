/**
 * Temperature of a warm surface by its balance of heat: P = Σ h_i·A_i·(T_s − T_a) + ε·σ·A·(T_s⁴ − T_a⁴), the surface as
 * even in temperature, the surroundings as warm as the air. The left side falls and the right side rises with T_s, so there
 * is one root, found between bounds. What is covered (the side on a jacket, a pocket) sheds by a coefficient of its own, 0 for none.
 */
import { WorkingsError } from "../../quantity/error";
import { power } from "../../quantity/power";
import { stefanBoltzmann } from "../constants";
import { roundedArea } from "../enclosure/shell";
import { increasingRoot } from "../numerics/bracket";
import { type BoxSides, boxConvection } from "./air";

/** W, K, 0 to 1. */
export interface Ambient {
  readonly P: number;
  readonly T_a: number;
  readonly epsilon: number;
}

/** Share of every face that is free to the air, and the coefficient of the rest, W/(m²·K). */
export interface Cover {
  readonly k: number;
  readonly h_c: number;
}

export interface Surface {
  /** K. */
  readonly T_s: number;
  readonly P_c: number;
  readonly P_r: number;
  readonly P_k: number;
  /** K/W from the surface to the ambient. */
  readonly R: number;
}

interface Flows {
  readonly P_c: number;
  readonly P_r: number;
  readonly P_k: number;
}

/** A surface A (m²) with one coefficient h of convection. */
export function evenSurface(A: number, h: number, ambient: Ambient): Surface {
  return solved(ambient, (T) => ({ P_c: h * A * (T - ambient.T_a), P_r: radiated(A, T, ambient), P_k: 0 }));
}

/** A box in still air, its edges rounded to r (m), by the law of a whole box, part of it covered. */
export function boxSurface(box: BoxSides, r: number, cover: Cover, ambient: Ambient): Surface {
  const A = roundedArea({ L: box.a, W: box.b, H: box.H, r });
  const convection = boxConvection(box, A, ambient.T_a);
  return solved(ambient, (T) => flows(A * convection(T), A, cover, T, ambient));
}

/** A box in still air by the simple fourth-root laws for air (J. P. Holman), part of it covered. */
export function simpleBox(box: BoxSides, cover: Cover, ambient: Ambient): Surface {
  const { sides, level, L } = faces(box);
  return solved(ambient, (T) => {
    const rise = Math.max(0, T - ambient.T_a);
    const h = (c: number, length: number): number => c * power(rise / length, 0.25);
    const free = sides * h(1.42, box.H) + level * (h(1.32, L) + h(0.59, L));
    return flows(free, sides + 2 * level, cover, T, ambient);
  });
}

function faces({ a, b, H }: BoxSides): { readonly sides: number; readonly level: number; readonly L: number } {
  return { sides: 2 * (a + b) * H, level: a * b, L: (a * b) / (2 * (a + b)) };
}

function flows(free: number, A: number, { k, h_c }: Cover, T: number, ambient: Ambient): Flows {
  const rise = T - ambient.T_a;
  return { P_c: k * free * rise, P_r: radiated(k * A, T, ambient), P_k: (1 - k) * A * h_c * rise };
}

function radiated(A: number, T: number, { epsilon, T_a }: Ambient): number {
  return epsilon * stefanBoltzmann * A * (T * T + T_a * T_a) * (T + T_a) * (T - T_a);
}

const hottest = 5000;

function solved({ P, T_a }: Ambient, at: (T: number) => Flows): Surface {
  if (!(P >= 0 && T_a > 0)) throw new WorkingsError("not-finite", `a warm surface needs P ≥ 0 and T_a > 0; got P = ${P} W, T_a = ${T_a} K`);
  const excess = (T: number): number => {
    const flow = at(T);
    return flow.P_c + flow.P_r + flow.P_k - P;
  };
  let [low, high] = [T_a, T_a + 1];
  while (high < hottest && excess(high) < 0) [low, high] = [high, T_a + 4 * (high - T_a)];
  const T_s = increasingRoot(excess, low, high, `temperature of a surface that sheds ${P} W; it is covered all round, or too small`);
  // Without heat the resistance is that for little of it
  const probe = T_s > T_a ? T_s : T_a + 1e-3;
  const shed = at(probe);
  return { T_s, ...at(T_s), R: (probe - T_a) / (shed.P_c + shed.P_r + shed.P_k) };
}
