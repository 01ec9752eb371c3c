/**
 * Losses of a switching converter from its lossless currents: conduction in switch, rectifier and winding, overlap of
 * voltage and current at the edges, a fixed energy each cycle (gates, output capacitance, core) and the quiescent
 * current. First order in the losses: good where they are below a third of the input. Common practice, no source.
 */
import { WorkingsError } from "../../quantity/error";
import { type Converter, operate, packet, type Slopes, slopes, type Topology } from "./converter";

/** R_1, R_2, R_L in Ω of switch, rectifier and winding; V_f of the rectifier in V; t_e of one edge in s; E_c in J; I_q in A. */
export interface Parasitics {
  readonly R_1: number;
  readonly R_2: number;
  readonly R_L: number;
  readonly V_f: number;
  readonly t_e: number;
  readonly E_c: number;
  readonly I_q: number;
}

/** W but for eta; f_s in Hz is how often it switches. */
export interface Losses {
  readonly P_in: number;
  readonly eta: number;
  readonly P_cond: number;
  readonly P_sw: number;
  readonly P_q: number;
  readonly f_s: number;
}

/**
 * Losses with the load I_out (A, > 0). I_p (A) is the peak of the pulses at light load: they come at the rate that
 * carries the load while that is below f and they do not touch; beyond, the converter switches at f. I_p = 0 is forced
 * switching at f with an inductor current that may reverse.
 */
export function losses(topology: Topology, converter: Converter, I_out: number, I_p: number, parts: Parasitics): Losses {
  const { V_in, V_out, L } = converter;
  if (!(I_out > 0 && I_p >= 0)) throw new WorkingsError("not-finite", `losses need I_out > 0 and I_p ≥ 0; got ${I_out} A and ${I_p} A`);
  const legs = slopes(topology, converter);
  const f_s = switchingRate(legs, converter, I_out, I_p);
  const { D, D_2, dI, I_L, I_pk, I_rms } = operate(legs, f_s, L, I_out, I_p === 0);
  const on = D + D_2;
  const square = (I_rms * I_rms) / on;
  const rectified = legs.always ? (I_L * D_2) / on : I_out;
  const P_cond = square * (D * parts.R_1 + D_2 * parts.R_2 + on * parts.R_L) + rectified * parts.V_f;
  const edges = ((legs.V_on + legs.V_off) * (Math.abs(I_pk) + Math.abs(I_pk - dI)) * parts.t_e) / 2;
  const P_sw = f_s * (edges + parts.E_c);
  const P_q = V_in * parts.I_q;
  const P_out = V_out * I_out;
  const P_in = P_out + P_cond + P_sw + P_q;
  return { P_in, eta: P_out / P_in, P_cond, P_sw, P_q, f_s };
}

function switchingRate(legs: Slopes, { f, L }: Converter, I_out: number, I_p: number): number {
  if (I_p === 0) return f;
  const rate = I_out / packet(legs, L, I_p);
  const lasts = (L * I_p) / legs.V_on + (L * I_p) / legs.V_off;
  return rate < f && rate * lasts <= 1 ? rate : f;
}
