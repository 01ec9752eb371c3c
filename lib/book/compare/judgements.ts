/** Verdicts and margins of two revisions, side by side, with what carried each change. */
import type { Evaluation } from "../../analysis/evaluation";
import type { VerdictWord } from "../../analysis/result";
import { worseThan } from "../../analysis/verdict";
import { significantText } from "../../quantity/number-text";
import type { Answered } from "../book";
import { type RequirementResult, requirementResult } from "../results";
import { type Revision, resultIn, verdictIn } from "./revision";
import type { Carrier, Turning } from "./turning";

export interface JudgedSide {
  readonly verdict: VerdictWord | "not judged";
  /** As the design file states it; absent of a results file. */
  readonly limit?: string;
  /** The numbers are absent where nothing judges it. In `unit`. */
  readonly deciding?: number;
  readonly margin?: number;
  readonly unit?: string;
  readonly judged?: string;
  readonly sheet?: string;
}

export interface Judgement {
  readonly requirement: string;
  readonly statement?: string;
  /** Absent on the side that has no such requirement. */
  readonly before?: JudgedSide;
  readonly after?: JudgedSide;
  /** `limit` among them: the limit before → after, all else as before. Effects on the margin, in its unit. */
  readonly carriers: readonly Carrier[];
}

/** Requirements whose verdict, margin or limit is another; the important ones first. */
export function judgements(before: Revision, after: Revision, turning: Turning | undefined): Judgement[] {
  const ids = [...new Set([...idsOf(after), ...idsOf(before)])];
  const found = ids.flatMap((id): Judgement[] => {
    const [a, b] = [sideOf(before, id), sideOf(after, id)];
    if (a !== undefined && b !== undefined && isSame(a, b)) return [];
    if (a === undefined && b?.verdict === "not shown") return [];
    const statement = (after.whole ?? before.whole)?.design.requirements().find((row) => row.id === id)?.statement;
    return [
      {
        requirement: id,
        ...(statement !== undefined && { statement }),
        ...(a && { before: a }),
        ...(b && { after: b }),
        carriers: turning === undefined ? [] : carriersOf(id, turning, b),
      },
    ];
  });
  return found.toSorted((a, b) => rank(a) - rank(b) || growth(a) - growth(b));
}

function idsOf({ whole, results }: Revision): readonly string[] {
  return whole === undefined ? Object.keys(results.requirements) : whole.design.requirements().map(({ id }) => id);
}

/** Undefined where the revision has no such requirement. A results file does not tell those that nothing computes. */
function sideOf(revision: Revision, id: string): JudgedSide | undefined {
  const row = revision.whole?.design.requirements().find((one) => one.id === id);
  if (revision.whole !== undefined && row === undefined) return undefined;
  const result = resultIn(revision.results, id);
  const limit = row && { limit: row.text };
  const verdict = verdictIn(revision, id);
  if (result === undefined || verdict === "not judged") return { verdict, ...limit };
  const { deciding, margin, unit, judged, sheet } = result;
  return { verdict, ...limit, deciding, margin, unit, judged, sheet };
}

/** Numbers are compared as they are shown. */
function isSame(a: JudgedSide, b: JudgedSide): boolean {
  if (a.verdict !== b.verdict || a.judged !== b.judged || a.unit !== b.unit) return false;
  if (a.limit !== undefined && b.limit !== undefined && a.limit !== b.limit) return false;
  return text(a.margin) === text(b.margin) && text(a.deciding) === text(b.deciding);
}

const text = (x: number | undefined) => (x === undefined ? "" : significantText(x, 4));

function carriersOf(id: string, turning: Turning, after: JudgedSide | undefined): readonly Carrier[] {
  const [old, now] = [turning.before, turning.after].map((book) => book.requirements.find(({ row }) => row.id === id));
  if (old === undefined || now === undefined || after?.margin === undefined) return [];
  const answer = decidingAnswer(old, turning.before.evaluation);
  if (answer === undefined) return [];
  const margin = (row: Answered["row"]) => (evaluation: Evaluation) => {
    const { graph } = evaluation;
    return requirementResult({ row, answers: old.answers }, { graph, evaluation })?.margin ?? Number.NaN;
  };
  const was = margin(old.row)(turning.before.evaluation);
  const sameLimit = old.row.text === now.row.text && old.row.judged === now.row.judged;
  const limit = sameLimit ? [] : [{ name: "limit", effect: margin(now.row)(turning.before.evaluation) - was }];
  // What the inputs do is measured against the limit that stands now.
  return [...limit, ...turning.carriers(answer, margin(now.row), after.margin)];
}

/** Any of the nodes that answer: what reaches one of several is told for all. */
function decidingAnswer({ row, answers }: Answered, evaluation: Evaluation): string | undefined {
  const { graph } = evaluation;
  const result: RequirementResult | undefined = requirementResult({ row, answers }, { graph, evaluation });
  return answers.find(({ sheet }) => sheet === result?.sheet)?.node;
}

/** 0: worse, 1: not judged, 2: better or another word, 3: new or gone, 4: a margin that shrank, 5: one that grew, 6: the rest. */
function rank({ before, after }: Judgement): number {
  if (before === undefined || after === undefined) return 3;
  if (before.verdict === "not judged" || after.verdict === "not judged") return 1;
  if (worseThan(after.verdict, before.verdict)) return 0;
  if (before.verdict !== after.verdict) return 2;
  const change = (after.margin ?? 0) - (before.margin ?? 0);
  return change < 0 ? 4 : change > 0 ? 5 : 6;
}

/** By what share of the larger margin it has grown. */
function growth({ before, after }: Judgement): number {
  const [a = 0, b = 0] = [before?.margin, after?.margin];
  const size = Math.max(Math.abs(a), Math.abs(b));
  return size === 0 ? 0 : (b - a) / size;
}
