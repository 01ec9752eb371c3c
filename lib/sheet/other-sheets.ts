/**
 * What other worksheets of the book have shown: read from their notebooks' own outputs, their givens as the design
 * file states them now. So x − x is zero across sheets, and a changed given is felt even where a sheet has not run since.
 */
import { existsSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { narrowed } from "../graph/differing";
import { Graph, isEvidence } from "../graph/graph";
import type { GraphNode, NodeId } from "../graph/node";
import { dimension } from "../quantity/dimension";
import { gainAsAsked } from "./asked-gain";
import type { Display } from "./block";
import { listedWorksheets, sheetName } from "./project";
import { readingId, readingNode } from "./reading-node";
import type { Session } from "./session";
import { storedDisplays } from "./stored";
import { readText } from "./text-file";

export interface OtherSheet {
  readonly name: string;
  readonly file: string;
  readonly displays: readonly Display[];
  readonly graph: Graph;
}

/** The worksheets that book.yaml lists; a notebook that merely lies beside them is none. Without book.yaml, all of the folder. */
function notebooksIn(folder: string): string[] {
  if (!existsSync(folder)) return [];
  const book = join(folder, "book.yaml");
  const files = existsSync(book) ? listedWorksheets(book).filter((file) => existsSync(join(folder, file))) : readdirSync(folder);
  return files.filter((file) => file.endsWith(".ipynb")).sort();
}

/** One sheet by name. Throws where the book has none of that name. */
export function otherSheet(session: Session, folder: string, name: string): OtherSheet {
  const files = notebooksIn(folder);
  const file = files.find((candidate) => sheetName(candidate) === name);
  if (file !== undefined) return readSheet(folder, file);
  throw session.error(
    "worksheet",
    `there is no worksheet "${name}" to take from; the book has ${files.map(sheetName).sort().join(", ") || "none"}`,
  );
}

/**
 * Every sheet of the book but the session's own, in order of file names, read for the roll-up `budget`: a runner that wants to
 * know is told that nothing else of them is used.
 */
export function otherSheets(session: Session, folder: string, budget: string): OtherSheet[] {
  const files = notebooksIn(folder).filter((file) => sheetName(file) !== session.sheet);
  const listener = (globalThis as Record<symbol, unknown>)[Symbol.for("workings.collecting")];
  const tell = (now: string | undefined): void => {
    if (typeof listener === "function") listener(now);
  };
  tell(budget);
  try {
    return files.map((file) => readSheet(folder, file));
  } finally {
    tell(undefined);
  }
}

function readSheet(folder: string, file: string): OtherSheet {
  const displays = storedDisplays(JSON.parse(readText(join(folder, file))), sheetName(file)).map(({ display }) => display);
  return { name: sheetName(file), file, displays, graph: Graph.from(displays.flatMap(({ nodes }) => nodes)) };
}

/** Adds a result of another sheet, with the graph behind it, to this one. */
export function bring(session: Session, { graph }: OtherSheet, id: NodeId): NodeId {
  for (const ancestor of broughtWith(graph, id)) session.add(present(session, graph.get(ancestor)));
  return id;
}

/** What is behind a result, inputs first, and the readings that narrow it with what is behind them. */
export function broughtWith(graph: Graph, id: NodeId): NodeId[] {
  const behind = graph.ancestors([id]);
  if (graph.evidence === 0) return behind;
  const readings = graph.nodes().filter((node) => isEvidence(node) && narrowed(graph, [node]).has(id));
  return graph.ancestors([id, ...readings.map((node) => node.id)]);
}

/** A given, table or choice as the design file states it now. */
function present(session: Session, node: GraphNode): GraphNode {
  if (node.kind === "given" || node.kind === "table")
    return { ...gainAsAsked(session.design.given(node.path), dimension(node.dimension)), id: node.id };
  if (node.kind === "reading") return readingNode(session, node.id.slice(readingId("").length), node.of);
  if (node.kind === "choice") return { ...node, chosen: session.design.decision(node.path).chosen };
  return node;
}
