/** What the runs of the sheets and earlier commands have found, so that no command computes again what is known. */
import { join } from "node:path";
import type { Evaluation } from "../analysis/evaluation";
import type { BookFile } from "../book/book-file";
import { type Keeping, keep, kept } from "../kernel/kept";
import { libraryHash } from "./library";

/** Of the book as a whole, beside those of its sheets, whose names have no dot. */
const whole = "the.book";

/** Where to keep what a sheet's run has found. */
export function keepingOf(book: BookFile, sheet: string): Keeping {
  return { path: join(book.root, "build/found", `${sheet}.bin`), stamp: `${libraryHash()} ${process.version}` };
}

/** Where the design is kept as it was read: a sheet's name has no dot. */
export function designKeeping(book: BookFile): Keeping {
  return keepingOf(book, "the.design");
}

/** What is known of the book, as evaluations to take over from. */
export function keptOf(book: BookFile): Evaluation[] {
  return [whole, ...book.worksheets.map(({ name }) => name)].flatMap((name) => kept(keepingOf(book, name)) ?? []);
}

export function keepWhole(book: BookFile, { found }: Evaluation): void {
  keep(keepingOf(book, whole), found);
}
