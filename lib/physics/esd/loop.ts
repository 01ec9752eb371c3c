/**
 * A contact discharge as one loop with one state, the current i into the pin: fast enough to be drawn thousands of times.
 * The source forces I(t) into the connector; the clamp takes I − i, and what stands over it drives the loop:
 *
 *   λ(i)′ = V_br + R_dyn·(I − i) + L_st·(I − i)′ − V_pin − (R + R_pin)·i
 *
 * with λ the flux of a choke that has L up to I_sat and L_sat beyond. Against the whole network (`protection.ts`) it leaves out
 * the capacitances of clamp and pin and the loss of the choke, which a nanosecond has charged and a few milliamperes carry, and
 * it lets no current flow backwards through pin or clamp. tests/physics/esd/loop.test.ts holds it against that and ngspice.
 *
 * For design only. ESD tests follow IEC 61000-4-2 and are made by trained staff: kilovolts and discharges can hurt.
 */
import { dischargeCurrent } from "./waveform";

/** V, Ω, H, A. R holds all that is in series, the choke's own and the pin's too; V_pin is at which the pin begins to carry. */
export interface Loop {
  readonly L_st: number;
  readonly V_br: number;
  readonly R_dyn: number;
  readonly L: number;
  readonly L_sat: number;
  readonly I_sat: number;
  readonly R: number;
  readonly V_pin: number;
}

/** Peaks in A and V, square of the pin's current over time in A²s, energy in the clamp in J. */
export interface LoopStrike {
  readonly I_pin: number;
  readonly V_j: number;
  readonly heat: number;
  readonly E_cl: number;
}

/** Steps, s, and how many: fine in the first peak, coarser in the hump, then on to 250 ns, where a thousandth of the peak is left. */
const spans = [
  { h: 0.1e-9, count: 60 },
  { h: 0.5e-9, count: 108 },
  { h: 1e-9, count: 190 },
] as const;
/** Times of the solution, s: 0, and the end of each step. */
export const loopTimes = Float64Array.from([0, ...spans.flatMap(({ h, count }) => new Array<number>(count).fill(h))]);
for (let k = 1; k < loopTimes.length; k++) loopTimes[k] = (loopTimes[k] as number) + (loopTimes[k - 1] as number);
/** The longest of the steps, s. */
export const loopStep = 1e-9;

/** The wave at 1 V on the grid, A: it is proportional to the voltage. */
const wave = loopTimes.map((t) => dischargeCurrent(1, t));

/** Follows the loop at the test voltage U (V, ≥ 0) from rest; `i` gets the current into the pin at the times of the grid, A. */
export function loopStrike({ L_st, V_br, R_dyn, L, L_sat, I_sat, R, V_pin }: Loop, U: number, i?: Float64Array): LoopStrike {
  const [below, beyond, all, drive] = [L + L_st, L_sat + L_st, R + R_dyn, V_br - V_pin];
  let [k, I, flux, now, I_pin, V_j, heat, E_cl, power] = [0, 0, 0, 0, 0, 0, 0, 0, 0];
  for (const { h, count } of spans) {
    // Share of the step's end: one half is exact to second order; more where that would swing about a choke too small for the step
    const end = h * Math.max(0.5, 1 - Math.min(below, beyond) / (h * all));
    const start = h - end;
    const [small, large, steep] = [1 / (below + end * all), 1 / (beyond + end * all), L_st / h];
    const knee = I_sat / small;
    for (let step = 0; step < count; step++) {
      const next = U * (wave[++k] as number);
      const sum = flux + L_st * (next - I) + h * drive + R_dyn * (start * I + end * next) - start * all * now;
      const free = sum <= knee ? sum * small : I_sat + (sum - knee) * large;
      const then = free < 0 ? 0 : Math.min(free, next);
      const V = V_br + (R_dyn * (I + next - now - then)) / 2 + steep * (next - I - then + now);
      const heated = (V_br + R_dyn * (next - then)) * (next - then);
      heat += (h / 2) * (now * now + then * then);
      E_cl += (h / 2) * (power + heated);
      if (then > I_pin) I_pin = then;
      if (V > V_j) V_j = V;
      flux = then <= I_sat ? below * then : below * I_sat + beyond * (then - I_sat);
      I = next;
      now = then;
      power = heated;
      if (i !== undefined) i[k] = then;
    }
  }
  return { I_pin, V_j, heat, E_cl };
}
