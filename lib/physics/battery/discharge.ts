/**
 * A cell as an open-circuit voltage V(s) against state of charge s (rows of a table, straight lines between them) behind
 * one resistance R, emptied by a load to a cut-off of its terminal voltage. Left out: hysteresis, self-heating, and the
 * change of R with s; slow diffusion is in R (see `effectiveResistance`).
 *
 * A constant power P draws I = (V − w)/(2·R) = 2·P/(V + w) with w = √(V² − c), c = 4·R·P: the root with the lower
 * current. Then dt = −Q·ds/I, and both time and loss need only the means of V and w along the discharge:
 * t = Q·∫(V + w)ds/(2·P), E_loss = Q·∫(V − w)ds/2. On a straight line the mean of w has a closed form, so nothing here
 * steps through time and no tolerance in any unit is involved.
 */
import type { CurveData } from "../../graph/curve";
import { curveAt } from "../../graph/interpolate";
import { log1p } from "../../quantity/elementary";
import { WorkingsError } from "../../quantity/error";

/** Where a cell with its load stands: I in A, V_t in V across the terminals, P_loss in W in its own resistance. */
export interface LoadPoint {
  readonly I: number;
  readonly V_t: number;
  readonly P_loss: number;
}

/** A full or part discharge: t in s, s_end the share of charge left, E_load and E_loss in J, Q_out in C drawn. */
export interface Discharge {
  readonly t: number;
  readonly s_end: number;
  readonly Q_out: number;
  readonly E_load: number;
  readonly E_loss: number;
}

/** A cell and where its use ends: Q in C, R in Ω, V_c the terminal voltage at cut-off in V, s_0 the charge to begin with. */
export interface CellUse {
  readonly Q: number;
  readonly R: number;
  readonly V_c: number;
  readonly s_0: number;
  readonly ocv: CurveData;
}

/**
 * Operating point of a load of constant power P (W, ≥ 0) on an open-circuit voltage V (V, > 0) behind R (Ω, ≥ 0).
 * Throws "nominal-domain" where P is more than the cell can give, V²/(4·R), and "not-finite" outside those ranges.
 */
export function constantPowerPoint(V: number, R: number, P: number): LoadPoint {
  if (!(V > 0 && R >= 0 && P >= 0)) {
    throw new WorkingsError("not-finite", `a constant-power load needs V > 0, R ≥ 0 and P ≥ 0; got V = ${V} V, R = ${R} Ω, P = ${P} W`);
  }
  const square = V * V - 4 * R * P;
  if (square < 0) throw tooMuchPower(V, R, P);
  const I = (2 * P) / (V + Math.sqrt(square));
  return { I, V_t: V - I * R, P_loss: I * I * R };
}

/** Discharge by a constant current I (A, > 0) until the terminal voltage V − I·R has fallen to V_c. */
export function dischargeByCurrent(cell: CellUse, I: number): Discharge {
  requireUse(cell, "I", I, "A");
  const { Q, R, V_c } = cell;
  const { width, V, s_end } = discharge(cell, V_c + I * R, 0);
  const Q_out = Q * width;
  const E_loss = Q_out * I * R;
  return { t: Q_out / I, s_end, Q_out, E_load: Q * V - E_loss, E_loss };
}

/**
 * Discharge by a constant power P (W, > 0) until the terminal voltage has fallen to V_c, or, where that comes first, to
 * √(R·P), below which no current gives P.
 */
export function dischargeByPower(cell: CellUse, P: number): Discharge {
  requireUse(cell, "P", P, "W");
  const { Q, R, V_c } = cell;
  const last = Math.max(V_c, Math.sqrt(R * P));
  const { width, V, w, s_end } = discharge(cell, last + (R * P) / last, 4 * R * P);
  const E_load = (Q * (V + w)) / 2;
  return { t: E_load / P, s_end, Q_out: Q * width, E_load, E_loss: (Q * (V - w)) / 2 };
}

