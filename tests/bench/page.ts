/**
 * The published page in Chromium: how it opens, and how it follows a change of a given that few results follow from, of one that many do,
 * and of a decision. Of the demo book, and of one of sixteen sheets that is made of it. Beside the time on the clock stands the CPU
 * time of all the page's threads, which the load of the machine does not lengthen.
 */
import { existsSync, writeFileSync } from "node:fs";
import { loadavg } from "node:os";
import { join } from "node:path";
import { type Browser, chromium, type Page } from "playwright-core";
import { type Book, makeBook } from "../../lib/book/book";
import { readBookFile } from "../../lib/book/book-file";
import { publishBook } from "../../lib/document/publish";
import { readNotebook } from "../../lib/kernel/notebook";
import { readDesignFile } from "../../lib/sheet/project";
import { manySheets } from "./many-sheets";
import { type Measured, median } from "./measure";
import { copyBook } from "./place";
import { rendererTime } from "./renderer";
import type { Criterion, Row } from "./row";
import "../../lib/physics";

const chromiumPath = "/usr/bin/chromium";

/** What a reader turns, as links to the state. */
const changes = {
  "a given of one sheet": "enclosure.pad.thickness=2.2 mm ±0.1 mm",
  "a given far upstream": "indicators.green.forward=2.9 V ±5 %",
  "a decision": "decisions.brief.board=thick",
} as const;

export async function pageRows(): Promise<Row[]> {
  if (!existsSync(chromiumPath)) {
    if (process.env.CI === "true") throw new Error("continuous integration needs Chromium");
    return [{ title: "The page in Chromium", unit: "ms", times: [], criteria: [], notes: ["Chromium is not installed here"] }];
  }
  const folder = copyBook("page");
  const book = bookIn(folder);
  const browser = await chromium.launch({ executablePath: chromiumPath, args: ["--no-sandbox", "--disable-gpu"] });
  try {
    return [
      ...(await rowsOf(browser, book, folder)),
      ...(await rowsOf(browser, manySheets(book, Math.ceil(16 / book.sheets.length)), folder)),
    ];
  } finally {
    await browser.close();
  }
}

/** As its outputs say, which need not be fresh. */
function bookIn(folder: string): Book {
  const title = readBookFile(join(folder, "notebooks/book.yaml"));
  const design = readDesignFile(join(folder, "data/bittern/design.yaml"), folder);
  return makeBook({ title, design, sheets: title.worksheets.map(({ name, path }) => ({ name, notebook: readNotebook(path) })) });
}

async function rowsOf(browser: Browser, book: Book, folder: string): Promise<Row[]> {
  const path = join(folder, `${book.sheets.length}.html`);
  writeFileSync(path, publishBook(book));
  const opened: Opening[] = [];
  for (let turn = 0; turn < 3; turn++) opened.push(await inNewPage(browser, (page) => opening(page, path)));
  const turned = await inNewPage(browser, async (page) => {
    await opening(page, path);
    const found: [string, Turned][] = [];
    // The first turn pays for what the engine has not compiled yet; it is made twice.
    const kinds = Object.entries(changes);
    for (const [kind, link] of [...kinds.slice(0, 1), ...kinds]) found.push([kind, await turning(page, link)]);
    return found.slice(1);
  });
  const sheets = `${book.sheets.length} worksheets`;
  return [openingRow(sheets, opened), ...turned.map(([kind, one]) => turnedRow(sheets, kind, one))];
}

async function inNewPage<T>(browser: Browser, job: (page: Page) => Promise<T>): Promise<T> {
  const page = await browser.newPage({ viewport: { width: 1280, height: 900 } });
  try {
    return await job(page);
  } finally {
    await page.close();
  }
}

interface Opening {
  readonly painted: number;
  readonly loaded: number;
  readonly live: number;
  readonly cpu: number;
}

/** As much of the browser as the functions below use within the page. */
interface PageScope {
  readonly workings?: { stands(): string };
  readonly history: { replaceState(data: null, unused: string, url: string): void };
  dispatchEvent(event: Event): boolean;
}

