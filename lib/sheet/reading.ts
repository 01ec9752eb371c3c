/** Readings of prototypes beside the results that they test, and those of pilot batches beside the givens that say how units differ. */
import { batchStatistics } from "../analysis/batch";
import { narrowed } from "../graph/differing";
import type { GivenNode } from "../graph/node";
import { assignable } from "../quantity/dimension";
import { unitOf } from "../quantity/unit";
import { readingNode } from "./reading-node";
import { batchWarnings, readingWarnings } from "./reading-words";
import type { AnyQuantity, Session } from "./session";

/**
 * Shows reading `id` of the design file beside the result. One that is called evidence there narrows what is not known from here on.
 * Throws where it is of another dimension, or of a result of another name, and where a verdict that it changes stands above.
 */
export function showReading(session: Session, id: string, result: AnyQuantity): void {
  const row = session.design.reading(id);
  const of = session.enter(result);
  const unit = unitOf(row.unit);
  if (!assignable(result.dimension, unit.dimension))
    throw session.error("dimension", `${row.place}: reading ${id} is of ${unit.dimension.label}; the result is ${result.dimension.label}`);
  session.name("reading", id);
  const node = readingNode(session, id, of);
  session.define(node);
  if (node.evidence) {
    const moved = narrowed(session.graph, [node]);
    const judged = session.judged.find((one) => moved.has(one.node) && one.cell?.superseded !== true);
    if (judged !== undefined)
      throw session.error(
        "worksheet",
        `reading ${id} is evidence and changes the verdict on ${judged.requirement}, which ${judged.cell === undefined ? "an earlier call" : `cell ${judged.cell.index}`} has shown already; move this call above it`,
      );
  }
  const block = { type: "reading", reading: id, node: node.id, of } as const;
  session.show(block, [session.evaluation.analysis(of)], [], { warnings: readingWarnings(block, session.evaluation) });
}

/** Shows what the pilot batch `id` of the design file says of its given. */
export function showBatch(session: Session, id: string): void {
  const row = session.design.batch(id);
  const given = session.design.given(row.given) as GivenNode;
  session.name("batch", id);
  session.add(given);
  const block = { type: "batch", batch: id, node: given.id, values: row.values } as const;
  session.show(block, [], [], { warnings: batchWarnings(id, batchStatistics(row.values, given)) });
}
