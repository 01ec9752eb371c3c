/** What the runs of the sheets and earlier commands have found, so that no command computes again what is known. */
import type { Evaluation } from "../analysis/evaluation";
import type { Book } from "../book/book";
import { type BookGraph, bookGraph } from "../book/graph";
import { type Keeping, keep, kept } from "../kernel/kept";
import { buildPath, type ReadSheet } from "./context";
import { libraryHash } from "./plan";

/** Of the book as a whole, beside those of its sheets, whose names have no dot. */
const whole = "the.book";

/** Where to keep what a sheet's run has found. */
export function keepingOf(book: Book, sheet: string): Keeping {
  return { path: buildPath(book, `found/${sheet}.bin`), stamp: `${libraryHash()} ${process.version}` };
}

/** What is known of the book, as evaluations to take over from. */
export function keptOf(book: Book): Evaluation[] {
  return [whole, ...book.worksheets.map(({ name }) => name)].flatMap((name) => kept(keepingOf(book, name)) ?? []);
}

/** The graph of the book's outputs, and an evaluation that begins with what is known. */
export function graphOf(book: Book, sheets: readonly ReadSheet[]): BookGraph {
  return bookGraph(
    sheets.map(({ notebook }) => notebook),
    keptOf(book),
  );
}

export function keepWhole(book: Book, { found }: Evaluation): void {
  keep(keepingOf(book, whole), found);
}
