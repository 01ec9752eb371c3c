/**
 * R‖L‖C fitted to a ferrite bead's impedance magnitude. Since 1/|Z|² = 1/R² + (ωC − 1/(ωL))² is linear in C²,
 * 1/L² and 1/R² − 2·C/L, a linear least-squares fit starts the search and Gauss's rule on ln|Z| ends it.
 */
import type { CurveData } from "../../graph/curve";
import { exp, ln } from "../../quantity/elementary";
import { WorkingsError } from "../../quantity/error";
import { invert } from "../numerics/matrix";

/** R_p in Ω, L in H, C_p in F; worst is the largest ratio between fit and row, ≥ 1. */
export interface BeadFit {
  readonly R_p: number;
  readonly L: number;
  readonly C_p: number;
  readonly worst: number;
}

/** Share of the reactance below which the other element is lost in the rows' rounding. */
const faint = 1e-3;

type Triple = readonly [number, number, number];

/**
 * Fits |Z| rows (Hz, Ω), three or more on both sides of the greatest impedance. Throws "curve-points" where they do not
 * tell an inductance, a capacitance and a resistance.
 */
export function fitBead(table: CurveData): BeadFit {
  if (table.x.length < 3) throw unfit(`has ${table.x.length} rows; a fit needs three or more`);
  if (!table.x.every((f) => f > 0) || !table.y.every((Z) => Z > 0)) throw unfit("has a row at 0 Hz or 0 Ω");
  const rows = [...table.x].map((f, i): readonly [number, number] => [2 * Math.PI * f, table.y[i] as number]);
  let logs = start(rows).map(ln) as unknown as Triple;
  for (let round = 0; round < 30; round++) logs = improved(rows, logs);
  const [R_p, L, C_p] = logs.map(exp) as unknown as Triple;
  const resonance = (w: number): number => w * w * L * C_p;
  if (resonance(rows[0]?.[0] ?? 0) > 1 / faint || resonance(rows.at(-1)?.[0] ?? 0) < faint) throw oneSided();
  const worst = rows.reduce((most, [w, Z]) => Math.max(most, exp(Math.abs(ln(Z) - logOf(w, [R_p, L, C_p])))), 1);
  return { R_p, L, C_p, worst };
}

/** ln|Z| of the fit. */
function logOf(w: number, [R, L, C]: Triple): number {
  const B = w * C - 1 / (w * L);
  return -ln(1 / (R * R) + B * B) / 2;
}

function start(rows: readonly (readonly [number, number])[]): Triple {
  // Scaled to the middle of the band, each row weighted to a relative error
  const middle = Math.sqrt((rows[0]?.[0] ?? 1) * (rows.at(-1)?.[0] ?? 1));
  const equations = rows.map(([w, Z]): { readonly terms: Triple; readonly value: number } => {
    const u = w / middle;
    return { terms: [Z * Z, Z * Z * u * u, (Z * Z) / (u * u)], value: 1 };
  });
  const [a, b, c] = leastSquares(equations);
  if (!(b > 0 && c > 0)) throw oneSided();
  const [C, L] = [Math.sqrt(b) / middle, 1 / (middle * Math.sqrt(c))];
  const G = a + (2 * C) / L;
  const largest = rows.reduce((most, [, Z]) => Math.max(most, Z), 0);
  return [G > 0 ? 1 / Math.sqrt(G) : largest, L, C];
}

/** One step of Gauss's rule in ln R, ln L, ln C, held to a factor of e. */
function improved(rows: readonly (readonly [number, number])[], logs: Triple): Triple {
  const values = logs.map(exp) as unknown as Triple;
  const [R, L, C] = values;
  const equations = rows.map(([w, Z]) => {
    const B = w * C - 1 / (w * L);
    const square = 1 / (1 / (R * R) + B * B);
    const terms: Triple = [square / (R * R), (-square * B) / (w * L), -square * B * w * C];
    return { terms, value: ln(Z) - logOf(w, values) };
  });
  const step = leastSquares(equations);
  return logs.map((log, i) => log + Math.max(-1, Math.min(1, step[i] as number))) as unknown as Triple;
}

function leastSquares(equations: readonly { readonly terms: Triple; readonly value: number }[]): Triple {
  const sums = new Float64Array(9);
  const right = [0, 0, 0];
  for (const { terms, value } of equations) {
    terms.forEach((p, i) => {
      right[i] = (right[i] as number) + p * value;
      terms.forEach((q, j) => {
        sums[3 * i + j] = (sums[3 * i + j] as number) + p * q;
      });
    });
  }
  const inverse = invert(sums, 3);
  return [0, 1, 2].map((i) => right.reduce((sum, value, j) => sum + (inverse[3 * i + j] as number) * value, 0)) as unknown as Triple;
}

function oneSided(): WorkingsError {
  return unfit("does not rise and fall; give rows below and above the greatest impedance");
}

function unfit(why: string): WorkingsError {
  return new WorkingsError("curve-points", `the bead's table of impedances ${why}`);
}
