/** What differs between two revisions of a book, with what carried it: verdicts, margins, results, and what was written otherwise. */

import type { VerdictWord } from "../../analysis/result";
import { worseThan } from "../../analysis/verdict";
import { type DesignChanges, designChanges } from "./design-changes";
import { type Judgement, judgements } from "./judgements";
import { type OtherChanges, otherChanges } from "./other-changes";
import { movedResults, type ResultMoved } from "./results-moved";
import type { Revision } from "./revision";
import { Turning } from "./turning";

/** One side, as far as a reader must know it. */
interface SideName {
  readonly name: string;
  readonly title: string;
  readonly revision: string;
  /** By sheet, why its outputs do not stand. */
  readonly stale: Readonly<Record<string, readonly string[]>>;
  /** Sheets that are not compared by their numbers: stale ones, and those that take from such. */
  readonly untrusted: readonly string[];
  readonly unrecorded: readonly string[];
  /** True of a results file, which tells neither givens nor decisions. */
  readonly isResultsFile: boolean;
}

export interface Comparison extends OtherChanges {
  readonly before: SideName;
  readonly after: SideName;
  /** Requirements whose verdict has become worse, by id. */
  readonly worse: readonly string[];
  /** Requirements that cannot be compared: on a side a sheet that answers them does not stand. */
  readonly notJudged: readonly string[];
  /** Verdicts that changed first, then margins that shrank by the largest share, then those that grew. */
  readonly judgements: readonly Judgement[];
  readonly results: readonly ResultMoved[];
  /** Null where a side is a results file. */
  readonly design: DesignChanges | null;
}

export function compareRevisions(before: Revision, after: Revision): Comparison {
  const [old, now] = [before.whole, after.whole];
  const both = old !== undefined && now !== undefined;
  const turning = both ? new Turning(old.book, now.book) : undefined;
  const judged = judgements(before, after, turning);
  return {
    before: sideOf(before),
    after: sideOf(after),
    worse: judged.filter((one) => isWorse(one.before?.verdict, one.after?.verdict)).map(({ requirement }) => requirement),
    notJudged: judged
      .filter((one) => one.before?.verdict === "not judged" || one.after?.verdict === "not judged")
      .map(({ requirement }) => requirement),
    judgements: judged,
    results: movedResults(before, after, turning),
    design: both ? designChanges(old.design, now.design) : null,
    ...otherChanges(before, after),
  };
}

function sideOf({ name, results, untrusted, unrecorded, whole }: Revision): SideName {
  const { title, revision, stale } = results;
  return { name, title, revision, stale, untrusted, unrecorded, isResultsFile: whole === undefined };
}

function isWorse(before: VerdictWord | "not judged" | undefined, after: VerdictWord | "not judged" | undefined): boolean {
  if (before === undefined || after === undefined || before === "not judged" || after === "not judged") return false;
  return worseThan(after, before);
}
