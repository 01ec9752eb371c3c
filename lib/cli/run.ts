/** `workings run`: runs sheets one after the other, writes their notebooks and the book's results. */
import { basename, resolve } from "node:path";
import { type Book, makeBook } from "../book/book";
import type { BookFile, Worksheet } from "../book/book-file";
import { bookResults, formatResults } from "../book/results";
import type { ReadDesign, Standing } from "../book/standing";
import { type RunOptions, type RunResult, runNotebook } from "../kernel/host";
import { Kernel } from "../kernel/kernel";
import { nativeCompiler } from "../kernel/native/check";
import { NativeCells } from "../kernel/native/native-cells";
import { clearScraps } from "../kernel/scraps";
import { formatSheetError } from "../kernel/sheet-error";
import { writeWhole } from "../kernel/write";
import { WorkingsError } from "../quantity/error";
import { designVariable } from "../sheet/project";
import { storedDisplays } from "../sheet/stored";
import { buildPath, chooseSheets, inBook, openBook, openBookFile, openDesign, staleLines, standingOf } from "./context";
import { keepingOf } from "./keeping";
import { typesHash } from "./library";
import { lock } from "./lock";
import { planRun } from "./plan";
import { Progress } from "./progress";
import type { Streams } from "./streams";
import { type Command, exitCodes } from "./usage";

interface Skipped {
  readonly worksheet: Worksheet;
  readonly text: string;
  /** Because a sheet that it takes from has failed. */
  readonly failed: boolean;
}

interface Ran {
  readonly worksheet: Worksheet;
  readonly result: RunResult;
  readonly milliseconds: number;
}

/** `shared`: a kernel to run in, which stays open. */
export async function run(command: Command, streams: Streams, signal: AbortSignal, shared?: Kernel): Promise<number> {
  const book = openBookFile(command.options.book);
  const release = lock(buildPath(book, "run.lock"));
  clearScraps([buildPath(book, "run.lock"), keepingOf(book, "").path, ...book.worksheets.map(({ path }) => path)]);
  const kernel = shared ?? new Kernel();
  try {
    return await runBook(book, kernel, command, streams, signal);
  } finally {
    if (shared === undefined) kernel.close();
    release();
  }
}

async function runBook(
  book: BookFile,
  kernel: Kernel,
  { words: names, options }: Command,
  streams: Streams,
  signal: AbortSignal,
): Promise<number> {
  // A malformed design is told once, here, and not by every sheet.
  const design = openDesign(book, options.design);
  const standing = standingOf(book, design);
  const plan = planRun(book, chooseSheets(book, names), names.length > 0 || options.all || options.design !== undefined, standing);
  const worksheets = plan.sheets;
  const width = Math.max(...worksheets.map(({ name }) => name.length), 0);
  const silent = { write: () => undefined };
  const progress = new Progress(
    options.json ? silent : { isTTY: process.stdout.isTTY === true, columns: process.stdout.columns ?? 80, write: streams.draw },
    width,
  );
  const native = nativeCells(book);
  if (native !== undefined && plan.sheets.some(({ name }) => plan.reasonToSkip(name, new Set()) === undefined))
    await native.check(plan.sheets.flatMap(({ name }) => standing.notebook(name) ?? []));
  const ran: Ran[] = [];
  const skipped: Skipped[] = [];
  const unremembered: string[] = [];
  /** Sheets whose outputs are of a design, or of another sheet, that is no more. */
  const overtaken: string[] = [];
  for (const worksheet of worksheets) {
    if (signal.aborted) break;
    const begun = performance.now();
    progress.start(worksheet.name);
    const reason = plan.reasonToSkip(
      worksheet.name,
      new Set([
        ...ran.filter(({ result }) => !result.ok).map((one) => one.worksheet.name),
        ...skipped.filter(({ failed }) => failed).map((one) => one.worksheet.name),
      ]),
    );
    if (reason !== undefined) {
      progress.end(reason.text);
      skipped.push({ worksheet, ...reason });
      continue;
    }
    const result = await runNotebook(worksheet.path, {
      ...runOptions(options),
      ...(options.design === undefined && { keep: keepingOf(book, worksheet.name) }),
      kernel,
      ...(native && { native }),
      signal,
      onCell: (cell, total) => progress.update(`cell ${cell} of ${total}`),
      ...(options.design === undefined && { root: book.root }),
      onWrite: () => standing.forget(worksheet.name),
    });
    progress.end(stateOf(result, options.design !== undefined));
    ran.push({ worksheet, result, milliseconds: Math.round(performance.now() - begun) });
    if (options.design === undefined) {
      const { told, moved = [] } = remember(standing, worksheet.name, result);
      if (told !== undefined) unremembered.push(told);
      if (moved.length > 0) overtaken.push(worksheet.name);
    }
    if (!options.json) tell(worksheet.name, result, streams);
  }
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

/** The record may be lost at any time: a full disk under it is no failure of a sheet. Returns what there is to tell, and files that changed under the sheet. */
function remember(standing: Standing, name: string, result: RunResult): { readonly told?: string; readonly moved?: readonly string[] } {
  try {
    if (!result.ok) {
      if (result.error.kind !== "interrupted") standing.failed(name, result.error.message.split("\n")[0] ?? "");
      return {};
    }
    const moved = standing.remember(name, result.notebook, result.used);
    if (moved.length === 0) return {};
    return { moved, told: `${moved.join(", ")} changed while ${name} ran: its outputs are of what it read then; run it again` };
  } catch (error) {
    if (error instanceof WorkingsError && error.code === "write") return { told: `${error.message} The sheets count as not run.` };
    throw error;
  }
}

/** Undefined where there is no native compiler for this machine: tslab then runs the cells. */
function nativeCells(file: BookFile): NativeCells | undefined {
  const compiler = nativeCompiler();
  return compiler === undefined ? undefined : new NativeCells(compiler, buildPath(file, "cells"), typesHash());
}

function runOptions({ timeout, heap, design }: Command["options"]): RunOptions {
  return {
    ...(timeout !== undefined && { timeout }),
    ...(heap !== undefined && { heap }),
    ...(design !== undefined && { write: false, environment: { [designVariable]: resolve(design) } }),
  };
}

function stateOf(result: RunResult, otherDesign: boolean): string {
  if (!result.ok) return result.error.kind === "interrupted" ? "interrupted" : "failed";
  if (otherDesign) return "done, not written";
  return result.changed ? "done, outputs changed" : "done, as before";
}

function tell(sheet: string, result: RunResult, streams: Streams): void {
  if (!result.ok) streams.error(`\n${formatSheetError(result.error)}\nThe notebook is left as it was.\n\n`);
  else for (const warning of warningsOf(sheet, result)) streams.error(`  ${warning}\n`);
}

function warningsOf(sheet: string, { notebook, warnings }: RunResult & { readonly ok: true }): string[] {
  const analyses = storedDisplays(notebook, sheet).flatMap(({ display }) => display.analyses);
  const laws = new Set(analyses.flatMap(({ outside = [] }) => outside));
  return [...warnings, ...[...laws].map((text) => `outside the range of ${text}`)];
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
  const book = other === undefined ? openBook(file.path, "trusted").book : bookOf(file, other);
  streams.error(staleLines(book));
  const path = resultsPath(file, other?.path);
  writeWhole(path, formatResults(bookResults(book)));
  return inBook(file, path);
}

function bookOf(title: BookFile, { read, ran }: OtherDesign): Book {
  const sheets = ran.flatMap(({ worksheet: { name }, result }) => (result.ok ? [{ name, notebook: result.notebook }] : []));
  return makeBook({ title, design: read.design, sheets });
}
