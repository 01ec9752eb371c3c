/**
 * The whole published book for everyone, outside a full run a small one: a walk by the Tab key alone, in which everything that can be
 * worked is reached, in order, and seen; what axe-core finds in either theme; no sideways scroll at the width of a phone.
 */
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { publishBook } from "../../lib/document/publish";
import { sample } from "../demo-book";
import { violations } from "../document/axe";
import { noChromium, type Opened, open, pagesOf, settled, sharedBrowser, turnTo } from "../document/browser";
import { publishFixture } from "../document/make";
import { inFull, isFull } from "../full";

interface Stop {
  /** Place among the elements that can be worked, in the order of the document; −1 for another one. */
  readonly place: number;
  readonly name: string;
  readonly isMarked: boolean;
  readonly isSeen: boolean;
}

/** Counts what can be worked on the page that is open and is not folded away, and gives each its place; the focus goes to the first. */
const count = `(() => {
  for (const old of document.querySelectorAll("[data-stop]")) delete old.dataset.stop;
  const all = [...document.querySelectorAll("a[href], button, input, summary, [tabindex='0']")];
  const open = all.filter((element) => element.checkVisibility({ visibilityProperty: true }) && !element.disabled);
  // Of a set of radio buttons only the chosen one is a stop.
  const stops = open.filter((element) => element.type !== "radio" || element.checked);
  stops.forEach((element, place) => { element.dataset.stop = String(place); });
  stops[0].focus();
  return stops.length;
})()`;

const here = `(() => {
  const element = document.activeElement;
  const style = getComputedStyle(element);
  const { top, bottom, left, right } = element.getBoundingClientRect();
  return {
    place: Number(element.dataset?.stop ?? -1),
    name: element.outerHTML.slice(0, 120),
    isMarked: style.outlineStyle !== "none" && parseFloat(style.outlineWidth) > 0,
    isSeen: bottom > 0 && top < innerHeight && right > 0 && left < innerWidth,
  };
})()`;

