/** Where the book is that a folder belongs to, and the folder of its project. */
import { existsSync } from "node:fs";
import { basename, dirname, join, resolve } from "node:path";
import { WorkingsError } from "../quantity/error";

/** The book that a folder belongs to: `book.yaml` or `notebooks/book.yaml` there or in the nearest folder above. */
export function findBook(folder: string): string {
  for (let at = resolve(folder); ; at = dirname(at)) {
    for (const candidate of [join(at, "book.yaml"), join(at, "notebooks", "book.yaml")]) if (existsSync(candidate)) return candidate;
    if (dirname(at) === at) {
      throw new WorkingsError(
        "project",
        `no book.yaml in ${folder}, its folder notebooks, or any folder above; put a book.yaml beside the notebooks (see DEVELOPERS.md, "Add a sheet"), or say which book with --book`,
        { place: folder },
      );
    }
  }
}

/** The folder of the project: it holds data/ and build/, and book.yaml either itself or in its folder notebooks. */
export function rootOf(book: string): string {
  const folder = dirname(resolve(book));
  return basename(folder) === "notebooks" ? dirname(folder) : folder;
}
