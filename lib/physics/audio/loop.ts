/**
 * An operational amplifier as a loop: open-loop gain A_0 with one pole, so that |A| is 1 at f_t (gain-bandwidth product),
 * perhaps a second pole f_p2; open-loop output resistance R_o; noise gain G. From it the output impedance under feedback,
 * R_o/(1 + A/G), and the stability into a capacitor C_L behind an isolating resistor R_i outside the loop, with the load R_L
 * across the capacitor: loop gain T = (A/G)·Z/(R_o + Z), Z = R_i + (R_L ‖ C_L). Left out: slew rate, the input's capacitance,
 * further poles, and current of the feedback resistors.
 */
import { atan } from "../../quantity/elementary";
import { WorkingsError } from "../../quantity/error";
import { add, type Complex, divide, inverse, magnitude, multiply, real, scale } from "../numerics/complex";

/** A_0 and G are ratios, f_t and f_p2 in Hz (f_p2 = 0: none), R_o in Ω. */
export interface Loop {
  readonly A_0: number;
  readonly f_t: number;
  readonly f_p2: number;
  readonly R_o: number;
  readonly G: number;
}

/** R_i and R_L in Ω, C_L in F. */
export interface CapacitiveLoad {
  readonly R_i: number;
  readonly R_L: number;
  readonly C_L: number;
}

const turn = 2 * Math.PI;

/** Open-loop gain at f, a ratio. */
function openLoopGain({ A_0, f_t, f_p2 }: Omit<Loop, "R_o" | "G">, f: number): Complex {
  const first = divide(real(A_0), { re: 1, im: (f * A_0) / f_t });
  return f_p2 > 0 ? divide(first, { re: 1, im: f / f_p2 }) : first;
}

/** Output impedance under feedback at f, Ω. */
export function outputImpedance(loop: Loop, f: number): Complex {
  return divide(real(loop.R_o), add(real(1), scale(openLoopGain(loop, f), 1 / loop.G)));
}

/** Loop gain at f with its load, a ratio; its phase is −180° where the loop is on the verge. */
function loopGain(loop: Loop, { R_i, R_L, C_L }: CapacitiveLoad, f: number): Complex {
  const Z = add(real(R_i), inverse({ re: 1 / R_L, im: turn * f * C_L }));
  return multiply(scale(openLoopGain(loop, f), 1 / loop.G), divide(Z, add(real(loop.R_o), Z)));
}

/** Phase of the loop gain at f, rad, unbroken from 0 downwards: the sum of its poles and its zero. */
function loopPhase({ A_0, f_t, f_p2, R_o }: Loop, { R_i, R_L, C_L }: CapacitiveLoad, f: number): number {
  const reactance = turn * f * C_L;
  const parallel = (R: number): number => atan(reactance * ((R * R_L) / (R + R_L)));
  const second = f_p2 > 0 ? atan(f / f_p2) : 0;
  return -atan((f * A_0) / f_t) - second + parallel(R_i) - parallel(R_o + R_i);
}

export interface Stability {
  /** Where the loop gain is 1, Hz. */
  readonly f_x: number;
  /** Phase margin there, rad. */
  readonly phi: number;
}

/** Crossover and phase margin. Throws "curve-crossing" where the loop gain is below 1 at every frequency. */
export function stability(loop: Loop, load: CapacitiveLoad): Stability {
  const gain = (f: number): number => magnitude(loopGain(loop, load, f));
  // Every pole lowers the gain, the zero never lifts it: it falls all the way
  let low = (loop.f_t / loop.A_0) * 1e-6;
  let high = loop.f_t;
  if (!(gain(low) > 1)) {
    throw new WorkingsError("curve-crossing", "the loop gain is below 1 at every frequency: look at A_0, the noise gain and the load");
  }
  for (let step = 0; step < 80 && high / low > 1 + 1e-13; step++) {
    const middle = Math.sqrt(low * high);
    if (gain(middle) > 1) low = middle;
    else high = middle;
  }
  return { f_x: high, phi: Math.PI + loopPhase(loop, load, high) };
}

/** Loop gain and its phase (rad) over a band of even ratio steps. */
export function loopCurves(loop: Loop, load: CapacitiveLoad, f: Float64Array): { readonly T: Float64Array; readonly phi: Float64Array } {
  return { T: f.map((at) => magnitude(loopGain(loop, load, at))), phi: f.map((at) => loopPhase(loop, load, at)) };
}
