/**
 * Charging with a constant current, then a constant voltage, of a cell whose open-circuit voltage a + b·s is a straight
 * line of the state of charge s, behind a resistance R. In the second phase the current falls by exp(−t/τ) with
 * τ = Q·R/b. Left out: diffusion beyond what R holds, and the tail that a curved open-circuit voltage makes.
 */
import { ln } from "../../quantity/elementary";
import { WorkingsError } from "../../quantity/error";

/** a, b, V_cv in V; R in Ω; I (charging) and I_end (where it stops) in A; Q in C; s_0 the state of charge at the start. */
export interface LinearCharge {
  readonly a: number;
  readonly b: number;
  readonly R: number;
  readonly V_cv: number;
  readonly I: number;
  readonly I_end: number;
  readonly Q: number;
  readonly s_0: number;
}

/** Times in s; I_start in A is where the constant voltage takes over, s_end the state of charge where it stops. */
export interface ChargeTimes {
  readonly t_cc: number;
  readonly I_start: number;
  readonly t_cv: number;
  readonly t: number;
  readonly s_end: number;
}

/**
 * Times of a charge. A cell that is nearly full begins at constant voltage, with less than I; one in which less than
 * I_end would flow is not charged. Throws "not-finite" where b, I, I_end or Q is not positive or R is negative.
 */
export function chargeTimes({ a, b, R, V_cv, I, I_end, Q, s_0 }: LinearCharge): ChargeTimes {
  if (!(b > 0 && I > 0 && I_end > 0 && Q > 0 && R >= 0)) {
    throw new WorkingsError(
      "not-finite",
      `a charge needs b, I, I_end and Q > 0 and R ≥ 0; got b = ${b} V, I = ${I} A, I_end = ${I_end} A, Q = ${Q} C, R = ${R} Ω`,
    );
  }
  const s_1 = Math.max(s_0, (V_cv - I * R - a) / b);
  const t_cc = (Q * (s_1 - s_0)) / I;
  const I_start = s_1 > s_0 ? I : startingCurrent(V_cv - a - b * s_0, R, I);
  const tau = (Q * R) / b;
  const falls = I_start > I_end;
  const t_cv = falls ? tau * ln(I_start / I_end) : 0;
  return { t_cc, I_start, t_cv, t: t_cc + t_cv, s_end: falls ? s_1 + (tau * (I_start - I_end)) / Q : s_1 };
}

/** What the voltage left over drives through R, at most I; nothing where there is none. */
function startingCurrent(over: number, R: number, I: number): number {
  if (!(over > 0)) return 0;
  return Math.min(I, over / R);
}
