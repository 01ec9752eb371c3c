/** Statistics that a reader asks of a result, in the page: the lines of `workings why --coverage`, by the same draws. */
import type { Browser } from "playwright-core";
import { beforeAll, describe, expect, it } from "vitest";
import { Evaluation } from "../../lib/analysis/evaluation";
import { type StatisticsAsked, statisticsLines } from "../../lib/sheet/statistics-words";
import { noChromium, open, settled, sharedBrowser, type } from "./browser";
import { graph } from "./fixture";
import { publishFixture } from "./make";

describe.skipIf(noChromium)("other statistics of a result", () => {
  let browser: Browser;
  let markup: string;
  beforeAll(async () => {
    [browser, markup] = await Promise.all([sharedBrowser(), publishFixture()]);
  });

  it("say what `why` says, for another coverage and beside another result too, and follow an input that is turned", async () => {
    const id = "lamp.rail[high].I";
    const lines = (asked: StatisticsAsked) => statisticsLines(id, new Evaluation(graph), asked).map((line) => line.trim());
    const { page, close, console: said } = await open(browser, markup);
    const selector = `details[data-statistics="${id}"]`;
    expect(await page.locator(`${selector} li`).count()).toBe(0);
    await page.evaluate(
      `for (let fold = document.querySelector(${JSON.stringify(selector)}); fold; fold = fold.parentElement.closest("details")) fold.open = true`,
    );
    const shown = () => page.locator(`${selector} li`).allTextContents();
    await page.waitForFunction(`document.querySelector(${JSON.stringify(`${selector} li`)}) !== null`);
    expect(await shown()).toEqual(lines({ coverage: 0.95 }));
    const ask = (name: string, value: string) =>
      page.evaluate(
        `(() => { const field = document.querySelector(${JSON.stringify(`${selector} select[data-asked="${name}"]`)}); field.value = ${JSON.stringify(value)}; field.dispatchEvent(new Event("change", { bubbles: true })); })()`,
      );
    await ask("coverage", "0.99");
    expect(await shown()).toEqual(lines({ coverage: 0.99 }));
    expect((await shown()).join()).toMatch(/shortest 99 %.*draws|draws.*shortest 99 %/);
    await ask("beside", "lamp.I");
    expect(await shown()).toEqual(lines({ coverage: 0.99, beside: "lamp.I" }));
    expect((await shown()).join()).toMatch(/correlation with lamp\.I: \d/);
    const before = await shown();
    await type(page, "the analog supply", "5 V");
    await settled(page);
    expect(await shown()).not.toEqual(before);
    expect(said).toEqual([]);
    await close();
  });
});