/** Mean of √(V² − c) for V evenly from V0 to V1, both ≥ √c; without cancellation for V0 = V1 or c = 0. */
export function meanRoot(V0: number, V1: number, c: number): number {
  return meanBetween(V0, rootAt(V0, c), V1, rootAt(V1, c), c);
}

const rootAt = (V: number, c: number): number => Math.sqrt(Math.max(0, V * V - c));

/** The same with the roots at both ends known. */
function meanBetween(V0: number, w0: number, V1: number, w1: number, c: number): number {
  const w = w0 + w1;
  if (w === 0) return 0;
  const V = V0 + V1;
  const k = (1 + V / w) / (V0 + w0);
  return (w / 2 + (V * V) / (2 * w) - c * k * logarithmOver((V1 - V0) * k)) / 2;
}

/**
 * ln(1 + x)/x, 1 at 0. For short pieces by the series of 2·artanh z, z = x/(2 + x); what it leaves out is below 4e-17 of it (the next
 * term at |x| = 0.1).
 */
function logarithmOver(x: number): number {
  if (!(Math.abs(x) <= 0.1)) return log1p(x) / x;
  const z = x / (2 + x);
  const q = z * z;
  return (2 / (2 + x)) * (1 + q * (1 / 3 + q * (1 / 5 + q * (1 / 7 + q * (1 / 9 + q / 11)))));
}

/** Along a discharge: the charge used, and the integrals over it of V and of w = √(V² − c). */
interface Course {
  readonly width: number;
  readonly V: number;
  readonly w: number;
  readonly s_end: number;
}

/** From s_0 down to where the open-circuit voltage first falls to V_end, or to the table's end, one straight piece after another. */
function discharge({ ocv: { x: xs, y: ys }, ocv, s_0 }: CellUse, V_end: number, c: number): Course {
  let width = 0;
  let V = 0;
  let w = 0;
  let s = s_0;
  let V0 = curveAt(ocv, s_0);
  let w0 = rootAt(V0, c);
  let i = xs.length - 1;
  while (i >= 0 && (xs[i] as number) >= s) i--;
  for (; i >= 0 && V0 > V_end; i--) {
    const x = xs[i] as number;
    const y = ys[i] as number;
    const isWhole = y >= V_end;
    const piece = isWhole ? s - x : ((s - x) * (V0 - V_end)) / (V0 - y);
    const V1 = isWhole ? y : V_end;
    const w1 = rootAt(V1, c);
    width += piece;
    V += (piece * (V0 + V1)) / 2;
    if (c > 0) w += piece * meanBetween(V0, w0, V1, w1, c);
    s = isWhole ? x : s - piece;
    V0 = V1;
    w0 = w1;
  }
  return { width, V, w: c > 0 ? w : V, s_end: s };
}

function requireUse({ Q, R, V_c, ocv }: CellUse, symbol: string, load: number, unit: string): void {
  if (ocv.interpolation !== undefined && ocv.interpolation !== "linear") {
    throw new WorkingsError("table-rule", `the open-circuit voltage is interpolated ${ocv.interpolation}; a discharge needs linear rows`);
  }
  if (Q > 0 && R >= 0 && V_c > 0 && load > 0 && load < Infinity) return;
  throw new WorkingsError(
    "not-finite",
    `a discharge needs Q > 0, R ≥ 0, V_c > 0 and ${symbol} > 0; got Q = ${Q} C, R = ${R} Ω, V_c = ${V_c} V, ${symbol} = ${load} ${unit}`,
  );
}

function tooMuchPower(V: number, R: number, P: number): WorkingsError {
  const most = (V * V) / (4 * R);
  return new WorkingsError(
    "nominal-domain",
    `no current gives ${P} W: a cell of ${V} V behind ${R} Ω gives ${most} W at most (V²/(4·R)); lower the load or the resistance`,
    { V, R, P, P_max: most },
  );
}
