/** `workings why NAME` and `workings vary PATH=VALUE …`: questions to the book as it stands; no file is touched. */
import { nodeNamed } from "../book/name";
import { whyLines } from "../book/why";
import { vary } from "../document/live/vary";
import { openBook, staleLines } from "./context";
import { movedReport } from "./moved-report";
import type { Streams } from "./streams";
import { type Command, exitCodes } from "./usage";

export async function why({ words: [name = ""], options }: Command, streams: Streams): Promise<number> {
  const { book } = openBook(options.book);
  streams.error(staleLines(book));
  streams.out(`${whyLines(nodeNamed(book, name), book.evaluation).join("\n")}\n`);
  return exitCodes.done;
}

export async function varyCommand({ words, options }: Command, streams: Streams): Promise<number> {
  const { book } = openBook(options.book);
  streams.error(staleLines(book));
  const varied = vary(book, words);
  streams.out(options.json ? `${JSON.stringify({ stale: Object.fromEntries(book.stale), ...varied }, null, 1)}\n` : movedReport(varied));
  return exitCodes.done;
}
