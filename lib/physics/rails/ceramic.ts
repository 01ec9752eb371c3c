/**
 * Loss of capacitance of a class-2 ceramic capacitor under bias: k = 1/(1 + (V/V_h)^n) fitted to rows of its data sheet.
 * ln(1/k − 1) is a straight line of ln V, so the fit is a regression. Common practice, no source.
 */
import type { CurveData } from "../../graph/curve";
import { exp, ln } from "../../quantity/elementary";
import { WorkingsError } from "../../quantity/error";
import { power } from "../../quantity/power";

export interface BiasFit {
  /** V that leaves half of the capacitance. */
  readonly V_h: number;
  readonly n: number;
  /** Largest difference between a row and the fit, share of C. */
  readonly worst: number;
}

/** Share that the fit leaves at V (V, ≥ 0). */
function shareAt(V: number, V_h: number, n: number): number {
  return 1 / (1 + power(V / V_h, n));
}

/** Fit to rows of the share kept against bias; rows at 0 V and of 1 or more say nothing and are passed over. Throws "curve-points" for fewer than two others. */
export function fitBias({ x, y }: CurveData): BiasFit {
  const rows = Array.from(x, (V, i) => ({ V, k: y[i] as number })).filter(({ V, k }) => V > 0 && k > 0 && k < 1);
  if (rows.length < 2) {
    throw new WorkingsError(
      "curve-points",
      "a fit of the loss under bias needs two rows or more with a voltage above 0 V and a share between 0 and 1",
    );
  }
  const logs = rows.map(({ V, k }) => ({ a: ln(V), b: ln(1 / k - 1) }));
  const a = mean(logs.map((row) => row.a));
  const b = mean(logs.map((row) => row.b));
  const n = mean(logs.map((row) => (row.a - a) * (row.b - b))) / mean(logs.map((row) => (row.a - a) * (row.a - a)));
  if (!(n > 0)) throw new WorkingsError("curve-points", "the share kept must fall as the bias rises");
  const V_h = exp(a - b / n);
  const worst = rows.reduce((most, { V, k }) => Math.max(most, Math.abs(k - shareAt(V, V_h, n))), 0);
  return { V_h, n, worst };
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
