/**
 * Every plot and drawing of the demo book as a stored picture: a change of a byte is seen, and looked at, before it is kept (vitest -u
 * keeps it). Colours of the page's style are left out of them.
 */
import { readdirSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import type { SheetInput } from "../../lib/document/collect";
import { markdownFiles } from "../../lib/document/markdown-book";
import { prepareBook } from "../../lib/document/publish";
import { demo } from "../demo-book";

/** The pictures of the book, its sheets collected in this order. */
function pictures(order: (sheets: readonly SheetInput[]) => readonly SheetInput[]): Record<string, string> {
  const sheets = order(demo.sheets());
  const files = Object.entries(markdownFiles(prepareBook({ ...demo, sheets }), ""));
  return Object.fromEntries(
    files.filter(([name]) => name.startsWith("figures/")).map(([name, text]) => [name.slice("figures/".length), text]),
  );
}

const folder = join(__dirname, "gallery");

describe("the gallery", () => {
  let shown: Record<string, string> = {};
  beforeAll(() => {
    shown = pictures((sheets) => sheets);
  }, 60_000);

  it("shows every plot and drawing as it is stored", async () => {
    expect(Object.keys(shown).length).toBeGreaterThan(15);
    for (const [name, text] of Object.entries(shown)) await expect(text).toMatchFileSnapshot(join(folder, name));
  });

  it("stores no picture that the book no longer has", () => {
    expect(readdirSync(folder).sort()).toEqual(Object.keys(shown).sort());
  });

  it("draws the same when the sheets are read in another order", { timeout: 60_000 }, () => {
    const again = pictures((sheets) => sheets.toReversed());
    for (const name of Object.keys(shown).filter((name) => !name.startsWith("README")))
      expect(again[name] === shown[name], name).toBe(true);
  });
});
