/**
 * `build/results.json`: what the sheets publish, as numbers for other programs, and the verdicts on requirements. Made
 * from the notebooks' outputs alone; numbers have 12 significant digits and stand in the unit named beside them.
 * The file's shape is stated in data/results.schema.json.
 */

import { Evaluation } from "../analysis/evaluation";
import type { Analysis, Verdict } from "../analysis/result";
import { Graph } from "../graph/graph";
import type { GraphNode, NodeId } from "../graph/node";
import type { Notebook } from "../kernel/notebook";
import { log10 } from "../quantity/elementary";
import { WorkingsError } from "../quantity/error";
import { numberToTwelve } from "../quantity/format";
import { unitOf } from "../quantity/unit";
import type { Display } from "../sheet/block";
import type { Book } from "./book";
import { displaysOf } from "./displays";

interface Limits {
  readonly low: number;
  readonly high: number;
}

interface PublishedResult {
  readonly meaning?: string;
  readonly value: number;
  readonly unit: string;
  /** Code of the unit in the Unified Code for Units of Measure. */
  readonly ucum: string;
  /** Kind of spread where the published quantity is itself a given. */
  readonly spread?: string;
  /** Combined standard uncertainty of the tolerances, to first order; a difference in the unit. */
  readonly standardUncertainty: number;
  /** Null when nothing that the result depends on has a spread. */
  readonly worst: Limits | null;
  readonly interval: (Limits & { readonly samples: number }) | null;
  /** Laws behind it that are used outside their range, in sentences; absent where every law holds. */
  readonly outside?: readonly string[];
}

export interface RequirementResult {
  readonly verdict: Verdict["verdict"];
  readonly judged: Verdict["judged"];
  readonly sheet: string;
  readonly value: number;
  readonly deciding: number;
  /** Positive inside the limit; a difference in the unit. */
  readonly margin: number;
  readonly unit: string;
  readonly ucum: string;
  /** Laws behind the result that are used outside their range, in sentences; absent where every law holds. */
  readonly outside?: readonly string[];
}

export interface Results {
  readonly version: 1;
  readonly title: string;
  readonly revision: string;
  readonly sheets: Readonly<Record<string, Readonly<Record<string, PublishedResult>>>>;
  readonly requirements: Readonly<Record<string, RequirementResult>>;
}

export interface SheetOutputs {
  readonly name: string;
  readonly notebook: Notebook;
}

/** Throws WorkingsError "book" where an output names a node that no output holds: a stale or hand-edited notebook. */
export function bookResults(book: Pick<Book, "title" | "revision">, inputs: readonly SheetOutputs[]): Results {
  const sheets = inputs.map((input) => ({ name: input.name, displays: displaysOf(input.notebook) }));
  const all = new Outputs(sheets.flatMap((sheet) => sheet.displays));
  const published = sheets.map(
    ({ name, displays: shown }) => [name, Object.fromEntries(shown.flatMap((display) => all.published(display)))] as const,
  );
  const judged = sheets.flatMap(({ name, displays: shown }) => shown.flatMap((display) => all.requirement(display, name)));
  return {
    version: 1,
    title: book.title,
    revision: book.revision,
    sheets: Object.fromEntries(published),
    requirements: Object.fromEntries(judged),
  };
}

/** The text of results.json. */
export function formatResults(results: Results): string {
  return `${JSON.stringify(results, null, 1)}\n`;
}

/** All nodes and analyses that the book's outputs hold. */
class Outputs {
  private readonly nodes = new Map<NodeId, GraphNode>();
  private readonly analyses = new Map<NodeId, Analysis>();
  private evaluation: Evaluation | undefined;

  constructor(shown: readonly Display[]) {
    for (const display of shown) {
      for (const node of display.nodes) this.nodes.set(node.id, node);
      for (const analysis of display.analyses) this.analyses.set(analysis.node, analysis);
    }
  }

  published({ block }: Display): [string, PublishedResult][] {
    if (block.type !== "publish") return [];
    // Curves are in the notebook's graph; results.json holds numbers.
    const numbers = Object.entries(block.names).filter(([, id]) => !["table", "sweep"].includes(this.node(id).kind));
    return numbers.map(([name, id]) => [name, this.result(id)]);
  }

  requirement({ block, verdicts, analyses }: Display, sheet: string): [string, RequirementResult][] {
    if (block.type !== "requirement" || !verdicts?.[0]) return [];
    const [verdict] = verdicts;
    const { unit, number, difference } = scale(this.node(block.node));
    const nominal = (analyses.find(({ node }) => node === block.node) ?? this.analysis(block.node)).nominal;
    const { ucum, symbol } = unit;
    return [
      [
        block.requirement,
        {
          verdict: verdict.verdict,
          judged: verdict.judged,
          sheet,
          value: number(nominal),
          deciding: number(verdict.deciding),
          margin: unit.log ? numberToTwelve(unit.log.factor * log10(verdict.margin)) : difference(verdict.margin),
          unit: symbol,
          ucum,
          ...(verdict.outside && { outside: verdict.outside }),
        },
      ],
    ];
  }

  private result(id: NodeId): PublishedResult {
    const node = this.node(id);
    const { nominal, worst, interval, standardUncertainty, outside } = this.analysis(id);
    const { unit, number, difference } = scale(node);
    return {
      ...(node.meaning !== undefined && { meaning: node.meaning }),
      value: number(nominal),
      unit: unit.symbol,
      ucum: unit.ucum,
      ...(node.kind === "given" && { spread: node.spread.kind }),
      standardUncertainty: unit.log
        ? numberToTwelve(unit.fromSI(nominal + standardUncertainty) - unit.fromSI(nominal))
        : difference(standardUncertainty),
      worst: worst && { low: number(worst.low), high: number(worst.high) },
      interval: interval && { low: number(interval.low), high: number(interval.high), samples: interval.samples },
      ...(outside && { outside }),
    };
  }

  private node(id: NodeId): GraphNode {
    const node = this.nodes.get(id);
    if (node === undefined)
      throw new WorkingsError("book", `no output of the book holds ${id}, which one of them names; run its sheet again`);
    return node;
  }

  /** As the cell computed it; what no cell has shown is evaluated here, by the same functions. */
  private analysis(id: NodeId): Analysis {
    const shown = this.analyses.get(id);
    if (shown !== undefined) return shown;
    this.evaluation ??= new Evaluation(Graph.from([...this.nodes.values()]));
    return this.evaluation.analysis(id);
  }
}

function scale(node: GraphNode) {
  const unit = unitOf(node.unit);
  const zero = unit.log ? 0 : unit.fromSI(0);
  return {
    unit,
    number: (si: number) => numberToTwelve(unit.fromSI(si)),
    /** A unit with an offset measures differences without it. */
    difference: (si: number) => numberToTwelve(unit.fromSI(si) - zero),
  };
}
