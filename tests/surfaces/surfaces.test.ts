/**
 * Every surface of a book says the same: notebooks, results.json, check, why, vary, CSV, Markdown, page. Held on books made up at random;
 * what is doubled, stale or has two meanings is refused or told by every command.
 */
import { join } from "node:path";
import { parse as parseCsv } from "csv-parse/sync";
import type { Browser } from "playwright-core";
import { beforeAll, describe, expect, it } from "vitest";
import { Evaluation } from "../../lib/analysis/evaluation";
import type { Results } from "../../lib/book/results";
import { typesHash } from "../../lib/cli/library";
import { Graph } from "../../lib/graph/graph";
import { nativeCompiler } from "../../lib/kernel/native/check";
import { NativeCells } from "../../lib/kernel/native/native-cells";
import { numberToTwelve } from "../../lib/quantity/format";
import { unitOf } from "../../lib/quantity/unit";
import type { Display } from "../../lib/sheet/block";
import { assessDecision } from "../../lib/sheet/decision";
import { storedDisplays } from "../../lib/sheet/stored";
import { noChromium, open, sharedBrowser, state } from "../document/browser";
import { FaultBook } from "../e2e/fault-book";
import { plainTexts, verdictOf } from "../e2e/run";
import { cellsFolder } from "../e2e/test-book";
import { inFull } from "../full";
import { notebookOf } from "../kernel/fixture";
import { root } from "../root";
import { type MadeUpBook, madeUpBook } from "./made-up-book";

const seed = Number(process.env.SURFACES_SEED ?? 20_261_130);
const count = inFull(200, 20);
const inBrowser = inFull(10, 1);

const books = Array.from({ length: count }, (_, index) => madeUpBook(seed + index, inFull(4, 2)));

let browser: Browser | undefined;
beforeAll(async () => {
  if (!noChromium) browser = await sharedBrowser();
  // All cells in one call of the compiler, whose verdicts the runs then find.
  const compiler = nativeCompiler();
  const cells = new NativeCells(compiler ?? "", cellsFolder, typesHash(join(root, "dist/types")));
  if (compiler !== undefined)
    await cells.check(books.flatMap(({ sheets }) => Object.values(sheets).map((sources) => notebookOf(...sources))));
}, 240_000);

class Opened extends FaultBook {
  constructor(readonly made: MadeUpBook) {
    super(made.sheets, made.design);
  }

  results(): Results {
    return JSON.parse(this.read("build/results.json"));
  }

  displays(): Display[] {
    return Object.keys(this.made.sheets).flatMap((name) => storedDisplays(this.notebook(name), name).map(({ display }) => display));
  }

  /** Plain text of every output, as Jupyter shows it. */
  texts(): string {
    return Object.keys(this.made.sheets)
      .flatMap((name) => plainTexts(this.notebook(name)))
      .join("\n");
  }

  turn(path: string, text: string): void {
    const given = this.made.givens.find((one) => one.path === path);
    const key = path.split(".").at(-1);
    const line = new RegExp(
      `(^ {2}${path.split(".")[0]}:\\n(?: {4}.*\\n)*? +${key}: \\{ value: )"${given?.text.replace(/[.*+?^${}()|[\]\\]/g, "\\$&")}"`,
      "m",
    );
    const before = this.read("data/design.yaml");
    expect(before).toMatch(line);
    this.write("data/design.yaml", before.replace(line, `$1"${text}"`));
  }
}

const table = (text: string): Record<string, string>[] => parseCsv(text, { columns: true, bom: true });

