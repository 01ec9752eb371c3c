/**
 * Results of other worksheets, with their lineage: the graph behind them comes from the publishing notebook's own
 * outputs, its givens from the design file as it is now. So x − x is zero across sheets, and a changed given is
 * felt even where the publishing sheet has not run since.
 */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { basename, join } from "node:path";
import { Graph } from "../graph/graph";
import type { GraphNode, NodeId } from "../graph/node";
import { assignable, dimension } from "../quantity/dimension";
import type { Dim } from "../quantity/dimension-types";
import type { Quantity, Unit } from "../quantity/quantity";
import type { TakenBlock } from "./block";
import { isUnit } from "./fits";
import type { Session } from "./session";
import { storedDisplays } from "./stored";

/** `[sheet.name, unit]` of a published result. */
type TakeEntry = readonly [name: string, unit: Unit<any>];

/** A spec as far as the compiler must know beforehand; {@link FitsTake} says what is wrong. */
export type TakeSpec = Readonly<Record<string, readonly [name?: unknown, unit?: unknown] | object | string>>;

/** Beside the type of a spec: a sentence at each entry that is none. */
export type FitsTake<T> = {
  readonly [K in keyof T]: T[K] extends TakeEntry ? unknown : `✗ ${K & string} must be [sheet.name, unit]`;
};

export type Taken<T extends TakeSpec> = {
  readonly [K in keyof T]: T[K] extends readonly [string, Unit<infer D extends Dim>] ? Quantity<D> : never;
};

/** Takes published results. Throws where the sheet or the name is unknown, has not run, or is of another dimension. */
export function take<T extends TakeSpec>(session: Session, folder: string, spec: T): Taken<T> {
  const published = new Map<string, PublishedSheet>();
  const rows = Object.entries(spec).map(([symbol, entry]) => {
    if (!isEntry(entry)) throw session.error("worksheet", `${symbol} must be [sheet.name, unit]`);
    const [from, unit] = entry;
    const sheet = from.slice(0, from.indexOf("."));
    const known = published.get(sheet) ?? publishedSheet(session, folder, sheet);
    published.set(sheet, known);
    const node = bring(session, known, from);
    const found = dimension(session.node(node).dimension);
    if (!assignable(found, unit.dimension)) {
      throw session.error("dimension", `${from} is ${found.label}; the worksheet asks for ${unit.dimension.label} (in ${unit.symbol})`);
    }
    return { symbol, node, from, value: session.quantity(node, unit) };
  });
  const block: TakenBlock = { type: "taken", rows: rows.map(({ symbol, node, from }) => ({ symbol, node, from })) };
  session.show(
    block,
    rows.map(({ node }) => session.evaluation.analysis(node)),
  );
  return Object.fromEntries(rows.map(({ symbol, value }) => [symbol, value])) as Taken<T>;
}

function isEntry(entry: unknown): entry is TakeEntry {
  return Array.isArray(entry) && entry.length === 2 && typeof entry[0] === "string" && isUnit(entry[1]);
}

interface PublishedSheet {
  readonly name: string;
  readonly graph: Graph;
  readonly names: ReadonlyMap<string, NodeId>;
}

/** `03-indicators.ipynb` → `indicators`: a sheet keeps its name when it is renumbered. */
function nameOf(file: string): string {
  return basename(file, ".ipynb").replace(/^\d+-/, "");
}

function publishedSheet(session: Session, folder: string, sheet: string): PublishedSheet {
  const files = existsSync(folder) ? readdirSync(folder).filter((file) => file.endsWith(".ipynb")) : [];
  const file = files.find((candidate) => nameOf(candidate) === sheet);
  if (file === undefined) {
    throw session.error(
      "worksheet",
      `there is no worksheet "${sheet}" to take from; the folder has ${files.map(nameOf).sort().join(", ") || "none"}`,
    );
  }
  const displays = storedDisplays(JSON.parse(readFileSync(join(folder, file), "utf8")) as object);
  const names = displays.flatMap(({ block }) => (block.type === "publish" ? Object.entries(block.names) : []));
  if (names.length === 0) throw session.error("worksheet", `${file} holds no published results yet; run it first: workings run ${sheet}`);
  return { name: sheet, graph: Graph.from(displays.flatMap(({ nodes }) => nodes)), names: new Map(names) };
}

/** Adds the result's graph to the session and gives its node. */
function bring(session: Session, { name, graph, names }: PublishedSheet, from: string): NodeId {
  const id = names.get(from.slice(name.length + 1));
  if (id === undefined) {
    throw session.error("worksheet", `${name} publishes no "${from.slice(name.length + 1)}"; it publishes ${[...names.keys()].join(", ")}`);
  }
  for (const ancestor of graph.ancestors([id])) session.add(present(session, graph.get(ancestor)));
  return id;
}

/** A given, table or choice as the design file states it now. */
function present(session: Session, node: GraphNode): GraphNode {
  if (node.kind === "given" || node.kind === "table") return { ...session.design.given(node.path), id: node.id };
  if (node.kind === "choice") return { ...node, chosen: session.design.decision(node.path).chosen };
  return node;
}
