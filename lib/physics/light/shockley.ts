/**
 * The exponential junction: I = I_s·(exp(V_j/(n·V_T)) − 1) with V_j = V − I·R_s and V_T = k·T/q (W. Shockley,
 * "The theory of p-n junctions in semiconductors and p-n junction transistors", Bell System Technical Journal 28,
 * 1949). Left out: breakdown, high-level injection, the temperature law of I_s, self-heating.
 *
 * With x = V_j/(n·V_T) the circuit equation n·V_T·x + R·I_s·(exp(x) − 1) = V is increasing and convex in x, so
 * Newton's rule started on the high side descends to the root without a bracket and stops where rounding stops it:
 * no tolerance in volts or amperes is involved.
 */
import { expm1, log1p } from "../../quantity/elementary";
import { WorkingsError } from "../../quantity/error";
import { thermalVoltage } from "../constants";

/** A junction diode: I_s in A (> 0), ideality n (1 to 3), R_s in Ω (≥ 0). */
export interface Junction {
  readonly I_s: number;
  readonly n: number;
  readonly R_s: number;
}

export interface OperatingPoint {
  /** A, through resistor and diode; negative when the supply is. */
  readonly I: number;
  /** V, across the diode, its series resistance included. */
  readonly V_f: number;
}

const mostSteps = 200;

/**
 * Current of a junction diode fed from V_s (V, either sign) through R (Ω, ≥ 0) at T (K, > 0).
 * An open circuit is R = Infinity and gives no current. Throws "not-finite" outside those ranges.
 */
export function shockleyPoint(V_s: number, R: number, diode: Junction, T: number): OperatingPoint {
  const scale = diode.n * thermalVoltage(T);
  const total = R + diode.R_s;
  if (!(R >= 0 && diode.R_s >= 0 && scale > 0 && diode.I_s > 0)) throw outside(R, diode, T);
  if (total === Infinity) return { I: 0, V_f: V_s };
  const x = junction(V_s / scale, (total * diode.I_s) / scale);
  const I = diode.I_s * expm1(x);
  return { I, V_f: scale * x + I * diode.R_s };
}

/** Root of x + a·(exp(x) − 1) = b, a ≥ 0. Both bounds of the start are where one term alone would make b. */
function junction(b: number, a: number): number {
  let x = b <= 0 ? 0 : a > 0 ? Math.min(b, log1p(b / a)) : b;
  for (let step = 0; step < mostSteps; step++) {
    const rise = a * expm1(x);
    const next = x - (x + rise - b) / (1 + a + rise);
    if (!(next < x)) return x;
    x = next;
  }
  return x;
}

function outside(R: number, { I_s, n, R_s }: Junction, T: number): WorkingsError {
  return new WorkingsError(
    "not-finite",
    `a junction needs R ≥ 0, R_s ≥ 0, n > 0, I_s > 0 and T > 0; got R = ${R} Ω, R_s = ${R_s} Ω, n = ${n}, I_s = ${I_s} A, T = ${T} K`,
  );
}
