/** What every command starts from: the book, its sheets' notebooks, its design. */
import { readFileSync } from "node:fs";
import { join, relative, resolve, sep } from "node:path";
import type { Evaluation } from "../analysis/evaluation";
import { type Book, makeBook } from "../book/book";
import { type BookFile, readBookFile, type Worksheet } from "../book/book-file";
import { type ReadDesign, Standing } from "../book/standing";
import { nearest } from "../design/nearest";
import type { Design } from "../design/types";
import { keepBytes } from "../kernel/kept";
import { type Notebook, readNotebook } from "../kernel/notebook";
import { hashOfBytes } from "../kernel/reads";
import { WorkingsError } from "../quantity/error";
import { fileBeside, readDesignFile, sheetName } from "../sheet/project";
import { bookPath } from "./book-path";
import { designKeeping, keptOf } from "./keeping";
import { libraryHash } from "./library";
// Registers the models that results are evaluated with.
import "../physics";

export function openBookFile(named: string | undefined): BookFile {
  return readBookFile(bookPath(named));
}

/** The book's design, or another one given on the command line. `keeps`: as it was read it is kept for the processes that run sheets. */
export function openDesign(file: BookFile, other?: string, keeps = false): ReadDesign {
  const path = other === undefined ? file.design : resolve(other);
  const texts = new Map<string, string>();
  const onRead = (name: string, text: string): void => void texts.set(name, hashOfBytes(text));
  const keeping = designKeeping(file);
  const design = readDesignFile(path, file.root, {
    onRead,
    keeping,
    ...(keeps && { onParsed: (bytes) => keepBytes(keeping.path, bytes) }),
  });
  return { design, texts };
}

export function standingOf(file: BookFile, design: ReadDesign): Standing {
  return new Standing(file, design, buildPath(file, "fresh.json"), libraryHash());
}

/** A book as the commands find it. */
export interface Opened {
  readonly file: BookFile;
  readonly design: Design;
  readonly book: Book;
  /** Those of the book. */
  readonly sheets: readonly ReadSheet[];
  /** Sheets that do not stand, or that take from such. */
  readonly untrusted: readonly Worksheet[];
  readonly standing: Standing;
}

/** How a book stands, before its outputs are read as one. */
export interface Found {
  readonly file: BookFile;
  readonly read: ReadDesign;
  readonly standing: Standing;
  readonly stale: Book["stale"];
}

export function howItStands(named: string | undefined): Found {
  const file = openBookFile(named);
  const read = openDesign(file);
  const standing = standingOf(file, read);
  return { file, read, standing, stale: standing.stale() };
}

/** `trusted`: only the sheets whose outputs stand, and those of all that they take from. `from`: evaluations to take over from before those kept on disk. */
export function openBook(named: string | undefined | Found, which: "all" | "trusted" = "all", from: readonly Evaluation[] = []): Opened {
  const { file, read, standing, stale } = typeof named === "object" ? named : howItStands(named);
  const trusted = standing.trusted(stale);
  const isWanted = ({ name }: { readonly name: string }) => which === "all" || trusted.has(name);
  const wanted = file.worksheets.filter(isWanted);
  const sheets = wanted.map((worksheet) => ({
    name: worksheet.name,
    worksheet,
    // As it was read to see how it stands; one that is malformed is read again for what is wrong.
    notebook: standing.notebook(worksheet.name) ?? readNotebook(worksheet.path),
    picture: (path: string) => readFileSync(fileBeside(worksheet.path, path, [file.root])),
  }));
  return {
    file,
    sheets,
    book: makeBook({ title: file, design: read.design, sheets, stale, from: [...from, ...keptOf(file)] }),
    design: read.design,
    untrusted: file.worksheets.filter(({ name }) => !trusted.has(name)),
    standing,
  };
}

/** What every command says first of a book that is not fresh. */
export function staleLines({ stale }: Pick<Book, "stale">): string {
  if (stale.size === 0) return "";
  const lines = [...stale].map(([sheet, reasons]) => `  ${sheet}: ${reasons.join("; ")}\n`);
  return `not fresh (workings run brings it up to date):\n${lines.join("")}`;
}

/** The path from the book's folder, with forward slashes. */
export function inBook(book: BookFile, path: string): string {
  return relative(book.root, path).split(sep).join("/");
}

export function buildPath(book: BookFile, name: string): string {
  return join(book.root, "build", name);
}

/** The named sheets in the book's order; all of them for no names. Throws WorkingsError "usage" for a name that is none. */
export function chooseSheets(book: BookFile, names: readonly string[]): readonly Worksheet[] {
  const known = book.worksheets.map(({ name }) => name);
  const asked = names.map((text) => {
    const name = sheetName(text);
    if (known.includes(name)) return name;
    const near = nearest(name, known);
    throw new WorkingsError(
      "usage",
      `the book has no sheet "${text}"; ${near.length > 0 ? `did you mean ${near.join(" or ")}?` : `it has ${known.join(", ")}`}`,
    );
  });
  return names.length === 0 ? book.worksheets : book.worksheets.filter(({ name }) => asked.includes(name));
}

export interface ReadSheet {
  readonly name: string;
  readonly worksheet: Worksheet;
  readonly notebook: Notebook;
}
