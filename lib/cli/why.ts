/** `workings why NAME`, `workings why --from PATH` and `workings vary PATH=VALUE …`: questions to the book as it stands; no file is touched. */
import type { Book } from "../book/book";
import { candidates, nodeNamed } from "../book/name";
import { reachOf } from "../book/reach";
import { whyLines } from "../book/why";
import { vary } from "../document/live/vary";
import type { NodeId } from "../graph/node";
import { linkedCells } from "../prose/linked-cells";
import { WorkingsError } from "../quantity/error";
import { statisticsLines } from "../sheet/statistics-words";
import { type Opened, openBook, staleLines } from "./context";
import { movedReport } from "./moved-report";
import { reachReport } from "./reach-report";
import type { Streams } from "./streams";
import { type Command, exitCodes } from "./usage";

export async function why({ words: [name = ""], options }: Command, streams: Streams): Promise<number> {
  if (options.from !== undefined) return whyFrom(options.from, options, streams);
  const { book } = openBook(options.book);
  streams.error(staleLines(book));
  const nodes = resultsNamed(book, name);
  const { coverage, beside } = options;
  if (coverage !== undefined || beside !== undefined) {
    const asked = { coverage: coverage ?? 0.95, ...(beside !== undefined && { beside: nodeNamed(book, beside) }) };
    streams.out(`${nodes.flatMap((node) => [`${node}:`, ...statisticsLines(node, book.evaluation, asked)]).join("\n")}\n`);
    return exitCodes.done;
  }
  const lines = nodes.flatMap((node) => whyLines(node, book.evaluation, book.design.batches));
  streams.out(`${lines.join("\n")}\n`);
  return exitCodes.done;
}

/** A result by its name, or those that answer a requirement. */
function resultsNamed(book: Book, name: string): readonly NodeId[] {
  const requirement = candidates(book, name).length > 0 ? undefined : book.requirements.find(({ row }) => row.id === name);
  if (requirement === undefined) return [nodeNamed(book, name)];
  if (requirement.answers.length > 0) return requirement.answers.map(({ node }) => node);
  throw new WorkingsError("usage", `${name} is a requirement that no sheet answers yet; there is no result to explain`);
}

/** What a given or a decision reaches, before anything is run. */
function whyFrom(path: string, options: Command["options"], streams: Streams): number {
  const { book, design, file, standing } = openForReach(options.book);
  streams.error(staleLines(book));
  const sheets = file.worksheets.flatMap(({ name }) => {
    const notebook = standing.notebook(name);
    return notebook === undefined ? [] : [{ name, notebook }];
  });
  const { nodes, ...reach } = reachOf(path, { book, design, sheets, takes: standing.takes });
  const links = linkedCells(book, nodes);
  const data = { stale: Object.fromEntries(book.stale), ...reach, text: links };
  streams.out(options.json ? `${JSON.stringify(data, null, 1)}\n` : reachReport({ nodes, ...reach }, links));
  return exitCodes.done;
}

/** All outputs, or where they contradict one another those alone that stand. */
function openForReach(named: string | undefined): Opened {
  try {
    return openBook(named);
  } catch (error) {
    if (error instanceof WorkingsError && (error.code === "book" || error.code === "notebook")) return openBook(named, "trusted");
    throw error;
  }
}

export async function varyCommand({ words, options }: Command, streams: Streams): Promise<number> {
  const { book } = openBook(options.book);
  streams.error(staleLines(book));
  const varied = vary(book, words);
  streams.out(options.json ? `${JSON.stringify({ stale: Object.fromEntries(book.stale), ...varied }, null, 1)}\n` : movedReport(varied));
  return exitCodes.done;
}
