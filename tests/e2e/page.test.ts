/**
 * The promise of the page: a reader who changes a given sees what a fresh run of the edited design file gives.
 * For every given, table and alternative of the worksheet: changed in Chromium, and in the design file for the
 * runner; nominal values agree to 1e-12, sampled ones exactly.
 */
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Analysis } from "../../lib/analysis/result";
import { readBook } from "../../lib/book/book";
import { editDecision, editGiven, editTableCell } from "../../lib/design/edit";
import { readDesign } from "../../lib/design/read";
import { publishBook } from "../../lib/document/publish";
import { launch, noChromium, type Opened, open, type PageState, settled, state, type } from "../document/browser";
import { designText, type Fresh, freshRun, root } from "./run";

const design = readDesign(designText(), "data/bittern/design.yaml");

/** Another value of every scalar given, with its spread as an engineer would write it. */
const values: Readonly<Record<string, string>> = {
  "rails.logic.voltage": "3.1 V ±3 %",
  "rails.logic.efficiency": "84 % (75 to 95 %)",
  "rails.auxiliary.voltage": "3.4 V ±2 %",
  "rails.auxiliary.efficiency": "82 % (76 to 88 %)",
  "rails.positive.voltage": "4.3 V ±3 %",
  "rails.positive.efficiency": "75 % (70 to 80 %)",
  "budget.play": "80 mW ±6 mW",
  "enclosure.wall": "1.6 mm ±0.1 mm",
  "ambient.rated": "20 °C",
  "ambient.field": "20 °C in 0 °C to 40 °C",
  "indicators.target": "25 mcd",
  "indicators.test-current": "2.2 mA",
  "indicators.test-temperature": "23 °C",
  "indicators.resistor": "±5 %",
  "indicators.distance": "0.4 m",
  "indicators.pulse.duty": "25 %",
  "indicators.pulse.frequency": "400 Hz",
  "indicators.pipe.transmission": "0.70 ±0.05",
  "indicators.pipe.diameter": "2.2 mm",
  "indicators.pipe.length": "7 mm",
  "indicators.pipe.gap": "1.8 mm",
  "indicators.pipe.viewing": "50°",
  "indicators.green.forward": "2.95 V ±0.15 V (3σ)",
  "indicators.green.intensity": "60 mcd",
  "indicators.green.bin": "±5 %",
  "indicators.green.fading": "-0.3 %/K",
  "indicators.green.drift": "-4 mV/K",
  "indicators.red.forward": "1.90 V ±0.06 V (3σ)",
  "indicators.red.intensity": "40 mcd",
  "indicators.red.bin": "±12 %",
  "indicators.red.fading": "-0.7 %/K",
  "indicators.red.drift": "-1.8 mV/K",
  "indicators.amber.forward": "2.05 V ±0.1 V (3σ)",
  "indicators.amber.intensity": "44 mcd",
  "indicators.amber.bin": "±8 %",
  "indicators.amber.fading": "-0.9 %/K",
  "indicators.amber.drift": "-2.2 mV/K",
};
/** A cell of each table: row, column from 0, and its new number. */
const cells: Readonly<Record<string, readonly [row: number, column: number, value: number]>> = {
  "indicators.green.iv": [5, 0, 2.86],
  "indicators.green.relative": [5, 1, 0.8],
  "indicators.red.iv": [6, 1, 3.1],
  "indicators.red.relative": [7, 1, 1.55],
  "indicators.amber.iv": [6, 1, 2.9],
  "indicators.amber.relative": [7, 1, 1.5],
};
const alternatives: Readonly<Record<string, string>> = { logic: "3.0 V logic rail", auxiliary: "3.3 V from one more converter" };

