/** Books for tests: made from notebooks whose outputs name their sheets, on a design that may say little. */
import { type Book, type BookDesign, makeBook } from "../../lib/book/book";
import type { SheetInput } from "../../lib/book/outputs";
import { storedDisplays } from "../../lib/sheet/stored";

const silent: BookDesign = {
  fileName: "data/design.yaml",
  name: "Made",
  revision: "A",
  sources: new Map(),
  readings: [],
  batches: [],
  blocks: [],
  stateTables: [],
  requirements: () => [],
  paths: () => [],
  place: () => "data/design.yaml:1:1",
  given: (path) => {
    throw new Error(`the design of this test has no ${path}`);
  },
};

export function madeBook(sheets: readonly SheetInput[], design: Partial<BookDesign> = {}, stale?: Book["stale"]): Book {
  const whole =
    "given" in design && typeof design.given === "function" && "paths" in design ? (design as BookDesign) : { ...silent, ...design };
  return makeBook({ title: { title: "T", revision: "A" }, design: whole, sheets, ...(stale && { stale }) });
}

/** Each notebook under the name that its first output gives its sheet. */
export function named(...notebooks: readonly SheetInput["notebook"][]): SheetInput[] {
  return notebooks.map((notebook, index) => ({ name: storedDisplays(notebook, "sheet")[0]?.display.sheet ?? `bare${index}`, notebook }));
}
