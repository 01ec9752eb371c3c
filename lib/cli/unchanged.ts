/**
 * The short way of `workings run` where nothing has changed since no sheet was stale: build/unchanged.json holds the hash of every file
 * on which that rests. Where all are the same, nothing but their bytes is read. May be lost or damaged at any time: the long way follows.
 */
import { existsSync, readdirSync, readFileSync, realpathSync } from "node:fs";
import { dirname, join, relative, resolve, sep } from "node:path";
import { hashOfBytes } from "../kernel/reads";
import { clearScraps } from "../kernel/scraps";
import { writeWhole } from "../kernel/write";
import { WorkingsError } from "../quantity/error";
import { rootOf } from "../sheet/find-book";
import { bookPath } from "./book-path";
import { lock } from "./lock";
import { Progress, terminalOf } from "./progress";
import type { Streams } from "./streams";
import { exitCodes, parseCommand } from "./usage";

interface Ground {
  readonly hash: string;
  /** Where the file really is, from the real folder of the project. */
  readonly real: string;
}

interface Unchanged {
  /** Of the program that found nothing stale. */
  readonly program: string;
  /** In the order of a run. */
  readonly sheets: readonly { readonly name: string; readonly file: string }[];
  /** By path from the project's folder. */
  readonly files: Readonly<Record<string, Ground>>;
  /** Names of the reference files. */
  readonly references: readonly string[];
  /** Path of results.json. */
  readonly results: string;
}

/** Does what a run without names and options does where nothing has changed. Undefined where the long way must look. */
export function runUnchanged(words: readonly string[], streams: Streams): number | undefined {
  try {
    const { name, words: sheets, options } = parseCommand(words);
    const { book, json, ...more } = options;
    if (name !== "run" || sheets.length > 0 || more.all || Object.keys(more).length > 1) return undefined;
    const path = resolve(bookPath(book));
    const root = rootOf(path);
    if (!existsSync(recordPath(root))) return undefined;
    const release = lock(join(root, "build/run.lock"));
    try {
      const known = holding(root, nameIn(root, path));
      if (known === undefined) return undefined;
      clearScraps([recordPath(root), join(root, "build/found/run"), ...known.sheets.map(({ file }) => join(dirname(path), file))]);
      tell(known, json, streams);
      return exitCodes.done;
    } finally {
      release();
    }
  } catch (error) {
    // Whatever is wrong, the long way tells it.
    if (error instanceof Error) return undefined;
    throw error;
  }
}

function tell({ sheets, results }: Unchanged, json: boolean, streams: Streams): void {
  if (json) {
    const said = sheets.map(({ name, file }) => ({ sheet: name, file, ok: true, skipped: "fresh" }));
    streams.out(`${JSON.stringify({ ok: true, sheets: said, results }, null, 1)}\n`);
    return;
  }
  const progress = new Progress(terminalOf(streams), Math.max(...sheets.map(({ name }) => name.length), 0));
  for (const { name } of sheets) {
    progress.start(name);
    progress.write(progress.end(name, "fresh"));
  }
}

/** After a run that left nothing stale. `grounds`: the files on which that rests, with the hashes of what they said then. */
export function rememberUnchanged(
  { root, path }: { readonly root: string; readonly path: string },
  sheets: Unchanged["sheets"],
  grounds: ReadonlyMap<string, string>,
  results: string,
): void {
  const record = join(root, "build/fresh.json");
  const files = [...grounds, [record, fileHash(record)] as const].map(
    ([file, hash]) => [nameIn(root, file), { hash, real: realName(root, file) }] as const,
  );
  const unchanged: Unchanged = {
    program: programHash(),
    sheets: sheets.map(({ name, file }) => ({ name, file })),
    files: Object.fromEntries(files),
    references: references(root),
    results,
  };
  try {
    const text = JSON.stringify({ book: nameIn(root, path), ...unchanged });
    writeWhole(recordPath(root), JSON.stringify({ sum: hashOfBytes(text), text }));
  } catch (error) {
    // Then the next run takes the long way.
    if (!(error instanceof WorkingsError)) throw error;
  }
}

function holding(root: string, book: string): Unchanged | undefined {
  const { sum, text } = JSON.parse(readFileSync(recordPath(root), "utf8")) as { readonly sum: unknown; readonly text: string };
  if (hashOfBytes(text) !== sum) return undefined;
  const known = JSON.parse(text) as Unchanged & { readonly book: string };
  if (known.book !== book || known.program !== programHash()) return undefined;
  if (JSON.stringify(known.references) !== JSON.stringify(references(root))) return undefined;
  const same = Object.entries(known.files).every(([name, { hash, real }]) => {
    const file = join(root, name);
    return realName(root, file) === real && fileHash(file) === hash;
  });
  return same ? known : undefined;
}

const recordPath = (root: string) => join(root, "build/unchanged.json");
const nameIn = (root: string, path: string) => relative(root, path).split(sep).join("/");

/** A link that leads elsewhere is another file, whatever it says. */
function realName(root: string, path: string): string {
  return existsSync(path) ? nameIn(realpathSync(root), realpathSync(path)) : "absent";
}

export function fileHash(path: string): string {
  return existsSync(path) ? hashOfBytes(readFileSync(path)) : "absent";
}

function references(root: string): readonly string[] {
  const folder = join(root, "data/reference");
  return existsSync(folder) ? readdirSync(folder).sort() : [];
}

function programHash(): string {
  const bundles = ["cli.js", "commands.js", "workings.js", "vega.js", "kernel-child.js"].map((name) => fileHash(join(__dirname, name)));
  return [process.version, ...bundles].join(" ");
}
