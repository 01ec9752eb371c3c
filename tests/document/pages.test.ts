/** The pages of the document: one is alive at a time, reached by links, by the browser's search, by steps back; all are printed. */
import { mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { sheetId } from "../../lib/document/model/page-ids";
import { noChromium, type Opened, open, pagesOf, settled, sharedBrowser } from "./browser";
import { lampSheet, markdownCell, notebook } from "./fixture";
import { publishFixture } from "./make";

/** Ids of the pages of which something is laid out and can be seen. */
const alive = (page: Page) =>
  page.evaluate<string[]>(
    `[...document.querySelectorAll(".page")].filter((page) => [...page.querySelectorAll("*")].some((element) => element.checkVisibility())).map(({ id }) => id)`,
  );
const go = async (page: Page, id: string) => {
  await page.evaluate(`location.hash = ${JSON.stringify(id)}`);
  await page.evaluate("new Promise((frame) => requestAnimationFrame(() => requestAnimationFrame(frame)))");
};

describe("the address of a sheet", () => {
  it("is its name, where nothing else of the document has that id", () => {
    expect(["battery", "rf-filter", "a b"].map(sheetId)).toEqual(["battery", "rf-filter", "a-20-b"]);
    for (const name of ["register", "front", "program", "find", "node-x", "parts-title"]) expect(sheetId(name)).toBe(`sheet-${name}`);
  });
});

describe.skipIf(noChromium)("the pages of the document", () => {
  let browser: Browser;
  let markup: string;
  let opened: Opened;
  beforeAll(async () => {
    const long = Array.from({ length: 60 }, (_, index) => markdownCell(`Paragraph ${index} of the lamp.`));
    const sheets = [
      { name: "lamp", notebook: notebook([...(lampSheet.notebook.cells as unknown[]), ...long]) },
      { name: "notes", notebook: notebook([markdownCell("# The notes\n\nA heron stands at the weir."), ...long]) },
      { name: "register", notebook: notebook([markdownCell("# Not the register of givens")]) },
    ];
    [browser, markup] = await Promise.all([sharedBrowser(), publishFixture(sheets)]);
    opened = await open(browser, markup, { viewport: { width: 1440, height: 900 } });
  });
  afterAll(async () => {
    await opened?.close();
  });

  it("shows one of them, the front page first, and each at its own address, from its top", async () => {
    const { page } = opened;
    expect(await alive(page)).toEqual(["front"]);
    const ids = await pagesOf(page);
    expect(ids.slice(0, 4)).toEqual(["front", "lamp", "notes", "sheet-register"]);
    expect(ids).toEqual(expect.arrayContaining(["register", "conventions", "glossary", "bibliography", "licences"]));
    for (const id of [...ids, ...ids.toReversed()]) {
      await go(page, id);
      expect(await alive(page)).toEqual([id]);
      expect(await page.evaluate("scrollY")).toBe(0);
    }
  });

  it("opens the page of whatever a link leads to, folds around it too, and scrolls there", async () => {
    const { page } = opened;
    for (const [id, home] of [
      ["requirement-bright", "front"],
      ["sheet-lamp", "lamp"],
      ["register-lamp.forward", "register"],
      ["node-lamp.I", "lamp"],
    ] as const) {
      await go(page, id);
      expect(await alive(page), id).toEqual([home]);
      const top = await page.locator(`[id="${id}"]`).evaluate((element) => element.getBoundingClientRect().top);
      expect(top, id).toBeGreaterThanOrEqual(-1);
      expect(top, id).toBeLessThan(900);
    }
    await go(page, "nothing-of-that-name");
    expect(await alive(page)).toEqual(["lamp"]);
  });

  it("steps back and forward through them, to where the reader was", async () => {
    const { page } = opened;
    await go(page, "lamp");
    await page.evaluate("scrollTo(0, 700)");
    await expect.poll(() => page.evaluate("history.state?.y")).toBe(700);
    await page.evaluate(
      `(() => { const link = document.createElement("a"); link.href = "#notes"; document.body.append(link); link.click(); link.remove(); })()`,
    );
    expect(await alive(page)).toEqual(["notes"]);
    expect(await page.evaluate("scrollY")).toBe(0);
    await page.evaluate("history.back()");
    await expect.poll(() => alive(page)).toEqual(["lamp"]);
    await expect.poll(() => page.evaluate("scrollY")).toBe(700);
    await page.evaluate("history.forward()");
    await expect.poll(() => alive(page)).toEqual(["notes"]);
    await expect.poll(() => page.evaluate("scrollY")).toBe(0);
  });

  const file = () => {
    const path = join(mkdtempSync(join(tmpdir(), "pages-")), "book.html");
    writeFileSync(path, markup);
    return `file://${path}`;
  };

  it("opens at an address, with nothing of the front page seen", async () => {
    const page = await browser.newPage();
    await page.goto(`${file()}#notes`);
    await settled(page);
    expect(await alive(page)).toEqual(["notes"]);
    await page.close();
  });

  it("is reached by the browser's own search for a text, and the page that was open closes", async () => {
    const page = await browser.newPage();
    await page.goto(`${file()}#:~:text=heron%20stands`);
    await settled(page);
    await expect.poll(() => alive(page), { timeout: 20_000 }).toEqual(["notes"]);
    expect(await page.evaluate("location.hash")).toBe("#notes");
    await page.close();
  });

  it("is printed whole", async () => {
    const { page } = opened;
    await page.emulateMedia({ media: "print" });
    expect(await alive(page)).toEqual((await pagesOf(page)).filter((id) => id !== "licences"));
    await page.emulateMedia({ media: "screen" });
    await go(page, "front");
    expect(await alive(page)).toEqual(["front"]);
  });

  it("is shown whole where no program runs", async () => {
    const still = await open(browser, markup, { javaScriptEnabled: false });
    const visible = await still.page
      .locator(".page")
      .evaluateAll((pages) => pages.map((page) => page.checkVisibility({ contentVisibilityAuto: true })));
    expect(visible).not.toContain(false);
    expect(await still.page.getByText("A heron stands at the weir.").isVisible()).toBe(true);
    await still.close();
  });

  it("is shown whole, which is said, where a browser cannot unpack the program", async () => {
    const context = await browser.newContext();
    await context.addInitScript("delete globalThis.DecompressionStream;");
    const page = await context.newPage();
    await page.goto(file());
    await expect.poll(() => page.locator("#notice").textContent()).toMatch(/^This browser cannot unpack the program/);
    expect(await page.locator("#notice").isVisible()).toBe(true);
    expect(await page.locator(".page[hidden]").count()).toBe(0);
    expect(await page.getByText("A heron stands at the weir.").isVisible()).toBe(true);
    await context.close();
  });

  it("hides and shows them plainly in a browser that cannot search what is hidden", async () => {
    const context = await browser.newContext();
    await context.addInitScript("delete HTMLElement.prototype.onbeforematch; delete Element.prototype.onbeforematch;");
    const page = await context.newPage();
    await page.goto(`${file()}#notes`);
    await settled(page);
    expect(await page.locator("#lamp").getAttribute("hidden")).toBe("");
    expect(await alive(page)).toEqual(["notes"]);
    await go(page, "node-lamp.I");
    expect(await alive(page)).toEqual(["lamp"]);
    await page.emulateMedia({ media: "print" });
    expect(await alive(page)).toEqual((await pagesOf(page)).filter((id) => id !== "licences"));
    await context.close();
  });
});

describe("the front page", () => {
  it("has a row for each sheet with its question, its answer, computed numbers bound, and its thinnest margin", async () => {
    const [link = ""] = /\[[^\]]*\]\(#[^)]*\)/.exec(JSON.stringify(lampSheet.notebook)) ?? [];
    const told = markdownCell(`**The question.** Which supply?\n\n**The answer.** The high one, ${link}.`);
    const markup = await publishFixture([{ name: "lamp", notebook: notebook([...(lampSheet.notebook.cells as unknown[]), told]) }]);
    const rows = /<section class="sheet-rows"[\s\S]*?<\/section>/.exec(markup)?.[0] ?? "";
    expect(rows).toContain('<a href="#lamp">How bright is the lamp?</a>');
    expect(rows.replace(/<[^>]*>/g, "")).toMatch(/The question\. Which supply\?The answer\. The high one, /);
    expect(rows).toContain('<a class="computed"');
    expect(rows.replace(/<[^>]*>/g, "")).toMatch(/Thinnest margin of 2 requirements: \w+ \+/);
  });

  it("says what the product is, in the words of the design file", async () => {
    const markup = await publishFixture();
    expect(/<p class="about">[\s\S]*?<\/p>/.exec(markup)?.[0]).toBe('<p class="about"><strong>Lamp.</strong> A test lamp.</p>');
  });
});
