/** The page and `workings vary` tell the same of one change: what was turned, what moved, what flipped, what is in doubt. */
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { headline, whatMoved } from "../../lib/document/live/moved";
import { readStateLink } from "../../lib/document/live/state-link";
import { movedBy, vary } from "../../lib/document/live/vary";
import { nameOf } from "../../lib/document/model/names";
import type { Show } from "../../lib/document/text/show";
import type { GraphNode } from "../../lib/graph/node";
import { noChromium, type Opened, open, settled, sharedBrowser } from "./browser";
import { graph } from "./fixture";
import { fixtureBook, publishFixture } from "./make";

const book = fixtureBook();

describe.skipIf(noChromium)("one change in the page and in vary", () => {
  let browser: Browser;
  let opened: Opened;
  beforeAll(async () => {
    browser = await sharedBrowser();
    opened = await open(browser, await publishFixture());
  });
  afterAll(async () => {
    await opened.close();
  });

  it.each([
    ["a given", "supply.high=3.3 V"],
    ["a tolerance", "supply.high=4.5 V ±0.5 %"],
    ["a table", "lamp.curve=×0.5"],
    ["a decision", "decisions.lamp.rail=low"],
    ["several", "supply.high=4.8 V&lamp.curve=×2&decisions.lamp.rail=low"],
  ])("moves the same numbers, in the same words: %s", async (_, parts) => {
    const link = `#with?${parts
      .split("&")
      .map((part) => part.split("=").map(encodeURIComponent).join("="))
      .join("&")}`;
    const moved = movedBy(book, readStateLink(link, graph.nodes()).changes);
    await opened.page.evaluate((target) => {
      (globalThis as unknown as { location: { hash: string } }).location.hash = target;
    }, link);
    await settled(opened.page);
    expect(await opened.page.locator("#changes summary .words").textContent()).toBe(headline(moved));
    const rows = await opened.page
      .locator("#changes table.moves tbody tr")
      .evaluateAll((all) =>
        all.map((row) => [row.querySelector(".symbol")?.textContent, ...[...row.querySelectorAll("td")].map((cell) => cell.textContent)]),
      );
    const told = moved.movements.map(({ node, before, after }) => [nameOf(node.id), before, after]);
    expect(rows.toSorted()).toEqual(told.toSorted());
    const turned = await opened.page.locator("#changes .changed li").allTextContents();
    expect(turned.map((text) => text.replace(/^[^:]*: | reset$/g, ""))).toEqual(
      moved.turned.map(({ before, after, note }) => `${before} → ${after}${note === undefined ? "" : ` (${note})`}`),
    );
  });
});

describe("a change of what is not known", () => {
  it("is told by the doubt or the worst case where value and 95 % stand", () => {
    const node = graph.nodes().find(({ kind }) => kind === "formula") as GraphNode;
    const seen = (show: Show, before: string, text: string) => ({ shown: { node: node.id, show, unit: "dB" }, before, text });
    const still = [seen("result", "32 dB", "32 dB"), seen("interval", "29 dB to 34 dB", "29 dB to 34 dB")];
    const now = { verdicts: {}, flags: {}, assumptions: [], outside: [], problems: [] };
    const told = (more: readonly ReturnType<typeof seen>[]) =>
      whatMoved({}, graph.nodes(), [...still, ...more], now, {}).movements.map(({ before, after }) => [before, after]);
    expect(told([])).toEqual([]);
    const worst = seen("worst", "9 dB to 55 dB", "5 dB to 59 dB");
    expect(told([worst])).toEqual([["32 dB (worst case: 9 dB to 55 dB)", "32 dB (worst case: 5 dB to 59 dB)"]]);
    const doubt = seen("doubt", "18 dB to 46 dB", "15 dB to 49 dB");
    expect(told([worst, doubt])).toEqual([["32 dB (doubt: 18 dB to 46 dB)", "32 dB (doubt: 15 dB to 49 dB)"]]);
  });
});

describe("what cannot be computed", () => {
  it("is told as such, and its verdict is not shown", () => {
    const varied = vary(book, ["lamp.forward=3.5 V ±0.1 V"]);
    expect(varied.problems.length).toBeGreaterThan(0);
    expect(varied.headline).toContain("some results cannot be computed");
    expect(varied.moved.find(({ name }) => name === "lamp.I_curve")?.after).toBe("cannot be computed");
  });
});
