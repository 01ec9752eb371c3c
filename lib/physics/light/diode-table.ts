/**
 * A diode given by rows of its I–V curve (current against voltage), in series with a resistor. The curve is shifted by
 * dV so that it passes through the forward voltage that is stated for one current: V_f(I) = V_table(I) + dV.
 *
 * In each segment the load line meets the curve once. A linear segment is solved in closed form. A segment in which
 * ln I is linear in V is solved for w = ln(I/I1): s·w + R·I1·exp(w) is increasing and convex, so Newton's rule started at
 * the segment's upper end descends to the root and stops where rounding stops it (common practice, no source).
 *
 * Below the first row the current continues as the exponential through the first two rows, as a junction's does;
 * where the first row's current is zero there is none below it. Above the last row nothing is known: an error.
 */

import type { CurveData } from "../../graph/curve";
import { curveCrossing } from "../../graph/interpolate";
import { exp, ln } from "../../quantity/elementary";
import { WorkingsError } from "../../quantity/error";
import type { OperatingPoint } from "./shockley";

const mostSteps = 200;

/**
 * Operating point of a diode table (x in V, y in A, both increasing; linear or log-y) shifted by dV (V), fed from V_s (V)
 * through R (Ω, ≥ 0; Infinity is an open circuit: no current, the supply stands across the diode). Throws "table-range"
 * where the load line passes above the last row, "not-finite" for a negative R, "table-rule" for another interpolation.
 */
export function tablePoint(V_s: number, R: number, table: CurveData, dV: number): OperatingPoint {
  if (R === Infinity) return { I: 0, V_f: V_s };
  if (!(R >= 0)) throw new WorkingsError("not-finite", `the series resistor is ${R} Ω; it must be zero or positive`);
  const available = V_s - dV;
  const last = table.x.length - 1;
  if (!(available <= at(table.x, last) + R * at(table.y, last))) throw aboveTable(V_s, R, table, dV);
  const upper = firstAtOrAbove(table, available, R);
  const I = upper === 0 ? below(table, available, R) : within(table, upper, available, R);
  return { I, V_f: V_s - I * R };
}

/** Forward voltage at current I (A, > 0) of a diode table shifted by dV (V): exponential below the first row, "table-range" above the last. */
export function tableVoltage(I: number, table: CurveData, dV: number): number {
  const { x, y } = table;
  const highest = at(y, y.length - 1);
  if (!(I > 0 && I <= highest)) {
    throw new WorkingsError("table-range", `the diode's table has no forward voltage for ${I} A; its currents end at ${highest} A`);
  }
  if (I >= at(y, 0)) return curveCrossing(table, I) + dV;
  return at(x, 0) + slope(table) * ln(I / at(y, 0)) + dV;
}

function within(table: CurveData, upper: number, available: number, R: number): number {
  const { x, y, interpolation = "linear" } = table;
  const [x0, y0, x1, y1] = [at(x, upper - 1), at(y, upper - 1), at(x, upper), at(y, upper)];
  if (interpolation === "log-y") return exponential(x1, y1, (x1 - x0) / ln(y1 / y0), available, R);
  if (interpolation === "linear") return y0 + ((y1 - y0) * (available - x0 - R * y0)) / (x1 - x0 + R * (y1 - y0));
  throw new WorkingsError(
    "table-rule",
    `the diode's table is interpolated ${interpolation}; a load line can be laid through linear or log-y`,
  );
}

function below(table: CurveData, available: number, R: number): number {
  const y0 = at(table.y, 0);
  return y0 > 0 ? exponential(at(table.x, 0), y0, slope(table), available, R) : 0;
}

/** V per unit of ln I between the first two rows. */
function slope({ x, y }: CurveData): number {
  return (at(x, 1) - at(x, 0)) / ln(at(y, 1) / at(y, 0));
}

/** Root I of V1 + s·ln(I/I1) + R·I = available, at or below I1. */
function exponential(V1: number, I1: number, s: number, available: number, R: number): number {
  const a = (R * I1) / s;
  const b = (available - V1) / s;
  let w = 0;
  for (let step = 0; step < mostSteps; step++) {
    const drop = a * exp(w);
    const next = w - (w + drop - b) / (1 + drop);
    if (!(next < w)) break;
    w = next;
  }
  return I1 * exp(w);
}

/** First row whose voltage plus the resistor's drop reaches what is available. */
function firstAtOrAbove({ x, y }: CurveData, available: number, R: number): number {
  let low = 0;
  let high = x.length - 1;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (at(x, middle) + R * at(y, middle) < available) low = middle + 1;
    else high = middle;
  }
  return low;
}

function aboveTable(V_s: number, R: number, { x, y }: CurveData, dV: number): WorkingsError {
  const [V, I] = [at(x, x.length - 1) + dV, at(y, y.length - 1)];
  return new WorkingsError(
    "table-range",
    `${V_s} V through ${R} Ω drives the diode beyond the last row of its table (${I} A at ${V} V); give the table more rows or enlarge the resistor`,
  );
}

function at(values: Float64Array, index: number): number {
  return values[index] ?? Number.NaN;
}
