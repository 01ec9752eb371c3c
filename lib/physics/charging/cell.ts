/**
 * Charging a cell by simulation: open-circuit voltage against state of charge s (rows, straight lines between them),
 * behind R in series with a diffusion branch R_d of time constant tau. At each instant the charger gives the least of
 * what its setting, its source, its heat and the constant voltage allow. Left out: the change of R with s, hysteresis,
 * self-heating. How a real cell may be charged stands in its maker's data sheet and IEC 62133-2, not here.
 *
 * Embedded Runge-Kutta pair of orders 3 and 2 (P. Bogacki, L. F. Shampine, Appl. Math. Lett. 2, 1989, 321). The allowed
 * error of a step is a share of the full charge and of the charging voltage, the first step a share of Q/I: a change of
 * the unit of time changes no digit. No step crosses a row of the table or a change of what limits: it ends there.
 */
import type { CurveData } from "../../graph/curve";
import { curveAt } from "../../graph/interpolate";
import { WorkingsError } from "../../quantity/error";

/** Q in C, R and R_d in Ω, tau in s; s_0 the share of charge at the start; ocv in V against it. */
export interface ChargedCell {
  readonly Q: number;
  readonly R: number;
  readonly R_d: number;
  readonly tau: number;
  readonly s_0: number;
  readonly ocv: CurveData;
}

/** A current and what holds it there, by a number that differs between causes (0 to 7). */
export interface LimitedCurrent {
  readonly I: number;
  readonly cause: number;
}

/** A charger below its constant voltage V_cv (V): it ends at I_end and is set to I (A) at most. */
export interface Charger {
  readonly V_cv: number;
  readonly I_end: number;
  readonly I: number;
  /** Current into a cell of the voltage u (V) behind R (Ω). */
  limit(u: number, R: number): LimitedCurrent;
  /** Heat, W, at the terminal voltage V and the current I. */
  heat(V: number, I: number): number;
}

/** s, A, V, share, W at one instant. */
export interface ChargePoint {
  readonly t: number;
  readonly I: number;
  readonly V: number;
  readonly s: number;
  readonly P: number;
}

/** Times in s; energies in J: into the terminals (E_in), lost in the charger (E_heat) and in the cell's resistances (E_loss). */
export interface Charge {
  readonly t: number;
  readonly t_cv: number;
  readonly s_end: number;
  readonly Q_in: number;
  readonly E_in: number;
  readonly E_heat: number;
  readonly E_loss: number;
  readonly P_max: number;
  readonly points: readonly ChargePoint[];
}

/** s, v_d in V, and in J what went into the terminals, the charger's heat and the cell's loss. */
type State = readonly [number, number, number, number, number];
type Phase = "current" | "voltage" | "end";
interface Instant {
  readonly I: number;
  readonly V: number;
  readonly phase: Phase;
  /** Changes where the right-hand side bends. */
  readonly regime: number;
  readonly piece: number;
  readonly s: number;
  /** Voltage that the charger's current would bring, V. */
  readonly free: number;
}

/** Where a step of the length h ends. */
interface Place {
  readonly h: number;
  readonly y: State;
  readonly now: Instant;
}

const tolerance = 1e-7;
const longestStep = 1 / 64;
const firstStep = 2 ** -12;
/** How near to where the regime changes a step ends, as a share of the step. */
const closest = 2 ** -24;
/** How far beside a guess is looked on either side, as a share of where is looked at all. */
const aside = 1e-4;
const mostSteps = 4000;
/** Above the last row its slope goes on this far: a charger that is set high puts in more than the rated charge. */
export const beyond = 0.05;

/** Charges a cell from s_0 until the current at constant voltage has fallen to I_end. */
export function simulateCharge(cell: ChargedCell, charger: Charger): Charge {
  requireCell(cell, charger);
  return new Simulation(cell, charger).run();
}

class Simulation {
  readonly #cell: ChargedCell;
  readonly #charger: Charger;
  readonly #unit: number;
  readonly #points: ChargePoint[] = [];
  #t = 0;
  #t_cv: number | undefined;
  #y: State;
  #first: State;

