/** What the page is given of the book: plain data, enough to evaluate and to render every live part anew. */

import type { BriefFound } from "../../analysis/brief";
import type { Evaluation } from "../../analysis/evaluation";
import type { JudgedBy, Limit, VerdictWord } from "../../analysis/result";
import type { BlockRow } from "../../design/types";
import type { Graph } from "../../graph/graph";
import type { GraphNode, NodeId } from "../../graph/node";
import type { Block } from "../../sheet/block";
import { kindOf } from "../../sheet/kinds";
import type { Room } from "../../sheet/plot/room";
import type { Box, Corner } from "../drawing/boxes";
import { anchor, type Html, html, nothing } from "../text/html";
import type { Shown } from "../text/show";
import { type Working, workingsOf } from "./alternative";

/** A requirement of the design file and the results that answer it. */
export interface RequirementData {
  readonly id: string;
  readonly statement: string;
  readonly limit: Limit;
  readonly unit: string;
  readonly dimension: string;
  readonly judged: JudgedBy;
  readonly where?: string;
  /** Results of the sheets held against it: none means that nothing computes it. */
  readonly answers: readonly { readonly node: NodeId; readonly sheet: string }[];
}

export interface BookData {
  readonly nodes: readonly GraphNode[];
  /** By reference: `indicators/4` is the fifth display of that sheet. */
  readonly blocks: Readonly<Record<string, Block>>;
  readonly requirements: readonly RequirementData[];
  /** MathML of the laws within alternatives by their LaTeX, with places for numbers: all that the page may have to show. */
  readonly laws: Readonly<Record<string, string>>;
  /** Compiled Vega specifications by block reference and width; their datasets are emptied. */
  readonly plots: Readonly<Record<string, Readonly<Record<Room, unknown>>>>;
  /** Where the map of decisions draws what. */
  readonly map: MapLayout;
  /** Where the design file states blocks. */
  readonly product?: ProductDrawing;
  /** As published, by requirement: what has flipped is told from these. */
  readonly verdicts: Readonly<Record<string, VerdictWord>>;
}

/** With what was found when it was published, so that the page computes only what a change reaches. */
export interface PublishedBook extends BookData {
  readonly found: BriefFound;
}

/** As the document holds it: what its elements show stands beside, by number. */
export interface DocumentBook extends PublishedBook {
  readonly shown: readonly Shown[];
}

/** A place on the map: one decision, or requirements that rest on the same decisions. */
export interface MapPlace {
  readonly decision?: NodeId;
  readonly requirements?: readonly string[];
  /** Left upper corner and size. */
  readonly box: readonly [x: number, y: number, width: number, height: number];
  /** Text of the question, in lines that fit. */
  readonly lines: readonly string[];
}

/** The map of decisions: laid out once, when the book is published; its words follow the state of the book. */
export interface MapLayout {
  readonly width: number;
  readonly height: number;
  readonly places: readonly MapPlace[];
  /** From what decides to what rests on it: indices of places, and the corners of the line between them. */
  readonly lines: readonly { readonly from: number; readonly to: number; readonly corners: readonly (readonly [number, number])[] }[];
}

/** A value beside a block of the power tree: what it names in the design file, and the node where a sheet knows it. */
export interface FigureOf {
  readonly kind: "voltage" | "efficiency" | "loses" | "delivers" | "draws" | "shows";
  readonly name: string;
  readonly node?: NodeId;
  /** Of a given that no sheet reads: what the design file states, and its nominal value alone. */
  readonly text?: string;
  readonly short?: string;
}

export interface PowerPlace {
  readonly id: string;
  readonly box: Box;
  readonly lines: readonly string[];
  readonly figures: readonly FigureOf[];
  readonly note?: string;
}

/** The blocks of the product, laid out when the book is published. */
export interface ProductDrawing {
  readonly blocks: readonly BlockRow[];
  readonly diagram: {
    readonly width: number;
    readonly height: number;
    readonly places: readonly {
      readonly id: string;
      readonly box: Box;
      readonly lines: readonly string[];
      /** Its voltage, or what the design file shows of it. */
      readonly figure?: FigureOf;
      readonly isReturn?: boolean;
    }[];
    readonly lines: readonly { readonly kind: "signal" | "power" | "return"; readonly corners: readonly Corner[] }[];
    /** Where a block's line meets the rail of its return. */
    readonly joints: readonly Corner[];
  };
  readonly power: {
    readonly width: number;
    readonly height: number;
    readonly places: readonly PowerPlace[];
    readonly lines: readonly (readonly Corner[])[];
  };
}

/** Where the nodes of a book are shown. */
export interface Places {
  /** By reference of a decision, the results of the alternative that it has chosen. */
  readonly workings: ReadonlyMap<string, readonly Working[]>;
  /** Ids of the elements that show those. */
  readonly targets: ReadonlyMap<NodeId, string>;
  /** Block that shows any other node first. */
  readonly owners: ReadonlyMap<NodeId, string>;
}

/** The book in one state. */
export interface View extends Places {
  readonly book: BookData;
  readonly evaluation: Evaluation;
  /** SVG of the plot at a block reference. */
  plot(ref: string): string;
}

export function view(book: BookData, evaluation: Evaluation, plot: View["plot"]): View {
  return { book, evaluation, ...placesOf(book.blocks, evaluation.graph), plot };
}

/** Places of the book in the state of a graph. A table that shows what a block of its own tells at length is not its place. */
export function placesOf(blocks: BookData["blocks"], graph: Graph): Places {
  const workings = workingsOf(blocks, graph);
  const targets = new Map<NodeId, string>();
  for (const { node, results, target } of [...workings.values()].flat()) for (const id of [node, ...results]) targets.set(id, target);
  const owners = new Map<NodeId, string>();
  const entries = Object.entries(blocks);
  for (const tables of [false, true])
    for (const [ref, block] of entries.filter(([, { type }]) => (type === "table") === tables))
      for (const node of kindOf(block).owns?.(block) ?? []) if (!targets.has(node) && !owners.has(node)) owners.set(node, ref);
  return { workings, targets, owners };
}

/** The node with the present changes. Throws on an id that no display brought in. */
export function nodeOf({ evaluation }: View, id: NodeId): GraphNode {
  return evaluation.graph.get(id);
}

/** The id attribute of a node's first appearance; nothing in later ones. */
export function nodeAnchor(id: NodeId, ref: string, { owners }: View): Html {
  return owners.get(id) === ref ? html` id="${anchor("node", id)}"` : nothing;
}

/** A link to where a node is shown; bare content where it is nowhere. */
export function nodeLink(id: NodeId, content: Html | string, view: View, className?: string): Html {
  const node = nodeOf(view, id);
  const target = targetOf(node, view);
  return target === undefined
    ? html`${content}`
    : html`<a${className !== undefined && html` class="${className}"`} href="#${target}">${content}</a>`;
}

/** The anchor of the place where a node is shown, if it is. */
export function targetOf(node: GraphNode, { owners, targets }: Places): string | undefined {
  const working = targets.get(node.id);
  if (working !== undefined) return working;
  if (owners.has(node.id)) return anchor("node", node.id);
  if (node.kind === "switch" && owners.has(node.choice)) return anchor("node", node.choice);
  return node.kind === "given" || node.kind === "table" ? anchor("register", node.path) : undefined;
}
