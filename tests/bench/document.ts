/** The document: how long it takes to make, how large it is, how it opens and follows a change in Chromium. */
import { existsSync, readdirSync, readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import { chromium, type Page } from "playwright-core";
import { type Contender, type Measured, median, takeTurns } from "./measure";
import { copyBook, outputFolder, seconds, sheetFiles, workings } from "./place";
import { pythonWith } from "./python";
import { type Criterion, fasterThan, type Row } from "./row";

const chromiumPath = "/usr/bin/chromium";

export async function documentRows(): Promise<Row[]> {
  const folder = copyBook("document");
  const sheets = sheetFiles(folder);
  workings(folder, "run");
  const built = await building(folder, sheets);
  const build = join(folder, "build");
  const document = join(build, readdirSync(build).find((file) => file.endsWith(".html")) as string);
  return [{ ...built, criteria: [...built.criteria, ...sizes(document, sheets)] }, ...(await inChromium(document))];
}

/** Of the document, of what a sheet adds to it, and of the largest notebook. */
function sizes(document: string, sheets: readonly string[]): Criterion[] {
  const html = readFileSync(document, "utf8");
  const shared = (html.match(/<(script id="program"|style)\b[^>]*>.*?<\/(?:script|style)>/gs) ?? []).join("");
  const share = (Buffer.byteLength(html) - Buffer.byteLength(shared)) / sheets.length;
  const notebook = Math.max(...sheets.map((file) => statSync(file).size));
  const bytes = (what: string, measured: number, limit: number): Criterion => ({
    what,
    measured: measured / 1e6,
    limit,
    is: "at most",
    unit: "MB",
  });
  return [
    bytes("size of the document", statSync(document).size, 5),
    bytes("a sheet's share of the document, without program and style", share, 0.2),
    bytes("size of the largest notebook", notebook, 0.35),
  ];
}

async function building(folder: string, sheets: readonly string[]): Promise<Row> {
  const python = pythonWith("nbconvert");
  const html = ["-m", "nbconvert", "--to", "html", "--output-dir", join(outputFolder, "nbconvert"), ...sheets];
  const contenders: Contender[] = [
    { name: "workings publish", run: () => ({ seconds: workings(folder, "publish"), answer: [] }) },
    ...(python === undefined ? [] : [{ name: "nbconvert --to html", run: () => ({ seconds: seconds(folder, python, html), answer: [] }) }]),
  ];
  const times = await takeTurns(contenders, 3);
  return {
    title: `The document of ${sheets.length} worksheets, made`,
    unit: "s",
    times,
    criteria: fasterThan(times, "nbconvert --to html", 1),
    notes: python === undefined ? ["nbconvert is not installed here"] : [],
  };
}

async function inChromium(document: string): Promise<Row[]> {
  if (!existsSync(chromiumPath)) {
    if (process.env.CI === "true") throw new Error("continuous integration needs Chromium");
    return [{ title: "The document in Chromium", unit: "ms", times: [], criteria: [], notes: ["Chromium is not installed here"] }];
  }
  const browser = await chromium.launch({ executablePath: chromiumPath, args: ["--no-sandbox", "--disable-gpu"] });
  try {
    const opened: Opening[] = [];
    for (let turn = 0; turn < 5; turn++) opened.push(await opening(await browser.newPage(), document));
    const page = await browser.newPage();
    await opening(page, document);
    const changes = await changing(page);
    return [openingRow(opened), changingRow(changes)];
  } finally {
    await browser.close();
  }
}

interface Opening {
  readonly painted: number;
  readonly loaded: number;
  readonly settled: number;
}

/** Milliseconds from the start of the navigation: first paint with content, load, everything evaluated once. */
async function opening(page: Page, document: string): Promise<Opening> {
  await page.goto(`file://${document}`);
  return page.evaluate(async () => {
    const scope = globalThis as unknown as Partial<PageScope>;
    while (scope.workings?.state().settled !== true) await new Promise((resume) => setTimeout(resume, 5));
    const settled = performance.now();
    // The types at hand are those of Node, whose timeline knows no navigation.
    const entries = performance.getEntries() as unknown as { entryType: string; loadEventEnd: number }[];
    const navigation = entries.find(({ entryType }) => entryType === "navigation");
    const painted = performance.getEntriesByName("first-contentful-paint")[0]?.startTime ?? Number.NaN;
    return { painted, loaded: navigation?.loadEventEnd ?? Number.NaN, settled };
  });
}

function openingRow(opened: readonly Opening[]): Row {
  const of = (name: string, which: keyof Opening) => measured(name, median(opened.map((one) => one[which])));
  const times = [of("first paint", "painted"), of("loaded, nominal numbers live", "loaded"), of("evaluated once in the worker", "settled")];
  const loaded = times[1]?.seconds ?? Number.NaN;
  return {
    title: "The document opens in Chromium, from disk",
    unit: "ms",
    times,
    criteria: [{ what: "time to load", measured: loaded, limit: 1.5, is: "below", unit: "s" }],
    notes: [],
  };
}

interface Change {
  readonly nominal: number;
  readonly settled: number;
}

/** Every slider of the page to its low end, one at a time: the nominal numbers follow within the event. */
async function changing(page: Page): Promise<Change[]> {
  return page.evaluate(async () => {
    const scope = globalThis as unknown as PageScope;
    const sliders = [...scope.document.querySelectorAll("input[type=range]")];
    const changes: { nominal: number; settled: number }[] = [];
    // The first change pays for what the engine has not compiled yet; it is made twice.
    for (const slider of sliders.slice(0, 1).concat(sliders.slice(0, 40))) {
      const start = performance.now();
      slider.value = slider.min;
      slider.dispatchEvent(new Event("input", { bubbles: true }));
      const nominal = performance.now() - start;
      while (!scope.workings.state().settled) await new Promise((resume) => setTimeout(resume, 2));
      changes.push({ nominal, settled: performance.now() - start });
    }
    return changes.slice(1);
  });
}

/** As much of the browser as the page's functions above use. */
interface PageScope {
  readonly document: { querySelectorAll(selector: string): Iterable<Slider> };
  readonly workings: { state(): { settled: boolean } };
}
interface Slider {
  value: string;
  readonly min: string;
  dispatchEvent(event: Event): void;
}

function changingRow(changes: readonly Change[]): Row {
  const nominal = changes.map((one) => one.nominal);
  const times = [
    measured("nominal numbers, median", median(nominal)),
    measured("nominal numbers, slowest", Math.max(...nominal)),
    measured("all settled, median", median(changes.map((one) => one.settled))),
    measured("all settled, slowest", Math.max(...changes.map((one) => one.settled))),
  ];
  return {
    title: `One given changed in the page (${changes.length} sliders)`,
    unit: "ms",
    times,
    criteria: [{ what: "nominal numbers after a change, median", measured: median(nominal), limit: 16, is: "below", unit: "ms" }],
    notes: [],
  };
}

function measured(name: string, milliseconds: number): Measured {
  return { name, seconds: milliseconds / 1000 };
}
