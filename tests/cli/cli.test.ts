import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { describe, expect, it } from "vitest";
import { readBookFile } from "../../lib/book/book-file";
import { Standing } from "../../lib/book/standing";
import { openDesign } from "../../lib/cli/context";
import { hashOfLibrary } from "../../lib/cli/library";
import { formatNotebook, type Notebook } from "../../lib/kernel/notebook";
import { type Display, displayType } from "../../lib/sheet/block";
import { storeDisplay } from "../../lib/sheet/stored";
import { display, doubtedDisplay, publishBlock, requirementDisplay, shown } from "../book/display-fixture";
import { cli, command as workings } from "../e2e/commands";
import { scratch, writeFixture } from "../kernel/fixture";

const design = `product: { name: Test Piece, revision: "1" }
sources:
  brief: { type: document, title: The brief }
requirements:
  supply: { statement: The supply is at least 4.4 V., limit: ">= 4.4 V", judged: worst case }
  other: { statement: Nothing computes this., limit: "<= 1 W", judged: 95 % }
`;

/** A cell that shows what a sheet would, without the library: it hands the kernel the bundle itself (`lib/sheet/emit.ts`). */
const showing = (shown: Display) => {
  const bundle = { data: { [displayType]: storeDisplay(shown) }, metadata: {}, transient: {} };
  return `(globalThis as any)[Symbol.for("workings.display")](${JSON.stringify(bundle)});`;
};

function newBook(sheets: Readonly<Record<string, readonly string[]>>): string {
  const root = scratch();
  mkdirSync(join(root, "notebooks"));
  mkdirSync(join(root, "data"));
  writeFileSync(join(root, "data/design.yaml"), design);
  const lines = Object.entries(sheets).map(
    ([file, cells]) =>
      `  - ${writeFixture(join(root, "notebooks"), file, ...cells)
        .split("/")
        .pop()}`,
  );
  writeFileSync(
    join(root, "notebooks/book.yaml"),
    ["title: Test", 'revision: "A"', "design: ../data/design.yaml", "worksheets:", ...lines, ""].join("\n"),
  );
  return root;
}

const read = (...path: string[]) => readFileSync(join(...path), "utf8");

describe("workings run", () => {
  it("runs the sheets in order, writes notebooks and results, and the second time changes nothing", async () => {
    const root = newBook({ "02-light.ipynb": [showing(display("light", publishBlock))], "01-plain.ipynb": ["console.log(1)"] });
    const first = await workings(root, "run");
    expect(first).toMatchObject({ status: 0, stderr: "" });
    expect(first.stdout).toMatch(/^light {2}done, outputs changed {2}[\d.]+ s\nplain {2}done, outputs changed {2}[\d.]+ s\n$/);
    const results = read(root, "build/results.json");
    expect(JSON.parse(results)).toMatchObject({ version: 1, sheets: { light: { V_s: { value: 4.5, unit: "V" } }, plain: {} } });
    const again = await workings(join(root, "notebooks"), "run", "02-light.ipynb", "--json");
    expect(JSON.parse(again.stdout)).toMatchObject({
      ok: true,
      results: "build/results.json",
      sheets: [{ sheet: "light", ok: true, changed: false }],
    });
    expect(read(root, "build/results.json")).toBe(results);
  });

  it("reports a failing sheet, runs the others, and leaves the results as they were", async () => {
    const root = newBook({ "01-bad.ipynb": ["const a = 1;", "throw new Error('no such part');"], "02-good.ipynb": ["1"] });
    const before = read(root, "notebooks/01-bad.ipynb");
    const { status, stdout, stderr } = await workings(root, "run");
    expect(status).toBe(1);
    expect(stdout).toMatch(/^bad {3}failed.*\ngood {2}done/);
    expect(stderr).toContain(
      "01-bad.ipynb, cell 2 (id c2), line 1:7\n   1 | throw new Error('no such part');\n     |       ^\nError: no such part",
    );
    expect(stderr).toContain("results.json is left as it was");
    expect(read(root, "notebooks/01-bad.ipynb")).toBe(before);
    expect(existsSync(join(root, "build/results.json"))).toBe(false);
  });

  it("runs another design through the same sheets without writing them", async () => {
    const root = newBook({ "01-light.ipynb": ["console.log(process.env.WORKINGS_DESIGN);", showing(display("light", publishBlock))] });
    writeFileSync(join(root, "data/second.yaml"), design.replace("Test Piece", "Second Piece"));
    const before = read(root, "notebooks/01-light.ipynb");
    expect(await workings(root, "run", "--design", "data/second.yaml")).toMatchObject({ status: 0, stderr: "" });
    expect(read(root, "notebooks/01-light.ipynb")).toBe(before);
    expect(JSON.parse(read(root, "build/results-second.json"))).toMatchObject({ sheets: { light: { V_s: { value: 4.5 } } } });
    expect(existsSync(join(root, "build/results.json"))).toBe(false);
  });

  it("says what is wrong with the command, the book or the design, with exit code 2", async () => {
    const root = newBook({ "01-light.ipynb": ["1"] });
    expect(await workings(root, "run", "ligth")).toMatchObject({
      status: 2,
      stdout: "",
      stderr: 'the book has no sheet "ligth"; did you mean light?\n',
    });
    expect((await workings(root, "frobnicate")).status).toBe(2);
    expect(await workings(root, "run", "--design", "data/none.yaml")).toMatchObject({
      status: 2,
      stderr: expect.stringContaining("cannot read the design file"),
    });
    writeFileSync(join(root, "data/design.yaml"), "product: [");
    expect(await workings(root, "run")).toMatchObject({ status: 2, stderr: expect.stringMatching(/^data\/design\.yaml.*malformed YAML/s) });
    rmSync(join(root, "notebooks/01-light.ipynb"));
    expect(await workings(root, "run")).toMatchObject({
      status: 2,
      stderr: expect.stringMatching(/^notebooks\/book\.yaml:5:5: the file notebooks\/01-light\.ipynb does not exist/),
    });
    expect(await workings("/", "check")).toMatchObject({ status: 2, stderr: expect.stringContaining("no book.yaml") });
  });
});

