/** What a run has to do: the order of the sheets, which of them still stand, and which cannot run because another failed. */
import { createHash } from "node:crypto";
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import type { Book, Worksheet } from "../book/book";
import { FreshRecord, fingerprint } from "../book/freshness";
import { runOrder } from "../book/order";
import type { Design } from "../design/types";
import type { RunResult } from "../kernel/host";
import { type Notebook, readNotebook } from "../kernel/notebook";
import { bookTakes, type Take, type Ties, tiesOf } from "../kernel/takes";
import { WorkingsError } from "../quantity/error";
import { buildPath } from "./context";

export interface Plan {
  /** In the order in which they run. */
  readonly sheets: readonly Worksheet[];
  /** Why a sheet does not run, if it does not: it is fresh, or takes from one that failed. */
  reasonToSkip(name: string, failed: ReadonlySet<string>): { readonly text: string; readonly failed: boolean } | undefined;
  /** Call it before the outputs of a sheet change on disk. */
  forget(name: string): void;
  remember(name: string, result: RunResult): void;
}

const noTies: Ties = { takes: [], contributes: [], collects: [] };

interface Known {
  readonly name: string;
  readonly worksheet: Worksheet;
  readonly takes: readonly Take[];
}

/** `chosen` sheets run; those among them that still stand do not, unless `forced`. What they take from comes first where it is stale. */
export function planRun(book: Book, chosen: readonly Worksheet[], forced: boolean, design: Design): Plan {
  const notebooks = new Map<string, Notebook>();
  const tied = book.worksheets.map((worksheet) => {
    const notebook = readable(worksheet);
    if (notebook !== undefined) notebooks.set(worksheet.name, notebook);
    return { name: worksheet.name, worksheet, ties: notebook === undefined ? noTies : tiesOf(notebook) };
  });
  const takes = bookTakes(tied);
  const known = tied.map(({ name, worksheet }): Known => ({ name, worksheet, takes: takes.get(name) ?? [] }));
  const record = new FreshRecord(buildPath(book, "fresh.json"));
  const library = libraryHash();
  const now = (name: string): string | undefined => {
    const notebook = notebooks.get(name);
    return notebook && fingerprint({ name, notebook, takes: takes.get(name) ?? [] }, design, library, notebooks);
  };
  const named = new Set(chosen.map(({ name }) => name));
  const wanted = new Set([...named].flatMap((name) => [name, ...upstream(name, takes)]));
  return {
    sheets: runOrder(known)
      .filter(({ name }) => wanted.has(name))
      .map(({ worksheet }) => worksheet),
    reasonToSkip(name, failed) {
      const source = takes.get(name)?.find(({ sheet }) => failed.has(sheet));
      if (source !== undefined) return { text: `not run: it takes from ${source.sheet}, which failed`, failed: true };
      return !(forced && named.has(name)) && record.isFresh(name, now(name)) ? { text: "fresh", failed: false } : undefined;
    },
    forget: (name) => record.forget(name),
    remember(name, result) {
      if (!result.ok) return;
      notebooks.set(name, result.notebook);
      record.remember(name, now(name));
    },
  };
}

/** Undefined for a malformed notebook: its own run tells what is wrong with it. */
export function readable(worksheet: Worksheet): Notebook | undefined {
  try {
    return readNotebook(worksheet.path);
  } catch (error) {
    if (error instanceof WorkingsError) return undefined;
    throw error;
  }
}

function upstream(name: string, takes: ReadonlyMap<string, readonly Take[]>, seen: ReadonlySet<string> = new Set([name])): string[] {
  const sources = [...new Set((takes.get(name) ?? []).map(({ sheet }) => sheet))].filter((sheet) => !seen.has(sheet));
  return sources.flatMap((sheet) => [sheet, ...upstream(sheet, takes, new Set([...seen, sheet]))]);
}

/** Of what cells import. */
export function libraryHash(): string {
  hash ??= hashOfLibrary(__dirname);
  return hash;
}

let hash: string | undefined;

/** Of the bundles that make outputs: the library, and what draws its plots; what has not been built counts as nothing. */
export function hashOfLibrary(folder: string): string {
  const hashed = createHash("sha256");
  for (const bundle of ["workings.js", "vega.js"]) {
    const path = join(folder, bundle);
    if (existsSync(path)) hashed.update(readFileSync(path));
  }
  return hashed.digest("hex");
}

/** Of the declarations that cells are checked against. */
export function typesHash(folder: string = join(__dirname, "types")): string {
  const hashed = createHash("sha256");
  const files = existsSync(folder)
    ? readdirSync(folder, { recursive: true, encoding: "utf8" }).filter((name) => name.endsWith(".d.ts"))
    : [];
  for (const name of files.sort()) hashed.update(`${name}\0`).update(readFileSync(join(folder, name)));
  return hashed.digest("hex");
}
