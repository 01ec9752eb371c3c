import type { Browser } from "playwright-core";
import { beforeAll, describe, expect, it } from "vitest";
import type { Block } from "../../lib/sheet/block";
import { noChromium, open, settled, sharedBrowser, turnTo, type } from "./browser";
import { codeCell, display, lampSheet, markdownCell, notebook } from "./fixture";
import { publishFixture } from "./make";

const sheetOf = (name: string, blocks: readonly Block[]) => ({
  name,
  notebook: notebook([markdownCell(`# The ${name}`), ...blocks.map((block, index) => codeCell(`// ${index}`, [display(block, name)]))]),
});
const givens = (node: string): Block => ({ type: "givens", rows: [{ symbol: "V", node }] });
const model = "Reads the current from a curve.";

const markup = await publishFixture([
  lampSheet,
  sheetOf("case", [
    { type: "taken", rows: [{ symbol: "I", node: "lamp.I", from: "lamp.current" }] },
    givens("givens.supply.low"),
    givens("givens.supply.high"),
    { type: "result", node: "lamp.I_curve", model },
    { type: "result", node: "lamp.old", model },
  ]),
]);
const article = (name: string) => new RegExp(`<article class="page sheet" id="${name}"[\\s\\S]*?</article>`).exec(markup)?.[0] ?? "";
const text = (html: string) => html.replace(/<[^>]+>/g, "").replace(/\s+/g, " ");

describe("the head of a sheet", () => {
  it("says its place in the reading order, and links what it takes and which sheet takes from it", () => {
    expect(text(article("lamp"))).toMatch(/^ ?Sheet 1 of 2: lamp/);
    expect(text(article("case"))).toMatch(/^ ?Sheet 2 of 2: case/);
    expect(article("case")).toMatch(/<dt>Takes<\/dt><dd>from <a href="#lamp">lamp<\/a>: /);
    expect(article("lamp")).toMatch(
      /<dt>Takes<\/dt><dd>nothing from other sheets[^<]*<\/dd>[\s\S]*?<dt>Gives<\/dt><dd>to <a href="#case">case<\/a>: /,
    );
  });
});

describe("givens of several alternatives", () => {
  const matrix = /<table class="givens matrix">[\s\S]*?<\/table>/.exec(article("case"))?.[0] ?? "";
  it("are one matrix, turned where there are more alternatives than quantities, over the cells in between", () => {
    expect(matrix.match(/<th scope="row">[^<]*/g)).toEqual(['<th scope="row">logic', '<th scope="row">analog']);
    expect(matrix.match(/data-given="[^"]*"/g)).toEqual(['data-given="supply.low"', 'data-given="supply.high"']);
  });
  it("have their sources as footnotes", () => {
    expect(matrix.match(/<sup>.*?<\/sup>/g)?.map(text)).toEqual(["a", "b"]);
    expect(text(/<ul class="footnotes source">[\s\S]*?<\/ul>/.exec(article("case"))?.[0] ?? "")).toMatch(/^a .*from memoryb .*regulated$/);
  });
});

describe("a model with several outputs", () => {
  it("is told once in a sheet", () => {
    expect(article("case").split(model)).toHaveLength(2);
    expect(text(article("case"))).toContain("By the same model as Ic.");
  });
});

describe.skipIf(noChromium)("a matrix in the page", () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await sharedBrowser();
  });

  it("is live: a cell turned moves the results", async () => {
    const { page, close } = await open(browser, markup);
    await turnTo(page, ".matrix");
    const before = await page.locator("#node-lamp\\.I_curve strong").first().textContent();
    await page.locator('.matrix [data-field="supply.high"] input.field').fill("3.6 V ±1 %");
    await page.locator('.matrix [data-field="supply.high"] input.field').press("Enter");
    await settled(page);
    expect(await page.locator('.matrix [data-field="supply.high"]').getAttribute("data-text")).toBe("3.6\u00a0V ±1\u00a0%");
    expect(await page.locator(".changes .words").textContent()).toMatch(/^1 change/);
    expect(before).not.toBe("");
    await close();
  });

  it("keeps open what the reader has unfolded when its part is drawn anew", async () => {
    const { page, close } = await open(browser, markup);
    await turnTo(page, "figure.plot");
    await page.locator("figure.plot details.in-words summary").first().click();
    await type(page, "the analog supply", "3.3 V");
    await settled(page);
    expect(await page.locator("figure.plot details.in-words").first().getAttribute("open")).toBe("");
    await close();
  });

  it("fits a narrow screen: the page does not scroll sideways", async () => {
    const { page, close } = await open(browser, markup, { viewport: { width: 390, height: 844 } });
    expect(await page.evaluate("document.documentElement.scrollWidth")).toBe(390);
    await close();
  });

  it("prints no wider than an A4 page, which the browser would shrink, and no fields, buttons or code", async () => {
    const { page, close } = await open(browser, markup, { viewport: { width: 673, height: 900 } });
    await page.emulateMedia({ media: "print" });
    expect(await page.evaluate("document.documentElement.scrollWidth")).toBe(673);
    for (const hidden of ["input.field", "button:not(.badge)", "details.code", "fieldset.choice"]) {
      expect(await page.locator(hidden).evaluateAll((found) => found.filter((element) => element.checkVisibility()).length)).toBe(0);
    }
    await close();
  });
});
