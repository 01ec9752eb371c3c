/** Readings of prototypes and pilot batches in worksheets: what cells show, what follows of it, what is refused; the design file's side. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { Evaluation } from "../../lib/analysis/evaluation";
import { findings } from "../../lib/book/findings";
import { measuredOf } from "../../lib/book/measured";
import { whyLines } from "../../lib/book/why";
import { readDesign } from "../../lib/design/read";
import type { Design } from "../../lib/design/types";
import { Graph } from "../../lib/graph/graph";
import { Session } from "../../lib/sheet/session";
import { storedDisplays } from "../../lib/sheet/stored";
import { Worksheet } from "../../lib/sheet/worksheet";
import { mA, ohm, volt } from "../../lib/units";
import { madeBook } from "../book/made";

const text = (reading = "value: 101 Ω ±1 Ω, evidence: true", more = "") => `
product: { name: Lamp, revision: "1" }
sources: { own: { type: document, title: Made up for this test } }
requirements:
  least: { statement: at least, limit: ">= 90 Ω", judged: 95 %, source: own }
givens:
  high: { value: 0.5 V ±1 %, meaning: the rail, source: own }
  current: { value: 5 mA ±10 %, spread: knowledge, meaning: the current, source: own }
readings:
  bench: { result: lamp.R, ${reading}, specimen: prototype 1, source: own }
batches:
  pilot: { given: high, csv: pilot.csv, source: own }
${more}`;

const csv = (values: readonly number[], head = "board,rail in mV") => [head, ...values.map((value, i) => `P${i + 1},${value}`)].join("\n");
const good = csv([498, 499, 500, 501, 502, 500]);
const read = (source: string, pilot = good): Design => readDesign(source, "design.yaml", undefined, () => pilot);

const sinkKey = Symbol.for("workings.display");
const shared = globalThis as Record<symbol, unknown>;
let folder: string;
let outputs: { readonly output_type: string; readonly data: Record<string, unknown> }[];

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "reading-"));
  outputs = [];
  shared[sinkKey] = ({ data }: { data: Record<string, unknown> }) => outputs.push({ output_type: "display_data", data });
});
afterEach(() => {
  delete shared[sinkKey];
  rmSync(folder, { recursive: true, force: true });
});

const texts = () => outputs.map(({ data }) => String(data["text/plain"]));
const cells = () => [{ cell_type: "code", id: "one", metadata: {}, source: "", execution_count: 1, outputs }];
const notebook = () => ({ nbformat: 4, nbformat_minor: 5, metadata: {}, cells: cells() });

function lamp(design: Design) {
  const sheet = new Worksheet(new Session("lamp", design), folder);
  const { V, I } = sheet.given({ V: ["high", volt], I: ["current", mA] });
  return { sheet, V, I, R: sheet.derive("R = V/I", { V, I }, ohm, "resistance") };
}

const bookOf = (design: Design) => madeBook([{ name: "lamp", notebook: notebook() as never }], design as never);

describe("a reading in a worksheet", () => {
  it("is held against what was predicted, then narrows what is not known for what follows, in cell, why and results alike", () => {
    const design = read(text());
    const { sheet, R } = lamp(design);
    const before = sheet.session.evaluation.analysis(sheet.session.enter(R));
    sheet.reading("bench", R);
    const after = sheet.session.evaluation.analysis(sheet.session.enter(R));
    const width = ({ doubt }: typeof before) => (doubt?.high as number) - (doubt?.low as number);
    expect(width(after)).toBeLessThan(width(before) / 3);
    expect(after.interval).toEqual(before.interval);
    const shown = texts().at(-1) as string;
    expect(shown).toMatch(/^reading bench \(prototype 1\): 101 Ω ±1 Ω; 95 % of what one unit was predicted to be: .*: inside\n/);
    expect(shown).toMatch(/current\): .* before, .* with the reading$/);
    sheet.require(R, "least");
    sheet.publish({ R });
    // The outputs alone give the same to whoever reads them.
    const graph = Graph.from(storedDisplays(notebook(), "lamp").flatMap(({ display }) => display.nodes));
    expect(new Evaluation(graph).analysis("lamp.R").doubt).toEqual(after.doubt);
    const book = bookOf(design);
    expect(book.evaluation.analysis("lamp.R").doubt).toEqual(after.doubt);
    expect(measuredOf(book).readings.bench).toMatchObject({ result: "lamp.R", value: 101, isInside: true, evidence: { isUsed: true } });
    const why = whyLines("lamp.R", book.evaluation, design.batches).join("\n");
    expect(why).toContain("reading bench: 101 Ω ±1 Ω (prototype 1)");
    expect(why).toMatch(/what is not known, narrowed by reading bench: .* before, .* after/);
    expect(why).toMatch(/pilot batch pilot: 6 units: mean 0\.5000 V/);
    expect(findings(book)).toEqual([]);
  });

  it("comes along where another sheet takes a result that it narrows", () => {
    const design = read(text());
    const { sheet, R, I } = lamp(design);
    const P = sheet.derive("U = 2*I*R_0", { I, R_0: R }, volt, "twice the rail");
    sheet.reading("bench", R);
    sheet.publish({ R, P });
    const own = sheet.session.evaluation.analysis(sheet.session.enter(R));
    writeFileSync(join(folder, "07-lamp.ipynb"), JSON.stringify(notebook()));
    const other = new Worksheet(new Session("other", design), folder);
    const { R_t } = other.take({ R_t: ["lamp.R", ohm] });
    expect(other.session.evaluation.analysis(other.session.enter(R_t)).doubt).toEqual(own.doubt);
  });

  it("that is evidence is refused below a verdict that it changes", () => {
    const { sheet, R } = lamp(read(text()));
    sheet.require(R, "least");
    expect(() => sheet.reading("bench", R)).toThrow(
      "changes the verdict on least, which an earlier call has shown already; move this call above it",
    );
    const { sheet: plain, R: own } = lamp(read(text("value: 101 Ω ±1 Ω")));
    plain.require(own, "least");
    expect(() => plain.reading("bench", own)).not.toThrow();
  });

  it("of another dimension or of no name in the design file is refused", () => {
    const { sheet, V, R } = lamp(read(text()));
    expect(() => sheet.reading("bench", V)).toThrow("reading bench is of resistance; the result is voltage");
    expect(() => sheet.reading("bensh", R)).toThrow(/no reading .bensh./);
  });

  it("with which too few draws agree is told as not used, by the cell, the run and check", () => {
    const design = read(text("value: 130 Ω ±1 Ω, evidence: true"));
    const { sheet, R } = lamp(design);
    sheet.reading("bench", R);
    sheet.publish({ R });
    expect(texts().at(-2)).toMatch(
      /OUTSIDE\nevidence, but not used: only 0 of 10000 draws.*\nwarning: reading bench: 130 Ω ±1 Ω lies outside/s,
    );
    const told = findings(bookOf(design));
    expect(told.map(({ weight }) => weight)).toEqual(["wrong", "wrong"]);
    expect(told[1]?.text).toMatch(/^reading bench is evidence, but not used: only 0 of 10000 draws/);
  });

  it("that is called evidence and stands in no sheet, or beside another result, is wrong", () => {
    const design = read(text());
    const { sheet, R } = lamp(design);
    sheet.publish({ R });
    expect(findings(bookOf(design)).map((one) => one.text)).toEqual([
      'reading bench is called evidence, but no sheet uses it: write sheet.reading("bench", …) in the sheet that derives lamp.R, above its requirements',
    ]);
    const twice = sheet.derive("R_2 = 2*R", { R }, ohm, "two of them");
    sheet.reading("bench", twice);
    expect(findings(bookOf(design)).map((one) => one.text)).toContain(
      'reading bench is of lamp.R, but a sheet sets it beside lamp.R_2: write sheet.reading("bench", …) with the result published as lamp.R',
    );
  });
});

describe("a pilot batch in a worksheet", () => {
  it("says what it says of its given; what contradicts the design file is told by the cell and by check", () => {
    const design = read(text("value: 101 Ω"), csv([480, 490, 500, 510, 520, 530]));
    const { sheet, R } = lamp(design);
    sheet.batch("pilot");
    sheet.publish({ R });
    const shown = texts().at(-2) as string;
    expect(shown).toMatch(/6 units: mean 0\.505 V/);
    expect(shown).toContain("contradicts the design file: they scatter more than the stated spread does");
    expect(shown).toContain("warning: batch pilot contradicts the design file: 5 of 6 lie beyond the stated limits");
    const told = findings(bookOf(design)).filter(({ weight }) => weight === "wrong");
    expect(told.map((one) => one.text)).toContain(
      "batch pilot contradicts high, 0.5 V ±1 %: they scatter more than the stated spread does",
    );
    expect(measuredOf(bookOf(design)).batches.pilot).toMatchObject({ given: "high", unit: "V", count: 6, outside: 5 });
  });

  it.each([
    ["another dimension", csv([1, 2, 3, 4, 5], "board,current in mA"), /batch 'pilot' is of current, the given high is in V/],
    ["a cell that is no number", csv([1, 2, 3, 4, Number.NaN]), /pilot\.csv:6 holds 'NaN'/],
    ["too few units", csv([1, 2, 3, 4]), /pilot\.csv has 4 units; expected at least 5/],
    ["a unit read twice", `${good}\nP1,500`, /the unit 'P1' stands here for the second time/],
    ["an unknown unit", csv([1, 2, 3, 4, 5], "board,rail in vlt"), /head 'rail in vlt'/],
  ])("is refused for %s, with the line of its file", (_, pilot, words) => {
    expect(() => read(text(), pilot)).toThrow(words);
  });

  it("is refused for a given that is not there", () => {
    expect(() => read(text().replace("given: high", "given: hihg"))).toThrow(
      /batch 'pilot': there is no given 'hihg'.*did you mean 'high'/s,
    );
  });
});
