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

/** The sheet that takes from no other: enough where a test is about pages, not about this book. */
const small = demo.book.worksheets.filter(({ name }) => name === "indicators");
const worksheets = isFull ? demo.book.worksheets : small;

/** The whole demo book in a full run, one sheet of it otherwise. */
export const sample = {
  ...demo,
  book: { ...demo.book, worksheets },
  sheets: () => worksheets.map(({ name, path }) => ({ name, notebook: readNotebook(path) })),
  made: (): Book => makeBook({ title: demo.book, design: demo.design, sheets: sample.sheets() }),
};
