/** The reference as a document: whole, safe, the same every time, and readable at any width and in both themes. */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type { Browser } from "playwright-core";
import { beforeAll, describe, expect, it } from "vitest";
import { catalogue, pathOf } from "../../lib/document/reference/catalogue";
import { inputsOf, outputsOf } from "../../lib/document/reference/example";
import { renderReference } from "../../lib/document/reference/reference";
import { entryAnchor, limitText } from "../../lib/document/reference/reference-entry";
import { formula } from "../../lib/formula/formula";
import { validityLimit } from "../../lib/formula/validity";
import { ampere, dB, ohm, one, percent, volt } from "../../lib/units";
import { inFull } from "../full";
import { entries, exampleFiles } from "./all-examples";
import { noChromium, open, sharedBrowser } from "./browser";
import { pageAssets } from "./make";

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

describe("renderReference(input)", () => {
  let markup: string;
  beforeAll(async () => {
    markup = renderReference({ examples: exampleFiles, style: (await pageAssets()).style });
  });

  it("tells every formula and model with its law, source and example", () => {
    const parts = markup.split('<section class="entry"').slice(1);
    expect(parts.length).toBe(entries.length);
    for (const entry of entries) {
      const part = parts.find((each) => each.startsWith(` id="${entryAnchor(entry)}"`)) ?? "";
      expect(part).toContain(`sheet.derive(${pathOf(entry)}, `);
      expect(part).toContain('<p class="example">');
      expect(part).toContain("<dt>Source</dt>");
      expect(part.includes("<math")).toBe(entry.law.kind === "formula");
      expect(part.includes("<dt>Range</dt>")).toBe(entry.law.of.holds !== undefined);
      const symbols = Object.keys(inputsOf(entry)).length + Object.keys(outputsOf(entry)).length;
      const dashes = part.match(/data-label="Holds for"><span>–</g) ?? [];
      expect(dashes.length).toBe(symbols - (entry.law.of.valid ?? []).length);
    }
  });

  it("is the same every time, links to what there is, and has no id twice", async () => {
    expect(renderReference({ examples: exampleFiles, style: (await pageAssets()).style })).toBe(markup);
    const ids = [...markup.matchAll(/ id="([^"]+)"/g)].map(([, id]) => id);
    expect(new Set(ids).size).toBe(ids.length);
    const targets = [...markup.matchAll(/ href="#([^"]+)"/g)].map(([, id]) => id);
    expect(targets.filter((target) => !ids.includes(target))).toEqual([]);
    expect(markup).not.toMatch(/<script|https?:(?!\/\/www\.w3\.org)/);
  });

  it("escapes all that it is told", () => {
    const evil = '<img src=x onerror="1">';
    const law = formula("U = R*I", { R: ohm, I: ampere }, volt, { meaning: evil, source: evil });
    const text = renderReference({ examples: [], style: "", subjects: catalogue({ evil: { [evil]: law } }) });
    expect(text).not.toContain("<img");
    expect(text).toContain("&lt;img src=x");
  });

  it("tells limits in the unit of the symbol", () => {
    expect(limitText(validityLimit("G", ">= 1", dB), dB)).toBe("≥ 0 dB");
    expect(limitText(validityLimit("t", "0 to 0.2", percent), percent)).toBe("0 to 20 %");
    expect(limitText(validityLimit("D", "0 to 1", one), one)).toBe("0 to 1");
    expect(limitText(validityLimit("R", "> 0", ohm), ohm)).toBe("> 0");
  });

  it("refuses examples that are off, all at once, with their places", () => {
    const spoilt = exampleFiles.map((file) => (file.name === "thermal" ? { ...file, name: "thermals" } : file));
    expect(() => renderReference({ examples: spoilt, style: "" })).toThrow(/there is no subject 'thermals'; there are audio/);
  });
});

describe.skipIf(noChromium)("the reference in a browser", () => {
  let browser: Browser;
  let markup: string;
  let few: string;
  beforeAll(async () => {
    browser = await sharedBrowser();
    const { style } = await pageAssets();
    markup = renderReference({ examples: exampleFiles, style });
    // The checker takes as long as a page is long: one subject has every kind of entry
    const only = <T extends { readonly name: string }>(all: readonly T[]): readonly T[] => all.filter(({ name }) => name === "esd");
    few = renderReference({ examples: only(exampleFiles), style, subjects: only(catalogue()) });
  });

  const looks = [
    ["dark", 390],
    ["light", 1440],
  ] as const;
  it.each(looks.slice(0, inFull(2, 1)))("%s at %i px has no fault that axe-core finds", async (colorScheme, width) => {
    const opened = await open(browser, few, { colorScheme, viewport: { width, height: 900 }, bypassCSP: true }, false);
    const run = `axe.run(document, { runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa"] }).then(({ violations }) => violations.map(({ id, nodes }) => id + ": " + nodes[0].html.slice(0, 200)))`;
    expect(await opened.page.evaluate(`${axe};${run}`)).toEqual([]);
    await opened.close();
  });

  it.each([390, 1440].slice(0, inFull(2, 1)))(
    "whole at %i px scrolls down only, asks for nothing, and says nothing in the console",
    async (width) => {
      const { page, requests, console, close } = await open(browser, markup, { viewport: { width, height: 900 } }, false);
      expect(await page.evaluate("document.documentElement.scrollWidth - innerWidth")).toBeLessThanOrEqual(0);
      expect([requests, console]).toEqual([[], []]);
      await close();
    },
  );
});
