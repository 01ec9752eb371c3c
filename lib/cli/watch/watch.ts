/** `workings watch`: at every save it runs what is stale, one run after the other, and a browser shows the document as it is now. */
import { existsSync } from "node:fs";
import { relative } from "node:path";
import { WorkingsError } from "../../quantity/error";
import { rootOf } from "../../sheet/find-book";
import { bookPath } from "../book-path";
import type { Streams } from "../streams";
import { type Command, exitCodes } from "../usage";
import { differing, WatchedFiles } from "./files";
import { type Problem, type Round, Rounds } from "./round";
import { DocumentServer } from "./server";

/** So many runs in a row may follow one another without a pause because files change while they run. */
const mostInARow = 3;
/** The pause after that, ms. */
const breather = 10_000;
/** Between two tries while another command runs the book, ms. */
const patience = 1_000;

/** Serves until it is interrupted. Throws WorkingsError "usage" for a book or a port that cannot be had; what the book's files hold is told in the page. */
export async function watch({ options }: Command, streams: Streams, signal: AbortSignal): Promise<number> {
  const path = bookPath(options.book);
  if (!existsSync(path)) throw new WorkingsError("usage", `there is no book ${path}`, { place: path });
  const server = await DocumentServer.start(options.port);
  const files = new WatchedFiles(rootOf(path));
  const rounds = new Rounds(path, options);
  streams.out(`${server.address}\nshows the book as it changes, in a browser on this machine; Ctrl-C here ends it\n`);
  try {
    await new Watch(rootOf(path), files, rounds, server, streams).go(signal);
  } finally {
    files.close();
    rounds.close();
    await server.close();
  }
  return exitCodes.done;
}

class Watch {
  private problems: readonly Problem[] = [];
  private hasDocument = false;
  private inARow = 0;

  constructor(
    private readonly root: string,
    private readonly files: WatchedFiles,
    private readonly rounds: Rounds,
    private readonly server: DocumentServer,
    private readonly streams: Streams,
  ) {}

  /** One round after the other: what is saved while one goes on is found by the comparison of the files before and after it. */
  async go(signal: AbortSignal): Promise<void> {
    while (!signal.aborted) {
      const begun = performance.now();
      this.server.tell({ words: "Running what is stale…", problems: this.problems, isGood: this.problems.length === 0 });
      const before = this.files.stamps();
      let after = before;
      const round = await this.rounds.next(signal, () => {
        after = this.files.stamps();
      });
      if (signal.aborted) return;
      const meanwhile = differing(before, after).filter((path) => !round.standing.has(path));
      this.inARow = meanwhile.length === 0 ? 0 : this.inARow + 1;
      const restless = this.inARow > mostInARow ? [restlessness(meanwhile.map((path) => relative(this.root, path)))] : [];
      this.tell({ ...round, problems: [...round.problems, ...restless] }, performance.now() - begun);
      const pause = round.busy ? patience : restless.length > 0 ? breather : undefined;
      if (pause !== undefined || meanwhile.length === 0) await this.files.changed(after, signal, pause);
    }
  }

  private tell({ ran, problems, document }: Round, milliseconds: number): void {
    const isNew = document !== undefined && this.server.show(document);
    this.hasDocument ||= document !== undefined;
    for (const line of ran) this.streams.out(`${line}\n`);
    const differs = JSON.stringify(problems) !== JSON.stringify(this.problems);
    if (ran.length > 0 || differs) for (const { title, text } of problems) this.streams.error(`\n${title}\n${text}\n\n`);
    if (problems.length === 0 && differs) this.streams.out("nothing is wrong any more\n");
    if (isNew) this.streams.out(`shown after ${(milliseconds / 1000).toFixed(1)} s\n`);
    this.problems = problems;
    this.server.tell({ words: this.words(problems.length, document !== undefined), problems, isGood: problems.length === 0 });
  }

  private words(count: number, isMade: boolean): string {
    if (count === 0) return "Up to date";
    const what = count === 1 ? "Something is wrong" : `${count} things are wrong`;
    if (isMade) return `${what}. The document below shows what could run, and says what is stale.`;
    return this.hasDocument ? `${what}. Below is the last document that could be made.` : `${what}. No document could be made yet.`;
  }
}

function restlessness(files: readonly string[]): Problem {
  const which = files.length > 3 ? `${files.slice(0, 3).join(", ")} and ${files.length - 3} more` : files.join(", ");
  return {
    title: "Files change while the sheets run, again and again",
    text: `${which}: a cell that writes such a file makes its sheet stale each time; let it write into build/. The next run begins in ${breather / 1000} s, or at the next save.`,
  };
}
