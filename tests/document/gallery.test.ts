/**
 * Every plot and drawing of the demo book as a stored picture: a change of a byte is seen, and looked at, before it is kept (vitest -u
 * keeps it). Colours of the page's style are left out of them.
 */
import { readdirSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import { readBook } from "../../lib/book/book";
import { readDesign } from "../../lib/design/read";
import { readReferences } from "../../lib/design/reference";
import { markdownFiles } from "../../lib/document/markdown-book";
import { prepareBook } from "../../lib/document/publish";
import { readNotebook } from "../../lib/kernel/notebook";
import { referenceTexts } from "../../lib/sheet/project";
import { designText, root } from "../e2e/run";
import "../../lib/physics";

const book = readBook(join(root, "notebooks/book.yaml"));
const design = readDesign(designText(), "data/bittern/design.yaml", readReferences(referenceTexts(root)));

/** The pictures of the book, its sheets collected in this order. */
function pictures(order: (names: readonly string[]) => readonly string[]): Record<string, string> {
  const names = order(book.worksheets.map(({ name }) => name));
  const sheets = names.map((name) => ({ name, notebook: readNotebook(book.worksheets.find((sheet) => sheet.name === name)?.path ?? "") }));
  const files = Object.entries(markdownFiles(prepareBook({ book, sheets, design }), ""));
  return Object.fromEntries(
    files.filter(([name]) => name.startsWith("figures/")).map(([name, text]) => [name.slice("figures/".length), text]),
  );
}

const folder = join(__dirname, "gallery");

describe("the gallery", () => {
  let shown: Record<string, string> = {};
  beforeAll(() => {
    shown = pictures((names) => names);
  }, 60_000);

  it("shows every plot and drawing as it is stored", async () => {
    expect(Object.keys(shown).length).toBeGreaterThan(15);
    for (const [name, text] of Object.entries(shown)) await expect(text).toMatchFileSnapshot(join(folder, name));
  });

  it("stores no picture that the book no longer has", () => {
    expect(readdirSync(folder).sort()).toEqual(Object.keys(shown).sort());
  });

  it("draws the same when the sheets are read in another order", { timeout: 60_000 }, () => {
    const again = pictures((names) => names.toReversed());
    for (const name of Object.keys(shown).filter((name) => !name.startsWith("README")))
      expect(again[name] === shown[name], name).toBe(true);
  });
});
