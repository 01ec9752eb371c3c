/** Sheets that run at a time: which may, and that nothing but the time depends on it. */
import { describe, expect, it } from "vitest";
import { design, FaultBook, healthy, opening } from "./fault-book";

const timeout = 120_000;
/** Goes on when all the named sheets have come as far. */
const meeting = (own: string, others: readonly string[]) =>
  `import { existsSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
const place = (sheet: string) => \`\${tmpdir()}/\${process.env.MEETING}-\${sheet}\`;
writeFileSync(place("${own}"), "here");
const end = Date.now() + 20000;
while (!${JSON.stringify(others)}.every((other) => existsSync(place(other)))) if (Date.now() > end) throw new Error("${own} runs alone");`;
const adding = (name: string) => `sheet.contribute("power", { ${name}: P });`;
const taking = (name: string, from: string) => [
  opening(name),
  `const { P } = sheet.take({ P: ["${from}.P", mW] });\nsheet.publish({ Q: sheet.derive("Q = 2*P", { P: P }, mW, "twice") });`,
];

describe("run --jobs", { timeout }, () => {
  it("runs sheets that do not take from one another at a time, and tells of them in the order of the book", () => {
    const book = new FaultBook({
      "01-lamp.ipynb": [...healthy("lamp"), meeting("lamp", ["fan"])],
      "02-fan.ipynb": [...healthy("fan"), meeting("fan", ["lamp"])],
    });
    const together = book.under({ MEETING: `meeting-${process.pid}-a` }, "run", "--jobs", "2");
    expect(together).toMatchObject({ status: 0, stderr: "" });
    expect(together.stdout).toMatch(/^lamp +done, outputs changed .*\nfan +done, outputs changed .*\n$/);
  });

  it("runs a sheet after those that it takes from, and one that collects alone", () => {
    const book = new FaultBook({
      "01-sum.ipynb": [
        opening("sum"),
        'const M = sheet.collect("power", mW, { name: "M", meaning: "all" });',
        meeting("sum", ["lamp", "fan"]),
      ],
      "02-pump.ipynb": [...taking("pump", "fan"), meeting("pump", ["sum"])],
      "03-lamp.ipynb": [...healthy("lamp"), adding("lamp"), meeting("lamp", ["fan"])],
      "04-fan.ipynb": [...healthy("fan"), adding("fan"), meeting("fan", ["lamp"])],
    });
    const ran = book.under({ MEETING: `meeting-${process.pid}-b` }, "run", "--jobs", "4");
    expect(ran.status, ran.stderr).toBe(0);
    expect(ran.stdout).toMatch(/^lamp .*\nfan .*\nsum .*\npump .*\n$/);
  });

  it("gives the same bytes with one, two or four at a time", async () => {
    const names = ["lamp", "fan", "pump", "horn"];
    const book = new FaultBook(
      Object.fromEntries([
        ...names.map((name, index) => [`0${index + 1}-${name}.ipynb`, [...healthy(name), adding(name)]]),
        ["05-double.ipynb", taking("double", "pump")],
        ["06-sum.ipynb", [opening("sum"), 'const M = sheet.collect("power", mW, { name: "M", meaning: "all" });']],
      ]),
      design,
    );
    const files = () =>
      [...names.map((name, index) => `0${index + 1}-${name}`), "05-double", "06-sum"]
        .map((name) => book.read(`notebooks/${name}.ipynb`))
        .concat(book.read("build/results.json"), book.read("build/fresh.json"));
    expect(await book.run("--all", "--jobs", "1")).toMatchObject({ status: 0, stderr: "" });
    const alone = files();
    for (const jobs of ["2", "4"]) {
      expect(await book.run("--all", "--jobs", jobs)).toMatchObject({ status: 0, stderr: "" });
      expect(files(), jobs).toEqual(alone);
    }
  });

  it("a sheet that fails keeps those from running that take from it, and no other", async () => {
    const book = new FaultBook({
      "01-double.ipynb": taking("double", "lamp"),
      "02-lamp.ipynb": [...healthy("lamp"), 'throw new Error("no light");'],
      "03-fan.ipynb": healthy("fan"),
    });
    const ran = await book.run("--jobs", "3");
    expect(ran.status).toBe(1);
    expect(ran.stdout).toMatch(/^lamp +failed .*\ndouble +not run: it takes from lamp, which failed .*\nfan +done, outputs changed .*\n$/);
  });

  it("takes a whole number", async () => {
    const book = new FaultBook({ "01-lamp.ipynb": healthy("lamp") });
    expect((await book.run("--jobs", "1.5")).stderr).toContain('--jobs must be a whole number, got "1.5"');
    expect((await book.run("--jobs", "0")).stderr).toContain("--jobs must be a number above 0");
  });
});
