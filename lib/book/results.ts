/**
 * `build/results.json`: what the sheets publish, as numbers for other programs, and the verdicts on requirements. Made
 * from the book alone; numbers have 12 significant digits and stand in the unit named beside them.
 * The file's shape is stated in data/results.schema.json.
 */
import type { Evaluation } from "../analysis/evaluation";
import { type Proof, proofOf } from "../analysis/proof";
import type { Analysis, Verdict } from "../analysis/result";
import type { SwingEnd, SwingRule } from "../analysis/swing";
import { worstOf } from "../analysis/verdict";
import { doubtWarning } from "../analysis/warnings";
import type { RequirementRow } from "../design/types";
import type { GraphNode, NodeId } from "../graph/node";
import { log10 } from "../quantity/elementary";
import { numberToTwelve } from "../quantity/format";
import { unitOf } from "../quantity/unit";
import type { Answered, Book } from "./book";
import { isMeasured, type Measured, measuredOf } from "./measured";

interface Limits {
  readonly low: number;
  readonly high: number;
}

export interface PublishedResult {
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
  readonly worst: (Limits & { readonly doubt?: string; readonly proof: Proof }) | null;
  readonly interval: (Limits & { readonly samples: number }) | null;
  /** What the middle unit could be, 95 % of what is not known; absent where all is known. */
  readonly doubt?: Limits & { readonly samples: number };
  /** Laws behind it that are used outside their range, in sentences; absent where every law holds. */
  readonly outside?: readonly string[];
  /** What it is worth at both ends of a step of each given and table behind it, the largest difference first; absent where it was not asked for. */
  readonly sensitivity?: readonly Sensitivity[];
}

/** One given moved alone. */
export interface Sensitivity {
  readonly given: string;
  /** Rule of the step: "10 %" of the value and the like, "step" of the design file, "range" from end to end, "limits" about zero. */
  readonly by: SwingRule;
  /** Unit of `at`; of a table "1": then `at` is a factor of its ordinates, in kelvin added to them where they are in °C. */
  readonly unit: string;
  readonly low: SensitivityEnd;
  readonly high: SensitivityEnd;
}

interface SensitivityEnd {
  /** Of the given. */
  readonly at: number;
  /** Of the result, in its unit; null where there is none. */
  readonly value: number | null;
}

/** One result held against a requirement. */
export interface Answer {
  readonly sheet: string;
  readonly verdict: Verdict["verdict"];
  readonly value: number;
  readonly deciding: number;
  /** Positive inside the limit; a difference in the unit. */
  readonly margin: number;
  readonly unit: string;
  readonly ucum: string;
  /** Of "not sure", the reason in words. */
  readonly doubt?: string;
  /** Of a verdict by the worst case, which of its ends are proved. */
  readonly proof?: Proof;
  /** Of a verdict for 95 % that rests on what is not known. */
  readonly doubted?: {
    /** The value that would decide if the best estimate were true, and its margin. */
    readonly best: number;
    readonly bestMargin: number;
    /** Share of units within the limit at the best estimate; and if the truth is as bad as is to be allowed for. */
    readonly bestShare: number;
    readonly share: number;
    /** How likely the truth is one with which 95 % of units keep the limit. */
    readonly confidence: number;
    /** Of `deciding`, by the sampling; a difference in the unit. */
    readonly standardError: number;
  };
  /** Laws behind the result that are used outside their range, in sentences; absent where every law holds. */
  readonly outside?: readonly string[];
}

/** The answer that decides, which is the worst, and all of them. */
export interface RequirementResult extends Answer {
  readonly judged: Verdict["judged"];
  readonly answers: readonly Answer[];
}

export interface Results {
  readonly version: 1;
  readonly title: string;
  readonly revision: string;
  /** By sheet, why its outputs do not stand; empty where the book is fresh. What they publish and judge is left out. */
  readonly stale: Readonly<Record<string, readonly string[]>>;
  readonly sheets: Readonly<Record<string, Readonly<Record<string, PublishedResult>>>>;
  readonly requirements: Readonly<Record<string, RequirementResult>>;
  /** What was measured; absent where nothing was. */
  readonly measured?: Measured;
}

export interface ResultsOptions {
  /** Sensitivities as well, which take two nominal evaluations of a result for each given behind it. */
  readonly sensitivity?: boolean;
}

/** Requirements that no sheet answers are absent. */
export function bookResults(book: Book, options: ResultsOptions = {}): Results {
  return {
    version: 1,
    title: book.title.title,
    revision: book.title.revision,
    stale: Object.fromEntries(book.stale),
    sheets: Object.fromEntries(book.sheets.map(({ name }) => [name, published(name, book, options)])),
    requirements: Object.fromEntries(
      book.requirements.flatMap((one) => {
        const result = requirementResult(one, book);
        return result === undefined ? [] : [[one.row.id, result] as const];
      }),
    ),
    ...(isMeasured(book) && { measured: measuredOf(book) }),
  };
}