  constructor(cell: ChargedCell, charger: Charger) {
    this.#cell = cell;
    this.#charger = charger;
    this.#unit = cell.Q / charger.I;
    this.#y = [cell.s_0, 0, 0, 0, 0];
    this.#first = this.#slope(this.#y);
  }

  run(): Charge {
    let now = this.#note();
    let h = this.#unit * firstStep;
    for (let step = 0; now.phase !== "end"; step++) {
      if (step > mostSteps) throw endless(this.#y[0]);
      const { y, error } = this.#step(h);
      if (error > 1) {
        h /= error > 8 ? 4 : 2;
        continue;
      }
      const next = this.#at(y);
      if (next.regime === now.regime) this.#accept(h, y);
      else this.#cross(h, now.regime);
      now = this.#note();
      h = Math.min(this.#unit * longestStep, error < 0.1 ? 2 * h : h);
    }
    return this.#result();
  }

  /** To just before where the regime changes, and just over it: points of the curves, as the current may jump there. */
  #cross(h: number, regime: number): void {
    let low = this.#place(0);
    let high = this.#place(h);
    const narrow = h * closest;
    for (let i = 0; high.h - low.h > narrow; i++) {
      const length = high.h - low.h;
      // The middle first, and now and then: far beyond the change a guess may be no good.
      const share = i % 3 === 0 ? 1 / 2 : this.#crossing(low.now, high.now);
      for (const side of [share - aside, share + aside]) {
        const next = this.#place(low.h + length * Math.min(1 - aside, Math.max(aside, side)));
        if (next.now.regime === regime) low = next;
        else high = next;
        if (next === high || high.h - low.h < length / 2) break;
      }
    }
    this.#accept(low.h, low.y);
    this.#note();
    this.#accept(high.h - low.h, high.y);
  }

  #place(h: number): Place {
    const y = h === 0 ? this.#y : this.#step(h).y;
    return { h, y, now: this.#at(y) };
  }

  /** Share of the way from one instant to the next, with another regime, at which it changes, were all straight between them. */
  #crossing(from: Instant, to: Instant): number {
    const share = (a: number, b: number, at: number) => (b === a ? 1 / 2 : Math.min(1, Math.max(0, (at - a) / (b - a))));
    if (from.piece !== to.piece) return share(from.s, to.s, this.#cell.ocv.x[Math.max(from.piece, to.piece)] as number);
    if (from.phase === "current" && to.phase !== "current") return share(from.free, to.free, this.#charger.V_cv);
    if (from.phase === "voltage" && to.phase === "end") return share(from.I, to.I, this.#charger.I_end);
    return 1 / 2;
  }

  #accept(h: number, y: State): void {
    this.#t += h;
    this.#y = y;
    this.#first = this.#slope(y);
  }

  #note(): Instant {
    const now = this.#at(this.#y);
    if (now.phase !== "current") this.#t_cv ??= this.#t;
    const point = { t: this.#t, I: now.I, V: now.V, s: this.#y[0], P: this.#charger.heat(now.V, now.I) };
    if (this.#points.at(-1)?.t !== this.#t) this.#points.push(point);
    return now;
  }

  #at([s, v_d]: State): Instant {
    const { R } = this.#cell;
    const { V_cv, I_end } = this.#charger;
    const { voltage, piece } = openCircuit(this.#cell.ocv, s);
    const u = voltage + v_d;
    const given = this.#charger.limit(u, R);
    const free = u + given.I * R;
    if (u < V_cv && free <= V_cv) return { I: given.I, V: free, phase: "current", regime: 10 * piece + given.cause, piece, s, free };
    const I = R > 0 ? Math.max(0, (V_cv - u) / R) : 0;
    if (I > I_end) return { I, V: V_cv, phase: "voltage", regime: 10 * piece + 8, piece, s, free };
    return { I, V: u + I * R, phase: "end", regime: -1, piece, s, free };
  }

  #slope(y: State): State {
    const { Q, R, R_d, tau } = this.#cell;
    const { I, V } = this.#at(y);
    const drop = R_d > 0 ? (I * R_d - y[1]) / tau : 0;
    const lost = I * I * R + (R_d > 0 ? (y[1] * y[1]) / R_d : 0);
    return [I / Q, drop, V * I, this.#charger.heat(V, I), lost];
  }

  #step(h: number): { readonly y: State; readonly error: number } {
    const [y, a] = [this.#y, this.#first];
    const b = this.#slope(along(y, h / 2, a));
    const c = this.#slope(along(y, (3 * h) / 4, b));
    const end = combine(y, h, (i) => (2 * (a[i] as number) + 3 * (b[i] as number) + 4 * (c[i] as number)) / 9);
    const d = this.#slope(end);
    const fault = (i: number): number =>
      h * Math.abs((-5 * (a[i] as number)) / 72 + (b[i] as number) / 12 + (c[i] as number) / 9 - (d[i] as number) / 8);
    return { y: end, error: Math.max(fault(0), fault(1) / this.#charger.V_cv) / tolerance };
  }

  #result(): Charge {
    const [s, , E_in, E_heat, E_loss] = this.#y;
    const Q_in = this.#cell.Q * (s - this.#cell.s_0);
    const P_max = this.#points.reduce((most, { P }) => Math.max(most, P), 0);
    return { t: this.#t, t_cv: this.#t - (this.#t_cv ?? this.#t), s_end: s, Q_in, E_in, E_heat, E_loss, P_max, points: this.#points };
  }
}

/** Voltage at s and the number of the straight piece it lies on. */
function openCircuit(ocv: CurveData, s: number): { readonly voltage: number; readonly piece: number } {
  const { x, y } = ocv;
  const last = x.length - 1;
  const top = x[last] as number;
  if (s < (x[0] as number) || s > top + beyond) return { voltage: curveAt(ocv, s), piece: 0 };
  let piece = 0;
  while (piece < last - 1 && s >= (x[piece + 1] as number)) piece++;
  const [x0, x1, y0, y1] = [x[piece] as number, x[piece + 1] as number, y[piece] as number, y[piece + 1] as number];
  return { voltage: y0 + ((y1 - y0) * (s - x0)) / (x1 - x0), piece };
}

function along(y: State, h: number, slope: State): State {
  return combine(y, h, (i) => slope[i] as number);
}

function combine(y: State, h: number, slope: (i: number) => number): State {
  return [y[0] + h * slope(0), y[1] + h * slope(1), y[2] + h * slope(2), y[3] + h * slope(3), y[4] + h * slope(4)];
}

/** Throws "table-rule" or "curve-points" where a table of open-circuit voltages cannot be charged along. */
export function requireRows(ocv: CurveData): void {
  if (ocv.interpolation !== undefined && ocv.interpolation !== "linear") {
    throw new WorkingsError("table-rule", `the open-circuit voltage is interpolated ${ocv.interpolation}; a charge needs linear rows`);
  }
  if (ocv.x.length < 2) throw new WorkingsError("curve-points", "the open-circuit voltage needs two rows or more");
}

function requireCell({ Q, R, R_d, tau, ocv }: ChargedCell, { I, I_end, V_cv }: Charger): void {
  requireRows(ocv);
  if (Q > 0 && R >= 0 && R_d >= 0 && (R_d === 0 || (tau > 0 && R > 0)) && I > 0 && I_end > 0 && V_cv > 0) return;
  throw new WorkingsError(
    "not-finite",
    `a charge needs Q, I, I_end and V_cv > 0, R and R_d ≥ 0 and, with a diffusion branch, tau and R > 0; got Q = ${Q} C, I = ${I} A, I_end = ${I_end} A, V_cv = ${V_cv} V, R = ${R} Ω, R_d = ${R_d} Ω, tau = ${tau} s`,
  );
}

function endless(s: number): WorkingsError {
  return new WorkingsError(
    "nominal-domain",
    `the charge does not end: at ${Math.round(100 * s)} % its limits leave next to no current, or R is far below R_d; look at the source's current, its voltage and the limit of heat`,
    { s },
  );
}
