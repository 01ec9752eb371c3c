/** Plots are read without a lens and without scrolling: drawn for half a wide page, drawn anew for a telephone. In Chromium. */
import type { Page } from "playwright-core";
import { beforeAll, describe, expect, it } from "vitest";
import { publishBook } from "../../lib/document/publish";
import { sample } from "../demo-book";
import { inFull } from "../full";
import { noChromium, open, settled, sharedBrowser } from "./browser";
import { pageAssets } from "./make";

interface Measured {
  readonly plot: string;
  /** Smallest letters, CSS pixels. */
  readonly letters: number;
  readonly overlapping: readonly string[];
  /** Names that are cut at the picture's edge. */
  readonly cut: readonly string[];
  /** What has to be scrolled sideways, pixels. */
  readonly hidden: number;
}

/** Of all plots of the page that is open. */
const measure = `[...document.querySelectorAll("figure.plot svg")].filter((svg) => svg.checkVisibility()).map((svg) => {
  const frame = svg.getBoundingClientRect();
  const scale = frame.width / svg.viewBox.baseVal.width;
  const names = [...svg.querySelectorAll("text")].filter(({ textContent }) => textContent.trim() !== "").map((element) => ({
    text: element.textContent, size: Number.parseFloat(getComputedStyle(element).fontSize) * scale, box: element.getBoundingClientRect() }));
  const overlap = (a, b) => a.left + 1 < b.right && b.left + 1 < a.right && a.top + 2 < b.bottom && b.top + 2 < a.bottom;
  const scrolled = svg.closest(".scroll");
  return {
    plot: svg.closest("figure").id,
    letters: Math.min(...names.map(({ size }) => size)),
    overlapping: names.flatMap((one, index) => names.slice(index + 1).filter((two) => overlap(one.box, two.box)).map(({ text }) => one.text + " | " + text)),
    cut: names.filter(({ box }) => box.left < frame.left - 1 || box.right > frame.right + 1).map(({ text }) => text),
    hidden: Math.max(0, scrolled.scrollWidth - scrolled.clientWidth),
  };
})`;

async function measured(page: Page): Promise<Measured[]> {
  const all: Measured[] = [];
  for (const { name } of sample.book.worksheets) {
    await page.evaluate(`location.hash = ${JSON.stringify(name)}`);
    all.push(...((await page.evaluate(measure)) as Measured[]));
  }
  return all;
}

/** The browser tells the page of the new width at its next frame. */
async function resize(page: Page, width: number): Promise<void> {
  await page.setViewportSize({ width, height: 900 });
  await page.evaluate("new Promise((next) => requestAnimationFrame(() => requestAnimationFrame(next)))");
  await settled(page);
}

const plots = sample.sheets().flatMap(({ notebook }) => JSON.stringify(notebook).match(/"type":"plot"/g) ?? []).length;
const fine = (all: readonly Measured[]) => {
  expect(all).toHaveLength(plots);
  for (const { plot, letters, ...rest } of all) {
    expect(letters, plot).toBeGreaterThanOrEqual(12);
    expect(rest, plot).toEqual({ overlapping: [], cut: [], hidden: 0 });
  }
};

describe.skipIf(noChromium)("every plot of the book", { timeout: 600_000 }, () => {
  let markup: string;
  beforeAll(
    async () => {
      markup = publishBook(sample.made(), await pageAssets());
    },
    inFull(600_000, 60_000),
  );

  it("has letters of twelve pixels, none over another, on 1440 and 390 px, and follows the width, whose change moves no number", async () => {
    const browser = await sharedBrowser();
    const { page, console, close } = await open(browser, markup, { viewport: { width: 1440, height: 900 } });
    fine(await measured(page));
    await page.evaluate(`(() => {
      const marked = new Set();
      globalThis.marked = marked;
      new MutationObserver((found) => {
        for (const { target } of found) if (target.classList.contains("pending")) marked.add(target.dataset.part ?? target.dataset.show);
      }).observe(document.body, { subtree: true, attributeFilter: ["class"] });
    })()`);
    await resize(page, 390);
    fine(await measured(page));
    expect(await page.evaluate("[...globalThis.marked]"), "what is marked as still to come").toEqual(["plot"]);
    expect(await page.locator("#changes").isHidden()).toBe(true);
    await resize(page, 1440);
    fine(await measured(page));
    expect(console).toEqual([]);
    await close();
  });

  it("is drawn for a telephone that opens the document", async () => {
    const browser = await sharedBrowser();
    const { page, console, close } = await open(browser, markup, { viewport: { width: 390, height: 844 } });
    fine(await measured(page));
    expect(console).toEqual([]);
    await close();
  });
});
