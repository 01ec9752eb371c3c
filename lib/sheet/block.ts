/**
 * What one call in a worksheet shows, as data: our own JSON in the cell's MIME bundle (`application/vnd.workings+json`).
 * Blocks name graph nodes; the document evaluates them with the same functions as the cell did.
 */
import type { JudgedBy, Limit } from "../analysis/result";
import type { Cell, StateTable } from "../design/power-states";
import type { GraphNode, NodeId } from "../graph/node";

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

/**
 * What is best: the lowest or highest value, the one nearest to a target, or the one that spreads least: over 95 % of units, or, where
 * its limit is judged in the worst case, over that.
 */
export type Better = "lower" | "higher" | "nearest" | "smallest spread";

export interface Criterion {
  readonly name: string;
  readonly label: string;
  readonly better: Better;
  /** Of "nearest". */
  readonly target?: NodeId;
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
  /** Of power states, whose currents the arguments are. */
  readonly states?: DrawnStates;
}

/** The table of power states that the design file has under `id`. Lists, because the keys of stored JSON are sorted. */
export interface DrawnStates extends Pick<StateTable, "start" | "off"> {
  readonly id: string;
  readonly events: readonly { readonly event: string; readonly meaning: string }[];
  readonly rows: readonly { readonly state: string; readonly next: Readonly<Record<string, Cell>> }[];
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

/** A value measured on a prototype beside the result that it tests. */
export interface ReadingBlock {
  readonly type: "reading";
  readonly reading: string;
  readonly node: NodeId;
  readonly of: NodeId;
}

/** What was read on the units of a pilot batch, SI, beside the given that says how units differ. */
export interface BatchBlock {
  readonly type: "batch";
  readonly batch: string;
  readonly node: NodeId;
  readonly values: readonly number[];
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
  | ReadingBlock
  | BatchBlock
  | PublishBlock;

export type BlockOf<T extends Block["type"]> = Extract<Block, { readonly type: T }>;

/** What one call shows: the block, the nodes that it brings in, and what a run has to tell. Stored as `stored.ts` says. */
export interface Display {
  readonly sheet: string;
  readonly block: Block;
  readonly nodes: readonly GraphNode[];
  /** Nodes made again that an earlier cell holds: id and hash of the content. */
  readonly refers?: readonly string[];
  /** Sentences that `run` tells: laws used outside their range, what a plot leaves out. The document finds its own. */
  readonly warnings?: readonly string[];
}

export const displayType = "application/vnd.workings+json";
