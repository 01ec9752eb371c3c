/** `workings run`: runs sheets, as many at a time as there are cores, writes their notebooks and the book's results. */
import { availableParallelism, totalmem } from "node:os";
import { basename, resolve } from "node:path";
import { type Book, makeBook } from "../book/book";
import type { BookFile, Worksheet } from "../book/book-file";
import { bookResults, formatResults } from "../book/results";
import type { ReadDesign } from "../book/standing";
import { type RunOptions, type RunResult, settingOf, usualHeap } from "../kernel/host";
import { Kernel } from "../kernel/kernel";
import { nativeCompiler } from "../kernel/native/check";
import { NativeCells } from "../kernel/native/native-cells";
import { hashOfBytes } from "../kernel/reads";
import { clearScraps } from "../kernel/scraps";
import { formatSheetError } from "../kernel/sheet-error";
import { writeWhole } from "../kernel/write";
import { designVariable } from "../sheet/project";
import { storedDisplays } from "../sheet/stored";
import { buildPath, chooseSheets, inBook, openBook, openBookFile, openDesign, staleLines, standingOf } from "./context";
import { designKeeping, keepingOf } from "./keeping";
import { typesHash } from "./library";
import { lock } from "./lock";
import { planRun } from "./plan";
import { Progress, terminalOf } from "./progress";
import { type Ran, runSheets } from "./run-sheets";
import type { Streams } from "./streams";
import { fileHash, rememberUnchanged } from "./unchanged";
import { type Command, exitCodes } from "./usage";

/** `shared`: kernels to run in, which stay open; those that are missing are put into it. */
export async function run(command: Command, streams: Streams, signal: AbortSignal, shared?: Kernel[]): Promise<number> {
  const book = openBookFile(command.options.book);
  const release = lock(buildPath(book, "run.lock"));
  clearScraps([buildPath(book, "run.lock"), keepingOf(book, "").path, ...book.worksheets.map(({ path }) => path)]);
  const jobs = Math.min(command.options.jobs ?? usualJobs(command.options.heap), book.worksheets.length);
  const kernels = shared ?? [];
  while (kernels.length < jobs) kernels.push(new Kernel());
  try {
    return await runBook(book, kernels.slice(0, jobs), command, streams, signal);
  } finally {
    if (shared === undefined) for (const kernel of kernels) kernel.close();
    release();
  }
}

async function runBook(
  book: BookFile,
  kernels: readonly Kernel[],
  { words: names, options }: Command,
  streams: Streams,
  signal: AbortSignal,
): Promise<number> {
  // A malformed design is told once, here, and not by every sheet.
  const design = openDesign(book, options.design, options.design === undefined);
  const standing = standingOf(book, design);
  const plan = planRun(book, chooseSheets(book, names), names.length > 0 || options.all || options.design !== undefined, standing);
  const worksheets = plan.sheets;
  const width = Math.max(...worksheets.map(({ name }) => name.length), 0);
  const progress = new Progress(options.json ? { write: () => undefined } : terminalOf(streams), width);
  const native = nativeCells(book);
  const stale = plan.sheets.filter(({ name }) => plan.reasonToSkip(name, new Set()) === undefined);
  if (native !== undefined && stale.length > 0) {
    // Their processes start while the compiler works.
    for (const [i, kernel] of kernels.slice(0, stale.length).entries())
      kernel.start(settingOf((stale[i] as Worksheet).path, runOptions(options), "native"));
    await native.check(plan.sheets.flatMap(({ name }) => standing.notebook(name) ?? []));
  }
  const { ran, skipped, unremembered, overtaken } = await runSheets(plan, {
    kernels,
    progress,
    signal,
    standing,
    options: ({ name }) => ({
      ...runOptions(options),
      anew: options.all,
      design: designKeeping(book),
      ...(options.design === undefined && { keep: keepingOf(book, name), root: book.root }),
      ...(native && { native }),
    }),
    writes: options.design === undefined,
    tell: (sheet, result) => (options.json ? undefined : tell(sheet, result, streams)),
  });
  if (native?.problem !== undefined) streams.error(`${native.problem}\ntslab has run the cells instead.\n`);
  for (const sentence of new Set(unremembered)) streams.error(`${sentence}\n`);
  const ok = !signal.aborted && overtaken.length === 0 && ran.every(({ result }) => result.ok) && !skipped.some(({ failed }) => failed);
  const results = ok
    ? writeResults(book, options.design === undefined ? undefined : { path: options.design, read: design, ran }, streams)
    : undefined;
  if (options.json)
    streams.out(
      `${JSON.stringify({ ok, sheets: [...ran.map(summary), ...skipped.map(({ worksheet, text, failed }) => ({ sheet: worksheet.name, file: worksheet.file, ok: !failed, skipped: text }))], ...(results && { results }) }, null, 1)}\n`,
    );
  else if (!ok) streams.error(`${basename(resultsPath(book, options.design))} is left as it was\n`);
  return ok ? exitCodes.done : exitCodes.failed;
}

