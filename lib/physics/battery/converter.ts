/** A converter between cell and load by its table of efficiency against the power it gives out. */
import type { CurveData } from "../../graph/curve";
import { curveAt } from "../../graph/interpolate";
import { WorkingsError } from "../../quantity/error";

/**
 * Power in (W) and efficiency of a converter that gives P_out (W, inside the table), where a unit has k (> 0) times the
 * efficiency of the table. Throws "table-range" outside the table, "nominal-domain" for an efficiency not in (0, 1].
 */
export function converterInput(P_out: number, k: number, efficiency: CurveData): { readonly P_in: number; readonly eta: number } {
  const eta = k * curveAt(efficiency, P_out);
  if (!(eta > 0 && eta <= 1)) {
    throw new WorkingsError("nominal-domain", `the converter's efficiency at ${P_out} W is ${eta}; it must lie above 0 and be at most 1`);
  }
  return { P_in: P_out / eta, eta };
}