/** Holds every surface of a fresh book against results.json. */
async function expectSame(book: Opened, html: string): Promise<void> {
  const results = book.results();
  const published = Object.entries(results.sheets).flatMap(([sheet, names]) =>
    Object.entries(names).map(([name, result]) => ({ name: `${sheet}.${name}`, result })),
  );
  expect(published.length).toBeGreaterThan(1);

  // Notebooks.
  const texts = book.texts();
  const shown = book.displays();
  const graph = Graph.from(shown.flatMap(({ nodes }) => nodes));
  const computed = new Evaluation(graph);
  for (const { block, sheet } of shown) {
    if (block.type !== "publish") continue;
    for (const [name, node] of Object.entries(block.names)) {
      const result = results.sheets[sheet]?.[name];
      const unit = unitOf(result?.unit ?? "1");
      const { nominal, worst } = computed.analysis(node);
      expect(numberToTwelve(unit.fromSI(nominal)), `${sheet}.${name}`).toBe(result?.value);
      if (worst) expect(numberToTwelve(unit.fromSI(worst.high)), `${sheet}.${name}`).toBe(result?.worst?.high);
    }
  }
  const printed = texts.split("\n").flatMap(verdictOf);
  expect(printed.length).toBe(shown.filter(({ block }) => block.type === "requirement").length);
  for (const [requirement, word] of printed) {
    const answers = results.requirements[requirement]?.answers.filter(({ verdict }) => verdict === word);
    expect(answers?.length, `${requirement} in the notebook and in results.json`).toBeGreaterThan(0);
  }

  // why: the same line as the cell shows.
  for (const { name } of published) {
    const { status, stdout, stderr } = await book.workings("why", name === book.made.shared ? `sheets.${name}` : name);
    expect({ status, stderr }, name).toEqual({ status: 0, stderr: "" });
    const line = stdout
      .slice(0, stdout.indexOf("\n"))
      .replace(/^[^=]*= /, "")
      .replace(/ {2}\[.*$/, "");
    // What a decision gives back is shown by its table.
    if (!name.endsWith(".Q")) expect(texts, `${name} in the notebook`).toContain(line);
  }

  if (book.made.shared !== undefined) {
    const { status, stderr } = await book.workings("why", book.made.shared);
    expect(status).toBe(2);
    expect(stderr).toContain(`sheets.${book.made.shared} or givens.${book.made.shared}`);
  }

  // check
  const checked = await book.workings("check", "--json");
  const told = JSON.parse(checked.stdout).requirements as { requirement: string; verdict: string; value?: number; margin?: number }[];
  const wrong = told.some(({ verdict }) => ["does not hold", "not sure"].includes(verdict));
  expect(checked.status === 0, `exit code of check with ${told.map(({ verdict }) => verdict)}`).toBe(
    !wrong && JSON.parse(checked.stdout).findings.every(({ weight }: { weight: string }) => weight === "open"),
  );
  const verdicts = Object.fromEntries(told.map(({ requirement, verdict }) => [requirement, verdict]));
  for (const { requirement, verdict, value, margin } of told)
    expect({ verdict, value, margin }, requirement).toEqual({
      verdict: results.requirements[requirement]?.verdict ?? "not shown",
      value: results.requirements[requirement]?.value,
      margin: results.requirements[requirement]?.margin,
    });
  expect(told.map(({ requirement }) => requirement).sort()).toEqual([...requirementsOf(book.made.design)].sort());
  const asText = (await book.workings("check")).stdout;
  for (const [id, verdict] of Object.entries(verdicts)) expect(asText).toMatch(new RegExp(`^${id} +${verdict}`, "m"));

  // CSV
  const rows = table(book.read("build/made-results.csv"));
  expect(rows.length).toBe(published.length);
  for (const { name, result } of published) {
    const row = rows.find((one) => one["name"] === name);
    expect(Number(row?.["value"]), name).toBe(result.value);
    if (result.worst !== null)
      expect([Number(row?.["worst low"]), Number(row?.["worst high"])]).toEqual([result.worst.low, result.worst.high]);
  }
  for (const row of table(book.read("build/made-requirements.csv"))) expect(row["verdict"]).toBe(verdicts[row["requirement"] ?? ""]);

  // Decisions: the CSV, the notebook, the page, Markdown and check by one comparison.
  const traded = table(book.read("build/made-decisions.csv"));
  const pageText = spaced(html.replace(/<[^>]+>/g, " "));
  const markdownText = spaced(
    Object.keys(book.made.sheets)
      .map((name) => book.read(`build/made/${sheetOf(name)}.md`))
      .join(" "),
  );
  const decided = shown.flatMap(({ block }) => (block.type === "decision" ? [block] : []));
  expect(new Set(traded.map(({ decision }) => decision))).toEqual(new Set(decided.map(({ choice }) => choice)));
  for (const block of decided) {
    const { rows: found, flags } = assessDecision(block, computed);
    for (const { name, cells, dominatedBy } of found) {
      const row = traded.find(({ decision, alternative }) => decision === block.choice && alternative === name);
      expect(row?.["dominated by"], `${block.choice} in CSV`).toBe(dominatedBy ?? "");
      for (const { remark } of cells) {
        if (remark === undefined) continue;
        expect(spaced(texts), `${block.choice} in the notebook`).toContain(spaced(remark));
        expect(pageText, `${block.choice} in the page`).toContain(spaced(remark));
        expect(markdownText, `${block.choice} in Markdown`).toContain(spaced(remark));
      }
    }
    for (const flag of flags) {
      expect(spaced(texts)).toContain(spaced(flag));
      expect(pageText).toContain(spaced(flag));
      expect(markdownText).toContain(spaced(flag));
      expect(spaced(asText)).toContain(spaced(flag));
    }
  }

  // Markdown and page: a row for each answer.
  const markdown = book.read("build/made/README.md").split("\n");
  const pageRows = html.split("<tr>").map((row) => row.replace(/<[^>]+>/g, " ").replace(/\s+/g, " "));
  for (const id of Object.keys(verdicts)) {
    const answers = results.requirements[id]?.answers.map(({ verdict }) => verdict) ?? ["not shown"];
    const statement = new RegExp(`^\\W*${id} \\w`);
    const marked = markdown.filter((line) => line.startsWith(`| **${id}** `));
    const inPage = pageRows.filter((row) => statement.test(row) && / (holds|does not hold|not sure|too close to call|not shown)/.test(row));
    for (const [surface, found] of [
      ["Markdown", marked],
      ["page", inPage],
    ] as const) {
      expect(found.length, `rows of ${id} in ${surface}`).toBe(answers.length);
      answers.forEach((verdict, index) => {
        expect(found[index], `${id} in ${surface}`).toContain(verdict);
      });
    }
  }
}

/** With plain spaces. */
const spaced = (text: string) => text.replace(/\s+/g, " ");
const sheetOf = (file: string) => file.replace(/^\d+-|\.ipynb$/g, "");

const requirementsOf = (design: string) => [...design.matchAll(/^ {2}([\w-]+): \{ statement/gm)].map((match) => match[1] as string);

describe(`${count} books made up from seed ${seed} (SURFACES_SEED sets another)`, { timeout: 120_000 }, () => {
  it.each(books.map((made, index) => ({ made, index })))("book $index says one thing on every surface", async ({ made, index }) => {
    const book = new Opened(made);
    const ran = await book.workings("run");
    expect(ran.stderr).toBe("");
    expect(ran.status).toBe(0);
    const published = await book.workings("publish", "--csv", "--markdown");
    expect(published.stderr).toBe("");
    expect(published.status).toBe(0);
    const html = book.read("build/made.html");
    await expectSame(book, html);

    // A change foretold by vary is what a run then finds.
    const given = made.givens[index % made.givens.length];
    if (given === undefined) throw new Error("a book without givens");
    const foretold = await book.workings("vary", `${given.path}=${given.other}`, "--json");
    expect(foretold.status, foretold.stderr).toBe(0);
    const before = book.results();
    book.turn(given.path, given.other);

    // Nothing of this is told as if it stood.
    const first = `${Object.keys(before.sheets)[0]}.P`;
    for (const words of [
      ["why", first === made.shared ? `sheets.${first}` : first],
      ["vary", `${given.path}=${given.text}`],
      ["check"],
      ["publish"],
    ]) {
      const said = await book.workings(...words);
      expect(said.stdout + said.stderr, words.join(" ")).toMatch(/not fresh|stale/);
      expect(said.stdout + said.stderr, words.join(" ")).toContain(given.path);
      if (["check", "publish"].includes(words[0] as string)) expect(said.status, words.join(" ")).toBe(1);
    }
    expect((await book.workings("run")).status).toBe(0);
    const after = book.results();
    const flips = JSON.parse(foretold.stdout).verdicts as { requirement: string; before: string; after: string }[];
    const ids = requirementsOf(made.design);
    const flipped = ids.filter((id) => before.requirements[id]?.verdict !== after.requirements[id]?.verdict);
    expect(flips.map(({ requirement }) => requirement).sort()).toEqual(flipped.sort());
    for (const { requirement, before: was, after: now } of flips)
      expect([was, now]).toEqual([before.requirements[requirement]?.verdict, after.requirements[requirement]?.verdict]);
    const moved = new Set((JSON.parse(foretold.stdout).moved as { name: string }[]).map(({ name }) => name));
    for (const [sheet, names] of Object.entries(after.sheets))
      for (const [name, { value }] of Object.entries(names)) {
        const was = before.sheets[sheet]?.[name]?.value ?? Number.NaN;
        if (Math.abs(value - was) > 0.02 * Math.abs(was) && name !== "Q")
          expect([...moved], `${sheet}.${name}`).toContain(`${sheet}.${name}`);
      }

    if (index < inBrowser && browser !== undefined) {
      const republished = await book.workings("publish");
      expect(republished.status, republished.stderr).toBe(0);
      const opened = await open(browser, book.read("build/made.html"));
      const page = await state(opened.page);
      for (const [id, { verdict }] of Object.entries(after.requirements)) expect(page.verdicts[id], id).toBe(verdict);
      const evaluation = new Evaluation(Graph.from(book.displays().flatMap(({ nodes }) => nodes)));
      for (const [node, shown] of Object.entries(page.nominal)) {
        const nominal = evaluation.nominal(node);
        expect(shown, node).toBeCloseTo(nominal, 10 - Math.ceil(Math.log10(Math.abs(nominal) || 1)));
      }
      expect([opened.requests, opened.console]).toEqual([[], []]);
      await opened.close();
    }
  });
});
