/**
 * Deviation of a phase from linear phase in a band, by three definitions, which differ by a factor of two and more:
 *   pure delay: from the line φ = −2π·f·τ through 0° at 0 Hz, τ chosen so that the largest deviation is least;
 *   least squares: the same line, τ making the squares of the deviation least, every hertz of the band alike;
 *   free line: from φ = φ_0 − 2π·f·τ, both chosen so that the largest deviation is least: what a phase shift shared by
 *   all frequencies would excuse, though it is no delay.
 * The phase is sampled at points of even ratio; between them its extremes are missed by less than 2·10⁻³ of the deviation.
 */
import { frequencies } from "../rf/filter";

const points = 241;
const rounds = 60;
const turn = 2 * Math.PI;

export interface Linearity {
  /** Pure delay: largest deviation (rad), delay (s), frequency of it (Hz). */
  readonly delta: number;
  readonly tau: number;
  readonly f: number;
  /** Least squares: largest deviation (rad) and delay (s). */
  readonly delta_ls: number;
  readonly tau_ls: number;
  /** Free line: largest deviation, rad. */
  readonly delta_free: number;
}

/** Deviations of the phase (rad, unbroken) from linear phase between f_1 and f_2 (Hz). */
export function linearity(phase: (f: number) => number, f_1: number, f_2: number): Linearity {
  const f = frequencies(f_1, f_2, points);
  const band: Band = { omega: f.map((at) => turn * at), phi: f.map(phase) };
  const tau = balancedDelay(band);
  const tau_ls = squaresDelay(band);
  const [pure, squares, free] = [restAt(band, tau), restAt(band, tau_ls), restAt(band, flattestDelay(band))];
  return {
    delta: largest(pure),
    tau,
    f: f[pure.high > -pure.low ? pure.top : pure.bottom] as number,
    delta_ls: largest(squares),
    tau_ls,
    delta_free: (free.high - free.low) / 2,
  };
}

interface Band {
  readonly omega: Float64Array;
  readonly phi: Float64Array;
}

/** Extremes of φ + ω·τ, and where they are. */
interface Rest {
  readonly high: number;
  readonly low: number;
  readonly top: number;
  readonly bottom: number;
}

function restAt({ omega, phi }: Band, tau: number): Rest {
  let [high, low, top, bottom] = [-Infinity, Infinity, 0, 0];
  for (let i = 0; i < omega.length; i++) {
    const rest = (phi[i] as number) + (omega[i] as number) * tau;
    if (rest > high) [high, top] = [rest, i];
    if (rest < low) [low, bottom] = [rest, i];
  }
  return { high, low, top, bottom };
}

function largest({ high, low }: Rest): number {
  return Math.max(high, -low);
}

/** The delay at which the highest and the lowest deviation are alike: their sum rises with τ; Newton's steps, halved where they leave it. */
function balancedDelay(band: Band): number {
  const { omega, phi } = band;
  let [from, to] = [Infinity, -Infinity];
  for (let i = 0; i < omega.length; i++) {
    const delay = -(phi[i] as number) / (omega[i] as number);
    [from, to] = [Math.min(from, delay), Math.max(to, delay)];
  }
  let tau = (from + to) / 2;
  for (let round = 0; round < rounds; round++) {
    const { high, low, top, bottom } = restAt(band, tau);
    const sum = high + low;
    if (sum > 0) to = tau;
    else from = tau;
    const next = tau - sum / ((omega[top] as number) + (omega[bottom] as number));
    if (next === tau || !(Math.abs(sum) > 1e-15 * (high - low))) return tau;
    tau = next > from && next < to ? next : (from + to) / 2;
  }
  return tau;
}

/** The delay at which highest less lowest deviation is least: convex in τ; where the straight pieces at both ends of a bracket meet, again and again. */
function flattestDelay(band: Band): number {
  const { omega } = band;
  const piece = (tau: number) => {
    const { high, low, top, bottom } = restAt(band, tau);
    return { tau, range: high - low, slope: (omega[top] as number) - (omega[bottom] as number) };
  };
  const [least, most] = chordDelays(band);
  let [left, right] = [piece(least), piece(most)];
  for (let round = 0; round < rounds && left.slope < 0 && right.slope > 0; round++) {
    const meet = (right.range - left.range + left.slope * left.tau - right.slope * right.tau) / (left.slope - right.slope);
    const found = piece(meet);
    if (meet <= left.tau || meet >= right.tau || found.slope === 0) return meet;
    if (found.slope === left.slope || found.slope === right.slope) return meet;
    if (found.slope < 0) left = found;
    else right = found;
  }
  return left.range < right.range ? left.tau : right.tau;
}

/** Least and greatest delay of the chords between neighbours: the best line's lies between. */
function chordDelays({ omega, phi }: Band): readonly [number, number] {
  let [least, most] = [Infinity, -Infinity];
  for (let i = 0; i + 1 < omega.length; i++) {
    const chord = ((phi[i] as number) - (phi[i + 1] as number)) / ((omega[i + 1] as number) - (omega[i] as number));
    [least, most] = [Math.min(least, chord), Math.max(most, chord)];
  }
  return [least, most];
}

/** −∫φ·ω dω / ∫ω² dω by trapezoids. */
function squaresDelay({ omega, phi }: Band): number {
  let [above, below] = [0, 0];
  for (let i = 0; i + 1 < omega.length; i++) {
    const [w, v] = [omega[i] as number, omega[i + 1] as number];
    above -= (v - w) * ((phi[i] as number) * w + (phi[i + 1] as number) * v);
    below += (v - w) * (w * w + v * v);
  }
  return above / below;
}
