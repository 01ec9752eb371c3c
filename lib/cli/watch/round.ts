/** What `workings watch` does after a change: it runs what is stale and makes the document anew, and tells what went wrong. */
import type { Evaluation } from "../../analysis/evaluation";
import { pageAssets, watchAssets } from "../../document/assets";
import { prepareBook } from "../../document/publish";
import { renderPage } from "../../document/render-page";
import { missingPictures } from "../../document/sheet/pictures";
import type { Kernel } from "../../kernel/kernel";
import { formatSheetError, type SheetError } from "../../kernel/sheet-error";
import { WorkingsError } from "../../quantity/error";
import { PlotDrawer } from "../../sheet/plot/plot-drawer";
import { type Found, howItStands, type Opened, openBook } from "../context";
import { run } from "../run";
import type { Command } from "../usage";

/** Something that the author must know, as the terminal and the page tell it. */
export interface Problem {
  readonly title: string;
  readonly text: string;
}

export interface Round {
  /** A line for each sheet that ran. */
  readonly ran: readonly string[];
  readonly problems: readonly Problem[];
  /** Absent where none could be made. */
  readonly document?: string;
  /** Paths of the notebooks whose outputs stand. */
  readonly standing: ReadonlySet<string>;
  /** Whether another process runs the book: nothing was tried. */
  readonly busy: boolean;
}

/** As `workings run --json` tells it. */
interface Told {
  readonly sheets: readonly SheetTold[];
}

interface SheetTold {
  readonly sheet: string;
  readonly ok: boolean;
  readonly changed?: boolean;
  readonly skipped?: string;
  readonly warnings?: readonly string[];
  readonly milliseconds?: number;
  readonly error?: SheetError;
}

export class Rounds {
  private readonly kernels: Kernel[] = [];
  private readonly plots = new PlotDrawer();
  private found: readonly Evaluation[] = [];

  /** `book`: as --book names it; `limits`: of a cell's time, a sheet's memory, and sheets at a time. */
  constructor(
    private readonly book: string | undefined,
    private readonly limits: Pick<Command["options"], "timeout" | "heap" | "jobs">,
  ) {}

  /** Never rejects for what the book's files hold. `between` is called after a run, before the document's files are read again. */
  async next(signal: AbortSignal, between: () => void): Promise<Round> {
    const problems: Problem[] = [];
    const ran: string[] = [];
    let busy = false;
    let title = "Nothing was run";
    let found: Found | undefined;
    try {
      found = howItStands(this.book);
      if (found.stale.size > 0) {
        title = "The run broke off";
        found = undefined;
        await this.run(signal, ran, problems);
        between();
      }
    } catch (error) {
      busy = error instanceof WorkingsError && error.code === "busy";
      problems.push(busy ? waiting(error as WorkingsError) : problemOf(error, title));
      between();
    }
    const document = signal.aborted || busy ? undefined : this.publish(found, problems);
    return { ran, problems, standing: new Set(), busy, ...document };
  }

  close(): void {
    for (const kernel of this.kernels) kernel.close();
  }

  private async run(signal: AbortSignal, ran: string[], problems: Problem[]): Promise<void> {
    const said: string[] = [];
    const errors: string[] = [];
    const streams = { out: (text: string) => said.push(text), draw: () => undefined, error: (text: string) => errors.push(text) };
    const options = { ...this.limits, json: true, all: false, ...(this.book !== undefined && { book: this.book }) };
    await run({ name: "run", words: [], options }, streams, signal, this.kernels);
    if (signal.aborted) return;
    for (const sheet of (JSON.parse(said.join("")) as Told).sheets) tell(sheet, ran, problems);
    const more = errors.join("").trim();
    if (more !== "") problems.push({ title: "The run says", text: more });
  }

  /** Of all sheets, stamped where some are stale; where those contradict the others, of the sheets that stand. */
  private publish(found: Found | undefined, problems: Problem[]): Pick<Round, "document" | "standing"> | undefined {
    try {
      return this.documentOf(openBook(found ?? this.book, "all", this.found), problems);
    } catch (error) {
      const first = problemOf(error, "The document could not be made");
      try {
        const opened = openBook(found ?? this.book, "trusted", this.found);
        if (opened.untrusted.length === 0 || opened.sheets.length === 0) throw error;
        const made = this.documentOf(opened, problems);
        const without = opened.untrusted.map(({ name }) => name).join(", ");
        problems.push({ title: `The document is without ${without}, whose outputs do not stand`, text: first.text });
        return made;
      } catch {
        // What is wrong with the whole book is told; it is the same, or was told already by the run.
        if (!problems.some(({ text }) => text === first.text)) problems.push(first);
        return undefined;
      }
    }
  }

  private documentOf({ book, sheets }: Opened, problems: Problem[]): Pick<Round, "document" | "standing"> {
    const prepared = prepareBook(book, this.plots);
    const missing = missingPictures(book);
    if (missing.length > 0) problems.push({ title: "The document lacks what its text shows", text: missing.join("\n") });
    const document = renderPage(prepared.content, pageAssets(), watchAssets());
    this.found = [book.evaluation];
    return { document, standing: new Set(sheets.flatMap(({ name, worksheet }) => (book.stale.has(name) ? [] : [worksheet.path]))) };
  }
}

function tell(
  { sheet, ok, changed, skipped, warnings = [], milliseconds = 0, error }: SheetTold,
  ran: string[],
  problems: Problem[],
): void {
  if (skipped !== undefined) {
    if (!ok) problems.push({ title: `${sheet} was not run`, text: skipped });
    return;
  }
  const state = ok ? (changed === true ? "done, outputs changed" : "done, as before") : "failed";
  ran.push(`${sheet}  ${state}  ${(milliseconds / 1000).toFixed(1)} s`);
  if (error !== undefined) problems.push({ title: `${sheet} failed`, text: `${formatSheetError(error)}\nThe notebook is left as it was.` });
  if (warnings.length > 0) problems.push({ title: `${sheet} ran with warnings`, text: warnings.join("\n") });
}

function waiting(error: WorkingsError): Problem {
  return { title: "Another command runs this book", text: `${error.message}; workings watch goes on by itself when it has ended` };
}

function problemOf(error: unknown, title: string): Problem {
  if (error instanceof WorkingsError) return { title, text: error.message };
  const stack = error instanceof Error ? (error.stack ?? error.message) : String(error);
  return { title: "A fault of workings itself, please report it", text: stack };
}
