/** Which book a command is about. */
import { statSync } from "node:fs";
import { findBook } from "../sheet/find-book";

/** Path of the book file: the one named, that of the folder named, or that of the current folder. */
export function bookPath(named: string | undefined): string {
  if (named === undefined) return findBook(process.cwd());
  const isFolder = statSync(named, { throwIfNoEntry: false })?.isDirectory() === true;
  return isFolder ? findBook(named) : named;
}
