/** Chromium for tests of the live page. Where it is missing, tests are skipped, except in continuous integration. */
import { existsSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Browser, type BrowserContextOptions, chromium, type Page } from "playwright-core";
import { hooks } from "../shared-process";

const chromiumPath = "/usr/bin/chromium";
export const noChromium = !existsSync(chromiumPath) && process.env.CI !== "true";

let shared: Promise<Browser> | undefined;

/** One for all files of this process, with which it ends: each page has a context of its own, as in a browser just started. */
export async function sharedBrowser(): Promise<Browser> {
  if (shared !== undefined && (await shared).isConnected()) return shared;
  shared = chromium.launch({ executablePath: chromiumPath, args: ["--no-sandbox", "--disable-gpu", "--disable-background-networking"] });
  return shared;
}
hooks.afterFile.push(async () => {
  for (const context of (await shared)?.contexts() ?? []) await context.close();
});

export interface Opened {
  readonly page: Page;
  /** Requests for anything but the file itself and blobs of it. */
  readonly requests: string[];
  /** Everything the console says, policy violations and uncaught errors included. */
  readonly console: string[];
  close(): Promise<void>;
}

/** What Chromium says where a locator of a test measures an element on a page that is not shown. */
const measuredHidden = "Rendering was performed in a subtree hidden by content-visibility.";

/** Opens a document from disk and waits until its first evaluation is done; one without a program is not `live`. */
export async function open(browser: Browser, markup: string, options: BrowserContextOptions = {}, live = true): Promise<Opened> {
  const folder = mkdtempSync(join(tmpdir(), "document-"));
  const path = join(folder, "book.html");
  writeFileSync(path, markup);
  const context = await browser.newContext(options);
  const page = await context.newPage();
  const requests: string[] = [];
  const console: string[] = [];
  page.on("request", (request) => {
    if (request.url() !== `file://${path}` && !request.url().startsWith("blob:")) requests.push(request.url());
  });
  page.on("console", (message) => {
    if (message.text() !== measuredHidden) console.push(message.text());
  });
  page.on("pageerror", (error) => console.push(error.message));
  await page.goto(`file://${path}`);
  if (live && options.javaScriptEnabled !== false) await settled(page);
  const close = async () => {
    await context.close();
    rmSync(folder, { recursive: true, force: true });
  };
  return { page, requests, console, close };
}

interface Offered {
  readonly workings?: { state(): PageState };
}

export interface PageState {
  readonly settled: boolean;
  readonly changes: object;
  readonly nominal: Readonly<Record<string, number>>;
  readonly analyses: Readonly<Record<string, unknown>>;
  readonly verdicts: Readonly<Record<string, string>>;
  readonly flags: Readonly<Record<string, readonly string[]>>;
}

export async function settled(page: Page): Promise<void> {
  const isSettled = () => (globalThis as unknown as Offered).workings?.state().settled === true;
  // Asked at every frame, the page would spend its time on the answers.
  await page.waitForFunction(isSettled, undefined, { polling: 100, timeout: 240_000 });
}

/** What the page computed, at full precision. */
export async function state(page: Page): Promise<PageState> {
  await settled(page);
  return page.evaluate(() => (globalThis as unknown as Required<Offered>).workings.state());
}

/** The ids of the document's pages, in order. */
export function pagesOf(page: Page): Promise<string[]> {
  return page.evaluate<string[]>(`[...document.querySelectorAll(".page")].map(({ id }) => id)`);
}

/** Goes to the page of the document that holds an element, and unfolds what that stands in, as a link to it does. */
export async function turnTo(page: Page, selector: string): Promise<void> {
  const id = await page.evaluate<string>(`location.hash = document.querySelector(${JSON.stringify(selector)}).closest(".page").id`);
  await page.locator(`.page[id="${id}"]:not([hidden])`).waitFor();
  await page.evaluate(
    `for (let fold = document.querySelector(${JSON.stringify(selector)}).closest("details"); fold; fold = fold.parentElement.closest("details")) fold.open = true`,
  );
}

/** Types a value into the first field of a given, on the page where that stands, and leaves the field. */
export async function type(page: Page, label: string, text: string): Promise<void> {
  await turnTo(page, `input[aria-label=${JSON.stringify(label)}]`);
  const field = page.getByRole("textbox", { name: label, exact: true }).first();
  await field.fill(text);
  await field.press("Tab");
}
