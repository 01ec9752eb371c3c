/**
 * What one call in a worksheet shows, as data: our own JSON in the cell's MIME bundle (`application/vnd.workings+json`).
 * Blocks name graph nodes; the document evaluates them with the same functions as the cell did.
 */
import type { Analysis, JudgedBy, Limit, Verdict } from "../analysis/result";
import type { GraphNode, NodeId } from "../graph/node";
import { entryOf } from "../quantity/entry-of";
import { fields, flag, listOf, mapOf, node, number, oneOf, type Shape, text } from "./shape";

export interface GivensBlock {
  readonly type: "givens";
  readonly rows: readonly { readonly symbol: string; readonly node: NodeId }[];
}

/** LaTeX in which `\text{⟦0⟧}` stands for the formatted value of `values[0]`. */
export interface SubstitutedLaw {
  readonly latex: string;
  readonly values: readonly { readonly node: NodeId; readonly unit: string }[];
}

/** A product of levels, line by line: each factor's decibels, times its power, make up the result's. */
export interface LevelBudget {
  readonly lines: readonly { readonly symbol: string; readonly node: NodeId; readonly unit: string; readonly times: number }[];
}

export interface ResultBlock {
  readonly type: "result";
  readonly node: NodeId;
  /** `R_g = (V_s - V_g)/I_g`, typeset. For a model: its name and arguments in words instead. */
  readonly law?: string;
  readonly substituted?: SubstitutedLaw;
  readonly levels?: LevelBudget;
  /** A sentence that says what a model does. */
  readonly model?: string;
  readonly source?: string;
}

/** One set of laws applied to several things (three colours, two rails): the laws once, the results side by side. */
export interface TableBlock {
  readonly type: "table";
  readonly caption: string;
  /** Laws and models behind the columns, in their order; `law` is LaTeX, `model` a sentence. */
  readonly laws: readonly { readonly symbol: string; readonly law?: string; readonly model?: string; readonly source?: string }[];
  readonly columns: readonly { readonly symbol: string; readonly meaning: string }[];
  readonly rows: readonly { readonly label: string; readonly cells: readonly NodeId[] }[];
}

export interface SelectBlock {
  readonly type: "select";
  readonly node: NodeId;
  readonly of: NodeId;
  /** Of a pair, the larger and the smaller one. */
  readonly parts?: readonly [NodeId, NodeId];
}

export interface Criterion {
  readonly name: string;
  readonly label: string;
  readonly better: "lower" | "higher";
  /** Held against every alternative, with how it is judged. */
  readonly limit?: Limit & { readonly judged: JudgedBy; readonly requirement?: string };
}

export interface DecisionBlock {
  readonly type: "decision";
  readonly name: string;
  readonly question: string;
  readonly choice: NodeId;
  readonly criteria: readonly Criterion[];
  readonly alternatives: readonly {
    readonly name: string;
    readonly label: string;
    readonly values: Readonly<Record<string, NodeId>>;
  }[];
  /** Markdown by the author. */
  readonly reason: string;
  /** What would change our mind; Markdown by the author. */
  readonly reconsider: string;
}

export interface RequirementBlock {
  readonly type: "requirement";
  readonly requirement: string;
  readonly node: NodeId;
}

/** An axis: one unit (with its prefix) for every series drawn against it. */
export interface Axis {
  readonly label: string;
  readonly unit: string;
  readonly scale: "linear" | "log";
  readonly low?: number;
  readonly high?: number;
}

/** A curve drawn: a sweep or table node; or points, each a pair of scalar nodes. */
export interface PlotSeries {
  readonly label: string;
  readonly curve?: NodeId;
  readonly points?: readonly { readonly x: NodeId; readonly y: NodeId; readonly label?: string }[];
  /** Draw the worst case and the 95 % interval as bands about the curve. */
  readonly band?: boolean;
  /** Swap the axes of the curve: draw x against y. */
  readonly transposed?: boolean;
  /** The limits that the curve is to keep, SI, and by which of its spreads: where all such curves of a plot do, it is shaded. */
  readonly within?: { readonly low?: number; readonly high?: number; readonly judged: JudgedBy };
}

export type SeriesColour = "blue" | "red" | "green" | "violet" | "amber" | "grey";

