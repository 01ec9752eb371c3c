/** A verdict's badge says what the verdict means and which number decided: on hover, on focus, on a tap; by the keyboard and for screen readers. */
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { verdictMeanings } from "../../lib/document/text/verdict-text";
import { violations } from "./axe";
import { noChromium, type Opened, open, settled, sharedBrowser, type } from "./browser";
import { publishFixture } from "./make";

describe.skipIf(noChromium)("a verdict's badge", () => {
  let browser: Browser;
  let opened: Opened;
  beforeAll(async () => {
    const [own, markup] = await Promise.all([sharedBrowser(), publishFixture()]);
    browser = own;
    opened = await open(browser, markup, { viewport: { width: 1440, height: 900 } });
  });
  afterAll(async () => {
    await opened?.close();
  });

  const badge = (page: Page) => page.locator("#verdicts button.badge").first();
  const tip = (page: Page) => page.locator("#tip");

  it("tells its meaning and the number that decided while it has the focus, and Escape closes it", async () => {
    const { page } = opened;
    expect(await tip(page).isVisible()).toBe(false);
    await badge(page).focus();
    expect(await tip(page).isVisible()).toBe(true);
    const word = (await badge(page).getAttribute("data-verdict")) as keyof typeof verdictMeanings;
    const text = (await tip(page).textContent()) ?? "";
    expect(text).toContain(verdictMeanings[word]);
    expect(text).toMatch(/Decided by (worst case|for 95\s%.*) [\d.]+\sm[AW].*against [≥≤]\s[\d.]+\sm[AW]: margin [+−][\d.]+\sm[AW]/);
    expect(await badge(page).getAttribute("aria-describedby")).toBe("tip");
    expect(await violations(opened)).toEqual([]);
    await page.keyboard.press("Escape");
    expect(await tip(page).isVisible()).toBe(false);
    expect(await badge(page).getAttribute("aria-describedby")).toBeNull();
    await page.keyboard.press("Enter");
    expect(await tip(page).isVisible()).toBe(true);
    await page.keyboard.press("Shift+Tab");
    expect(await tip(page).isVisible()).toBe(false);
  });

  it("tells it under the pointer, which may go on into the words, and no longer when it has left", async () => {
    const { page } = opened;
    await badge(page).hover();
    await tip(page).hover();
    await page.waitForTimeout(400);
    expect(await tip(page).isVisible()).toBe(true);
    await page.mouse.move(5, 5);
    await expect.poll(() => tip(page).isVisible()).toBe(false);
  });

  it("tells the number of the present state", async () => {
    const { page } = opened;
    const before = await badge(page).getAttribute("data-decided");
    await page.evaluate("location.hash = 'lamp'");
    await type(page, "the analog supply", "4.6 V");
    await settled(page);
    await page.evaluate("location.hash = 'front'");
    expect(await badge(page).getAttribute("data-decided")).not.toBe(before);
    await page.getByRole("button", { name: "Reset all" }).click();
  });

  it("tells it after a tap, inside a narrow window, until a tap elsewhere", async () => {
    const narrow = await open(browser, await publishFixture(), { viewport: { width: 390, height: 844 }, hasTouch: true });
    const { page } = narrow;
    await badge(page).scrollIntoViewIfNeeded();
    await badge(page).tap();
    const box = await tip(page).boundingBox();
    expect(box?.x).toBeGreaterThanOrEqual(0);
    expect((box?.x ?? 0) + (box?.width ?? 999)).toBeLessThanOrEqual(390);
    await page.locator("#verdicts h2").tap();
    expect(await tip(page).isVisible()).toBe(false);
    await narrow.close();
  });
});
