/**
 * The promise of the page: a reader who changes givens sees what a fresh run of the edited book gives. Every given, table and
 * decision of the whole book is changed in Chromium, and in the files for the runner, in three rounds; before a release in as many as
 * the largest decision has alternatives, so that each is chosen once. Nominal values agree to 1e-12, worst cases, intervals,
 * contributions and verdicts exactly. Outside a full run one sheet without its bands is turned, in one round.
 */
import { once } from "node:events";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { keptSpread } from "../../lib/analysis/kept-spread";
import type { Analysis } from "../../lib/analysis/result";
import { worstOf } from "../../lib/analysis/verdict";
import { readDesign } from "../../lib/design/read";
import { readReferences } from "../../lib/design/reference";
import { publishBook } from "../../lib/document/publish";
import type { ChoiceNode, GivenNode, TableNode } from "../../lib/graph/node";
import { formatNotebook } from "../../lib/kernel/notebook";
import { Quantity } from "../../lib/quantity/quantity";
import { unitOf } from "../../lib/quantity/unit";
import { filesBeside, referenceTexts } from "../../lib/sheet/project";
import { madeBook } from "../book/made";
import { sample } from "../demo-book";
import { editDecision, editGiven, editReference, editTableCell } from "../design/edit-design";
import { noChromium, type Opened, open, type PageState, settled, sharedBrowser, state } from "../document/browser";
import { inFull, isFull, isWhole } from "../full";
import { BookCopy } from "./test-book";

const { book } = sample;

/** Bands are most of the time that the page and the run take: they are in the page's own tests, and in a full run. */
function leaner<N extends { readonly cells: readonly { readonly source: string | readonly string[] }[] }>(notebook: N): N {
  return isFull ? notebook : { ...notebook, cells: notebook.cells.filter(({ source }) => !String(source).includes("band: true")) };
}

const original = madeBook(
  sample.sheets().map(({ name, notebook }) => ({ name, notebook: leaner(notebook) })),
  sample.design,
);

/** One node of each path that the sheets read, in order of path. */
const read = [...new Map(original.graph.nodes().flatMap((node) => ("path" in node ? [[node.path, node] as const] : []))).values()].sort(
  (a, b) => (a.path < b.path ? -1 : 1),
);
const givens = read.filter((node): node is GivenNode => node.kind === "given");
const tables = read.filter((node): node is TableNode => node.kind === "table");
const choices = read.filter((node): node is ChoiceNode => node.kind === "choice");
const rounds = isWhole ? Math.max(...choices.map(({ options }) => options.length)) : inFull(3, 1);

/** What is typed into the page: with the doubt that stands beside the value in the file, which is not edited. */
function typedText(node: GivenNode): string {
  const { doubt, nominal } = node;
  if (doubt === undefined) return otherText(node);
  const unit = unitOf(node.unit);
  const half = Number((unit.fromSI((doubt as { high: number }).high) - unit.fromSI(nominal)).toPrecision(9));
  return `${otherText(node)}, doubt ±${half} ${unit.symbol}`;
}

/** Below it the tables of the limits end: it may only rise. */
const lowestOfLimits = "emission.low";

/** A hundredth less, tolerance kept; about zero a tenth more of the tolerance; of nothing at all a hundredth. */
function otherText(node: GivenNode): string {
  if (node.nominal === 0 && !/[1-9]/.test(node.text)) return node.text.replace("0", "0.01");
  if (node.nominal === 0)
    return node.text.replace(/(?<![\d.])(?!0\s)\d+(?:\.\d+)?/, (number) => String(Number((Number(number) * 1.1).toPrecision(6))));
  const unit = unitOf(node.unit);
  const nominal = unit.affine ? node.nominal - 1 : node.nominal * (node.path === lowestOfLimits ? 1.01 : 0.99);
  const other = new Quantity<any>(nominal, unit.dimension, unit as never, { spread: keptSpread(node, nominal) } as never);
  return other.toString();
}

