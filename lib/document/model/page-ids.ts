/** The addresses of the document's pages: the name of a sheet, or the id of a part of the document. */
import { anchor } from "../text/html";

/** The front page, and what stands in the document beside the sheets; the back matter in its order. */
export const ownPages = [
  "front",
  "questions",
  "parts",
  "assumptions",
  "readings",
  "register",
  "conventions",
  "glossary",
  "bibliography",
  "licences",
] as const;

/** Ids of elements that stand on no page, or in one of them. */
const others = ["content", "contents", "find", "verdicts", "changes", "notice", "said", "book", "program", "watch", "tip"];
const taken = new Set<string>([...ownPages, ...others]);
/** How the ids of other elements begin or end. */
const pattern = /^(?:sheet|node|register|requirement|source|source-of|section|figure|parts|points|group)-|-title$/;

/** The id of a sheet's page: its name, where nothing else of the document may have that id. */
export function sheetId(name: string): string {
  const id = anchor("", name).slice(1);
  return taken.has(id) || pattern.test(id) ? anchor("sheet", name) : id;
}
