/** The numbers of the page at full precision, for tests: `window.workings.state()`. */
import type { Evaluation } from "../../analysis/evaluation";
import type { Analysis } from "../../analysis/result";
import type { Changes, Graph } from "../../graph/graph";
import type { NodeId } from "../../graph/node";
import { attempt } from "./attempt";
import type { Summary } from "./messages";

export interface PageState {
  readonly changes: Changes;
  /** False while the workers compute. */
  readonly settled: boolean;
  /** Every scalar that can be computed, coherent SI. */
  readonly nominal: Readonly<Record<NodeId, number>>;
  readonly analyses: Readonly<Record<NodeId, Analysis>>;
  readonly verdicts: Summary["verdicts"];
  readonly flags: Summary["flags"];
}

export function pageState(
  graph: Graph,
  evaluation: Evaluation,
  summary: Summary | undefined,
  changes: Changes,
  settled: boolean,
): PageState {
  const scalars = graph.nodes().filter(({ kind }) => kind !== "table" && kind !== "sweep" && kind !== "choice");
  const nominal = scalars.flatMap(({ id }) => {
    const value = attempt(() => evaluation.nominal(id), new Set());
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
