/** What each given is worth, in the page: made when a reader unfolds it, and of the present state. */
import type { Browser } from "playwright-core";
import { beforeAll, describe, expect, it } from "vitest";
import { Evaluation } from "../../lib/analysis/evaluation";
import { readStateLink } from "../../lib/document/live/state-link";
import { percent } from "../../lib/document/text/show";
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
    const [place = "", id = ""] = /<div class="asked" data-of="([^"]+)"/.exec(markup) ?? [];
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

  it("has beside it where the spread comes from, as a run computes it, when the numbers of a turned input stand too", async () => {
    const id = "lamp.rail[high].I";
    const shares = (of: Evaluation) =>
      of
        .analysis(id)
        .contributions.map(({ share }) => share)
        .filter((share) => share >= 0.01)
        .sort((a, b) => b - a)
        .map(percent);
    const { page, close, console: said } = await open(browser, markup);
    const selector = `details[data-contributions="${id}"]`;
    const shown = () => page.locator(`${selector} tbody tr:has(a) td:nth-child(2)`).allTextContents();
    expect(await shown()).toEqual([]);
    await page.evaluate(
      `for (let fold = document.querySelector(${JSON.stringify(selector)}); fold; fold = fold.parentElement.closest("details")) fold.open = true`,
    );
    await expect.poll(shown).toEqual(shares(new Evaluation(graph)));
    expect((await shown()).length).toBeGreaterThan(1);
    const wide = "4.5 V ±10 %";
    await type(page, "the analog supply", wide);
    await settled(page);
    const { changes } = readStateLink(`#with?supply.high=${encodeURIComponent(wide)}`, graph.nodes());
    expect(shares(new Evaluation(graph.withChanges(changes)))).not.toEqual(shares(new Evaluation(graph)));
    await expect.poll(shown).toEqual(shares(new Evaluation(graph.withChanges(changes))));
    expect(said).toEqual([]);
    await close();
  });

  it("offers no shares of a result without any", async () => {
    const { page, close } = await open(browser, markup);
    const places = await page.evaluate<readonly (readonly [boolean, boolean])[]>(
      `[...document.querySelectorAll(".asked")].map((place) => ["spread" in place.dataset, place.querySelector("[data-contributions]").hidden])`,
    );
    expect(places.length).toBeGreaterThan(3);
    for (const [isSpread, isHidden] of places) expect(isHidden).toBe(!isSpread);
    await close();
  });
});
