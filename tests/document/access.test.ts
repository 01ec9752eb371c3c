import type { Browser } from "playwright-core";
import { beforeAll, describe, expect, it } from "vitest";
import { inFull } from "../full";
import { violations } from "./axe";
import { noChromium, open, settled, sharedBrowser, turnTo, type } from "./browser";
import { publishFixture } from "./make";

describe.skipIf(noChromium)("the page for everyone", () => {
  let browser: Browser;
  let markup: string;
  beforeAll(async () => {
    [browser, markup] = await Promise.all([sharedBrowser(), publishFixture()]);
  });

  const looks = [
    ["light", 1440],
    ["dark", 390],
    ["dark", 1440],
    ["light", 390],
  ] as const;
  it.each(looks.slice(0, inFull(4, 2)))(
    "has no fault that axe-core finds, %s at %i px, a change being shown",
    async (colorScheme, width) => {
      const opened = await open(browser, markup, {
        colorScheme,
        viewport: { width, height: 900 },
        bypassCSP: true,
        reducedMotion: "reduce",
      });
      await type(opened.page, "the analog supply", "3.3 V");
      await settled(opened.page);
      await opened.page.locator("#changes summary").click();
      await opened.page.evaluate("for (const details of document.querySelectorAll('details')) details.open = true");
      expect(await violations(opened)).toEqual([]);
      await opened.close();
    },
  );

  it("can be worked from the keyboard: skip link, field, decision, undo", async () => {
    const { page, close } = await open(browser, markup);
    await page.keyboard.press("Tab");
    expect(await page.evaluate("document.activeElement.className")).toBe("skip");
    await page.keyboard.press("Enter");
    expect(await page.evaluate("document.activeElement.id")).toBe("content");
    await turnTo(page, "fieldset.choice");
    await page.getByRole("radio", { name: "analog supply" }).focus();
    await page.keyboard.press("ArrowUp");
    await settled(page);
    expect(await page.getByRole("radio", { name: "logic supply" }).isChecked()).toBe(true);
    await page.getByRole("button", { name: "Undo" }).focus();
    await page.keyboard.press("Enter");
    await settled(page);
    expect(await page.getByRole("radio", { name: "analog supply" }).isChecked()).toBe(true);
    await close();
  });

  it("prints without code, sliders and buttons, and with revision and content hash at the foot of each page", async () => {
    const { page, close } = await open(browser, markup);
    await page.emulateMedia({ media: "print" });
    expect(await page.locator("details.code:visible, input[type=range]:visible, button:not(.badge):visible").count()).toBe(0);
    expect((await page.pdf({ preferCSSPageSize: true })).length).toBeGreaterThan(10_000);
    await close();
  });
});
