/** How the sheets of a book stand: read once, with what they take from one another and why their outputs do not stand, where they do not. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Design } from "../design/types";
import { codeCells, formatNotebook, hasRun, type Notebook, parseNotebook, readNotebookText } from "../kernel/notebook";
import type { Used } from "../kernel/protocol";
import { hashOfBytes } from "../kernel/reads";
import { bookTakes, noTies, rollUp, type Take, type Ties, tiesOf } from "../kernel/takes";
import { WorkingsError } from "../quantity/error";
import { outputFault } from "../sheet/stored";
import { wrongName } from "./book";
import type { BookFile, Worksheet } from "./book-file";
import { differences, type Facts, FreshRecord, factsOf, Outputs } from "./freshness";

/** A design with the hash of every text that it was made from, by path. */
export interface ReadDesign {
  readonly design: Design;
  readonly texts: ReadonlyMap<string, string>;
}

/** The doubt of a sheet of which nothing is known. */
export const withoutRecord = "build/fresh.json has no run of it on record";

interface Known {
  readonly worksheet: Worksheet;
  readonly ties: Ties;
  /** Either it, or why it cannot be read. */
  notebook?: Notebook;
  outputs?: Outputs;
  readonly fault?: WorkingsError;
  /** Of the notebook's file as it was read or written. */
  hash: string;
}

export class Standing {
  readonly takes: ReadonlyMap<string, readonly Take[]>;
  private readonly sheets: ReadonlyMap<string, Known>;
  private readonly record: FreshRecord;

  /** Throws WorkingsError "book" where a notebook opens another sheet than its file's name says. `record`: path of fresh.json; `library`: hash of what cells import. */
  constructor(
    private readonly file: BookFile,
    private readonly read: ReadDesign,
    record: string,
    private readonly library: string,
  ) {
    this.sheets = new Map(file.worksheets.map((worksheet) => [worksheet.name, known(worksheet)]));
    for (const [name, { ties }] of this.sheets) {
      const other = ties.opens.find((opened) => opened.name !== name);
      if (other !== undefined) throw this.alsoCalled(wrongName(name, other.name, other.cell), name, other.name);
    }
    this.takes = bookTakes([...this.sheets].map(([name, { ties }]) => ({ name, ties })));
    this.record = new FreshRecord(record);
  }

  /** Why the outputs of a sheet do not stand, in words; empty where they do. */
  doubts(name: string): readonly string[] {
    const { notebook, fault } = this.sheet(name);
    const { facts, failed } = this.record.get(name) ?? {};
    const failure = failed === undefined ? [] : [`its last run failed: ${failed}`];
    if (notebook === undefined) return [`its notebook cannot be read: ${fault?.message}`];
    if (!hasRun(notebook))
      return [
        ...failure,
        codeCells(notebook).some(({ outputs }) => outputs.length > 0) ? "it has cells without outputs of a run" : "it has never run",
      ];
    if (facts === undefined) return failure.length > 0 ? failure : [withoutRecord, ...broken(notebook)];
    const taken = [...Object.keys(facts.taken), ...this.collected(name, facts)];
    const now = this.facts(name, { asked: designNames(facts), files: Object.keys(facts.files) }, taken);
    const found = differences(facts, now);
    return found.length === 0 ? [] : [...failure, ...(now.outputs === facts.outputs ? [] : broken(notebook)), ...shortened(found)];
  }

  /** Undefined for a malformed one: its own run tells what is wrong with it. */
  notebook(name: string): Notebook | undefined {
    return this.sheet(name).notebook;
  }

  /** Throws for the first notebook that is malformed: no run brings it up to date. */
  expectReadable(): void {
    for (const { fault } of this.sheets.values()) if (fault !== undefined) throw fault;
  }

  /** By sheet, in the order of the book, the doubts of those that have any. */
  stale(): ReadonlyMap<string, readonly string[]> {
    const all = [...this.sheets.keys()].map((name) => [name, this.doubts(name)] as const);
    return new Map(all.filter(([, doubts]) => doubts.length > 0));
  }

  /** The sheets whose outputs, and those of all that they take from, stand. */
  trusted(stale: ReadonlyMap<string, unknown>): ReadonlySet<string> {
    return new Set([...this.sheets.keys()].filter((name) => [name, ...this.upstream(name)].every((one) => !stale.has(one))));
  }

  upstream(name: string, seen: ReadonlySet<string> = new Set([name])): string[] {
    const sources = [...new Set((this.takes.get(name) ?? []).map(({ sheet }) => sheet))].filter((sheet) => !seen.has(sheet));
    return sources.flatMap((sheet) => [sheet, ...this.upstream(sheet, new Set([...seen, sheet]))]);
  }

  /** The sheets that it takes from, and others of which its last run has read outputs. */
  sources(name: string): readonly string[] {
    const read = Object.keys(this.record.get(name)?.facts?.taken ?? {}).map((one) => one.split(".", 1)[0] as string);
    return [...new Set([...(this.takes.get(name) ?? []).map(({ sheet }) => sheet), ...read])];
  }

  /** Whether its run may read the outputs of any sheet: one that collects looks at all, one that takes by computed names at some. */
  readsAny(name: string): boolean {
    const { ties } = this.sheet(name);
    return ties.isOpen || ties.collects.length > 0;
  }

  /**
   * The files on which it rests that no sheet has doubts, by path, with the hashes of what they said; besides them the book file, and
   * the record itself. Only where none has doubts.
   */
  grounds(): ReadonlyMap<string, string> {
    const read = [...this.sheets.keys()].flatMap((name) => Object.entries(this.record.get(name)?.facts?.files ?? {}));
    return new Map([
      ...read.map(([path, hash]) => [join(this.file.root, path), hash] as const),
      ...this.read.texts,
      ...[...this.sheets.values()].map(({ worksheet, hash }) => [worksheet.path, hash] as const),
    ]);
  }

