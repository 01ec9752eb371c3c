/**
 * Ripple of an output capacitor C in series with ESR and ESL: its current is straight between corners, so its voltage is
 * a parabola between them and its extremes are exact. Edges of the rectifier's current last t_e.
 */
import { WorkingsError } from "../../quantity/error";
import type { Operation } from "./converter";

/** C in F, ESR in Ω, ESL in H. */
export interface OutputCapacitor {
  readonly C: number;
  readonly ESR: number;
  readonly ESL: number;
}

/** Peak to peak, V: of the capacitance alone, of the resistance alone, of all together; and the rms current in A. */
export interface Ripple {
  readonly dV_C: number;
  readonly dV_R: number;
  readonly dV: number;
  readonly I_C: number;
}

/** A corner of the current: s, A. */
interface Corner {
  readonly t: number;
  readonly i: number;
}

/** Ripple of an operation at f (Hz) with the load I_out (A) on a capacitor; `always` says that it is a buck. */
export function outputRipple(operation: Operation, always: boolean, f: number, t_e: number, { C, ESR, ESL }: OutputCapacitor): Ripple {
  if (!(C > 0 && ESR >= 0 && ESL >= 0 && t_e >= 0)) {
    throw new WorkingsError(
      "not-finite",
      `an output capacitor needs C > 0, ESR, ESL and t_e ≥ 0; got ${C} F, ${ESR} Ω, ${ESL} H, ${t_e} s`,
    );
  }
  if (!always && ESL > 0 && t_e === 0) {
    throw new WorkingsError("not-finite", "the current of the output capacitor jumps: state the time t_e of its edges, or no ESL");
  }
  const corners = centred(always ? chokeCorners(operation, f) : rectifierCorners(operation, f, t_e));
  const pure = { C, ESR: 0, ESL: 0 };
  const currents = corners.map(({ i }) => i);
  return {
    dV_C: swing(corners, pure),
    dV_R: ESR * (Math.max(...currents) - Math.min(...currents)),
    dV: swing(corners, { C, ESR, ESL }),
    I_C: rms(corners),
  };
}

/** A buck's inductor current. */
function chokeCorners({ D, D_2, dI, I_pk }: Operation, f: number): Corner[] {
  const valley = I_pk - dI;
  const corners = [
    { t: 0, i: valley },
    { t: D / f, i: I_pk },
    { t: (D + D_2) / f, i: valley },
  ];
  return D + D_2 < 1 ? [...corners, { t: 1 / f, i: valley }] : corners;
}

/** A rectifier's current: nothing for the share D, then from the peak down, each edge about its instant. */
function rectifierCorners({ D, D_2, dI, I_pk }: Operation, f: number, t_e: number): Corner[] {
  const valley = I_pk - dI;
  const [on, off] = [D / f, (D + D_2) / f];
  if (t_e >= Math.min(on, off - on)) {
    throw new WorkingsError("nominal-domain", `edges of ${t_e} s are longer than the ${Math.min(on, off - on)} s between them`);
  }
  const rise = [
    { t: on - t_e / 2, i: 0 },
    { t: on + t_e / 2, i: I_pk },
  ];
  if (valley === 0) return [{ t: 0, i: 0 }, ...rise, { t: off, i: 0 }, { t: Math.max(off, 1 / f), i: 0 }];
  return [{ t: t_e / 2, i: 0 }, ...rise, { t: off - t_e / 2, i: valley }, { t: off + t_e / 2, i: 0 }];
}

/** Without the mean, which the load takes: a capacitor carries none. */
function centred(corners: readonly Corner[]): Corner[] {
  const first = corners[0] as Corner;
  const last = corners[corners.length - 1] as Corner;
  const mean = pieces(corners).reduce((sum, { h, a, b }) => sum + (h * (a + b)) / 2, 0) / (last.t - first.t);
  return corners.map(({ t, i }) => ({ t, i: i - mean }));
}

interface Piece {
  readonly h: number;
  readonly a: number;
  readonly b: number;
}

function pieces(corners: readonly Corner[]): Piece[] {
  return corners.slice(1).map(({ t, i }, k) => ({ h: t - (corners[k] as Corner).t, a: (corners[k] as Corner).i, b: i }));
}

/** v = v_C + ESR·i + ESL·di/dt, with v_C a parabola on each piece. */
function swing(corners: readonly Corner[], { C, ESR, ESL }: OutputCapacitor): number {
  let [low, high, v_C] = [Infinity, -Infinity, 0];
  const note = (v: number): void => {
    low = Math.min(low, v);
    high = Math.max(high, v);
  };
  for (const { h, a, b } of pieces(corners)) {
    const slope = h > 0 ? (b - a) / h : 0;
    const at = (t: number): number => v_C + (a * t + (slope * t * t) / 2) / C + ESR * (a + slope * t) + ESL * slope;
    const still = slope === 0 ? -1 : -a / slope - ESR * C;
    for (const t of [0, h]) note(at(t));
    if (still > 0 && still < h) note(at(still));
    v_C += (h * (a + b)) / (2 * C);
  }
  return high - low;
}

function rms(corners: readonly Corner[]): number {
  const span = (corners[corners.length - 1] as Corner).t - (corners[0] as Corner).t;
  return Math.sqrt(pieces(corners).reduce((sum, { h, a, b }) => sum + (h * (a * a + a * b + b * b)) / 3, 0) / span);
}