export interface PlotBlock {
  readonly type: "plot";
  readonly name: string;
  readonly caption: string;
  /** Colours of series or spreads by label, where a colour means something; others take what is left in order. */
  readonly colours?: Readonly<Record<string, SeriesColour>>;
  readonly x: Axis;
  readonly y: Axis;
  readonly series: readonly PlotSeries[];
  /** Horizontal bars: nominal, 95 % interval and worst case of scalars (a spread plot). Then x is the value axis. */
  readonly spreads?: readonly { readonly label: string; readonly node: NodeId }[];
  /** Rules across the plot: a limit. */
  readonly rules?: readonly { readonly axis: "x" | "y"; readonly label: string; readonly value: number }[];
}

export interface DrawingBlock {
  readonly type: "drawing";
  readonly name: string;
  readonly caption: string;
  /** Registered drawing function: `light.pipe`. */
  readonly drawing: string;
  readonly arguments: Readonly<Record<string, NodeId>>;
}

export interface CautionBlock {
  readonly type: "caution";
  readonly subject: string;
  readonly text: string;
}

/** Results of other sheets. */
export interface TakenBlock {
  readonly type: "taken";
  readonly rows: readonly { readonly symbol: string; readonly node: NodeId; readonly from: string }[];
}

/** What this sheet adds to a roll-up of the book: mass, power, cost. */
export interface ContributionBlock {
  readonly type: "contribution";
  readonly budget: string;
  readonly items: readonly { readonly label: string; readonly node: NodeId }[];
}

/** A roll-up: what every sheet has added, and the sum. */
export interface CollectionBlock {
  readonly type: "collection";
  readonly budget: string;
  readonly node: NodeId;
  readonly items: readonly { readonly label: string; readonly sheet: string; readonly node: NodeId }[];
}

/** A given that stands for a result which a later sheet computes. */
export interface AssumptionBlock {
  readonly type: "assumption";
  readonly name: string;
  readonly node: NodeId;
}

/** The result that an assumption of another sheet stood for. */
export interface ConfirmationBlock {
  readonly type: "confirmation";
  /** `sheet.name` of the assumption. */
  readonly of: string;
  readonly assumed: NodeId;
  readonly node: NodeId;
}

interface PublishBlock {
  readonly type: "publish";
  readonly names: Readonly<Record<string, NodeId>>;
}

export type Block =
  | GivensBlock
  | ResultBlock
  | TableBlock
  | SelectBlock
  | DecisionBlock
  | RequirementBlock
  | PlotBlock
  | DrawingBlock
  | CautionBlock
  | TakenBlock
  | ContributionBlock
  | CollectionBlock
  | AssumptionBlock
  | ConfirmationBlock
  | PublishBlock;

export type BlockOf<T extends Block["type"]> = Extract<Block, { readonly type: T }>;

/** Numbers that a reader of the document sees, and in which forms. */
export interface Numbers {
  readonly nodes: readonly NodeId[];
  readonly shows: readonly ("number" | "nominal" | "result" | "figure" | "worst" | "interval" | "bounds")[];
  /** Beside one another, in the unit of the first. */
  readonly isColumn?: boolean;
}

/** What is to be known of a kind of block by whoever stores or shows it. */
export interface Kind<B extends Block> {
  /** What a stored one must hold. */
  readonly shape: Shape;
  /** May be left out within alternatives: what is made of its results brings them into the document. */
  readonly isQuiet?: boolean;
  /** The nodes whose place in the document it is: a link to one of them leads here. */
  owns?(block: B): readonly NodeId[];
  numbers?(block: B): readonly Numbers[];
}

const judged = oneOf("worst case", "95 %", "typical");
const limit = { low: number, high: number };
const axis = fields({ label: text, unit: text, scale: oneOf("linear", "log") }, limit);
const series = fields(
  { label: text },
  {
    curve: node,
    points: listOf(fields({ x: node, y: node }, { label: text })),
    band: flag,
    transposed: flag,
    within: fields({ judged }, limit),
  },
);
const law = { law: text, model: text, source: text };
const item = { label: text, node };

