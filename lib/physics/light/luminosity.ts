/**
 * Light as the eye sees it: radiant power weighted by the spectral luminous efficiency V(λ) of photopic vision
 * (CIE 1924, tabulated in CIE S 010 / ISO 23539), Φ_v = K_m·∫ V(λ)·Φ_e,λ(λ) dλ with K_m = 683 lm/W; and the
 * intensity of a light-emitting diode against its current and temperature. Left out: scotopic and mesopic vision,
 * colour, and the shift of the peak wavelength with current and temperature.
 */

import type { CurveData } from "../../graph/curve";
import { curveAt, curveCrossing, curveIntegral } from "../../graph/interpolate";
import { exp } from "../../quantity/elementary";
import { WorkingsError } from "../../quantity/error";

/** Points of a bell: enough for 1e-4 of its efficacy, few enough for sampling. */
const bellPoints = 64;

/**
 * ∫ f·g dx over the interval that both curves cover; 0 where they do not overlap. Simpson's rule between the points of
 * both: exact where both are straight there, since the product of two lines is a parabola.
 */
export function overlapIntegral(f: CurveData, g: CurveData): number {
  const low = Math.max(f.x[0] ?? Number.NaN, g.x[0] ?? Number.NaN);
  const high = Math.min(f.x.at(-1) ?? Number.NaN, g.x.at(-1) ?? Number.NaN);
  const knots = [low, ...between(f.x, low, high), ...between(g.x, low, high), high].sort((a, b) => a - b);
  const product = (x: number): number => curveAt(f, x) * curveAt(g, x);
  let sum = 0;
  for (let i = 1; i < knots.length && low < high; i++) sum += simpson(product, knots[i - 1] ?? low, knots[i] ?? low);
  return sum;
}

/** V averaged over a relative spectrum, 0 to 1: ∫V·S dλ / ∫S dλ, both over the wavelengths of the spectrum's table. */
export function efficacy(spectrum: CurveData, V: CurveData): number {
  return overlapIntegral(spectrum, V) / curveIntegral(spectrum);
}

/**
 * V averaged over a Gaussian spectrum with its peak at `peak` and the full width `width` at half height (both m): what
 * a light-emitting diode's spectrum resembles. Midpoints over ±2.5 widths; V is 0 outside its table.
 */
export function bellEfficacy(peak: number, width: number, V: CurveData): number {
  const [low, high] = [V.x[0] ?? Number.NaN, V.x.at(-1) ?? Number.NaN];
  let weighted = 0;
  let total = 0;
  for (let i = 0; i < bellPoints; i++) {
    const u = 5 * ((i + 0.5) / bellPoints - 0.5);
    const part = exp(-4 * Math.LN2 * u * u);
    const wavelength = peak + u * width;
    total += part;
    if (wavelength >= low && wavelength <= high) weighted += part * curveAt(V, wavelength);
  }
  return weighted / total;
}

function between(x: Float64Array, low: number, high: number): readonly number[] {
  return [...x].filter((value) => value > low && value < high);
}

function simpson(f: (x: number) => number, left: number, right: number): number {
  return ((right - left) * (f(left) + 4 * f((left + right) / 2) + f(right))) / 6;
}

/**
 * Intensity of an LED relative to that at its rated current, from rows of relative intensity against current (A, ≥ 0).
 * Below the first row it is taken proportional to the current (common practice, no source); "table-range" above the last.
 */
export function relativeIntensity(I: number, table: CurveData): number {
  const first = table.x[0] ?? Number.NaN;
  return I >= 0 && I < first ? (table.y[0] ?? Number.NaN) * (I / first) : curveAt(table, I);
}

/** The current (A) at which the relative intensity is y (≥ 0): the inverse of relativeIntensity for rows that increase. */
export function currentForRelativeIntensity(y: number, table: CurveData): number {
  const [first, last] = [table.y[0] ?? Number.NaN, table.y.at(-1) ?? Number.NaN];
  if (!(y >= 0 && y <= last)) {
    throw new WorkingsError("table-range", `no current gives ${y} of the rated intensity; the table of relative intensity ends at ${last}`);
  }
  return y < first ? (table.x[0] ?? Number.NaN) * (y / first) : curveCrossing(table, y);
}

/** Factor on an intensity at temperature T (K) that is 1 at T_0: exp(α·(T − T_0)), α in 1/K. */
export function thermalFactor(alpha: number, T: number, T_0: number): number {
  return exp(alpha * (T - T_0));
}
