/**
 * An LED that warms itself: its junction stands above the ambient by the heat that does not leave as light, the forward
 * voltage moves with the junction, and so does the current through the resistor. Solved by repeated substitution, which
 * converges where the circuit is stable.
 */
import type { CurveData } from "../../graph/curve";
import { WorkingsError } from "../../quantity/error";
import { tablePoint } from "./diode-table";

/** SI; k_V is the change of the forward voltage with temperature (negative), eta the share of the power that leaves as light. */
export interface WarmDiode {
  readonly V_s: number;
  readonly R: number;
  readonly dV: number;
  readonly diode: CurveData;
  readonly k_V: number;
  readonly T_0: number;
  readonly T_a: number;
  readonly R_th: number;
  readonly eta: number;
}

const mostRounds = 200;
/** K. */
const close = 1e-9;

/** Current, forward voltage and junction temperature. Throws "nominal-domain" where the junction finds no steady temperature. */
export function warmPoint({ V_s, R, dV, diode, k_V, T_0, T_a, R_th, eta }: WarmDiode) {
  let T_j = T_a;
  for (let round = 0; round < mostRounds; round++) {
    const { I, V_f } = tablePoint(V_s, R, diode, dV + k_V * (T_j - T_0));
    const next = T_a + R_th * (1 - eta) * I * V_f;
    if (Math.abs(next - T_j) <= close) return { I, V_f, T_j: next };
    T_j = next;
  }
  throw new WorkingsError(
    "nominal-domain",
    "the LED finds no steady temperature: each kelvin brings more heat than it carries off; enlarge the resistor or lower the thermal resistance",
  );
}