/** A new kind of block has its data above, an entry here, its words in present.ts and its place in the document in sheet.ts. */
export const kinds: { readonly [T in Block["type"]]: Kind<BlockOf<T>> } = {
  givens: {
    shape: fields({ rows: listOf(fields({ symbol: text, node })) }),
    isQuiet: true,
    owns: ({ rows }) => rows.map(({ node }) => node),
  },
  result: {
    shape: fields(
      { node },
      {
        ...law,
        substituted: fields({ latex: text, values: listOf(fields({ node, unit: text })) }),
        levels: fields({ lines: listOf(fields({ symbol: text, node, unit: text, times: number })) }),
      },
    ),
    isQuiet: true,
    owns: ({ node }) => [node],
    numbers: ({ node }) => [{ nodes: [node], shows: ["result", "worst", "interval"] }],
  },
  table: {
    shape: fields({
      caption: text,
      laws: listOf(fields({ symbol: text }, law)),
      columns: listOf(fields({ symbol: text, meaning: text })),
      rows: listOf(fields({ label: text, cells: listOf(node) })),
    }),
    isQuiet: true,
    owns: ({ rows }) => rows.flatMap(({ cells }) => cells),
    numbers: ({ columns, rows }) =>
      columns.map((_, index) => ({ nodes: rows.flatMap(({ cells }) => cells[index] ?? []), shows: ["figure", "bounds"], isColumn: true })),
  },
  select: {
    shape: fields({ node, of: node }, { parts: listOf(node, 2) }),
    isQuiet: true,
    owns: ({ node }) => [node],
    numbers: ({ node, of, parts = [] }) => [
      { nodes: [node, of, ...parts], shows: ["nominal"] },
      { nodes: [node], shows: ["worst", "interval"] },
    ],
  },
  decision: {
    shape: fields({
      name: text,
      question: text,
      choice: node,
      criteria: listOf(
        fields(
          { name: text, label: text, better: oneOf("lower", "higher") },
          { limit: fields({ judged }, { ...limit, requirement: text }) },
        ),
      ),
      alternatives: listOf(fields({ name: text, label: text, values: mapOf(node) })),
      reason: text,
      reconsider: text,
    }),
    owns: ({ choice }) => [choice],
    numbers: ({ criteria, alternatives }) =>
      criteria.map(({ name }) => ({
        nodes: alternatives.flatMap(({ values }) => entryOf(values, name) ?? []),
        shows: ["number"],
        isColumn: true,
      })),
  },
  // Its number stands in the table of verdicts, where the verdict tells the change.
  requirement: { shape: fields({ requirement: text, node }) },
  plot: {
    shape: fields(
      { name: text, caption: text, x: axis, y: axis, series: listOf(series) },
      {
        colours: mapOf(text),
        spreads: listOf(fields(item)),
        rules: listOf(fields({ axis: oneOf("x", "y"), label: text, value: number })),
      },
    ),
  },
  drawing: { shape: fields({ name: text, caption: text, drawing: text, arguments: mapOf(node) }) },
  caution: { shape: fields({ subject: text, text }) },
  contribution: {
    shape: fields({ budget: text, items: listOf(fields(item)) }),
    numbers: ({ items }) => [{ nodes: items.map(({ node }) => node), shows: ["result"] }],
  },
  collection: {
    shape: fields({ budget: text, node, items: listOf(fields({ ...item, sheet: text })) }),
    owns: ({ node }) => [node],
    numbers: ({ items, node }) => [{ nodes: [...items.map((item) => item.node), node], shows: ["result", "interval"] }],
  },
  assumption: {
    shape: fields({ name: text, node }),
    numbers: ({ node }) => [{ nodes: [node], shows: ["result"] }],
  },
  confirmation: {
    shape: fields({ of: text, assumed: node, node }),
    numbers: ({ node }) => [{ nodes: [node], shows: ["result", "interval"] }],
  },
  taken: {
    shape: fields({ rows: listOf(fields({ symbol: text, node, from: text })) }),
    isQuiet: true,
    numbers: ({ rows }) => [{ nodes: rows.map(({ node }) => node), shows: ["result"] }],
  },
  publish: {
    shape: fields({ names: mapOf(node) }),
    numbers: ({ names }) => [{ nodes: Object.values(names), shows: ["result", "interval"] }],
  },
};

export const kindOf = ({ type }: Block): Kind<Block> => kinds[type];

/** The JSON of one display: the block, every node it brings in, and what the cell computed for them. */
export interface Display {
  readonly version: 1;
  readonly sheet: string;
  readonly block: Block;
  readonly nodes: readonly GraphNode[];
  readonly analyses: readonly Analysis[];
  readonly verdicts?: readonly Verdict[];
  /** What a plot leaves out, in sentences; the document tells its own, for the values that it shows. */
  readonly warnings?: readonly string[];
}

export const displayType = "application/vnd.workings+json";