describe.skipIf(noChromium)("the published book", () => {
  let browser: Browser;
  let opened: Opened;
  let markup = "";
  beforeAll(async () => {
    browser = await sharedBrowser();
    markup = isFull ? publishBook(sample.made()) : await publishFixture();
    opened = await open(browser, markup, {
      viewport: { width: 1280, height: 900 },
      reducedMotion: "reduce",
    });
  }, 900_000);
  afterAll(async () => {
    await opened?.close();
  });

  it("reaches every link, field, button and fold, in the order of the document, each marked and on the screen", {
    timeout: 1_800_000,
  }, async () => {
    const { page } = opened;
    let all = 0;
    for (const id of await pagesOf(page)) {
      await turnTo(page, `[id="${id}"]`);
      const stops = await page.evaluate<number>(count);
      all += stops;
      const walked: Stop[] = [];
      for (let step = 0; step < stops; step++) {
        if (step > 0) await page.keyboard.press("Tab");
        walked.push(await page.evaluate<Stop>(here));
      }
      expect(walked.filter(({ place }, step) => place !== step).slice(0, 3), id).toEqual([]);
      expect(walked.filter(({ isMarked }) => !isMarked).slice(0, 3), id).toEqual([]);
      expect(walked.filter(({ isSeen }) => !isSeen).slice(0, 3), id).toEqual([]);
    }
    expect(all).toBeGreaterThan(inFull(300, 40));
  });

  const finds = "finds a result of the chosen alternative, unfolds how it was computed, and follows another choice";
  it.runIf(isFull)(finds, { timeout: 1_800_000 }, async () => {
    const { page } = opened;
    const place = page.locator("#node-enclosure\\.material\\.m_s");
    expect(await place.isVisible()).toBe(false);
    await page.locator("#find input").fill("mass of the shell");
    await page.locator(".found a").first().click();
    expect(await place.isVisible()).toBe(true);
    const value = place.locator(".value strong");
    const published = await value.textContent();
    await place.locator("summary", { hasText: "What depends on it" }).click();
    const choice = page.locator("fieldset[data-choice='decisions.enclosure.material']");
    await choice.locator("input[value='magnesium']").check();
    await settled(page);
    expect(await value.textContent()).not.toBe(published);
    expect(await place.locator(".uses[open] li").count()).toBeGreaterThan(3);
    await page.locator("#changes button", { hasText: "Reset all" }).click();
    await settled(page);
    expect(await value.textContent()).toBe(published);
  });

  it("sets notes beside results without one lying over another, the workings of decisions unfolded", async () => {
    const { page } = opened;
    let count = 0;
    for (const id of await pagesOf(page)) {
      await turnTo(page, `[id="${id}"]`);
      const [notes, overlaps] = await page.evaluate<readonly [number, readonly string[]]>(`(() => {
        const shown = document.querySelector(".page:not([hidden])");
        for (const fold of shown.querySelectorAll(".workings, .worked")) fold.open = true;
        const notes = [...shown.querySelectorAll(".steps > .note")].map((note) => ({ note, box: note.getBoundingClientRect() }));
        const seen = notes.filter(({ box }) => box.height > 0);
        const meet = (a, b) => a.top < b.bottom - 0.5 && b.top < a.bottom - 0.5 && a.left < b.right && b.left < a.right;
        const over = seen.filter(({ box }, index) => seen.slice(0, index).some((other) => meet(box, other.box)));
        for (const fold of shown.querySelectorAll(".workings, .worked")) fold.open = false;
        return [seen.length, over.map(({ note }) => note.closest('.result').id)];
      })()`);
      expect(overlaps, id).toEqual([]);
      count += notes;
    }
    expect(count).toBeGreaterThan(inFull(60, 2));
  });

  it("opens a fold, turns a given and takes it back", async () => {
    const { page } = opened;
    await turnTo(page, "article.sheet details.worked");
    const fold = page.locator(".page:not([hidden]) .worked:not([open]) > summary:visible").first();
    const folded = await fold.elementHandle();
    await fold.focus();
    await page.keyboard.press("Enter");
    expect(await folded?.evaluate((element) => (element.parentElement as unknown as { open: boolean }).open)).toBe(true);
    await turnTo(page, ".field-box input.field");
    const field = page.locator(".field-box input.field").first();
    await field.focus();
    const before = await field.inputValue();
    await page.keyboard.press("Control+A");
    await page.keyboard.type(before.replace(/[\d.]+/, (number) => String(Number((Number(number) * 1.05).toPrecision(4)))));
    await page.keyboard.press("Enter");
    await page.waitForSelector("#changes:not([hidden])");
    await page.keyboard.press("Tab");
    await page.keyboard.press("Control+z");
    await expect.poll(() => field.inputValue()).toBe(before);
  });

  const looks = [
    ["dark", 390],
    ["light", 1440],
  ] as const;
  it.runIf(isFull).each(looks)(
    "has no fault that axe-core finds, %s at %i px, and does not scroll sideways",
    { timeout: 2_400_000 },
    async (colorScheme, width) => {
      const other = await open(browser, markup, {
        colorScheme,
        viewport: { width, height: 900 },
        bypassCSP: true,
        reducedMotion: "reduce",
      });
      // What is computed when it is unfolded, of each kind once on a page: of all results it would take the page minutes.
      await other.page.evaluate(`(() => {
        for (const details of document.querySelectorAll("details:not(.asked > *)")) details.open = true;
        for (const page of document.querySelectorAll(".page"))
          for (const details of page.querySelector(".asked")?.children ?? []) details.open = true;
      })()`);
      for (const id of await pagesOf(other.page)) {
        await turnTo(other.page, `[id="${id}"]`);
        expect(await other.page.evaluate("document.documentElement.scrollWidth"), id).toBe(width);
        const labels = await other.page.evaluate<number[]>(
          `[...document.querySelectorAll("table.trade > tbody > tr > td")].filter((cell) => cell.checkVisibility() && getComputedStyle(cell).display === "grid")
            .map((cell) => parseFloat(getComputedStyle(cell).gridTemplateColumns))`,
        );
        expect(
          labels.filter((room) => room < 90),
          `${id}: room for the names of criteria, in pixels`,
        ).toEqual([]);
        // The workings of results are alike; of thousands of elements axe-core would be at work for minutes.
        await other.page.evaluate(
          `for (const fold of [...document.querySelectorAll(".page:not([hidden]) .worked")].slice(8)) fold.open = false`,
        );
        expect(await violations(other), id).toEqual([]);
      }
      await other.close();
    },
  );
});
