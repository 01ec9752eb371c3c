/** How much of the document is unfolded, what the contents beside it tell, and that the address keeps both. */
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { sheetId } from "../../lib/document/model/page-ids";
import { noChromium, type Opened, open, settled, sharedBrowser, turnTo, type } from "./browser";
import { publishFixture } from "./make";

const go = (page: Page, hash: string) => page.evaluate(`location.hash = ${JSON.stringify(hash)}`);
const hash = (page: Page) => page.evaluate<string>("location.hash");

describe.skipIf(noChromium)("the views of the document", () => {
  let browser: Browser;
  let markup: string;
  let opened: Opened;
  const lamp = sheetId("lamp");
  beforeAll(async () => {
    [browser, markup] = await Promise.all([sharedBrowser(), publishFixture()]);
    opened = await open(browser, markup, { viewport: { width: 1440, height: 900 } });
    await turnTo(opened.page, "article.sheet");
  });
  afterAll(async () => {
    await opened?.close();
  });

  const law = () => opened.page.locator("article.sheet .law").first();
  const field = () => opened.page.locator("article.sheet input.field").first();
  const code = () => opened.page.locator("article.sheet details.code pre").first();
  const seen = async () => [await law().isVisible(), await field().isVisible(), await code().isVisible()];

  it("tell a result in one line, with workings and code one step behind", async () => {
    const { page } = opened;
    expect(await seen()).toEqual([false, false, false]);
    const result = page.locator("article.sheet .result").first();
    const line = result.locator("summary").first();
    expect((await line.textContent())?.replace(/\s+/g, " ")).toMatch(/^[A-Z][a-z ]+ \w+ = [\d.]+ m?\S+ [\d.]+ m?\S+ to [\d.]+ m?\S+$/);
    await page.getByRole("radio", { name: "Workings" }).check();
    expect(await seen()).toEqual([true, true, false]);
    expect(await hash(page)).toBe(`#${lamp}?show=workings`);
    await page.getByRole("radio", { name: "Code" }).check();
    expect(await seen()).toEqual([true, true, true]);
    await page.getByRole("radio", { name: "Story" }).check();
    expect(await seen()).toEqual([false, false, false]);
    expect(await hash(page)).toBe(`#${lamp}`);
    await line.click();
    expect(await result.locator(".law").first().isVisible()).toBe(true);
    await line.click();
  });

  it("set what belongs to a text beside it, and below it where the workings are shown or the screen is narrow", async () => {
    const { page } = opened;
    const places = () =>
      page.evaluate<{ sideways: number; down: number }>(`(() => {
        const figure = document.querySelector("article.sheet .told:has(> p) + .beside > .block").getBoundingClientRect();
        const text = document.querySelector("article.sheet .told:has(> p):has(+ .beside) > p").getBoundingClientRect();
        return { sideways: figure.left - text.right, down: figure.top - text.bottom };
      })()`);
    expect((await places()).sideways).toBeGreaterThan(0);
    await page.getByRole("radio", { name: "Workings" }).check();
    expect(await places()).toMatchObject({ sideways: expect.any(Number) });
    expect((await places()).sideways).toBeLessThan(0);
    await page.getByRole("radio", { name: "Story" }).check();
    await page.setViewportSize({ width: 800, height: 900 });
    expect((await places()).sideways).toBeLessThan(0);
    expect((await places()).down).toBeGreaterThan(0);
    await page.setViewportSize({ width: 1440, height: 900 });
  });

  it("are kept in the address: by links within the document, and by a link to a state with the page", async () => {
    const { page } = opened;
    await go(page, `${lamp}?show=workings`);
    await expect.poll(seen).toEqual([true, true, false]);
    await go(page, "register");
    await expect.poll(() => hash(page)).toBe("#register?show=workings");
    await go(page, lamp);
    await expect.poll(seen).toEqual([true, true, false]);
    await type(page, "current wanted", "3 mA");
    await settled(page);
    await page.getByRole("button", { name: "Link to this state" }).click();
    expect(await hash(page)).toBe(`#with?lamp.current=3%20mA&at=${lamp}&show=workings`);
    const address = page.url();
    const other = await browser.newPage();
    await other.goto(address);
    await settled(other);
    expect(await other.locator("article.sheet .law").first().isVisible()).toBe(true);
    expect(await other.evaluate<object>("workings.state().changes")).toMatchObject({ givens: { "lamp.current": {} } });
    expect(await other.locator("#notice").isVisible()).toBe(false);
    await other.close();
    await page.getByRole("button", { name: "Reset all" }).click();
    await settled(page);
    await page.getByRole("radio", { name: "Story" }).check();
  });

  it("print what they show", async () => {
    const { page } = opened;
    await go(page, lamp);
    await page.emulateMedia({ media: "print" });
    expect(await law().isVisible()).toBe(false);
    await page.emulateMedia({ media: "screen" });
    await page.getByRole("radio", { name: "Workings" }).check();
    await page.emulateMedia({ media: "print" });
    expect([await law().isVisible(), await code().isVisible()]).toEqual([true, false]);
    await page.emulateMedia({ media: "screen" });
    await page.getByRole("radio", { name: "Story" }).check();
  });

  it("unfold a result that a link leads to", async () => {
    const { page } = opened;
    await go(page, "front");
    await go(page, "node-lamp.I");
    await expect.poll(() => page.locator("[id='node-lamp.I'] .law").first().isVisible()).toBe(true);
  });

  it("have contents beside them: the open page with its sections, the place, a mark for its requirements", async () => {
    const { page } = opened;
    await go(page, "front");
    await go(page, lamp);
    const current = page.locator("#contents [aria-current='page']");
    await expect.poll(() => current.textContent()).toBe("How bright is the lamp?");
    const sections = page.locator("#contents .sections a");
    expect(await sections.allTextContents()).toContain("Givens");
    await sections.last().click();
    await expect.poll(() => page.locator("#contents .sections [aria-current]").count()).toBe(1);
    const mark = page.locator("#contents .mark").first();
    expect(await mark.getAttribute("title")).toBe("Requirements: 1 holds for 95 %, 1 holds");
    await type(page, "the analog supply", "3.3 V");
    await settled(page);
    expect(await page.locator("#contents .mark").first().getAttribute("title")).toBe("Requirements: 1 does not hold, 1 holds for 95 %");
    await page.getByRole("button", { name: "Reset all" }).click();
  });

  it("have the contents in a drawer on a narrow screen", async () => {
    const narrow = await open(browser, markup, { viewport: { width: 390, height: 844 } });
    const { page } = narrow;
    const nav = page.locator("#contents");
    expect(await nav.isVisible()).toBe(false);
    const button = page.getByRole("button", { name: "Contents" });
    await button.click();
    expect([await nav.isVisible(), await button.getAttribute("aria-expanded")]).toEqual([true, "true"]);
    await page.keyboard.press("Escape");
    expect(await nav.isVisible()).toBe(false);
    await button.click();
    await nav.locator("a").first().click();
    expect(await nav.isVisible()).toBe(false);
    expect(await page.locator("article.sheet").isVisible()).toBe(true);
    await narrow.close();
  });
});