/** The row of a table that is changed, and its new ordinate in the unit of its column. */
function otherCell(node: TableNode): { readonly row: number; readonly value: number } {
  const row = node.y.length - 2;
  return { row, value: Number((unitOf(node.unit).fromSI(node.y[row] as number) * 0.99).toPrecision(5)) };
}

interface Round {
  readonly givens: readonly GivenNode[];
  readonly tables: readonly TableNode[];
  readonly chosen: readonly { readonly node: ChoiceNode; readonly option: string }[];
}

const roundsOf: readonly Round[] = Array.from({ length: rounds }, (_, round) => ({
  givens: givens.filter((_, index) => index % rounds === round),
  tables: tables.filter((_, index) => index % rounds === round),
  chosen: choices.map((node) => ({ node, option: node.options[(round + 1) % node.options.length] as string })),
}));

/** The book, edited in a folder of its own and run there by the command line. */
async function freshRun({ givens, tables, chosen }: Round) {
  const files = book.worksheets.map(({ file }) => file);
  const copy = new BookCopy(files, { isSideBySide: true });
  const edit = (file: string, change: (text: string) => string) => copy.write(file, change(copy.read(file)));
  for (const { file } of book.worksheets) copy.write(`notebooks/${file}`, formatNotebook(leaner(copy.notebook(file))));
  for (const { path, ...node } of givens) {
    const [first, table, entry] = path.split(".");
    const text = otherText({ path, ...node });
    if (first === "reference") edit(`data/reference/${table}.yaml`, (before) => editReference(before, entry ?? "", text));
    else edit("data/bittern/design.yaml", (before) => editGiven(before, path, text));
  }
  for (const node of tables) {
    const { row, value } = otherCell(node);
    const [first, table, entry] = node.path.split(".");
    if (first === "reference")
      edit(`data/reference/${table}.yaml`, (before) => editTableCell(before, entry ?? "", row, 1, value, "entries"));
    else edit("data/bittern/design.yaml", (before) => editTableCell(before, node.path, row, 1, value));
  }
  for (const { node, option } of chosen) edit("data/bittern/design.yaml", (before) => editDecision(before, node.path, option));
  const [status] = (await once(copy.start("run", "--all"), "exit")) as [number];
  expect(status, "the run of the edited book").toBe(0);
  const sheets = book.worksheets.map(({ name, file }) => ({ name, notebook: copy.notebook(file) }));
  const design = readDesign(
    copy.read("data/bittern/design.yaml"),
    "design.yaml",
    readReferences(referenceTexts(copy.folder)),
    filesBeside(join(copy.folder, "data/bittern/design.yaml"), copy.folder),
  );
  return madeBook(sheets, design);
}

type Fresh = Awaited<ReturnType<typeof freshRun>>;

/** In the fields of the page, as a reader would, all in one go. */
async function turn(page: Page, { givens, tables, chosen }: Round): Promise<void> {
  const fields = [
    ...givens.map((node) => ({ field: `[data-field="${node.path}"] input.field`, index: 0, text: typedText(node) })),
    ...tables.map((node) => ({
      field: `table[data-table="${node.path}"] tbody input`,
      index: 2 * otherCell(node).row + 1,
      text: String(otherCell(node).value),
    })),
  ];
  // Many stand in folded tables or on pages that are not open; the event is the one that typing ends in.
  const refused = await page.evaluate((all) => {
    interface Field {
      value: string;
      dispatchEvent(event: unknown): void;
      getAttribute(name: string): string | null;
    }
    const { document, Event } = globalThis as unknown as {
      document: { querySelectorAll(selector: string): ArrayLike<Field> };
      Event: new (type: string, options: object) => unknown;
    };
    return all.filter(({ field, index, text }) => {
      const input = document.querySelectorAll(field)[index];
      if (input === undefined) return true;
      input.value = text;
      input.dispatchEvent(new Event("change", { bubbles: true }));
      return input.getAttribute("aria-invalid") === "true";
    });
  }, fields);
  expect(refused, "fields that are missing or take no such text").toEqual([]);
  for (const { node, option } of chosen)
    await page
      .locator(`[data-choice="${node.path}"] input[value="${option}"]`)
      .first()
      .evaluate((radio) => (radio as unknown as { click(): void }).click());
}

