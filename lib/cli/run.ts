/** `workings run`: runs sheets one after the other, writes their notebooks and the book's results. */
import { basename, resolve } from "node:path";
import type { Book, Worksheet } from "../book/book";
import { bookResults, formatResults } from "../book/results";
import { type RunOptions, type RunResult, runNotebook } from "../kernel/host";
import { Kernel } from "../kernel/kernel";
import { nativeCompiler } from "../kernel/native/check";
import { NativeCells } from "../kernel/native/native-cells";
import { type Notebook, readNotebook } from "../kernel/notebook";
import { clearScraps } from "../kernel/scraps";
import { formatSheetError } from "../kernel/sheet-error";
import { writeWhole } from "../kernel/write";
import { WorkingsError } from "../quantity/error";
import { designVariable } from "../sheet/project";
import { buildPath, chooseSheets, inBook, openBook, openDesign } from "./context";
import { keepingOf } from "./keeping";
import { lock } from "./lock";
import { type Plan, planRun, readable, typesHash } from "./plan";
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

export async function run(command: Command, streams: Streams, signal: AbortSignal): Promise<number> {
  const book = openBook(command.options.book);
  const release = lock(buildPath(book, "run.lock"));
  clearScraps([buildPath(book, "run.lock"), keepingOf(book, "").path, ...book.worksheets.map(({ path }) => path)]);
  const kernel = new Kernel();
  try {
    return await runBook(book, kernel, command, streams, signal);
  } finally {
    kernel.close();
    release();
  }
}

async function runBook(
  book: Book,
  kernel: Kernel,
  { words: names, options }: Command,
  streams: Streams,
  signal: AbortSignal,
): Promise<number> {
  // A malformed design is told once, here, and not by every sheet.
  const design = openDesign(book, options.design);
  const plan = planRun(book, chooseSheets(book, names), names.length > 0 || options.all || options.design !== undefined, design);
  const worksheets = plan.sheets;
  const width = Math.max(...worksheets.map(({ name }) => name.length), 0);
  const silent = { write: () => undefined };
  const progress = new Progress(
    options.json ? silent : { isTTY: process.stdout.isTTY === true, columns: process.stdout.columns ?? 80, write: streams.draw },
    width,
  );
  const native = nativeCells(book);
  if (native !== undefined && plan.sheets.some(({ name }) => plan.reasonToSkip(name, new Set()) === undefined))
    await native.check(plan.sheets.flatMap((worksheet) => readable(worksheet) ?? []));
  const ran: Ran[] = [];
  const skipped: Skipped[] = [];
  let unremembered: string | undefined;
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
      onWrite: () => plan.forget(worksheet.name),
    });
    progress.end(stateOf(result, options.design !== undefined));
    ran.push({ worksheet, result, milliseconds: Math.round(performance.now() - begun) });
    if (options.design === undefined) unremembered ??= remember(plan, worksheet.name, result);
    if (!options.json) tell(result, streams);
  }
  if (native?.problem !== undefined) streams.error(`${native.problem}\ntslab has run the cells instead.\n`);
  if (unremembered !== undefined) streams.error(`${unremembered} The sheets count as not run.\n`);
  const ok = !signal.aborted && ran.every(({ result }) => result.ok) && !skipped.some(({ failed }) => failed);
  const results = ok ? writeResults(book, ran, options.design) : undefined;
  if (options.json)
    streams.out(
      `${JSON.stringify({ ok, sheets: [...ran.map(summary), ...skipped.map(({ worksheet, text, failed }) => ({ sheet: worksheet.name, file: worksheet.file, ok: !failed, skipped: text }))], ...(results && { results }) }, null, 1)}\n`,
    );
  else if (!ok) streams.error(`${basename(resultsPath(book, options.design))} is left as it was\n`);
  return ok ? exitCodes.done : exitCodes.failed;
}

/** The record may be lost at any time: a full disk under it is no failure of a sheet. Returns what went wrong. */
function remember(plan: Plan, name: string, result: RunResult): string | undefined {
  try {
    plan.remember(name, result);
    return undefined;
  } catch (error) {
    if (error instanceof WorkingsError && error.code === "write") return error.message;
    throw error;
  }
}

/** Undefined where there is no native compiler for this machine: tslab then runs the cells. */
function nativeCells(book: Book): NativeCells | undefined {
  const compiler = nativeCompiler();
  return compiler === undefined ? undefined : new NativeCells(compiler, buildPath(book, "cells"), typesHash());
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

function tell(result: RunResult, streams: Streams): void {
  if (!result.ok) streams.error(`\n${formatSheetError(result.error)}\nThe notebook is left as it was.\n\n`);
  else for (const warning of result.warnings) streams.error(`  ${warning}\n`);
}

function summary({ worksheet, result, milliseconds }: Ran): object {
  const { name, file } = worksheet;
  return result.ok
    ? { sheet: name, file, ok: true, changed: result.changed, warnings: result.warnings, milliseconds }
    : { sheet: name, file, ok: false, error: result.error, milliseconds };
}

function resultsPath(book: Book, design: string | undefined): string {
  return buildPath(book, design === undefined ? "results.json" : `results-${basename(design).replace(/\.[^.]*$/, "")}.json`);
}

/** All sheets of the book count: those that were not run now with the outputs they have. */
function writeResults(book: Book, ran: readonly Ran[], design: string | undefined): string {
  const fresh = new Map(
    ran.flatMap(({ worksheet, result }): [string, Notebook][] => (result.ok ? [[worksheet.name, result.notebook]] : [])),
  );
  const counted = design === undefined ? book.worksheets : book.worksheets.filter(({ name }) => fresh.has(name));
  const sheets = counted.map(({ name, path }) => ({ name, notebook: fresh.get(name) ?? readNotebook(path) }));
  const path = resultsPath(book, design);
  writeWhole(path, formatResults(bookResults(book, sheets)));
  return inBook(book, path);
}
