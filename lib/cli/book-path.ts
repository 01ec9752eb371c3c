/** Which book a command is about. */
import { statSync } from "node:fs";
import { resolve } from "node:path";
import { findBook } from "../sheet/find-book";

/** Path of the book.yaml that --book names, or of the one here or above. Throws WorkingsError "project" where a folder has none. */
export function bookPath(named: string | undefined): string {
  if (named === undefined) return findBook(process.cwd());
  const isFolder = statSync(named, { throwIfNoEntry: false })?.isDirectory() === true;
  return isFolder ? findBook(named) : resolve(named);
}
