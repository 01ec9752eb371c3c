/** `workings compare A B`: what differs between two revisions of a book, and what carried it; no file is touched. */
import { compareRevisions } from "../book/compare/compare";
import { compareMarkdown, compareText } from "./compare-report";
import { Revisions } from "./revisions";
import type { Streams } from "./streams";
import { type Command, exitCodes } from "./usage";

export async function compare({ words: [before = "", after = ""], options }: Command, streams: Streams): Promise<number> {
  const revisions = new Revisions(options.book);
  try {
    const comparison = compareRevisions(revisions.open(before), revisions.open(after));
    const ok = comparison.worse.length + comparison.notJudged.length === 0;
    const text = options.markdown === true ? compareMarkdown(comparison) : compareText(comparison);
    streams.out(options.json ? `${JSON.stringify({ ok, ...comparison }, null, 1)}\n` : text);
    return ok ? exitCodes.done : exitCodes.failed;
  } finally {
    revisions.close();
  }
}