/** The numbers of a page against those of a fresh run. */
function expectEqual(page: PageState, fresh: Fresh): void {
  let compared = 0;
  for (const [id, value] of Object.entries(page.nominal)) {
    if (!fresh.graph.has(id)) continue;
    const own = fresh.evaluation.nominal(id);
    expect(Math.abs(value - own), id).toBeLessThanOrEqual(1e-12 * Math.abs(own));
    compared++;
  }
  expect(compared).toBeGreaterThan(0.99 * Object.keys(page.nominal).length);
  for (const [id, analysis] of Object.entries(page.analyses) as [string, Analysis][])
    expect(analysis, id).toEqual(fresh.evaluation.analysis(id));
  expect(Object.keys(page.analyses).length).toBeGreaterThan(inFull(100, 20));
  for (const { row, answers } of fresh.requirements.filter((requirement) => requirement.answers.length > 0))
    expect(page.verdicts[row.id], row.id).toBe(
      worstOf(answers.map(({ node }) => fresh.evaluation.verdict(node, row.limit, row.judged).verdict)),
    );
}

describe.skipIf(noChromium)("the published book", () => {
  let browser: Browser;
  let opened: Opened;

  beforeAll(async () => {
    browser = await sharedBrowser();
    opened = await open(browser, await publishBook(original));
  }, 900_000);
  afterAll(async () => {
    await opened?.close();
  });

  it("opens with the numbers of the notebooks, none of them frozen", async () => {
    const page = await state(opened.page);
    expectEqual(page, original);
    expect(Object.values(page.analyses).filter((analysis) => (analysis as Analysis).frozen)).toEqual([]);
  });

  it("can be turned in every given, table and decision that a sheet reads", () => {
    expect([roundsOf.flatMap((round) => round.givens).length, roundsOf.flatMap((round) => round.tables).length]).toEqual([
      givens.length,
      tables.length,
    ]);
    for (const { path, options } of isWhole ? choices : []) {
      const turned = new Set(roundsOf.flatMap(({ chosen }) => chosen.filter(({ node }) => node.path === path).map(({ option }) => option)));
      expect([...turned].sort(), path).toEqual([...options].sort());
    }
    expect(givens.length).toBeGreaterThan(inFull(150, 15));
  });

  it.concurrent.each(roundsOf.map((round, index) => ({ round, index })))(
    "equals a fresh run, round $index",
    { timeout: 1_800_000 },
    async ({ round }) => {
      const fresh = await oneOfTwo(() => freshRun(round));
      const page = await oneAtATime(async () => {
        await turn(opened.page, round);
        const changed = await state(opened.page);
        await opened.page.getByRole("button", { name: "Reset all" }).click();
        await settled(opened.page);
        return changed;
      });
      const turned = round.chosen.filter(({ node, option }) => option !== node.chosen);
      const paths = [...round.givens, ...round.tables, ...turned.map(({ node }) => node)].map(({ path }) => path);
      expect(
        Object.values(page.changes)
          .flatMap((some) => Object.keys(some as object))
          .toSorted(),
      ).toEqual(paths.toSorted());
      expectEqual(page, fresh);
    },
  );

  it("asked for nothing over the network and broke no policy", () => {
    expect(opened.requests).toEqual([]);
    expect(opened.console).toEqual([]);
  });
});

/** There is one page; runs of the book go on beside it, two at a time. */
function queue() {
  let last: Promise<unknown> = Promise.resolve();
  return <T>(job: () => Promise<T>): Promise<T> => {
    const next = last.then(job, job);
    last = next.catch(() => undefined);
    return next;
  };
}
const oneAtATime = queue();
const runs = [queue(), queue()] as const;
let turns = 0;
function oneOfTwo<T>(job: () => Promise<T>): Promise<T> {
  return (runs[turns++ % 2] as (typeof runs)[0])(job);
}
