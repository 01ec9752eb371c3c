/**
 * What ripple on a rail leaves at an amplifier's output: rejection by its table, noise gain, a filter in the rail, and
 * the harmonics of a sawtooth of packets summed over a band.
 */
import type { CurveData } from "../../graph/curve";
import { WorkingsError } from "../../quantity/error";
import { type Traced, traced } from "../numerics/extremes";
import { frequencies } from "../rf/filter";

/** Rejection from rail to output over a band: what `rejection` leaves after the noise gain, times what a filter adds. */
export function rejectionCurve(
  rejection: CurveData & { at(x: number): number },
  G: number,
  f_1: number,
  f_2: number,
  filter: (f: number) => number = () => 1,
): Traced {
  const rows = Array.from(rejection.x).filter((f) => f > f_1 && f < f_2);
  const all = [...frequencies(f_1, f_2, 241), ...rows].sort((a, b) => a - b);
  const x = all.filter((f, i) => i === 0 || f > (all[i - 1] as number));
  return traced((f) => rejection.at(f) / (G * filter(f)), x);
}

const single = 64;
const width = 0.02;

/**
 * Rms of the harmonics n·f in [f_1, f_2] (Hz) of a sawtooth of dV (V, peak to peak), each over the rejection there. The
 * first 64 one by one; of the rest, blocks of 2 % in frequency share the rejection of their middle.
 */
export function sawtoothResidue(f: number, dV: number, rejection: (f: number) => number, f_1: number, f_2: number): number {
  if (!(f > 0 && dV >= 0 && f_1 >= 0 && f_2 > f_1)) {
    throw new WorkingsError("not-finite", `a residue needs f > 0, dV ≥ 0 and 0 ≤ f_1 < f_2; got ${f} Hz, ${dV} V, ${f_1} Hz to ${f_2} Hz`);
  }
  const last = Math.floor(f_2 / f);
  let sum = 0;
  for (let n = Math.max(1, Math.ceil(f_1 / f)); n <= last; ) {
    const count = n <= single ? 1 : Math.min(last - n + 1, 1 + Math.floor(n * width));
    const middle = n + (count - 1) / 2;
    const part = 1 / (middle * rejection(middle * f));
    sum += count * part * part;
    n += count;
  }
  return (dV / (Math.SQRT2 * Math.PI)) * Math.sqrt(sum);
}