/** Undefined where there is no native compiler for this machine: tslab then runs the cells. */
function nativeCells(file: BookFile): NativeCells | undefined {
  const compiler = nativeCompiler();
  return compiler === undefined ? undefined : new NativeCells(compiler, buildPath(file, "cells"), typesHash());
}

/** One sheet a core, but not more than the memory that they may use. */
function usualJobs(heap = usualHeap): number {
  return Math.max(1, Math.min(availableParallelism(), Math.floor(totalmem() / (heap * 1024 * 1024))));
}

function runOptions({ timeout, heap, design }: Command["options"]): RunOptions {
  return {
    ...(timeout !== undefined && { timeout }),
    ...(heap !== undefined && { heap }),
    ...(design !== undefined && { write: false, environment: { [designVariable]: resolve(design) } }),
  };
}

function tell(sheet: string, result: RunResult, streams: Streams): void {
  if (!result.ok) streams.error(`\n${formatSheetError(result.error)}\nThe notebook is left as it was.\n\n`);
  else for (const warning of warningsOf(sheet, result)) streams.error(`  ${warning}\n`);
}

function warningsOf(sheet: string, { notebook, warnings }: RunResult & { readonly ok: true }): string[] {
  const told = storedDisplays(notebook, sheet).flatMap(({ display }) => display.warnings ?? []);
  return [...warnings, ...new Set(told)];
}

function summary({ worksheet, result, milliseconds }: Ran): object {
  const { name, file } = worksheet;
  return result.ok
    ? { sheet: name, file, ok: true, changed: result.changed, warnings: warningsOf(name, result), milliseconds }
    : { sheet: name, file, ok: false, error: result.error, milliseconds };
}

function resultsPath(book: BookFile, design: string | undefined): string {
  return buildPath(book, design === undefined ? "results.json" : `results-${basename(design).replace(/\.[^.]*$/, "")}.json`);
}

interface OtherDesign {
  readonly path: string;
  readonly read: ReadDesign;
  readonly ran: readonly Ran[];
}

/** Of the sheets whose outputs stand, those that were not run now with the outputs they have; of another design, those that ran on it. */
function writeResults(file: BookFile, other: OtherDesign | undefined, streams: Streams): string {
  const path = resultsPath(file, other?.path);
  const write = (book: Book): string => {
    streams.error(staleLines(book));
    const text = formatResults(bookResults(book, { sensitivity: true }));
    writeWhole(path, text);
    return text;
  };
  if (other !== undefined) write(bookOf(file, other));
  else {
    const bookHash = fileHash(file.path);
    const { book, standing, file: opened } = openBook(file.path, "trusted");
    const text = write(book);
    if (book.stale.size === 0 && fileHash(opened.path) === bookHash) {
      const grounds = new Map([...standing.grounds(), [opened.path, bookHash], [path, hashOfBytes(text)]]);
      const { sheets } = planRun(opened, opened.worksheets, false, standing);
      rememberUnchanged(opened, sheets, grounds, inBook(file, path));
    }
  }
  return inBook(file, path);
}

function bookOf(title: BookFile, { read, ran }: OtherDesign): Book {
  const sheets = ran.flatMap(({ worksheet: { name }, result }) => (result.ok ? [{ name, notebook: result.notebook }] : []));
  return makeBook({ title, design: read.design, sheets });
}
