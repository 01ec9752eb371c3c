/** The demo book as it is committed: its list of sheets, their notebooks, its design. */
import { readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { type Book, makeBook } from "../lib/book/book";
import { readBookFile } from "../lib/book/book-file";
import { readDesign } from "../lib/design/read";
import { readReferences } from "../lib/design/reference";
import { readNotebook } from "../lib/kernel/notebook";
import { filesBeside, referenceTexts } from "../lib/sheet/project";
import { isFull } from "./full";
import "../lib/physics";

const root = resolve(__dirname, "..");

export const demo = {
  book: readBookFile(join(root, "notebooks/book.yaml")),
  design: readDesign(
    readFileSync(join(root, "data/bittern/design.yaml"), "utf8"),
    "data/bittern/design.yaml",
    readReferences(referenceTexts(root)),
    filesBeside(join(root, "data/bittern/design.yaml"), root),
  ),
  /** In the book's reading order, read anew. */
  sheets: () => demo.book.worksheets.map(({ name, path }) => ({ name, notebook: readNotebook(path) })),
};

type Sheet = (typeof demo.book.worksheets)[number];

/** The book with some of its sheets. */
export const bookOf = (worksheets: readonly Sheet[]) => {
  const sheets = () => worksheets.map(({ name, path }) => ({ name, notebook: readNotebook(path) }));
  let book: Book | undefined;
  return {
    ...demo,
    book: { ...demo.book, worksheets },
    sheets,
    /** One for all files of the process: what one has computed, another has not to compute again. */
    made(): Book {
      book ??= makeBook({ title: demo.book, design: demo.design, sheets: sheets() });
      return book;
    },
  };
};
export const named = (...names: readonly string[]) => demo.book.worksheets.filter(({ name }) => names.includes(name));

/** The whole demo book in a full run, otherwise the one sheet that takes from no other. */
export const sample = bookOf(isFull ? demo.book.worksheets : named("indicators"));

/** Two sheets, one of which confirms what the other assumes: enough where a test is about a book's machinery and not about each sheet. */
export const pair = bookOf(isFull ? named("indicators", "battery") : named("indicators"));
