import type { Browser } from "playwright-core";
import { afterAll, afterEach, beforeAll, describe, expect, it } from "vitest";
import { turnGiven } from "../../lib/document/live/turn";
import type { Changes } from "../../lib/graph/graph";
import { givenId } from "../../lib/graph/identity";
import type { GivenNode } from "../../lib/graph/node";
import { noChromium, type Opened, open, type PageState, settled, state, turnTo, type } from "./browser";
import { evaluation, graph } from "./fixture";
import { publishFixture } from "./make";

const edited = (path: string, text: string): Changes => ({
  givens: { [path]: turnGiven(graph.get(givenId(path)) as GivenNode, text).change },
});

/** Every number of the page against a fresh evaluation in this process: equal to the last bit. */
function expectFresh(page: PageState, changes: Changes): void {
  const fresh = evaluation(changes);
  expect(Object.keys(page.nominal).length).toBeGreaterThan(10);
  for (const [id, value] of Object.entries(page.nominal)) expect(value, id).toBe(fresh.nominal(id));
  expect(Object.keys(page.analyses).length).toBeGreaterThan(3);
  for (const [id, analysis] of Object.entries(page.analyses)) expect(analysis, id).toEqual(fresh.analysis(id));
}

describe.skipIf(noChromium)("the live page", () => {
  let browser: Browser;
  let markup: string;
  let opened: Opened;
  beforeAll(async () => {
    const { sharedBrowser } = await import("./browser");
    [browser, markup] = await Promise.all([sharedBrowser(), publishFixture()]);
    opened = await open(browser, markup);
    await turnTo(opened.page, ".result");
  });
  afterAll(async () => {
    await opened.close();
  });

  const heading = () => opened.page.locator("#changes summary").textContent();
  const reset = async () => {
    const button = opened.page.getByRole("button", { name: "Reset all" });
    if ((await button.isVisible()) && (await button.isEnabled())) await button.click();
    await settled(opened.page);
  };
  afterEach(reset);

  it("opens from disk without a request, a policy violation or an error", () => {
    expect(opened.requests).toEqual([]);
    expect(opened.console).toEqual([]);
  });

  it("computes what was published", async () => {
    expectFresh(await state(opened.page), {});
    expect(await opened.page.locator("#changes").isVisible()).toBe(false);
  });

  it("follows a changed given: nominal, sampled, verdicts and plot equal a fresh evaluation", async () => {
    const plot = await opened.page.locator("figure.plot svg").innerHTML();
    await type(opened.page, "the analog supply", "3.3 V");
    const page = await state(opened.page);
    expectFresh(page, edited("supply.high", "3.3 V"));
    expect(page.verdicts).toEqual({ bright: "does not hold", cool: "holds for 95 %", quiet: "not shown" });
    expect(await opened.page.locator("figure.plot svg").innerHTML()).not.toBe(plot);
    expect(await heading()).toMatch(/^1 change; \d+ numbers moved; 1 verdict flipped; 1 decision in doubt$/);
    expect(await opened.page.locator("#said").textContent()).toBe(await heading());
    expect(await opened.page.locator(".flag").textContent()).toContain("misses the limit on current");
  });

  it("shows after a change exactly the numbers that a fresh document shows", async () => {
    await type(opened.page, "current wanted", "3 mA");
    await settled(opened.page);
    const shown = await opened.page.locator("[data-show]").evaluateAll((elements) => elements.map((element) => element.textContent));
    const { showText } = await import("../../lib/document/text/show");
    const keys = await opened.page
      .locator("[data-show]")
      .evaluateAll((elements) =>
        elements.map((element) => (["node", "show", "unit"] as const).map((name) => element.getAttribute(`data-${name}`) ?? "")),
      );
    const fresh = evaluation(edited("lamp.current", "3 mA"));
    expect(shown).toEqual(keys.map(([node = "", show, unit = ""]) => showText({ node, show: show as "nominal", unit }, fresh)));
  });

  it("keeps the relative tolerance of a value typed without one, and says so", async () => {
    await type(opened.page, "the analog supply", "5 V");
    await settled(opened.page);
    expect(await opened.page.locator(".field-note").filter({ hasText: "kept" }).first().textContent()).toMatch(
      /^was 4\.5\sV ±2\s%; relative tolerance kept: 4\.90\sV to 5\.10\sV$/,
    );
  });

  it("shows the parser's error beside the field and computes nothing", async () => {
    const before = await state(opened.page);
    await type(opened.page, "the analog supply", "5 furlongs");
    const field = opened.page.getByRole("textbox", { name: "the analog supply", exact: true }).first();
    expect(await field.getAttribute("aria-invalid")).toBe("true");
    expect(await opened.page.locator(".field-note.wrong").textContent()).toMatch(/furlongs/);
    expect((await state(opened.page)).nominal).toEqual(before.nominal);
    await type(opened.page, "the analog supply", "4.5 V ±2 %");
    expect(await field.getAttribute("aria-invalid")).toBe("false");
  });

  it("follows a changed decision, in its switch and its flag", async () => {
    await opened.page.getByRole("radio", { name: "logic supply" }).check();
    const page = await state(opened.page);
    expectFresh(page, { choices: { "decisions.lamp.rail": "low" } });
    expect(page.flags.rail?.join()).toContain("misses the limit");
    await reset();
    expect((await state(opened.page)).flags).toEqual({});
  });

  it("follows a changed point of a table", async () => {
    const box = opened.page.locator("details.points").first();
    await box.locator("summary").click();
    await box.getByRole("textbox", { name: "current, point 3" }).fill("2.5");
    await box.getByRole("textbox", { name: "current, point 3" }).press("Tab");
    const table = graph.get("givens.lamp.curve");
    if (table.kind !== "table") throw new Error("the fixture has no table");
    expectFresh(await state(opened.page), {
      tables: { "lamp.curve": { x: table.x, y: [table.y[0] ?? 0, table.y[1] ?? 0, 0.0025, table.y[3] ?? 0] } },
    });
  });

  it("scales a table whole, as if every row had been edited, and lets a row be edited after that", async () => {
    const box = opened.page.locator("details.points").first();
    const table = graph.get("givens.lamp.curve");
    if (table.kind !== "table") throw new Error("the fixture has no table");
    await reset();
    await box.evaluate((element) => element.setAttribute("open", ""));
    const factor = box.getByRole("textbox", { name: "factor for every current" });
    await factor.fill("0.9");
    await factor.press("Tab");
    const scaled = { x: table.x, y: table.y.map((y) => y * 0.9) };
    expectFresh(await state(opened.page), { tables: { "lamp.curve": scaled } });
    expect(await opened.page.locator("#changes .changed").textContent()).toContain("×0.9");
    await box.getByRole("textbox", { name: "current, point 3" }).fill("2.5");
    await box.getByRole("textbox", { name: "current, point 3" }).press("Tab");
    const both = { x: table.x, y: scaled.y.map((y, index) => (index === 2 ? 0.0025 : y)) };
    expectFresh(await state(opened.page), { tables: { "lamp.curve": both } });
    await factor.fill("-1");
    await factor.press("Tab");
    expect(await box.locator(".field-note").textContent()).toContain("write a positive factor for its current, such as ×0.95");
    await reset();
  });

  it("undoes one change after another and resets a single one", async () => {
    await type(opened.page, "current wanted", "3 mA");
    await type(opened.page, "the analog supply", "5 V");
    await settled(opened.page);
    await opened.page.getByRole("button", { name: "Undo" }).click();
    expectFresh(await state(opened.page), edited("lamp.current", "3 mA"));
    await opened.page.getByRole("button", { name: "Reset current wanted" }).first().click();
    expectFresh(await state(opened.page), {});
    await opened.page.getByRole("button", { name: "Undo" }).click();
    expectFresh(await state(opened.page), edited("lamp.current", "3 mA"));
  });

  it("goes to the state that a link describes, and makes a link of the state that it is in", async () => {
    const { page } = opened;
    const changes = { ...edited("supply.high", "3.3 V ±1 %"), choices: { "decisions.lamp.rail": "low" } };
    await page.evaluate(() => {
      (globalThis as unknown as { location: { hash: string } }).location.hash =
        "#with?supply.high=3.3%20V%20%C2%B11%20%25&decisions.lamp.rail=low";
    });
    expectFresh(await state(page), changes);
    await page.getByRole("button", { name: "Undo" }).click();
    expectFresh(await state(page), {});
    await type(page, "current wanted", "3 mA");
    await page.getByRole("button", { name: "Link to this state" }).click();
    const address = page.url();
    expect(address).toContain("#with?lamp.current=3%20mA");
    await page.goto("about:blank");
    await page.goto(address);
    expectFresh(await state(page), edited("lamp.current", "3 mA"));
    await page.goto("about:blank");
    await page.goto(address.replace("lamp.current", "lamp.curent"));
    expect((await state(page)).changes).toEqual({});
    expect(await page.locator("#notice").textContent()).toContain('lamp.curent: no sheet reads "lamp.curent"; did you mean lamp.current');
  });

  it("finds a number by its name, says what it is, and what rests on it", async () => {
    const { page } = opened;
    await page.keyboard.press("/");
    await page.keyboard.type("V_f");
    const first = page.locator(".found a").first();
    expect(await first.textContent()).toMatch(/^V_f: forward voltage of the lamp 2\.85 V ±0\.12 V lamp\.forward$/);
    const target = await first.getAttribute("href");
    await first.click();
    expect(await page.locator(`[id="${(target ?? "#").slice(1)}"]`).textContent()).toContain("forward voltage");
    await page.keyboard.press("Escape");
    const law = page.locator(".law.numbers [data-node='givens.lamp.forward']").first();
    await turnTo(page, ".law.numbers [data-node='givens.lamp.forward']");
    await law.hover();
    expect(await law.getAttribute("title")).toBe("V_f, forward voltage of the lamp: 2.85 V ±0.12 V");
    await turnTo(page, "#register-lamp\\.forward");
    const uses = page.locator("#register-lamp\\.forward details.uses");
    await uses.locator("summary").click();
    await expect.poll(() => uses.locator("li").count()).toBeGreaterThan(1);
    expect(await uses.textContent()).toContain("requirement bright");
    await turnTo(page, ".result");
  });

  it("gives every element of the published page back after a reset", async () => {
    const body = () => opened.page.locator("main").textContent();
    const before = await body();
    await type(opened.page, "forward voltage of the lamp", "2.9 V");
    await settled(opened.page);
    expect(await body()).not.toBe(before);
    await reset();
    expect(await body()).toBe(before);
  });

  it("redraws a drawing", async () => {
    const drawing = () => opened.page.locator("figure.drawing svg").innerHTML();
    const before = await drawing();
    await type(opened.page, "length of the pipe", "20 mm");
    await settled(opened.page);
    expect(await drawing()).not.toBe(before);
    await reset();
    expect(await drawing()).toBe(before);
  });

  it("says where a value is outside what can be computed, and recovers", async () => {
    await type(opened.page, "forward voltage of the lamp", "3.4 V");
    await settled(opened.page);
    expect(await heading()).toContain("some results cannot be computed");
    await reset();
    expectFresh(await state(opened.page), {});
    expect(opened.console).toEqual([]);
  });

  it("reads without its program: values stand as text and code is folded", async () => {
    const still = await open(browser, markup, { javaScriptEnabled: false });
    expect(await still.page.getByText("4.5 V ±2 %").first().isVisible()).toBe(true);
    expect(await still.page.locator("details.code[open]").count()).toBe(0);
    await still.close();
  });

  it.each([390, 1440])("does not scroll sideways at %i px", async (width) => {
    const narrow = await open(browser, markup, { viewport: { width, height: 800 } });
    expect(await narrow.page.evaluate<number>("document.documentElement.scrollWidth")).toBe(width);
    await narrow.close();
  });
});