describe("workings check", () => {
  const bookShowing = (verdict: "holds" | "not sure" | "does not hold", ...more: string[]) => {
    const root = newBook({ "01-light.ipynb": [] });
    const notebook = shown(display("light", publishBlock), verdict === "not sure" ? doubtedDisplay("light") : requirementDisplay("light"));
    for (const source of more)
      notebook.cells.push({ cell_type: "code", id: "typed", metadata: {}, source, outputs: [], execution_count: 3 });
    put(root, notebook);
    if (verdict === "does not hold") writeFileSync(join(root, "data/design.yaml"), design.replace(">= 4.4 V", ">= 4.6 V"));
    return root;
  };
  /** Puts the notebook there as a run leaves it, with the record of it. */
  const put = (root: string, notebook: Notebook) => {
    writeFileSync(join(root, "notebooks/01-light.ipynb"), formatNotebook(notebook));
    const file = readBookFile(join(root, "notebooks/book.yaml"));
    const standing = new Standing(file, openDesign(file), join(root, "build/fresh.json"), hashOfLibrary(dirname(cli)));
    standing.remember("light", notebook, { asked: [], files: {}, purposes: {} });
  };

  it("lists every requirement with verdict, deciding value, limit and margin", async () => {
    expect(await workings(bookShowing("holds"), "check")).toEqual({
      status: 0,
      stderr: "",
      stdout: [
        "supply  holds           4.41 V (worst case), limit >= 4.4 V, margin 0.01 V, light",
        "other   not shown       Nothing computes this.",
        "2 requirements: 1 holds, 0 do not hold, 1 not shown by any sheet",
        "every number bound to a result in the text is the computed one, every prompt can be followed",
        "no quantity is typed into a cell",
        "",
      ].join("\n"),
    });
  });

  it("counts what is not shown, and fails for it only when asked to be strict", async () => {
    const root = bookShowing("holds");
    expect(await workings(root, "check", "--strict")).toMatchObject({
      status: 1,
      stdout: expect.stringContaining("1 not shown by any sheet"),
    });
    expect(await workings(root, "run", "--strict")).toMatchObject({
      status: 2,
      stderr: expect.stringContaining("--strict belongs to the command check"),
    });
  });

  it("tells what is not sure with its reason, and fails for it only when asked to be strict", async () => {
    const root = bookShowing("not sure");
    const { status, stdout } = await workings(root, "check");
    expect(status).toBe(0);
    expect(stdout).toMatch(
      /^supply {2}not sure {8}4\.5 V \(worst case\), limit >= 4\.4 V, margin 0\.1 V, light\n {8}a lower value may have been missed: the law has no value at \d+ of \d+ points within the limits\n/,
    );
    expect(stdout).toContain("2 requirements: 0 hold, 0 do not hold, 1 not sure, 1 not shown by any sheet");
    expect((await workings(root, "check", "--strict")).status).toBe(1);
  });

  it("fails when a number in the text is not the computed one", async () => {
    const root = newBook({ "01-light.ipynb": [] });
    const notebook = shown(display("light", publishBlock), requirementDisplay("light"));
    notebook.cells.push({ cell_type: "markdown", id: "told", metadata: {}, source: "It is [99 V](#nothing)." });
    put(root, notebook);
    const checked = await workings(root, "check");
    expect(checked.status).toBe(1);
    expect(checked.stdout).toContain("light, text (cell id told), line 1: [99 V](#nothing) leads to no result; there is no light.nothing");
  });

  it("fails when a requirement does not hold or a quantity is typed into a cell", async () => {
    const failing = await workings(bookShowing("does not hold"), "check");
    expect(failing).toMatchObject({ status: 1, stdout: expect.stringMatching(/^supply {2}does not hold +4\.41 V/) });
    const typed = await workings(bookShowing("holds", "const R = kohm(4.7);"), "check", "--json");
    expect(typed.status).toBe(1);
    expect(JSON.parse(typed.stdout)).toMatchObject({
      ok: false,
      requirements: [
        { requirement: "supply", verdict: "holds" },
        { requirement: "other", verdict: "not shown" },
      ],
      literals: [{ sheet: "01-light.ipynb", cell: 3, line: 1, column: 11, text: "kohm(4.7)" }],
    });
  });
});

describe("workings publish", () => {
  it("asks for a run first where a sheet has none", async () => {
    expect(await workings(newBook({ "01-light.ipynb": ["1"] }), "publish")).toMatchObject({
      status: 1,
      stderr: expect.stringMatching(/^not fresh .*:\n {2}light: it has never run\nnothing is published; /),
    });
  });
});

describe("workings --help", () => {
  it("prints the help", async () => {
    expect(await workings("/", "--help")).toMatchObject({ status: 0, stderr: "", stdout: expect.stringContaining("Examples") });
  });
});