  /** Call it before the outputs of a sheet change on disk. */
  forget(name: string): void {
    this.record.forget(name);
  }

  /**
   * After a good run. Returns the files that said something else to the sheet than to this program: its outputs are then of a
   * design, or of a sheet, that is no more, and nothing is recorded.
   */
  remember(name: string, notebook: Notebook, used: Used): readonly string[] {
    const sheet = this.sheet(name);
    sheet.notebook = notebook;
    sheet.outputs = new Outputs(name, notebook);
    sheet.hash = hashOfBytes(formatNotebook(notebook));
    const own = new Map([
      ...this.read.texts,
      ...[...this.sheets.values()].map(({ worksheet, hash }) => [worksheet.path, hash] as const),
      [this.file.path, undefined] as const,
    ]);
    const files = Object.entries(used.files).map(([path, hash]) => ({ path, hash, full: join(this.file.root, path) }));
    const moved = files.filter(({ full, hash }) => own.get(full) !== undefined && own.get(full) !== hash && full !== sheet.worksheet.path);
    this.record.forget(name);
    if (moved.length > 0) return moved.map(({ path }) => path);
    const others = files.filter(({ full }) => !own.has(full));
    const declared = (this.takes.get(name) ?? []).map(takeName);
    const read = new Map(files.map(({ full, path }) => [full, path]));
    const undeclared = [...this.sheets].flatMap(([other, { worksheet }]) => {
      const path = read.get(worksheet.path);
      if (other === name || path === undefined) return [];
      const purposes = used.purposes[path] ?? [""];
      const isWhole = purposes.includes("") && !declared.some((one) => one.startsWith(`${other}.`));
      return [...purposes.filter((one) => one !== "").map((budget) => `${other}.${rollUp(budget)}`), ...(isWhole ? [other] : [])];
    });
    const facts = this.facts(name, { asked: used.asked, files: others.map(({ path }) => path) }, [...declared, ...undeclared]);
    // As the sheet read them: a file that has changed since makes it stale.
    this.record.remember(name, { facts: { ...facts, files: Object.fromEntries(others.map(({ path, hash }) => [path, hash])) } });
    return [];
  }

  /** The roll-ups that it has collected, of every other sheet: one may have come to the book, or contribute for the first time. */
  private collected(name: string, { taken }: Facts): string[] {
    const parts = Object.keys(taken).map((one) => one.slice(one.indexOf(".") + 1));
    const budgets = [...new Set(parts.filter((part) => part.startsWith(rollUp(""))))];
    const others = [...this.sheets.keys()].filter((other) => other !== name);
    return budgets.flatMap((budget) => others.map((other) => `${other}.${budget}`));
  }

  failed(name: string, message: string): void {
    const { facts } = this.record.get(name) ?? {};
    this.record.remember(name, { ...(facts && { facts }), failed: message });
  }

  private facts(
    name: string,
    { asked, files }: { readonly asked: readonly string[]; readonly files: readonly string[] },
    taken: readonly string[],
  ): Facts {
    const { notebook } = this.sheet(name);
    const takes = taken.map((one) => {
      const dot = one.indexOf(".");
      return dot < 0 ? { sheet: one, name: "" } : { sheet: one.slice(0, dot), name: one.slice(dot + 1) };
    });
    const sheets = new Map([...this.sheets].flatMap(([other, { outputs }]) => (outputs === undefined ? [] : [[other, outputs] as const])));
    const fileHash = (path: string) => hashOfFile(join(this.file.root, path));
    const { design } = this.read;
    return factsOf(
      { notebook: notebook as Notebook, takes },
      { design: asked, files },
      { design, library: this.library, sheets, fileHash },
    );
  }

  private sheet(name: string): Known {
    const found = this.sheets.get(name);
    if (found === undefined) throw new Error(`the book has no sheet ${name}`);
    return found;
  }

  private alsoCalled(error: WorkingsError, name: string, opened: string): WorkingsError {
    const other = [...this.sheets].find(([own, { ties }]) => own !== name && ties.opens.some((one) => one.name === opened));
    if (other === undefined) return error;
    return new WorkingsError("book", `${error.message}; ${other[1].worksheet.file} opens worksheet("${opened}") as well`);
  }
}

const takeName = ({ sheet, name }: Take) => `${sheet}.${name}`;
const designNames = ({ design }: Facts) => Object.keys(design);

/** Why outputs that no run has left can be read by nobody. */
function broken(notebook: Notebook): readonly string[] {
  const fault = outputFault(notebook);
  return fault === undefined ? [] : [fault];
}

/** Three say enough. */
function shortened(reasons: readonly string[]): readonly string[] {
  return reasons.length <= 3 ? reasons : [...reasons.slice(0, 2), `and ${reasons.length - 2} more changes`];
}

/** A malformed notebook is told by its own run, and by whoever reads its outputs. */
function known(worksheet: Worksheet): Known {
  try {
    const text = readNotebookText(worksheet.path);
    const notebook = parseNotebook(text, worksheet.file);
    return { worksheet, notebook, outputs: new Outputs(worksheet.name, notebook), ties: tiesOf(notebook), hash: hashOfBytes(text) };
  } catch (error) {
    if (error instanceof WorkingsError) return { worksheet, ties: noTies, hash: "unreadable", fault: error };
    throw error;
  }
}

function hashOfFile(path: string): string {
  try {
    return hashOfBytes(readFileSync(path));
  } catch {
    return "absent";
  }
}
