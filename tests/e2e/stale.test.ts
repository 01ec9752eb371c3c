/** A book that is not fresh: every command says so first, with sheets and reasons, and nothing judges by stale numbers. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { codeCells, formatNotebook } from "../../lib/kernel/notebook";
import { design, FaultBook, healthy, opening } from "./fault-book";

const timeout = 240_000;
const requirement = 'requirements:\n  heat: { statement: Stays cool., limit: "<= 20 mW", judged: worst case, source: own }\ngivens:\n';
const judging = (name: string, power: string): readonly string[] => [
  opening(name),
  `const h = sheet.given({ V: ["high", volt], I: ["current", mA] });\nconst P = sheet.derive("${power}", h, mW, "power");\nsheet.require(P, "heat");\nsheet.publish({ P: P });`,
];
const withRequirement = design.replace("givens:\n", requirement);

describe("a given that changed without a run", { timeout }, () => {
  it("is said by every command first; publish refuses, check judges nothing by it, and a stamp marks what is published all the same", async () => {
    const book = new FaultBook(
      { "01-lamp.ipynb": judging("lamp", "P = V*I"), "02-fan.ipynb": judging("fan", "P = V*I/2") },
      withRequirement,
    );
    expect(await book.run()).toMatchObject({ status: 0, stderr: "" });
    const before = JSON.parse(book.read("build/results.json"));
    expect(before).toMatchObject({ stale: {}, requirements: { heat: { verdict: "holds", sheet: "lamp", answers: [{}, {}] } } });

    book.write("data/design.yaml", withRequirement.replace("5 V ±2 %", "15 V ±2 %"));
    const said = "not fresh (workings run brings it up to date):\n  lamp: given high has changed in the design file\n  fan: given high";
    const refused = await book.workings("publish", "--csv", "--markdown");
    expect(refused).toMatchObject({ status: 1, stdout: "" });
    expect(refused.stderr).toContain(said);
    expect(refused.stderr).toContain("workings publish --stale");
    expect(book.has("build/lamp.html")).toBe(false);
    for (const words of [
      ["why", "lamp.P"],
      ["vary", "current=3 mA"],
    ])
      expect((await book.workings(...words)).stderr).toContain(said);
    const checked = await book.workings("check");
    expect(checked.status).toBe(1);
    expect(checked.stdout).toContain(said);
    expect(checked.stdout).toMatch(/^heat +not judged +lamp, fan not fresh; limit <= 20 mW$/m);

    expect((await book.run("lamp")).status).toBe(0);
    expect(JSON.parse(book.read("build/results.json"))).toMatchObject({
      stale: { fan: ["given high has changed in the design file"] },
      sheets: { lamp: {} },
      requirements: { heat: { verdict: "does not hold", sheet: "lamp", answers: [{ sheet: "lamp" }] } },
    });
    // What one sheet shows does not hold: the other cannot mend it.
    expect((await book.workings("check")).stdout).toMatch(/^heat +does not hold/m);
    // One sheet holds the new value, one the old: which of the two is meant cannot be published, stamp or no stamp.
    expect((await book.workings("publish", "--stale")).stderr).toMatch(
      /high is given 15 V ±2 % in lamp, cell 2, but given 5 V ±2 % in fan, cell 2/,
    );
    expect((await book.run()).status).toBe(0);
    book.edit("01-lamp.ipynb", (cell, index) => (index === 1 ? { ...cell, source: `${cell.source}\n// again` } : cell));
    expect((await book.workings("publish", "--stale", "--csv", "--markdown")).status).toBe(0);
    const line = "stale: lamp (its cells have changed)";
    for (const name of [
      "lamp.html",
      "lamp/README.md",
      "lamp/lamp.md",
      "lamp/fan.md",
      "lamp/register.md",
      "lamp-results.csv",
      "lamp-givens.csv",
    ])
      expect(readFileSync(book.file(`build/${name}`), "utf8"), name).toContain(line);
  });
});

describe("two sheets that answer one requirement", { timeout }, () => {
  it("are both told, and the worst decides in check, results.json, tables and document", async () => {
    const book = new FaultBook(
      { "01-lamp.ipynb": judging("lamp", "P = 3*V*I"), "02-fan.ipynb": judging("fan", "P = V*I") },
      withRequirement,
    );
    expect((await book.run()).status).toBe(0);
    const checked = await book.workings("check");
    expect(checked.status).toBe(1);
    expect(checked.stdout).toMatch(/^heat +does not hold +33\.66 mW .*lamp\n(?: .*\n)*? +holds +11\.22 mW .*fan$/m);
    expect((await book.workings("publish", "--csv")).status).toBe(0);
    expect(book.read("build/lamp.html")).toContain("0 of 1 requirements hold");
    expect(book.read("build/lamp-requirements.csv")).toMatch(
      /^heat,does not hold,worst case,lamp,does not hold,.*\r\nheat,does not hold,worst case,fan,holds,/m,
    );
  });
});

describe("what a sheet has read beside the design file", { timeout }, () => {
  const reading = [
    `import { readFileSync, promises } from "node:fs";\nimport { factor } from "./factor";\n${opening("lamp")}`,
    'const h = sheet.given({ V: ["high", volt], I: ["current", mA] });\nconst text = readFileSync("words.txt", "utf8");\nlet late = "";\ntry { readFileSync("later.txt"); late = "there"; } catch { late = "not there"; }',
    'const more = await promises.readFile("more.txt", "utf8");\nconsole.log(factor, text, more, late);\nsheet.publish({ P: sheet.derive("P = V*I", h, mW, "power") });',
  ];

  it("makes it stale when it changes, and names the file", async () => {
    const book = new FaultBook({ "01-lamp.ipynb": reading });
    book.write("notebooks/factor.ts", "export const factor = 2;\n");
    book.write("notebooks/words.txt", "one");
    book.write("notebooks/more.txt", "one");
    expect(await book.run()).toMatchObject({ status: 0, stderr: "" });
    expect((await book.workings("check")).stdout).not.toContain("not fresh");
    const changes = { "notebooks/factor.ts": "export const factor = 3;\n", "notebooks/words.txt": "two", "notebooks/more.txt": "two" };
    for (const [name, text] of Object.entries(changes)) {
      const before = book.read(name);
      book.write(name, text);
      expect((await book.workings("check")).stdout).toContain(`lamp: ${name} has changed`);
      book.write(name, before);
    }
    expect((await book.workings("check")).stdout).not.toContain("not fresh");
    book.write("notebooks/later.txt", "now");
    expect((await book.workings("check")).stdout).toContain("lamp: notebooks/later.txt has changed");
    expect((await book.run()).stdout).toContain("done, outputs changed");
  });

  it("is the design as the sheet found it: one that was changed during the run and set back is not recorded as fresh", async () => {
    const path = "../data/design.yaml";
    const book = new FaultBook({
      "01-lamp.ipynb": [
        `import { readFileSync, writeFileSync } from "node:fs";\nconst before = readFileSync("${path}", "utf8");\nwriteFileSync("${path}", before.replace("5 V", "6 V"));\n${opening("lamp")}`,
        ...healthy("lamp").slice(1),
        `writeFileSync("${path}", before);`,
      ],
    });
    const ran = await book.run();
    expect(ran.stderr).toContain("data/design.yaml changed while lamp ran: its outputs are of what it read then; run it again");
    expect(ran.status).toBe(1);
    expect(await book.workings("publish")).toMatchObject({ status: 1 });
  });
});

describe("outputs that a front end has left without one another", { timeout }, () => {
  const apart = (name: string, current = "current") => [
    opening(name),
    'const a = sheet.given({ V: ["high", volt] });',
    `const b = sheet.given({ V: ["high", volt], I: ["${current}", mA] });\nsheet.publish({ P: sheet.derive("P = V*I", b, mW, "power") });`,
  ];
  const outputsOf = (book: FaultBook) => codeCells(book.notebook("01-lamp.ipynb")).map(({ outputs }) => outputs);

  /** Everything says why the sheet is stale, nothing fails deep inside, and a run mends it. */
  const expectStale = async (book: FaultBook, why: string) => {
    const said = `  lamp: ${why}`;
    expect((await book.workings("check")).stdout).toContain(said);
    const refused = await book.workings("publish");
    expect(refused).toMatchObject({ status: 1, stdout: "" });
    expect(refused.stderr).toContain(said);
    const all = await book.workings("publish", "--stale");
    expect(all.status).toBe(2);
    expect(all.stderr).toMatch(/^lamp, cell \d: its output .*; workings run lamp makes it anew$/m);
    expect(await book.run()).toMatchObject({ status: 0, stderr: "" });
    expect(await book.workings("publish")).toMatchObject({ status: 0, stderr: "" });
  };

  it("makes the sheet stale where a cell was deleted that held a node, with or without the record of the run", async () => {
    for (const lost of [false, true]) {
      const book = new FaultBook({ "01-lamp.ipynb": apart("lamp") });
      expect((await book.run()).status).toBe(0);
      const notebook = book.notebook("01-lamp.ipynb");
      notebook.cells.splice(1, 1);
      book.write("notebooks/01-lamp.ipynb", formatNotebook(notebook));
      if (lost) book.write("build/fresh.json", "");
      const why = "cell 2: its output names high, which no cell's output holds (was a cell deleted or cleared?)";
      await expectStale(book, lost ? `build/fresh.json has no run of it on record; ${why}` : why);
    }
  });

  it("makes it stale where a cell of another run was kept: one node with two contents", async () => {
    const book = new FaultBook({ "01-lamp.ipynb": apart("lamp") });
    expect((await book.run()).status).toBe(0);
    const [, first] = outputsOf(book);
    book.write("data/design.yaml", design.replace("5 V ±2 %", "6 V ±2 %"));
    expect((await book.run()).status).toBe(0);
    book.edit("01-lamp.ipynb", (cell, index) => (index === 1 ? { ...cell, outputs: first ?? [] } : cell));
    await expectStale(book, "cell 3: its output was made with another high than that in cell 2");
    const [, held] = outputsOf(book);
    book.write("data/design.yaml", design);
    expect((await book.run()).status).toBe(0);
    book.edit("01-lamp.ipynb", (cell, index) => (index === 2 ? { ...cell, outputs: [...(held ?? []), ...cell.outputs] } : cell));
    await expectStale(book, "cell 3: its output has another high than that of cell 2");
  });

  it("says of outputs in the form of another version that they are", async () => {
    const book = new FaultBook({ "01-lamp.ipynb": apart("lamp") });
    expect((await book.run()).status).toBe(0);
    book.write("notebooks/01-lamp.ipynb", book.read("notebooks/01-lamp.ipynb").replaceAll('"version": 2', '"version": 1'));
    await expectStale(book, "cell 2: its output was written by another version of this library");
  });
});

