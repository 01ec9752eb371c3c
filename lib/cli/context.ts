/** What every command starts from: the book, its sheets' notebooks, its design. */
import { statSync } from "node:fs";
import { join, relative, resolve, sep } from "node:path";
import { type Book, findBook, readBook, sheetName, type Worksheet } from "../book/book";
import { nearest } from "../design/nearest";
import { readDesign } from "../design/read";
import { readReferences } from "../design/reference";
import type { Design } from "../design/types";
import { type Notebook, readNotebook } from "../kernel/notebook";
import { WorkingsError } from "../quantity/error";
import { filesBeside, referenceTexts } from "../sheet/project";
import { readText } from "../sheet/text-file";

export function openBook(named: string | undefined): Book {
  if (named === undefined) return readBook(findBook(process.cwd()));
  const isFolder = statSync(named, { throwIfNoEntry: false })?.isDirectory() === true;
  return readBook(isFolder ? findBook(named) : named);
}

/** The book's design, or another one given on the command line. */
export function openDesign(book: Book, other?: string): Design {
  const path = other === undefined ? book.design : resolve(other);
  let text: string;
  try {
    text = readText(path);
  } catch (error) {
    throw new WorkingsError("usage", `cannot read the design file ${path}: ${(error as Error).message}`, { place: path });
  }
  return readDesign(text, inBook(book, path), readReferences(referenceTexts(book.root)), filesBeside(path, book.root));
}

/** The path from the book's folder, with forward slashes. */
export function inBook(book: Book, path: string): string {
  return relative(book.root, path).split(sep).join("/");
}

export function buildPath(book: Book, name: string): string {
  return join(book.root, "build", name);
}

/** The named sheets in the book's order; all of them for no names. Throws WorkingsError "usage" for a name that is none. */
export function chooseSheets(book: Book, names: readonly string[]): readonly Worksheet[] {
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

export function readSheets(book: Book): ReadSheet[] {
  return book.worksheets.map((worksheet) => ({ name: worksheet.name, worksheet, notebook: readNotebook(worksheet.path) }));
}
