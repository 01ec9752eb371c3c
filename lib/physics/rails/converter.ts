/**
 * Steady state of the three basic switching converters by volt-second and charge balance (R. W. Erickson and
 * D. Maksimović, Fundamentals of Power Electronics, chapters 2 and 5), in continuous and discontinuous conduction.
 * While the switch is on the inductor sees V_on, while the rectifier is on V_off; a buck's inductor feeds the output all
 * the time, that of a boost or an inverting converter only during the second part. Losses count as a voltage in series
 * with the output: V_out/eta takes the place of V_out, which keeps the energy balance.
 */
import { WorkingsError } from "../../quantity/error";

export type Topology = "boost" | "inverting" | "buck";

/** V_in, V_out in V (both positive: V_out is a magnitude), eta in (0, 1], f in Hz, L in H. */
export interface Converter {
  readonly V_in: number;
  readonly V_out: number;
  readonly eta: number;
  readonly f: number;
  readonly L: number;
}

/** Voltages across the inductor, V, > 0, and whether it always feeds the output. */
export interface Slopes {
  readonly V_on: number;
  readonly V_off: number;
  readonly always: boolean;
}

/** One period: shares of it with switch (D) and rectifier (D_2) on; currents of the inductor and of the output in A. */
export interface Operation {
  readonly D: number;
  readonly D_2: number;
  readonly dI: number;
  readonly I_L: number;
  readonly I_pk: number;
  readonly I_rms: number;
  /** Load below which conduction is discontinuous, where the current may not reverse. */
  readonly I_b: number;
}

/** Throws "nominal-domain" where the converter cannot make this output, "not-finite" for values without sense. */
export function slopes(topology: Topology, { V_in, V_out, eta, f, L }: Converter): Slopes {
  if (!(V_in > 0 && V_out > 0 && eta > 0 && eta <= 1 && f > 0 && L > 0)) {
    throw new WorkingsError(
      "not-finite",
      `a converter needs V_in, V_out, f and L > 0 and 0 < eta ≤ 1; got V_in = ${V_in} V, V_out = ${V_out} V, f = ${f} Hz, L = ${L} H, eta = ${eta}`,
    );
  }
  const V = V_out / eta;
  if (topology === "inverting") return { V_on: V_in, V_off: V, always: false };
  if (topology === "boost") {
    if (V > V_in) return { V_on: V_in, V_off: V - V_in, always: false };
    throw new WorkingsError("nominal-domain", `a boost converter makes no ${V_out} V of ${V_in} V; take a buck or an inverting one`);
  }
  if (V < V_in) return { V_on: V_in - V, V_off: V, always: true };
  throw new WorkingsError("nominal-domain", `a buck converter of efficiency ${eta} makes no ${V_out} V of ${V_in} V; take a boost one`);
}

/**
 * Steady state with the load I_out (A, ≥ 0). With `forced` the inductor current may reverse and conduction is always
 * continuous.
 */
export function operate({ V_on, V_off, always }: Slopes, f: number, L: number, I_out: number, forced = false): Operation {
  if (!(I_out >= 0 && I_out < Infinity)) throw new WorkingsError("not-finite", `a converter's load must be 0 A or more, not ${I_out} A`);
  const D = V_off / (V_on + V_off);
  const dI = (V_on * D) / (f * L);
  const share = always ? 1 : 1 - D;
  const I_b = (share * dI) / 2;
  if (!forced && I_out < I_b) return discontinuous({ V_on, V_off, always }, f, L, I_out, I_b);
  const I_L = I_out / share;
  return { D, D_2: 1 - D, dI, I_L, I_pk: I_L + dI / 2, I_rms: Math.sqrt(I_L * I_L + (dI * dI) / 12), I_b };
}

/** The current starts from zero in each period and comes back to it. */
function discontinuous({ V_on, V_off, always }: Slopes, f: number, L: number, I_out: number, I_b: number): Operation {
  const ratio = V_on / V_off;
  const D = Math.sqrt((2 * f * L * I_out) / (V_on * (always ? 1 + ratio : ratio)));
  const D_2 = D * ratio;
  const I_pk = (V_on * D) / (f * L);
  return { D, D_2, dI: I_pk, I_L: (I_pk * (D + D_2)) / 2, I_pk, I_rms: I_pk * Math.sqrt((D + D_2) / 3), I_b };
}

/** Charge that one pulse of the peak current I_p (A) from zero brings to the output, C. */
export function packet({ V_on, V_off, always }: Slopes, L: number, I_p: number): number {
  const fall = (L * I_p) / V_off;
  return (I_p * (always ? fall + (L * I_p) / V_on : fall)) / 2;
}
