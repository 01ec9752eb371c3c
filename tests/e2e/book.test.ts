/** A book of three small sheets on the real command line: order, freshness, failures, results across sheets. */
import { beforeAll, describe, expect, it } from "vitest";
import { FaultBook, opening } from "./fault-book";
import { statesOf } from "./test-book";

let book: FaultBook;

const design = (high: string, low: string) => `
product: { name: Lamp, revision: "1" }
sources: { own: { type: document, title: Made up for this test } }
givens:
  high: { value: ${high}, meaning: the high rail, source: own }
  low: { value: ${low}, meaning: the low rail, source: own }
  current: { value: 2 mA ±10 %, meaning: current, source: own }
`;
const sheets: Readonly<Record<string, readonly string[]>> = {
  // Reads what the second one publishes: it has to run after it.
  "01-budget.ipynb": [opening("budget"), 'const { P } = sheet.take({ P: ["lamp.P", mW] });\nsheet.publish({ twice: P.plus(P) });'],
  "02-lamp.ipynb": [
    opening("lamp"),
    'const g = sheet.given({ V: ["high", volt], I: ["current", mA] });\nconst P = sheet.derive("P = V*I", g, mW, "power");\nsheet.publish({ P: P });',
  ],
  "03-other.ipynb": [opening("other"), 'const o = sheet.given({ U: ["low", volt] });\nsheet.publish({ U: o.U });'],
};

/** Changes the source of one code cell. */
function edit(name: string, cell: number, change: (source: string) => string): void {
  book.edit(name, (own, index) => (index === cell ? { ...own, source: change(own.source) } : own));
}

async function run(...words: string[]) {
  const said = await book.run(...words);
  const states = statesOf(said);
  return { ...said, states, order: Object.keys(states) };
}

beforeAll(() => {
  book = new FaultBook(sheets, design("5 V ±2 %", "3 V"));
});

describe("a book", { timeout: 120_000 }, () => {
  it("runs every sheet after those that it takes from, and results cross sheets with their lineage", async () => {
    const { status, order, states, stderr } = await run();
    expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
    expect(order).toEqual(["lamp", "budget", "other"]);
    expect(Object.values(states)).toEqual(Array(3).fill("done, outputs changed"));
    const results = JSON.parse(book.read("build/results.json"));
    expect(results.sheets.budget.twice).toMatchObject({ value: 0.02, unit: "W" });
    expect(results.sheets.budget.twice.worst.high).toBeCloseTo(2 * 5.1 * 2.2e-3, 9);
  });

  it("runs nothing again while everything stands", async () => {
    expect((await run()).states).toEqual({ lamp: "fresh", budget: "fresh", other: "fresh" });
  });

  it("runs only what reads a given that has changed, through takes too", async () => {
    book.write("data/design.yaml", design("5 V ±2 %", "2.5 V"));
    expect((await run()).states).toEqual({ lamp: "fresh", budget: "fresh", other: "done, outputs changed" });
    book.write("data/design.yaml", design("6 V ±2 %", "2.5 V"));
    expect((await run()).states).toEqual({ lamp: "done, outputs changed", budget: "done, outputs changed", other: "fresh" });
  });

  it("leaves dependents fresh where a sheet ran again and published the same graph", async () => {
    edit("02-lamp.ipynb", 0, (source) => `${source}\nconst unused = 1;`);
    expect((await run()).states).toEqual({ lamp: "done, as before", budget: "fresh", other: "fresh" });
    edit("02-lamp.ipynb", 1, (source) => source.replace("P = V*I", "P = 2*V*I"));
    expect((await run()).states).toEqual({ lamp: "done, outputs changed", budget: "done, outputs changed", other: "fresh" });
  });

  it("runs a named sheet, and everything with --all", async () => {
    expect((await run("other")).states).toEqual({ other: "done, as before" });
    expect((await run("budget")).states).toEqual({ lamp: "fresh", budget: "done, as before" });
    expect(Object.values((await run("--all")).states)).toEqual(Array(3).fill("done, as before"));
  });

  it("does not run what takes from a sheet that failed, and finishes the others", async () => {
    edit("02-lamp.ipynb", 1, (source) => source.replace("P = 2*V*I", "P = V + I"));
    book.write("data/design.yaml", design("6 V ±2 %", "2.6 V"));
    const { status, states, stderr } = await run();
    expect(status).toBe(1);
    expect(states).toMatchObject({ lamp: "failed", budget: "not run: it takes from lamp, which failed", other: "done, outputs changed" });
    expect(stderr).toContain("cannot add V (voltage) and I (current)");
  });

  it("refuses sheets that take from one another in a circle, before anything runs", async () => {
    edit("02-lamp.ipynb", 1, (source) =>
      source.replace("P = V + I", "P = V*I").replace("sheet.publish", 'sheet.take({ t: ["budget.twice", mW] });\nsheet.publish'),
    );
    const { status, stderr, states } = await run();
    expect({ status, states }).toEqual({ status: 2, states: {} });
    expect(stderr).toContain("sheets take from one another in a circle");
  });
});
