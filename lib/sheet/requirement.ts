/** Holds a result against a requirement of the brief. */
import { assignable } from "../quantity/dimension";
import { unitOf } from "../quantity/unit";
import { runningCell } from "./emit";
import type { AnyQuantity, Session } from "./session";

/** Shows the verdict on requirement `id` by the result. Throws where the limit is of another dimension. */
export function requireResult(session: Session, result: AnyQuantity, id: string): void {
  const row = session.design.requirement(id);
  const node = session.enter(result);
  const limitUnit = unitOf(row.unit);
  if (!assignable(result.dimension, limitUnit.dimension)) {
    throw session.error(
      "dimension",
      `${row.place}: requirement ${id} limits ${limitUnit.dimension.label} (in ${row.unit}); the result is ${result.dimension.label}`,
    );
  }
  session.name("requirement", id);
  session.judged.push({ node, requirement: id, cell: runningCell() });
  const verdict = session.evaluation.verdict(node, row.limit, row.judged);
  session.show({ type: "requirement", requirement: id, node }, [session.evaluation.analysis(node)], [verdict]);
}