/** The text of results.json. */
export function formatResults(results: Results): string {
  return `${JSON.stringify(results, null, 1)}\n`;
}

/** Curves are in the notebook's graph; here are numbers. */
function published(sheet: string, book: Book, { sensitivity = false }: ResultsOptions): Record<string, PublishedResult> {
  const { published: names, graph, evaluation } = book;
  const own = [...names].filter(([name, id]) => name.startsWith(`${sheet}.`) && !["table", "sweep"].includes(graph.get(id).kind));
  return Object.fromEntries(
    own.map(([name, id]) => {
      const result = resultOf(graph.get(id), evaluation.analysis(id));
      return [name.slice(sheet.length + 1), sensitivity ? { ...result, sensitivity: sensitivities(id, book) } : result];
    }),
  );
}

function sensitivities(id: NodeId, { graph, evaluation }: Book): Sensitivity[] {
  const { number } = scale(graph.get(id));
  return evaluation.swings(id).map(({ given, path, rule, low, high }) => {
    const node = graph.get(given);
    const isTable = node.kind === "table";
    const own = scale(node);
    const end = ({ value, result }: SwingEnd): SensitivityEnd => ({
      at: isTable ? value : own.number(value),
      value: result === undefined ? null : number(result),
    });
    return {
      given: path,
      by: rule,
      unit: isTable ? (own.unit.affine === true ? "K" : "1") : own.unit.symbol,
      low: end(low),
      high: end(high),
    };
  });
}

/** The answer that decides; undefined where no sheet answers the requirement. */
export function requirementResult({ row, answers }: Answered, book: Pick<Book, "graph" | "evaluation">): RequirementResult | undefined {
  const all = answers.map(({ node, sheet }) => ({ sheet, ...answerOf(book.graph.get(node), row, book.evaluation) }));
  const worst = worstOf(all.map(({ verdict }) => verdict));
  const deciding = all.filter(({ verdict }) => verdict === worst).toSorted((a, b) => a.margin - b.margin)[0];
  return deciding && { ...deciding, judged: row.judged, answers: all };
}

function answerOf(node: GraphNode, { limit, judged }: RequirementRow, evaluation: Evaluation): Omit<Answer, "sheet"> {
  const found = evaluation.verdict(node.id, limit, judged);
  const worst = judged === "worst case" ? evaluation.analysis(node.id).worst : null;
  const { verdict, deciding, margin, outside, doubt } = found;
  const { unit, number } = scale(node);
  return {
    verdict,
    value: number(evaluation.nominal(node.id)),
    deciding: number(deciding),
    margin: marginIn(node, margin),
    unit: unit.symbol,
    ucum: unit.ucum,
    ...(doubt !== undefined && { doubt }),
    ...(worst && { proof: proofOf(worst) }),
    ...doubtedIn(node, found),
    ...(outside && { outside }),
  };
}

/** A difference in the unit; in decibels the level of a ratio. */
function marginIn(node: GraphNode, margin: number): number {
  const { unit, difference } = scale(node);
  return unit.log ? numberToTwelve(unit.log.factor * log10(margin)) : difference(margin);
}

function doubtedIn(node: GraphNode, { doubted, probability, deciding }: Verdict): Pick<Answer, "doubted"> {
  if (doubted === undefined) return {};
  const { unit, number } = scale(node);
  const { best, share, confidence, standardError } = doubted;
  return {
    doubted: {
      best: number(best.deciding),
      bestMargin: marginIn(node, best.margin),
      bestShare: numberToTwelve(probability?.estimate ?? 0),
      share: numberToTwelve(share),
      confidence: numberToTwelve(confidence),
      standardError: marginIn(node, unit.log ? 1 + standardError / Math.abs(deciding) : standardError),
    },
  };
}

function resultOf(node: GraphNode, { nominal, worst, interval, doubt, standardUncertainty, outside }: Analysis): PublishedResult {
  const { unit, number, difference } = scale(node);
  const fallsShort = worst && doubtWarning(worst).join(" ");
  return {
    ...(node.meaning !== undefined && { meaning: node.meaning }),
    value: number(nominal),
    unit: unit.symbol,
    ucum: unit.ucum,
    ...(node.kind === "given" && { spread: node.spread.kind }),
    standardUncertainty: unit.log
      ? numberToTwelve(unit.fromSI(nominal + standardUncertainty) - unit.fromSI(nominal))
      : difference(standardUncertainty),
    worst: worst && { low: number(worst.low), high: number(worst.high), ...(fallsShort && { doubt: fallsShort }), proof: proofOf(worst) },
    interval: interval && { low: number(interval.low), high: number(interval.high), samples: interval.samples },
    ...(doubt && { doubt: { low: number(doubt.low), high: number(doubt.high), samples: doubt.samples } }),
    ...(outside && { outside }),
  };
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
