/** Sheets that collect: they look at every notebook, and rest on the items of their roll-ups alone. */
import { describe, expect, it } from "vitest";
import { FaultBook, healthy, opening } from "./fault-book";

const adding = (name: string, budget = "power") => `sheet.contribute("${budget}", { ${name}: P });`;
const summing = (name: string, symbol: string, budget = "power", ...more: string[]) => [
  opening(name),
  `const ${symbol} = sheet.collect("${budget}", mW, { name: "${symbol}", meaning: "all" });\nsheet.publish({ ${symbol}: ${symbol} });`,
  ...more,
];
const fresh = (...names: readonly string[]) => new RegExp(`^${names.map((name) => `${name} +fresh  .*\\n`).join("")}$`);

describe("a book with sheets that collect", { timeout: 120_000 }, () => {
  const sheets = {
    "01-sum.ipynb": summing("sum", "M"),
    "02-plain.ipynb": healthy("plain"),
    "03-heat.ipynb": summing("heat", "H", "heat"),
    "04-lamp.ipynb": [...healthy("lamp"), adding("lamp"), adding("lamp", "heat")],
    "05-fan.ipynb": [...healthy("fan"), adding("fan")],
  };

  it("stands after one run, whatever the order of the sheets", async () => {
    const book = new FaultBook(sheets);
    expect(await book.run()).toMatchObject({ status: 0, stderr: "" });
    expect((await book.run()).stdout).toMatch(fresh("lamp", "fan", "sum", "plain", "heat"));
  });

  it("collects anew when a sheet contributes for the first time, and when one comes to the book that does", async () => {
    const book = new FaultBook(sheets);
    expect(await book.run()).toMatchObject({ status: 0, stderr: "" });
    book.sheet("02-plain.ipynb", ...healthy("plain"), adding("plain"));
    const ran = await book.run();
    expect(ran.stdout).toMatch(/^sum +done, outputs changed/m);
    expect(ran.stdout).toMatch(/^heat +fresh/m);
    book.sheet("06-horn.ipynb", ...healthy("horn"), adding("horn", "heat"));
    book.list(...Object.keys(sheets), "06-horn.ipynb");
    const more = await book.run();
    expect(more.stdout).toMatch(/^heat +done, outputs changed/m);
    expect(more.stdout).toMatch(/^sum +fresh/m);
  });

  it("still rests on all of a notebook that a cell of it reads by itself", async () => {
    const reading = 'import { readFileSync } from "node:fs";\nconsole.log(readFileSync("02-plain.ipynb", "utf8").length);';
    const book = new FaultBook({ ...sheets, "01-sum.ipynb": summing("sum", "M", "power", reading) });
    // It runs before the sheet that it reads.
    expect((await book.run()).stderr).toContain("  sum: plain, which it takes, has changed\n");
    expect(await book.run()).toMatchObject({ status: 0, stderr: "" });
    book.sheet("02-plain.ipynb", ...healthy("plain"), 'sheet.publish({ Q: sheet.derive("Q = 2*P", { P }, mW, "twice") });');
    const ran = await book.run();
    expect(ran.stdout).toMatch(/^sum +done, outputs changed/m);
  });
});
