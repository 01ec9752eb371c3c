/** The present state of the book at full precision, to be read by tests and by the curious. */
import type { Evaluation } from "../../analysis/evaluation";
import type { Analysis } from "../../analysis/result";
import type { Changes, Graph } from "../../graph/graph";
import type { NodeId } from "../../graph/node";
import type { Summary } from "./messages";
import { problem } from "./problem";

export interface State {
  readonly changes: Changes;
  /** False while the worker is still at it. */
  readonly settled: boolean;
  /** Every scalar that can be computed, coherent SI. */
  readonly nominal: Readonly<Record<NodeId, number>>;
  readonly analyses: Readonly<Record<NodeId, Analysis>>;
  readonly verdicts: Summary["verdicts"];
  readonly flags: Summary["flags"];
}

export function stateOf(graph: Graph, evaluation: Evaluation, summary: Summary | undefined, changes: Changes, settled: boolean): State {
  const scalars = graph.nodes().filter(({ kind }) => kind !== "table" && kind !== "sweep" && kind !== "choice");
  const nominal = scalars.flatMap(({ id }) => {
    const value = problem(() => evaluation.nominal(id), new Set());
    return typeof value === "number" ? [[id, value] as const] : [];
  });
  return {
    changes,
    settled,
    nominal: Object.fromEntries(nominal),
    analyses: summary?.analyses ?? {},
    verdicts: summary?.verdicts ?? {},
    flags: summary?.flags ?? {},
  };
}
