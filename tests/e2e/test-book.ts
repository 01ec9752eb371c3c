/** A book in a folder of its own, and the commands on it. */
import { spawn, spawnSync } from "node:child_process";
import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { join, relative } from "node:path";
import { type CodeCell, formatNotebook, type Notebook, readNotebook } from "../../lib/kernel/notebook";
import { root, testFolder } from "../root";
import { hooks } from "../shared-process";
import { cli, command, type Said } from "./commands";

/** Verdicts on cells, for all books of this process: the same cells are not given to the compiler twice. */
export const cellsFolder = join(testFolder, `cells-${process.pid}`);

function newFolder(): string {
  const folder = mkdtempSync(join(testFolder, "book-"));
  mkdirSync(join(folder, "notebooks"));
  return folder;
}

/** Of books that a test has made and left: the kernels of their folders serve the next. */
const left: string[] = [];
const ofThisFile: string[] = [];
let ofThisTest: string[] | undefined;

function giveBack(folders: string[]): void {
  for (const folder of folders.splice(0)) if (isEmptied(folder)) left.push(folder);
}

hooks.beforeTest.push(() => {
  ofThisTest = [];
});
hooks.afterTest.push(() => {
  giveBack(ofThisTest ?? []);
  ofThisTest = undefined;
});
hooks.afterFile.push(() => giveBack(ofThisFile));

/** All but the folder of the notebooks, in which kernels stand. False where the test has made of it what cannot be removed. */
function isEmptied(folder: string): boolean {
  try {
    const notebooks = join(folder, "notebooks");
    for (const name of readdirSync(notebooks)) rmSync(join(notebooks, name), { recursive: true });
    for (const name of readdirSync(folder)) if (name !== "notebooks") rmSync(join(folder, name), { recursive: true });
    return true;
  } catch {
    return false;
  }
}

/** In a folder of its own while its test lasts; where tests run side by side, until all of the file have ended. */
export class TestBook {
  readonly folder: string;

  constructor({ isSideBySide = false } = {}) {
    mkdirSync(cellsFolder, { recursive: true });
    this.folder = (isSideBySide ? undefined : left.pop()) ?? newFolder();
    (isSideBySide ? ofThisFile : (ofThisTest ?? ofThisFile)).push(this.folder);
  }

  file(name: string): string {
    return join(this.folder, name);
  }

  read(name: string): string {
    return readFileSync(this.file(name), "utf8");
  }

  write(name: string, text: string): void {
    mkdirSync(join(this.file(name), ".."), { recursive: true });
    writeFileSync(this.file(name), text);
  }

  has(name: string): boolean {
    return existsSync(this.file(name));
  }

  notebook(name: string): Notebook {
    return readNotebook(this.file(`notebooks/${name}`));
  }

  /** Changes code cells and keeps everything else. */
  edit(name: string, change: (cell: CodeCell, index: number) => CodeCell): void {
    const notebook = this.notebook(name);
    let index = 0;
    const cells = notebook.cells.map((cell) => (cell.cell_type === "code" ? change(cell, index++) : cell));
    this.write(`notebooks/${name}`, formatNotebook({ ...notebook, cells }));
  }

  run(...words: readonly string[]): Promise<Said> {
    return this.workings("run", ...words);
  }

  /** In the process of the test. */
  workings(...words: readonly string[]): Promise<Said> {
    if (words[0] === "run" && !words.includes("--book") && !this.has("build")) this.shareVerdicts();
    return command(this.folder, ...words);
  }

  private shareVerdicts(): void {
    mkdirSync(this.file("build"));
    symlinkSync(cellsFolder, this.file("build/cells"));
  }

  /** In a process of its own, with something added to its environment. */
  under(environment: Readonly<Record<string, string>>, ...words: readonly string[]): Said {
    const { status, stdout, stderr } = spawnSync(process.execPath, [cli, ...words], {
      cwd: this.folder,
      env: { ...process.env, ...environment },
      encoding: "utf8",
      timeout: 180_000,
    });
    return { status, stdout, stderr };
  }

  start(...words: readonly string[]) {
    return spawn(process.execPath, [cli, ...words], { cwd: this.folder, stdio: "ignore" });
  }

  /** What the record says of good runs; it says of a run that failed too, and must. */
  private goodRuns(): string {
    const { sheets } = JSON.parse(this.read("build/fresh.json")) as { sheets: Record<string, { facts?: object }> };
    return JSON.stringify(Object.entries(sheets).flatMap(([name, { facts }]) => (facts === undefined ? [] : [[name, facts]])));
  }

  /** Every file but those named, with its bytes; not the verdicts on cells, which are kept by content and harm nobody. */
  files(...without: readonly string[]): Record<string, string> {
    const names = readdirSync(this.folder, { recursive: true, encoding: "utf8" }).filter((name) => statSync(this.file(name)).isFile());
    return Object.fromEntries(
      names
        .sort()
        .filter((name) => !without.includes(name) && !/^build[\\/]cells[\\/]/.test(name))
        .map((name) => [
          relative(this.folder, this.file(name)),
          name === join("build", "fresh.json") ? this.goodRuns() : readFileSync(this.file(name), "latin1"),
        ]),
    );
  }
}

/** The project's own book, or some sheets of it: notebooks, design and reference tables, nothing built. */
export class BookCopy extends TestBook {
  constructor(sheets?: readonly string[], options?: { readonly isSideBySide?: boolean }) {
    super(options);
    for (const name of ["notebooks", "data"]) cpSync(join(root, name), this.file(name), { recursive: true });
    if (sheets === undefined) return;
    const isThere = (sheet: string) => sheets.some((file) => file.replace(/^\d+-|\.ipynb$/g, "") === sheet);
    const list = this.read("notebooks/book.yaml")
      .replace(/^ {2}- (.*)\n/gm, (line, name) => (sheets.includes(name) ? line : ""))
      .replace(/^( {2}.*: )\[(.*)\]\n/gm, (_, group, names) => {
        const kept = names.split(", ").filter(isThere);
        return kept.length > 0 ? `${group}[${kept.join(", ")}]\n` : "";
      });
    this.write("notebooks/book.yaml", list);
  }

  /** As an author leaves a notebook that has never run. */
  clear(name: string): void {
    this.edit(name, (cell) => ({ ...cell, outputs: [], execution_count: null }));
  }
}

/** What a run said of each sheet, in the order in which they ran. */
export function statesOf({ stdout }: Pick<Said, "stdout">): Record<string, string> {
  return Object.fromEntries([...stdout.matchAll(/^([\w-]+) +(.*?)(?: {2}[\d.]+ s)?$/gm)].map(([, name, state]) => [name, state]));
}
