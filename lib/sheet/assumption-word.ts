/** Whether a computed result is what was assumed for it: in a cell, in the document and in the page. */
import type { Evaluation } from "../analysis/evaluation";
import type { NodeId } from "../graph/node";

export type ConfirmationWord = "confirmed" | "confirmed for typical units" | "not confirmed";

/** Whether the middle 95 % of what was computed, or at least its nominal value, lies within the limits that were assumed. */
export function confirmationWord(evaluation: Evaluation, assumed: NodeId, computed: NodeId): ConfirmationWord {
  const limits = evaluation.analysis(assumed).worst;
  const { nominal, interval } = evaluation.analysis(computed);
  const low = limits?.low ?? evaluation.nominal(assumed);
  const high = limits?.high ?? evaluation.nominal(assumed);
  const inside = (value: number) => value >= low && value <= high;
  if (!inside(nominal)) return "not confirmed";
  return interval === null || (inside(interval.low) && inside(interval.high)) ? "confirmed" : "confirmed for typical units";
}
