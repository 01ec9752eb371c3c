/**
 * How long a charge takes, in closed form piece by piece: constant current I, then constant voltage V_cv until the
 * current is I_end, of a cell whose open-circuit voltage is a table of straight lines a + b·s behind R and a diffusion
 * branch R_d, τ. At constant current s goes straight and the branch as one exponential; at constant voltage current and
 * branch are a linear system of two, the sum of two exponentials. Only where a piece ends is looked for. What a source,
 * heat or dropout take is left out: `cell.ts` steps through those.
 */
import type { CurveData } from "../../graph/curve";
import { exp } from "../../quantity/elementary";
import { WorkingsError } from "../../quantity/error";
import { increasingRoot } from "../numerics/bracket";
import { beyond, type ChargedCell, type Charger, requireRows } from "./cell";

/** The cell, the charging current I and the current I_end at which it ends, A, and the constant voltage V_cv, V. */
export type PlainCharge = ChargedCell & Pick<Charger, "I" | "I_end" | "V_cv">;

/** Time in s, share of charge, voltage of the branch in V. */
interface At {
  readonly t: number;
  readonly s: number;
  readonly v: number;
}

/** A straight piece of the table up to s_1: its voltage is a + b·s. */
interface Piece {
  readonly a: number;
  readonly b: number;
  readonly s_1: number;
}

/** Times of the charge, s, and the state of charge at its end. Throws "not-finite" for what is no charge, and where the table ends before it. */
export function timeOfCharge(charge: PlainCharge): { readonly t: number; readonly t_cv: number; readonly s_end: number } {
  requireCharge(charge);
  let at: At = { t: 0, s: charge.s_0, v: 0 };
  let begun: number | undefined;
  for (const piece of pieces(charge.ocv, charge.s_0)) {
    if (begun === undefined) {
      at = atCurrent(charge, piece, at);
      if (at.s >= piece.s_1) continue;
      begun = at.t;
    }
    const over = charge.V_cv - piece.a - piece.b * at.s - at.v;
    const end = over <= charge.I_end * charge.R ? at : atVoltage(charge, piece, at, over / charge.R);
    if (end.s < piece.s_1) return { t: end.t, t_cv: end.t - begun, s_end: end.s };
    at = end;
  }
  throw new WorkingsError("not-finite", `a charge to ${charge.V_cv} V goes beyond the last row of the open-circuit voltage`);
}

function* pieces({ x, y }: CurveData, from: number): Generator<Piece> {
  for (let i = 0; i + 1 < x.length; i++) {
    const [x_0, x_1, y_0, y_1] = [x[i] as number, x[i + 1] as number, y[i] as number, y[i + 1] as number];
    const s_1 = i + 2 === x.length ? x_1 + beyond : x_1;
    if (from >= s_1) continue;
    const b = (y_1 - y_0) / (x_1 - x_0);
    yield { a: y_0 - b * x_0, b, s_1 };
  }
}

/** At constant current to the end of the piece, or to where V_cv is reached. */
function atCurrent({ I, V_cv, Q, R, R_d, tau }: PlainCharge, { a, b, s_1 }: Piece, from: At): At {
  const after = (time: number): At => {
    const s = from.s + (I * time) / Q;
    return { t: from.t + time, s, v: R_d > 0 ? I * R_d + (from.v - I * R_d) * exp(-time / tau) : 0 };
  };
  const over = ({ s, v }: At): number => a + b * s + v + I * R - V_cv;
  if (over(from) >= 0) return from;
  const longest = ((s_1 - from.s) * Q) / I;
  const whole = { ...after(longest), s: s_1 };
  return over(whole) < 0 ? whole : after(increasingRoot((time) => over(after(time)), 0, longest, "end of constant current"));
}

/** At constant voltage, from the current i, to the end of the piece or to where the current is I_end. */
function atVoltage({ I_end, Q, R, R_d, tau }: PlainCharge, { b, s_1 }: Piece, from: At, i: number): At {
  // di/dt = m_11·i + m_12·v, dv/dt = (R_d·i − v)/τ
  const slow = R_d > 0 ? 1 / tau : 0;
  const [m_11, m_12] = [-(b / Q + R_d * slow) / R, slow / R];
  const [middle, product] = [(m_11 - slow) / 2, (b * slow) / (Q * R)];
  const root = Math.sqrt(Math.max(0, middle * middle - product));
  const fast = middle - root;
  const late = R_d > 0 ? product / fast : 0;
  const slope = m_11 * i + m_12 * from.v;
  const p = (slope - late * i) / (fast - late);
  const q = i - p;
  const share = (rate: number, time: number): number => (rate === 0 ? time : (exp(rate * time) - 1) / rate);
  const current = (time: number): number => p * exp(fast * time) + q * exp(late * time);
  const charge = (time: number): number => from.s + (p * share(fast, time) + q * share(late, time)) / Q;
  const branch = (time: number): number =>
    R_d > 0 ? (fast - m_11) * (p / m_12) * exp(fast * time) + (late - m_11) * (q / m_12) * exp(late * time) : 0;
  const after = (time: number): At => ({ t: from.t + time, s: charge(time), v: branch(time) });
  // Of a flat table without a branch the current stays; else twice as long until one of the two is behind.
  let longest = Q / i;
  while (charge(longest) < s_1 && current(longest) > I_end) longest *= 2;
  const edge = charge(longest) < s_1 ? longest : increasingRoot((time) => charge(time) - s_1, 0, longest, "end of a piece");
  if (current(edge) > I_end) return { ...after(edge), s: s_1 };
  return after(increasingRoot((time) => I_end - current(time), 0, edge, "end of the charge"));
}

function requireCharge({ I, I_end, Q, R, R_d, tau, V_cv, s_0, ocv }: PlainCharge): void {
  requireRows(ocv);
  const within = s_0 >= (ocv.x[0] as number);
  if (within && I > 0 && I_end > 0 && Q > 0 && R > 0 && R_d >= 0 && (R_d === 0 || tau > 0) && V_cv > 0) return;
  throw new WorkingsError(
    "not-finite",
    `a charge needs I, I_end, Q, R and V_cv > 0, R_d ≥ 0, tau > 0 with a diffusion branch, and a start inside the table; got I = ${I} A, I_end = ${I_end} A, Q = ${Q} C, R = ${R} Ω, R_d = ${R_d} Ω, tau = ${tau} s, V_cv = ${V_cv} V, s_0 = ${s_0}`,
  );
}
