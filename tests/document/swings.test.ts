/** What each given is worth, in the page: made when a reader unfolds it, and of the present state. */
import type { Browser } from "playwright-core";
import { beforeAll, describe, expect, it } from "vitest";
import { Evaluation } from "../../lib/analysis/evaluation";
import { format } from "../../lib/quantity/format";
import { unitOf } from "../../lib/quantity/unit";
import { noChromium, open, settled, sharedBrowser, type } from "./browser";
import { graph } from "./fixture";
import { publishFixture } from "./make";

describe.skipIf(noChromium)("what each given is worth", () => {
  let browser: Browser;
  let markup: string;
  beforeAll(async () => {
    [browser, markup] = await Promise.all([sharedBrowser(), publishFixture()]);
  });

  it("is not in the document; unfolded it shows both ends as a run computes them, and follows an input that is turned", async () => {
    const [place = "", id = ""] = /<details class="contributions swings" data-swings="([^"]+)">/.exec(markup) ?? [];
    expect(place).not.toBe("");
    const evaluation = new Evaluation(graph);
    const texts = (of: Evaluation) =>
      of
        .swings(id)
        .flatMap(({ low, high }) =>
          [low, high].map(({ result }) => format({ si: result ?? Number.NaN, unit: unitOf(graph.get(id).unit) })),
        );
    const { page, close, console: said } = await open(browser, markup);
    const selector = JSON.stringify(`details[data-swings="${id}"]`);
    const shown = () =>
      page.evaluate<string[]>(
        `[...document.querySelector(${selector}).querySelectorAll("tbody td:not(:last-child)")].map((cell) => cell.firstChild.textContent.trim())`,
      );
    expect(await shown()).toEqual([]);
    await page.evaluate(
      `for (let fold = document.querySelector(${selector}); fold; fold = fold.parentElement.closest("details")) fold.open = true`,
    );
    await page.waitForFunction(`document.querySelector(${selector}).querySelector("td") !== null`);
    const before = await shown();
    expect(before).toEqual(texts(evaluation));
    expect(before.length).toBeGreaterThan(1);
    await type(page, "the analog supply", "5 V");
    await settled(page);
    expect(await shown()).not.toEqual(before);
    expect(said).toEqual([]);
    await close();
  });
});
