/**
 * The contact-discharge current of IEC 61000-4-2, edition 2 (2008): two of Heidler's terms whose constants the standard
 * gives for 4 kV and scales with the test voltage. It is the current into the 2 Ω calibration target; a generator
 * delivers nearly the same into any network of a few ohms. An air discharge has no such form: its arc makes it vary, and
 * the contact wave at the air voltage is a convention.
 *
 * Tests with such generators are the standard's and trained staff's business: kilovolts and discharges can hurt.
 */

import { exp } from "../../quantity/elementary";
import { power } from "../../quantity/power";
import type { PulseWave } from "../circuit/data";
import { pulseAt } from "../circuit/pulse-wave";

/** I in A at 4 kV, times in s. */
const terms = [
  { I: 16.6, rise: 1.1e-9, fall: 2e-9 },
  { I: 9.3, rise: 12e-9, fall: 37e-9 },
] as const;
const n = 1.8;
const statedVoltage = 4000;

/** Contact test voltages of levels 1 to 4, V. IEC 61000-4-2:2008, table 1. */
export const contactLevels = [2000, 4000, 6000, 8000] as const;

/** What the standard tells of a wave: A and s. I_30 and I_60 are 30 and 60 ns after the current first reaches a tenth of its peak. */
export interface PulseFigures {
  readonly I_p: number;
  readonly t_p: number;
  readonly t_r: number;
  readonly I_30: number;
  readonly I_60: number;
}

/** exp(−(t_1/t_2)·(n·t_2/t_1)^(1/n)): what divides a term so that its peak is I. */
export function normalising(rise: number, fall: number): number {
  return exp(-(rise / fall) * power((n * fall) / rise, 1 / n));
}

const normalised = terms.map(({ I, rise, fall }) => ({ peak: I / normalising(rise, fall), rise, fall, power: n }));

/** The discharge current at the test voltage U (V, either sign), A, for circuits. */
export function dischargeWave(U: number): PulseWave {
  return { scale: U / statedVoltage, terms: normalised };
}

/** The discharge current at t (s) after its start, A. */
export function dischargeCurrent(U: number, t: number): number {
  return pulseAt(dischargeWave(U), t);
}

/** Peak, rise time and the currents at 30 and 60 ns of the analytic wave at U (V, > 0). */
export function pulseFigures(U: number): PulseFigures {
  const i = (t: number): number => dischargeCurrent(U, t);
  const t_p = peakTime(i);
  const I_p = i(t_p);
  const start = crossing(i, 0.1 * I_p, t_p);
  return { I_p, t_p, t_r: crossing(i, 0.9 * I_p, t_p) - start, I_30: i(start + 30e-9), I_60: i(start + 60e-9) };
}

/** The first peak lies between 0.5 and 4 ns: its slope changes sign there once. */
function peakTime(i: (t: number) => number): number {
  const step = 1e-13;
  let [low, high] = [0.5e-9, 4e-9];
  for (let round = 0; round < 40; round++) {
    const middle = (low + high) / 2;
    if (i(middle + step) > i(middle - step)) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Where the rising edge passes I. */
function crossing(i: (t: number) => number, I: number, end: number): number {
  let [low, high] = [0, end];
  for (let round = 0; round < 50; round++) {
    const middle = (low + high) / 2;
    if (i(middle) < I) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