/** The numbers of a page against those of a fresh run. */
function expectEqual(page: PageState, fresh: Fresh): void {
  for (const [id, value] of Object.entries(page.nominal)) {
    const own = fresh.evaluation.nominal(id);
    expect(Math.abs(value - own), id).toBeLessThanOrEqual(1e-12 * Math.abs(own));
  }
  expect(Object.keys(page.analyses).length).toBeGreaterThan(20);
  for (const [id, analysis] of Object.entries(page.analyses) as [string, Analysis][]) {
    const own = fresh.evaluation.analysis(id);
    expect(analysis.interval, id).toEqual(own.interval);
    expect(analysis.worst, id).toEqual(own.worst);
    expect(analysis, id).toEqual(own);
  }
  const verdicts = [...fresh.verdicts].map(([id, { verdict }]) => [id, verdict] as const);
  expect(verdicts.length).toBeGreaterThan(0);
  for (const [id, verdict] of verdicts) expect(page.verdicts[id], id).toBe(verdict);
}

const label = (path: string) => design.given(path).meaning ?? path;

/** What is done in the page, and the same in the design file. */
interface Change {
  readonly name: string;
  readonly edited: (design: string) => string;
  readonly turn: (page: Page) => Promise<void>;
}

const changes: readonly Change[] = [
  ...Object.entries(values).map(([path, text]) => ({
    name: `${path} = ${text}`,
    edited: (before: string) => editGiven(before, path, text),
    turn: (page: Page) => type(page, label(path), text),
  })),
  ...Object.entries(cells).map(([path, [row, column, value]]) => ({
    name: `${path}, row ${row + 1}, column ${column + 1} = ${value}`,
    edited: (before: string) => editTableCell(before, path, row, column, value),
    turn: (page: Page) => typeCell(page, path, row, column, value),
  })),
  ...Object.entries(alternatives).map(([name, text]) => ({
    name: `decisions.indicators.rail = ${name}`,
    edited: (before: string) => editDecision(before, "decisions.indicators.rail", name),
    turn: (page: Page) => page.getByRole("radio", { name: text }).check(),
  })),
];

async function typeCell(page: Page, path: string, row: number, column: number, value: number): Promise<void> {
  const table = page.locator(`table[data-table="${path}"]`).first();
  await table.evaluate((element) => element.closest("details")?.setAttribute("open", ""));
  const cell = table.locator("tbody tr").nth(row).locator("input").nth(column);
  await cell.fill(String(value));
  await cell.press("Tab");
}

describe.skipIf(noChromium)("the published page", () => {
  let browser: Browser;
  let opened: Opened;
  let original: Fresh;

  beforeAll(async () => {
    [browser, original] = await Promise.all([launch(), freshRun(designText())]);
    const book = readBook(join(root, "notebooks/book.yaml"));
    opened = await open(browser, await publishBook({ book, sheets: [{ name: "indicators", notebook: original.notebook }], design }));
  });
  afterAll(async () => {
    await opened?.close();
    await browser?.close();
  });

  it("is turned here in every given, table and decision that the worksheet takes", () => {
    const taken = original.evaluation.graph.nodes().flatMap((node) => ("path" in node ? [node.path] : []));
    expect([...new Set(taken)].sort()).toEqual([...Object.keys(values), ...Object.keys(cells), "decisions.indicators.rail"].sort());
  });

  it("opens with the numbers of a fresh run, none of them frozen", async () => {
    const page = await state(opened.page);
    expectEqual(page, original);
    expect(Object.values(page.analyses).filter((analysis) => (analysis as Analysis).frozen)).toEqual([]);
  });

  it.concurrent.each(changes)("equals a fresh run: $name", async ({ edited, turn }) => {
    const fresh = await freshRun(edited(designText()));
    const page = await oneAtATime(async () => {
      await turn(opened.page);
      const changed = await state(opened.page);
      await opened.page.getByRole("button", { name: "Reset all" }).click();
      await settled(opened.page);
      return changed;
    });
    expect(page.nominal).not.toEqual({});
    expect(Object.values(page.changes).flatMap((some) => Object.keys(some as object)).length).toBe(1);
    expectEqual(page, fresh);
  });

  it("asked for nothing over the network and broke no policy", () => {
    expect(opened.requests).toEqual([]);
    expect(opened.console).toEqual([]);
  });
});

let last: Promise<unknown> = Promise.resolve();
/** There is one page; runs of the worksheet go on beside it. */
function oneAtATime<T>(job: () => Promise<T>): Promise<T> {
  const next = last.then(job, job);
  last = next.catch(() => undefined);
  return next;
}
