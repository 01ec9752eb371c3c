/** A reading of the design file as a node of the graph. */
import type { NodeId, ReadingNode } from "../graph/node";
import type { Session } from "./session";

/** Id of the node of a reading. */
export function readingId(id: string): NodeId {
  return `readings.${id}`;
}

/** As a node; `of`: the result that it tests. */
export function readingNode(session: Session, id: string, of: NodeId): ReadingNode {
  const { text, nominal, spread, unit, dimension, evidence, specimen, source, note } = session.design.reading(id);
  return {
    kind: "reading",
    id: readingId(id),
    of,
    text,
    nominal,
    spread,
    unit,
    dimension,
    meaning: `reading of ${session.node(of).meaning ?? of}`,
    ...(evidence && { evidence }),
    ...(specimen !== undefined && { specimen }),
    provenance: { source, ...(note !== undefined && { note }) },
  };
}
