/** The two sides of `workings compare`: each a folder, a git revision of the book, or a results file. */
import { spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, relative, resolve, sep } from "node:path";
import { disagreements } from "../book/agreement";
import { makeBook } from "../book/book";
import { type BookFile, readBookFile } from "../book/book-file";
import { type Revision, resultsRevision, revisionOf } from "../book/compare/revision";
import { Standing, withoutRecord } from "../book/standing";
import { readNotebook } from "../kernel/notebook";
import { WorkingsError } from "../quantity/error";
import { readText } from "../sheet/text-file";
import { buildPath, openBookFile, openDesign } from "./context";
import { keptOf } from "./keeping";
import { libraryHash } from "./library";
import { waitingFor } from "./waiting";

/** Where the sides are found: the book that a git revision is one of. Asked for only then. */
export class Revisions {
  private readonly folders: string[] = [];

  /** `named`: what --book says. */
  constructor(private readonly named: string | undefined) {}

  /** Throws WorkingsError "usage" for a name that is none of the three, or two of them at once. */
  open(name: string): Revision {
    const state = statSync(name, { throwIfNoEntry: false });
    if (state === undefined) return this.committed(name);
    if (this.commitOf(name) !== undefined)
      throw usage(`"${name}" is a path and a git revision; write ./${name} for the path, or refs/heads/${name} for a branch`);
    if (!state.isDirectory() && !/\.ya?ml$/i.test(name)) return resultsRevision(name, textOf(name));
    const file = openBookFile(name);
    return openSide(name, file, file);
  }

  /** Removes what git has written out. */
  close(): void {
    for (const folder of this.folders.splice(0)) rmSync(folder, { recursive: true, force: true });
  }

  /** The book as it was committed, written out below the system's folder for such. The work tree and git's index are not touched. */
  private committed(name: string): Revision {
    const commit = this.commitOf(name);
    if (commit === undefined) throw usage(`"${name}" is no file, no folder, and no git revision of this book`);
    const now = openBookFile(this.named);
    const top = git(now.root, {}, "rev-parse", "--show-toplevel").trim();
    const inside = relative(resolve(top), now.root).split(sep).join("/");
    const folder = mkdtempSync(join(tmpdir(), "workings-compare-"));
    this.folders.push(folder);
    const index = { GIT_INDEX_FILE: join(folder, "index") };
    git(top, index, "read-tree", inside === "" ? `${commit}^{tree}` : `${commit}:${inside}`);
    const root = join(folder, "book");
    git(top, index, "checkout-index", "--all", "--force", `--prefix=${root}${sep}`);
    const path = join(root, relative(now.root, now.path));
    if (!existsSync(path)) throw usage(`the git revision ${name} has no ${relative(now.root, now.path).split(sep).join("/")}`);
    return openSide(name, readBookFile(path), now);
  }

  private commitOf(name: string): string | undefined {
    if (name.startsWith("-")) return undefined;
    const folder = this.named === undefined ? process.cwd() : openBookFile(this.named).root;
    const { status, stdout } = spawnSync("git", ["rev-parse", "--verify", "--quiet", `${name}^{commit}`], {
      cwd: folder,
      encoding: "utf8",
    });
    return status === 0 ? stdout.trim() : undefined;
  }
}

/** `recorded`: the book whose record of runs, and of what they have found, may know this one. */
function openSide(name: string, file: BookFile, recorded: BookFile): Revision {
  const read = openDesign(file);
  const standing = new Standing(file, read, buildPath(recorded, "fresh.json"), libraryHash());
  const notebooks = file.worksheets.map((worksheet) => ({ name: worksheet.name, notebook: readNotebook(worksheet.path) }));
  const stale = new Map<string, readonly string[]>();
  const unrecorded: string[] = [];
  for (const sheet of notebooks) {
    const doubts = standing.doubts(sheet.name);
    if (doubts.length === 0) continue;
    // Of a commit the record tells nothing but that it is the one that ran here.
    const isUnknown = recorded !== file || doubts.includes(withoutRecord);
    const found = isUnknown ? disagreements(sheet, notebooks, read.design) : doubts;
    if (found.length > 0) stale.set(sheet.name, found.length <= 3 ? found : [...found.slice(0, 2), `and ${found.length - 2} more`]);
    else unrecorded.push(sheet.name);
  }
  const trusted = standing.trusted(stale);
  const untrusted = file.worksheets.filter((worksheet) => !trusted.has(worksheet.name));
  const answers = untrusted.map(waitingFor);
  const sheets = notebooks.filter((sheet) => trusted.has(sheet.name));
  const book = makeBook({ title: file, design: read.design, sheets, stale, from: keptOf(recorded) });
  return revisionOf(
    name,
    { book, design: read.design },
    {
      untrusted: untrusted.map((worksheet) => worksheet.name),
      waiting: read.design.requirements().flatMap(({ id }) => (answers.some((one) => one.mayAnswer(id)) ? [id] : [])),
      unrecorded,
    },
  );
}

function git(folder: string, environment: Readonly<Record<string, string>>, ...words: readonly string[]): string {
  const { status, stdout, stderr, error } = spawnSync("git", words, {
    cwd: folder,
    encoding: "utf8",
    env: { ...process.env, ...environment },
  });
  if (error !== undefined) throw usage(`git cannot be started: ${error.message}`);
  if (status !== 0) throw usage(`git ${words[0] ?? ""} failed: ${stderr.trim()}`);
  return stdout;
}

function textOf(path: string): string {
  try {
    return readText(path);
  } catch (error) {
    throw usage(`cannot read ${path}: ${(error as Error).message}`);
  }
}

function usage(message: string): WorkingsError {
  return new WorkingsError("usage", message);
}
