/** `workings why NAME` and `workings vary PATH=VALUE …`: questions to the book as it stands; no file is touched. */
import { nodeNamed } from "../book/name";
import { whyLines } from "../book/why";
import { vary } from "../document/live/vary";
import { openBook, openDesign, readSheets } from "./context";
import { graphOf } from "./keeping";
import { movedReport } from "./moved-report";
import type { Streams } from "./streams";
import { type Command, exitCodes } from "./usage";

export async function why({ words: [name = ""], options }: Command, streams: Streams): Promise<number> {
  const opened = openBook(options.book);
  const book = graphOf(opened, readSheets(opened));
  streams.out(`${whyLines(nodeNamed(book, name), book.evaluation).join("\n")}\n`);
  return exitCodes.done;
}

export async function varyCommand({ words, options }: Command, streams: Streams): Promise<number> {
  const opened = openBook(options.book);
  const varied = vary(graphOf(opened, readSheets(opened)), openDesign(opened), words);
  streams.out(options.json ? `${JSON.stringify(varied, null, 1)}\n` : movedReport(varied));
  return exitCodes.done;
}
