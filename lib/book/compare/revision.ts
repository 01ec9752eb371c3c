/** One side of a comparison: a book with its design, or the results that one has left in a file. */

import type { VerdictWord } from "../../analysis/result";
import type { Design } from "../../design/types";
import { entryOf } from "../../quantity/entry-of";
import { WorkingsError } from "../../quantity/error";
import { fields, listOf, mapOf, number, oneOf, text } from "../../sheet/shape";
import type { Book } from "../book";
import { bookResults, type RequirementResult, type Results } from "../results";

/** A book with the whole of its design file. */
export interface WholeBook {
  readonly book: Book;
  readonly design: Design;
}

export interface Revision {
  /** As the one who compares has named it. */
  readonly name: string;
  readonly results: Results;
  /** Absent of a results file, which tells no givens and no graph. */
  readonly whole?: WholeBook;
  /** Sheets whose results are left out: they do not stand, or take from such. */
  readonly untrusted: readonly string[];
  /** Requirements that such sheets answer. */
  readonly waiting: readonly string[];
  /** Sheets of which no run is on record: their outputs are held against the design file, not against their cells. */
  readonly unrecorded: readonly string[];
}

export function revisionOf(name: string, whole: WholeBook, rest: Pick<Revision, "untrusted" | "waiting" | "unrecorded">): Revision {
  return { name, whole, results: bookResults(whole.book), ...rest };
}

/** The word on a requirement; "not judged" where a sheet that answers it does not stand. */
export function verdictIn({ results, waiting, whole }: Revision, id: string): VerdictWord | "not judged" {
  const verdict = resultIn(results, id)?.verdict;
  const waits = whole === undefined ? Object.keys(results.stale).length > 0 && verdict === undefined : waiting.includes(id);
  return waits && verdict !== "does not hold" ? "not judged" : (verdict ?? "not shown");
}

export function resultIn(results: Results, id: string): RequirementResult | undefined {
  return entryOf(results.requirements, id);
}

const limits = fields({ low: number, high: number });
const orNull =
  (shape: typeof limits): typeof limits =>
  (value, place, nodes) =>
    value === null ? undefined : shape(value, place, nodes);
const verdict = oneOf("holds", "holds for 95 %", "not sure", "too close to call", "does not hold", "not shown");
const published = fields({ value: number, unit: text, worst: orNull(limits), interval: orNull(limits) }, { meaning: text, doubt: limits });
const answer = { sheet: text, verdict, value: number, deciding: number, margin: number, unit: text };
const shape = fields({
  version: oneOf(1),
  title: text,
  revision: text,
  stale: mapOf(listOf(text)),
  sheets: mapOf(mapOf(published)),
  requirements: mapOf(fields({ ...answer, judged: text, answers: listOf(fields(answer), 1) })),
});

/** Reads the text of a results.json. Throws WorkingsError "results" with what is wrong and where. */
export function resultsRevision(name: string, content: string): Revision {
  const results = parsed(name, content);
  const fault = shape(results, "", []);
  if (fault !== undefined)
    throw new WorkingsError("usage", `${name} is no results file of this library: ${fault}; workings run writes build/results.json`, {
      place: name,
    });
  const known = results as Results;
  return { name, results: known, untrusted: Object.keys(known.stale), waiting: [], unrecorded: [] };
}

function parsed(name: string, content: string): unknown {
  try {
    return JSON.parse(content);
  } catch (error) {
    throw new WorkingsError("usage", `${name} is no JSON: ${(error as Error).message}; give a results.json, a folder or a git revision`, {
      place: name,
    });
  }
}
