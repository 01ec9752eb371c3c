/** A value measured on a prototype beside the result that it tests. */
import type { NodeId } from "../graph/node";
import type { Evaluation } from "./evaluation";

/**
 * Whether a reading of one unit, in SI, lies within 95 % of what was predicted for it, by production and by what is not known; where
 * nothing spreads, whether it is the nominal value.
 */
export function meets(reading: number, result: NodeId, evaluation: Evaluation): boolean {
  const predicted = evaluation.predicted(result);
  const nominal = evaluation.nominal(result);
  return reading >= (predicted?.low ?? nominal) && reading <= (predicted?.high ?? nominal);
}
