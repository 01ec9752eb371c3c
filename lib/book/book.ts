/**
 * The book as one thing: what its sheets hold, held against one another and against the design file. Every command and
 * every page reads this and nothing else, so that no two of them can differ.
 */
import { Evaluation } from "../analysis/evaluation";
import type { Design, RequirementRow } from "../design/types";
import { Graph } from "../graph/graph";
import { spelledName } from "../graph/identity";
import type { GraphNode, NodeId } from "../graph/node";
import { revive, sameContent } from "../graph/serialise";
import { WorkingsError } from "../quantity/error";
import type { Block, DecisionBlock } from "../sheet/block";
import type { SheetGroup } from "./groups";
import { candidates, type Named } from "./name";
import { readOutputs, type SheetInput, type SheetOutputs } from "./outputs";

/** What book.yaml says of the book itself. */
export interface Title {
  readonly title: string;
  readonly revision: string;
  readonly preparedBy?: string;
  readonly checkedBy?: string;
  readonly language?: string;
  /** Of sheets that belong together. */
  readonly groups?: readonly SheetGroup[];
}

/** What the book needs of a design file. */
export type BookDesign = Pick<
  Design,
  | "fileName"
  | "name"
  | "title"
  | "note"
  | "revision"
  | "sources"
  | "requirements"
  | "readings"
  | "batches"
  | "place"
  | "blocks"
  | "stateTables"
  | "given"
  | "paths"
>;

/** A requirement, and the results that sheets hold against it. */
export interface Answered {
  readonly row: RequirementRow;
  readonly answers: readonly { readonly node: NodeId; readonly sheet: string }[];
}

export interface Book extends Named {
  readonly title: Title;
  readonly design: BookDesign;
  /** In reading order. */
  readonly sheets: readonly SheetOutputs[];
  /** By reference, in reading order. */
  readonly blocks: Readonly<Record<string, Block>>;
  /** One graph of all sheets. */
  readonly graph: Graph;
  /** Of that graph, for all who ask. */
  readonly evaluation: Evaluation;
  /** All of the design file. */
  readonly requirements: readonly Answered[];
  readonly decisions: readonly DecisionBlock[];
  /** Sheets whose outputs do not stand, with the reasons in words. Empty of a book that is fresh. */
  readonly stale: ReadonlyMap<string, readonly string[]>;
}

export interface BookInput {
  readonly title: Title;
  readonly design: BookDesign;
  readonly sheets: readonly SheetInput[];
  readonly stale?: ReadonlyMap<string, readonly string[]>;
  /** Evaluations whose findings may be taken over, such as those that the runs of the sheets have left. */
  readonly from?: readonly Evaluation[];
}

/**
 * Throws WorkingsError "notebook" for outputs that this library has not written or that make no whole, "book" where those of two
 * sheets contradict each other, and where a notebook is another sheet than its file's name says.
 */
export function makeBook({ title, design, sheets: inputs, stale = new Map(), from = [] }: BookInput): Book {
  const sheets = inputs.map(readOutputs);
  for (const sheet of sheets) checkName(sheet);
  const graph = unionOf(sheets);
  const shown = sheets.flatMap(({ name, displays }) => displays.map((one) => ({ sheet: name, ...one })));
  const answers = shown.flatMap(({ sheet, display: { block } }) => (block.type === "requirement" ? [{ sheet, ...block }] : []));
  const book = {
    title,
    design,
    sheets,
    blocks: Object.fromEntries(shown.map(({ ref, display }) => [ref, display.block])),
    graph,
    evaluation: new Evaluation(graph, { from }),
    published: publishedBy(sheets),
    requirements: design.requirements().map((row) => ({
      row,
      answers: answers.filter(({ requirement }) => requirement === row.id).map(({ node, sheet }) => ({ node, sheet })),
    })),
    decisions: shown.flatMap(({ display: { block } }) => (block.type === "decision" ? [block] : [])),
    stale,
  };
  for (const { id, ...block } of design.blocks)
    for (const key of ["voltage", "efficiency", "loses", "draws", "shows"] as const) checkFigure(book, `block ${id}: ${key}`, block[key]);
  return book;
}

function checkName({ name, displays }: SheetOutputs): void {
  const other = displays.find(({ display }) => display.sheet !== name);
  if (other !== undefined) throw wrongName(name, other.display.sheet, other.cell);
}

/** A notebook whose cells open another sheet than the one that its file's name says. */
export function wrongName(sheet: string, opened: string, cell: number): WorkingsError {
  return new WorkingsError(
    "book",
    `the notebook of the sheet "${sheet}", cell ${cell}, opens worksheet("${opened}"); write worksheet("${sheet}") there, or rename the notebook, and run it again`,
  );
}

/** The same node from two sheets is one node; two that differ under one id are an error that names both places. */
function unionOf(sheets: readonly SheetOutputs[]): Graph {
  const found = new Map<NodeId, { readonly node: GraphNode; readonly place: string }>();
  for (const { name, displays } of sheets) {
    for (const { display, cell } of displays) {
      for (const stored of display.nodes) {
        const node = revive(stored);
        const known = found.get(node.id);
        const place = `${name}, cell ${cell}`;
        if (known === undefined) found.set(node.id, { node, place });
        else if (!sameContent(known.node, node)) throw conflict(known, { node, place });
      }
    }
  }
  return Graph.from([...found.values()].map(({ node }) => node));
}

function conflict(...two: readonly [Placed, Placed]): WorkingsError {
  const [first, second] = two.map(({ node, place }) => `${saidOf(node)} in ${place}`);
  return new WorkingsError(
    "book",
    `${spelledName(two[0].node.id)} is ${first}, but ${second}; where a sheet has not run since something changed, workings run brings it up to date; otherwise give one of the two another name`,
  );
}

interface Placed {
  readonly node: GraphNode;
  readonly place: string;
}

function saidOf(node: GraphNode): string {
  if (node.kind === "given" || node.kind === "formula") return `${node.kind} ${node.text}`;
  if (node.kind === "choice") return `the choice of ${node.chosen}`;
  return node.kind === "model" ? `model ${node.model}` : `another ${node.kind}`;
}

function publishedBy(sheets: readonly SheetOutputs[]): Map<string, NodeId> {
  const published = new Map<string, NodeId>();
  for (const { name: sheet, displays } of sheets) {
    for (const { display, cell } of displays) {
      if (display.block.type !== "publish") continue;
      for (const [name, id] of Object.entries(display.block.names)) {
        const known = published.get(`${sheet}.${name}`);
        if (known !== undefined && known !== id)
          throw new WorkingsError(
            "book",
            `${sheet}, cell ${cell}: publishes ${name} as ${id}, an earlier cell as ${known}; give one of the two another name`,
          );
        published.set(`${sheet}.${name}`, id);
      }
    }
  }
  return published;
}

/** A figure of the design file must say which of two things it means. */
function checkFigure(book: Named, where: string, name: string | undefined): void {
  const [first, second] = name === undefined ? [] : candidates(book, name);
  if (first !== undefined && second !== undefined)
    throw new WorkingsError("book", `${where}: ${name} is a result and a given; write ${first.spelling} or ${second.spelling}`);
}
