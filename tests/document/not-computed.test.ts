/** One value outside a table's rows: only what is computed from it goes, and says why; and the page survives what its address holds. */
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { vary } from "../../lib/document/live/vary";
import { parseFormula } from "../../lib/formula/parse";
import type { GraphNode } from "../../lib/graph/node";
import type { Block } from "../../lib/sheet/block";
import { noChromium, type Opened, open, settled, sharedBrowser, type } from "./browser";
import { codeCell, display, graph, lampSheet, notebook } from "./fixture";
import { fixtureBook, publishFixture } from "./make";

const sum: GraphNode = {
  kind: "formula",
  id: "meter.sum",
  text: "I + I_c",
  expression: parseFormula("I + I_c", ["I", "I_c"]).expression,
  arguments: { I: "lamp.I", I_c: "lamp.I_curve" },
  dimension: "A",
  unit: "mA",
  meaning: "current of both",
};

const blocks: readonly Block[] = [
  { type: "requirement", requirement: "bright", node: "lamp.I_curve" },
  {
    type: "collection",
    budget: "current",
    node: "meter.sum",
    items: [
      { label: "lamp", sheet: "lamp", node: "lamp.I" },
      { label: "meter", sheet: "meter", node: "lamp.I_curve" },
    ],
  },
  {
    type: "table",
    caption: "Both currents",
    laws: [],
    columns: [{ symbol: "I", meaning: "current" }],
    rows: [
      { label: "of the lamp", cells: ["lamp.I"] },
      { label: "of the curve", cells: ["lamp.I_curve"] },
    ],
  },
];

const meterSheet = {
  name: "meter",
  notebook: notebook([
    codeCell(
      "show();",
      blocks.map((block) => ({ ...display(block, "meter"), nodes: [...graph.nodes(), sum] })),
    ),
  ]),
};

/** The curve ends at 2.8 V, below the lamp's 2.85 V. */
const short = "lamp.curve=[[2.6,2.7,2.75,2.8],[0.0001,0.0005,0.001,0.0015]]";
const why = "2.85";

describe.skipIf(noChromium)("a table that no longer reaches", () => {
  let browser: Browser;
  let opened: Opened;
  beforeAll(async () => {
    browser = await sharedBrowser();
    opened = await open(browser, await publishFixture([lampSheet, meterSheet]));
    await opened.page.evaluate(
      (target) => {
        (globalThis as unknown as { location: { hash: string } }).location.hash = target;
      },
      `#with?${short.split("=").map(encodeURIComponent).join("=")}`,
    );
    await settled(opened.page);
  });
  afterAll(async () => {
    await opened.close();
  });
  const rows = (selector: string) => opened.page.locator(`${selector} tbody tr`).allTextContents();

  it("takes away its own row among the verdicts, which says why, and no other", async () => {
    const [lamp = "", curve = "", cool = "", ...more] = await rows("#verdicts [data-part='verdicts'] table");
    expect(more).toEqual([]);
    expect(lamp).toContain("✓ holds");
    expect(curve).toMatch(/cannot be computed .*2\.85.*\? not shown/s);
    expect(cool).toContain("✓ holds for 95 %");
    const section = (await opened.page.locator("#verdicts").textContent()) ?? "";
    expect(section).toContain("1 of 3 requirements hold; 1 cannot be computed with these values; no sheet computes 1 of them yet.");
    expect(section).toContain("Yield by design: cannot be computed with these values, since it needs bright");
  });

  it("takes away its own item and the sum of a budget, and no other item", async () => {
    const [lamp = "", curve = ""] = await rows(".budget-bars");
    expect(lamp).toMatch(/lamp\s*\d[\d.]*\s*mA/);
    expect(curve).toContain("cannot be computed");
    expect(await opened.page.locator(".budget-bars tfoot").textContent()).toContain("cannot be computed");
    expect(await opened.page.locator(".budget-bars").innerHTML()).not.toContain("NaN");
  });

  it("takes away its own cell of a table, and no other", async () => {
    const [lamp = "", curve = ""] = await rows("[data-part='table'][data-ref='meter/2'] table");
    expect(lamp).toMatch(/\d/);
    expect(curve).toContain("cannot be computed");
  });

  it("says why where the result stands", async () => {
    expect(await opened.page.locator("[data-part='warnings'][data-ref='lamp.I_curve']").textContent()).toContain(why);
  });

  it("is told in the bar, and is gone after it is undone", async () => {
    expect(await opened.page.locator("#changes .warnings").textContent()).toContain(why);
    await opened.page.getByRole("button", { name: "Undo" }).click();
    await settled(opened.page);
    expect(await opened.page.locator("#verdicts").textContent()).not.toContain("cannot be computed");
  });
});

describe.skipIf(noChromium)("the page", () => {
  let browser: Browser;
  let opened: Opened;
  beforeAll(async () => {
    browser = await sharedBrowser();
    opened = await open(browser, await publishFixture());
  });
  afterAll(async () => {
    await opened.close();
  });

  it("is done recalculating after the last change was undone", async () => {
    await type(opened.page, "current wanted", "3 mA");
    await settled(opened.page);
    await opened.page.getByRole("button", { name: "Undo" }).click();
    await settled(opened.page);
    expect(await opened.page.locator("#changes .words").textContent()).not.toContain("Recalculating");
    expect(await opened.page.locator("#changes").isVisible()).toBe(false);
  });

  it("opens on, goes to and follows an address whose percent-encoding is malformed", async () => {
    const { page } = opened;
    const address = page.url().replace(/#.*/, "");
    await page.goto("about:blank");
    await page.goto(`${address}#%`);
    await settled(page);
    await page.evaluate(() => {
      (globalThis as unknown as { location: { hash: string } }).location.hash = "#50%zz";
    });
    await page.evaluate("document.body.insertAdjacentHTML('beforeend', '<a id=\"odd\" href=\"#%E0%A4%A\">odd</a>')");
    await page.locator("#odd").click();
    await type(page, "current wanted", "3 mA");
    await settled(page);
    expect(await page.locator("#changes .words").textContent()).toMatch(/^1 change; /);
    expect(opened.console).toEqual([]);
  });
});

describe("vary, where a table no longer reaches", () => {
  it("lets the other answer of the same requirement decide, and tells what cannot be computed", () => {
    const book = fixtureBook([lampSheet, meterSheet]);
    const outside = vary(book, ["lamp.forward=3.05 V ±0.01 V", "supply.high=3.3 V"]);
    expect(outside.problems.join()).toContain("3.05");
    // It did not hold before, and the answer that is left does not hold.
    expect(outside.verdicts.map(({ requirement }) => requirement)).not.toContain("bright");
  });
});
