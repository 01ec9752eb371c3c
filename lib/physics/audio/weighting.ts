/**
 * Frequency weightings A, C and Z of IEC 61672-1 (table 3 and annex E), as ratios of power, 0 dB at 1 kHz:
 *   C: f_4²·f²/((f² + f_1²)·(f² + f_4²)); A: C's times f²/√((f² + f_2²)·(f² + f_3²)); Z: flat.
 * The standard's table belongs to the exact frequencies 1000·10^(n/10) Hz: at the nominal 31.5 Hz A is −39.53 dB, at the
 * exact 31.62 Hz −39.44 dB.
 */
import { ln } from "../../quantity/elementary";
import { frequencies } from "../rf/filter";

export type Weighting = "A" | "C" | "Z";

/** Poles, Hz. IEC 61672-1 annex E, which derives them from 10^1.5, 10^2.45, 10^3.9 and 1000 Hz. */
export const weightingPoles = [20.598997, 107.65265, 737.86223, 12194.217] as const;

const [f_1, f_2, f_3, f_4] = weightingPoles;
const [s_1, s_2, s_3, s_4] = [f_1 * f_1, f_2 * f_2, f_3 * f_3, f_4 * f_4] as const;

function plainC(square: number): number {
  const ratio = square / ((square + s_1) * (square + s_4));
  return ratio * ratio;
}

function plainA(square: number): number {
  return (plainC(square) * square * square) / ((square + s_2) * (square + s_3));
}

const [scaleA, scaleC] = [1 / plainA(1e6), 1 / plainC(1e6)];

/** Weighting at f (Hz, ≥ 0), a ratio of powers. */
export function weightingPower(weighting: Weighting, f: number): number {
  if (weighting === "Z") return 1;
  return weighting === "A" ? scaleA * plainA(f * f) : scaleC * plainC(f * f);
}

const intervals = 240;

/** ∫ density(f)·weighting(f) df from f_1 to f_2 (Hz, > 0): Simpson's rule in ln f, good to 10⁻⁷ for what bends over an octave. */
export function weightedIntegral(density: (f: number) => number, weighting: Weighting, f_1: number, f_2: number): number {
  return bandIntegrals((f) => [density(f)], weighting, f_1, f_2)[0] as number;
}

/** The same of several densities at once. */
export function bandIntegrals(densities: (f: number) => readonly number[], weighting: Weighting, f_1: number, f_2: number): number[] {
  const f = frequencies(f_1, f_2, intervals + 1);
  const sums: number[] = [];
  f.forEach((at, i) => {
    const weight = at * weightingPower(weighting, at) * (i === 0 || i === intervals ? 1 : i % 2 === 1 ? 4 : 2);
    densities(at).forEach((value, k) => {
      sums[k] = (sums[k] ?? 0) + weight * value;
    });
  });
  const step = octaveStep(f);
  return sums.map((sum) => (sum * step) / 3);
}

/** ln of the ratio of neighbours. */
function octaveStep(f: Float64Array): number {
  return ln((f[intervals] as number) / (f[0] as number)) / intervals;
}