describe("names of sheets", { timeout }, () => {
  it("two notebooks that open one worksheet are refused, with both and the remedy, by run, check and publish", async () => {
    const book = new FaultBook({ "01-lamp.ipynb": healthy("lamp"), "02-fan.ipynb": healthy("lamp") });
    for (const command of ["run", "check", "publish"]) {
      const { status, stderr } = await book.workings(command);
      expect(status, command).toBe(2);
      expect(stderr).toContain('the notebook of the sheet "fan", cell 1, opens worksheet("lamp"); write worksheet("fan") there, or rename');
      expect(stderr).toContain('01-lamp.ipynb opens worksheet("lamp") as well');
    }
  });

  it("a name that is made while the sheet runs is held against the file's too", async () => {
    const made = healthy("lamp").map((source) => source.replace('worksheet("lamp")', 'worksheet(["la", "pm"].join(""))'));
    const { status, stderr } = await new FaultBook({ "01-lamp.ipynb": made }).run();
    expect(status).toBe(1);
    expect(stderr).toContain(
      'worksheet("lapm") stands in 01-lamp.ipynb, which is the sheet "lamp"; write worksheet("lamp"), or rename the notebook',
    );
  });
});

describe("a book.yaml in the project's own folder", { timeout }, () => {
  it("keeps build/ there, not in the folder above", async () => {
    const book = new FaultBook({});
    for (const [name, text] of Object.entries({
      "own/data/design.yaml": design,
      "own/book.yaml": 'title: T\nrevision: "A"\ndesign: data/design.yaml\nworksheets:\n  - 01-lamp.ipynb\n',
    }))
      book.write(name, text);
    book.sheet("01-lamp.ipynb", ...healthy("lamp"));
    book.write("own/01-lamp.ipynb", book.read("notebooks/01-lamp.ipynb"));
    expect(await book.run("--book", "own/book.yaml")).toMatchObject({ status: 0, stderr: "" });
    expect(book.has("own/build/results.json")).toBe(true);
    expect(book.has("build")).toBe(false);
  });
});
