/**
 * Runs a notebook headless: its code cells in order through tslab, in a kernel's process whose folder is the
 * notebook's. The file is written only when every cell succeeded and its bytes change.
 */
import { basename, dirname, join, resolve } from "node:path";
import { WorkingsError } from "../quantity/error";
import type { Keeping } from "./kept";
import { Kernel } from "./kernel";
import type { Ran, Setting } from "./kernel-process";
import { jobCells, type NativeCells } from "./native/native-cells";
import { codeCells, formatNotebook, isBlank, type Notebook, parseNotebook, readNotebookText, writeNotebook } from "./notebook";
import type { Engine, FailureKind, Job, Used } from "./protocol";
import { type SheetError, sheetError } from "./sheet-error";

/** MiB. */
export const usualHeap = 2_048;

export interface RunOptions {
  /** Time limit of one cell, ms. Default 120 000. */
  readonly timeout?: number;
  /** Time limit of the kernel's start, ms. Default 60 000. */
  readonly startTimeout?: number;
  /** How long timers and promises may run on after the last cell, ms. Default 2 000. */
  readonly grace?: number;
  /** JavaScript heap of the kernel's process, MiB. Default `usualHeap`. */
  readonly heap?: number;
  /** Write the notebook back. Default true. */
  readonly write?: boolean;
  /** Called just before the notebook's bytes change on disk. */
  readonly onWrite?: () => void;
  /** Added to the environment of the kernel's process. */
  readonly environment?: Readonly<Record<string, string>>;
  /** Aborting it kills the kernel's process; the notebook stays as it was. */
  readonly signal?: AbortSignal;
  /** Called as each code cell starts, 1-based. */
  readonly onCell?: (cell: number, total: number) => void;
  /** Shared by several notebooks, which saves each but the first the start of a process. Default: one for this notebook. */
  readonly kernel?: Kernel;
  /** Where the book's design may be kept as it was read. Default: the sheet reads it anew. */
  readonly design?: Keeping;
  /** Where to keep what the sheet's evaluation has found, for publishing. Default: nowhere. */
  readonly keep?: Keeping;
  /** Computes everything, whatever is kept. Default: what was kept is used where it holds. */
  readonly anew?: boolean;
  /** Runs cells without tslab where it can. Default: tslab runs them. */
  readonly native?: NativeCells;
  /** Folder of the book, of which is told what the sheet has read. Default: none. */
  readonly root?: string;
  /** The kernel's built entry script. Default: beside this file. */
  readonly child?: string;
}

export type RunResult =
  | { readonly ok: true; readonly notebook: Notebook; readonly changed: boolean; readonly warnings: readonly string[]; readonly used: Used }
  | { readonly ok: false; readonly error: SheetError };

/** Never rejects for anything the notebook or its folder does: every failure is an error value, and leaves the file as it was. */
export async function runNotebook(path: string, options: RunOptions = {}): Promise<RunResult> {
  const name = basename(path);
  const fail = (kind: FailureKind, error: unknown): RunResult => {
    if (!(error instanceof WorkingsError)) throw error;
    return { ok: false, error: sheetError(name, { kind, message: error.message }, [], "") };
  };
  let text: string, notebook: Notebook;
  try {
    text = readNotebookText(path);
    notebook = parseNotebook(text, name);
    checkLanguage(notebook, name);
  } catch (error) {
    return fail("read", error);
  }
  const cells = codeCells(notebook);
  const ran = await run(path, notebook, options);
  if (ran.failure) {
    const cell = ran.failure.cell;
    return { ok: false, error: sheetError(name, ran.failure, cells, cell === undefined ? "" : ran.outputs.printed(cell)) };
  }
  const finished = withOutputs(notebook, ran);
  const used = ran.used ?? { asked: [], files: {}, purposes: {} };
  if (options.write === false) return { ok: true, notebook: finished, changed: false, warnings: ran.warnings, used };
  try {
    if (formatNotebook(finished) !== text) options.onWrite?.();
    return { ok: true, notebook: finished, changed: writeNotebook(path, text, finished), warnings: ran.warnings, used };
  } catch (error) {
    if (!(error instanceof WorkingsError) || error.code !== "changed") return fail("write", error);
    const message = "the notebook was saved by someone else while it ran; it is left as it is now: run again";
    return { ok: false, error: sheetError(name, { kind: "changed", message }, [], "") };
  }
}

async function run(path: string, notebook: Notebook, options: RunOptions): Promise<Ran> {
  const cells = jobCells(notebook);
  const native = await options.native?.prepare(cells);
  const total = codeCells(notebook).length;
  const job: Job = {
    notebook: basename(path),
    cells: native ?? cells,
    grace: options.grace ?? 2_000,
    ...(options.design && { design: options.design }),
    ...(options.keep && { keep: options.keep }),
    ...(options.anew === true && { anew: true }),
    ...(options.root !== undefined && { root: resolve(options.root) }),
  };
  const kernel = options.kernel ?? new Kernel();
  try {
    return await kernel.run(job, settingOf(path, options, native === undefined ? "tslab" : "native"), {
      cellLimit: options.timeout ?? 120_000,
      startLimit: options.startTimeout ?? 60_000,
      signal: options.signal,
      onCell: options.onCell && ((cell) => options.onCell?.(cell, total)),
    });
  } finally {
    if (options.kernel === undefined) kernel.close();
  }
}

/** What the process must be like that a notebook runs in. */
export function settingOf(path: string, { child, heap, environment }: RunOptions, engine: Engine): Setting {
  return {
    script: child ?? join(__dirname, "kernel-child.js"),
    folder: dirname(resolve(path)),
    engine,
    heap: heap ?? usualHeap,
    environment: environment ?? {},
  };
}

function withOutputs(notebook: Notebook, ran: Ran): Notebook {
  let position = 0,
    count = 0;
  const cells = notebook.cells.map((cell) => {
    if (cell.cell_type !== "code") return cell;
    position += 1;
    return isBlank(cell)
      ? { ...cell, outputs: [], execution_count: null }
      : { ...cell, outputs: ran.outputs.of(position), execution_count: ++count };
  });
  return { ...notebook, cells };
}

function checkLanguage(notebook: Notebook, name: string): void {
  for (const part of ["kernelspec", "language_info"] as const) {
    const spec = notebook.metadata[part];
    const language =
      typeof spec === "object" && spec !== null && !Array.isArray(spec) ? spec[part === "kernelspec" ? "language" : "name"] : undefined;
    if (language === undefined || language === "typescript") continue;
    throw new WorkingsError(
      "notebook",
      `${name}: its ${part} says ${JSON.stringify(language)}; a worksheet's cells are TypeScript (kernel tslab)`,
      { place: name },
    );
  }
}