/** Milliseconds from the start of the navigation: first paint with content, load, everything evaluated and ready to be turned. */
async function opening(page: Page, path: string): Promise<Opening> {
  const before = rendererTime() ?? Number.NaN;
  await page.goto(`file://${path}`);
  const times = await page.evaluate(async () => {
    const scope = globalThis as unknown as PageScope;
    while (scope.workings?.stands() !== "all") await new Promise((resume) => setTimeout(resume, 5));
    const live = performance.now();
    // The types at hand are those of Node, whose timeline knows no navigation.
    const entries = performance.getEntries() as unknown as { entryType: string; loadEventEnd: number }[];
    const navigation = entries.find(({ entryType }) => entryType === "navigation");
    const painted = performance.getEntriesByName("first-contentful-paint")[0]?.startTime ?? Number.NaN;
    return { painted, loaded: navigation?.loadEventEnd ?? Number.NaN, live };
  });
  return { ...times, cpu: (rendererTime() ?? Number.NaN) - before };
}

interface Turned {
  readonly nominal: number;
  readonly seen: number;
  readonly numbers: number;
  readonly all: number;
  readonly seenCpu: number;
  readonly cpu: number;
}

/** One change from the state before, and back: milliseconds until the nominal numbers, what is on the screen, all numbers, all plots stand. */
async function turning(page: Page, change: string): Promise<Turned> {
  const link = `#with?${change.split("=").map(encodeURIComponent).join("=")}`;
  const before = rendererTime() ?? Number.NaN;
  const nominal = await page.evaluate((hash) => {
    const scope = globalThis as unknown as PageScope;
    scope.history.replaceState(null, "", hash);
    const start = performance.now();
    scope.dispatchEvent(new Event("hashchange"));
    Object.assign(scope, { start });
    if (scope.workings?.stands() === "all") throw new Error(`${hash} changes nothing`);
    return performance.now() - start;
  }, link);
  const seen = await until(page, ["seen", "numbers", "all"]);
  const seenCpu = (rendererTime() ?? Number.NaN) - before;
  const numbers = await until(page, ["numbers", "all"]);
  const all = await until(page, ["all"]);
  const cpu = (rendererTime() ?? Number.NaN) - before;
  await page.evaluate(() => {
    const scope = globalThis as unknown as PageScope;
    scope.history.replaceState(null, "", "#with?");
    scope.dispatchEvent(new Event("hashchange"));
  });
  await until(page, ["all"]);
  return { nominal, seen, numbers, all, seenCpu, cpu };
}

/** Milliseconds since the change until the page stands so far. */
function until(page: Page, stands: readonly string[]): Promise<number> {
  return page.evaluate(async (wanted) => {
    const scope = globalThis as unknown as PageScope & { start: number };
    while (!wanted.includes(scope.workings?.stands() ?? "")) await new Promise((resume) => setTimeout(resume, 2));
    return performance.now() - scope.start;
  }, stands);
}

function openingRow(sheets: string, opened: readonly Opening[]): Row {
  const of = (which: keyof Opening) => median(opened.map((one) => one[which]));
  return {
    title: `page: opens and is evaluated (${sheets}, from disk)`,
    unit: "ms",
    times: [
      measured("first paint", of("painted")),
      measured("loaded", of("loaded")),
      measured("evaluated, ready to be turned", of("live")),
      measured("CPU time of the page and its workers", of("cpu")),
    ],
    criteria: [limit("opens: time to load", of("loaded"), 1500), limit("evaluated: time after that", of("live") - of("loaded"), 1500)],
    notes: [load()],
  };
}

function turnedRow(sheets: string, kind: string, { nominal, seen, numbers, all, seenCpu, cpu }: Turned): Row {
  return {
    title: `page: change settles, ${kind} (${sheets})`,
    unit: "ms",
    times: [
      measured("nominal numbers", nominal),
      measured("all that is on the screen", seen),
      measured("all numbers", numbers),
      measured("all plots", all),
      measured("CPU time until the screen stands", seenCpu),
      measured("CPU time until all stands", cpu),
    ],
    criteria: [limit("nominal numbers", nominal, 16), limit("all that is on the screen", seen, 500)],
    notes: [load()],
  };
}

function load(): string {
  return `load of the machine ${loadavg()[0]?.toFixed(1)}`;
}

function limit(what: string, milliseconds: number, most: number): Criterion {
  return { what, measured: milliseconds, limit: most, is: "at most", unit: "ms" };
}

function measured(name: string, milliseconds: number): Measured {
  return { name, seconds: milliseconds / 1000 };
}
