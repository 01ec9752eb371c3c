/** The indicators worksheet as a whole, on its own design and another, and cells that must not run. */
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join, relative } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type RunOptions, runNotebook } from "../../lib/kernel/host";
import { Kernel } from "../../lib/kernel/kernel";
import { formatNotebook, readNotebook } from "../../lib/kernel/notebook";
import { formatSheetError } from "../../lib/kernel/sheet-error";
import { notebookOf, quickEngine } from "../kernel/fixture";
import { root, testFolder } from "../root";
import { freshOf, freshRun, sheetPath } from "./run";

const child = join(root, "dist/kernel-child.js");

describe("the indicators worksheet", () => {
  const first = freshOf(readNotebook(sheetPath));

  it("runs on another product's design file without an edit, and gives other numbers", async () => {
    const other = await freshRun(readFileSync(join(root, "tests/designs/second.yaml"), "utf8"));
    const ids = [...first.shown.keys()];
    expect([...other.shown.keys()].filter((id) => !id.includes("#"))).toEqual(ids.filter((id) => !id.includes("#")));
    const moved = ids.filter((id) => other.shown.get(id) !== first.shown.get(id));
    expect(moved.length).toBeGreaterThan(0.8 * ids.length);
  });
});

describe("a cell that is wrong about its quantities", () => {
  let folder: string;
  let engine: RunOptions;
  beforeAll(() => {
    folder = mkdtempSync(join(testFolder, "wrong-"));
    engine = quickEngine(join(folder, "cells"));
    mkdirSync(join(folder, "notebooks"));
    writeFileSync(
      join(folder, "notebooks/book.yaml"),
      readFileSync(join(root, "notebooks/book.yaml"), "utf8").replace("../data", relative(join(folder, "notebooks"), join(root, "data"))),
    );
  });
  /** One for all: a cell that is refused leaves it as it was. */
  const kernel = new Kernel();
  afterAll(() => {
    kernel.close();
    rmSync(folder, { recursive: true, force: true });
  });

  const opening = `import { light } from "workings/physics";
import { worksheet } from "workings";
import { mA, ohm, one, volt } from "workings/units";
const sheet = worksheet("wrong");
const green = sheet.given({ V_s: ["rails.positive.voltage", volt], V_f: ["indicators.green.forward", volt], I: ["indicators.test-current", mA] });`;

  /** The error of the second cell, and what it printed before. */
  async function failing(cell: string) {
    const path = join(folder, "notebooks/07-wrong.ipynb");
    const before = formatNotebook(notebookOf(opening, cell));
    writeFileSync(path, before);
    const run = await runNotebook(path, { child, kernel, ...engine });
    expect(readFileSync(path, "utf8"), "the notebook is left as it was").toBe(before);
    if (run.ok) throw new Error("the cell ran");
    return run.error;
  }

  const ran = 'console.log("this cell ran");\n';

  it.each([
    {
      wrong: "adds volts to amperes in a formula",
      cell: `${ran}const X = sheet.derive("X = V_s + I", green, volt, "nonsense");`,
      message: "cannot add V_s (voltage) and I (current)",
    },
    {
      wrong: "asks for a result in a unit of another dimension",
      cell: `${ran}const R = sheet.derive("R = (V_s - V_f)/I", green, volt, "resistor");`,
      message: "(V_s - V_f)/I is resistance, not voltage",
    },
    {
      wrong: "adds quantities by method",
      cell: `${ran}const Y = green.V_s.plus(green.I);`,
      message: "cannot add current to voltage",
    },
    {
      wrong: "names a symbol that it does not pass",
      cell: `${ran}const Z = sheet.derive("Z = V_s/R", green, mA, "current");`,
      message: "unknown symbol 'R'",
    },
  ])("that $wrong does not start, and says so with sheet, cell and line", async ({ cell, message }) => {
    const error = await failing(cell);
    expect(error).toMatchObject({ sheet: "07-wrong.ipynb", cell: 2, line: 2 });
    expect(error.message).toContain(message);
    expect(error.printed).toBe("");
    expect(formatSheetError(error)).toMatch(/07-wrong\.ipynb, cell 2 \(id c2\), line 2:\d+/);
  });

  it("that passes a current for a voltage does not start", async () => {
    const error = await failing(`${ran}const R = sheet.derive(light.seriesResistor, { V_s: green.I, V_f: green.V_f, I: green.I }, ohm);`);
    expect(error).toMatchObject({ sheet: "07-wrong.ipynb", cell: 2, line: 2 });
    expect(error.message).toBe("V_s must be voltage, got current");
    expect(error.printed).toBe("");
  });

  it("that hides the mistake from the compiler is refused at run time with the same sentence", async () => {
    const error = await failing(`const text: string = "X = V_s + I";\nconst X = sheet.derive(text, green, volt, "nonsense");`);
    expect(error).toMatchObject({ sheet: "07-wrong.ipynb", cell: 2, line: 2 });
    expect(error.message).toContain("cannot add V_s (voltage) and I (current)");
  });

  it("that takes a given which does not exist is told the nearest ones", async () => {
    const error = await failing(`const x = sheet.given({ V: ["rails.positiv.voltage", volt] });`);
    expect(error.message).toContain("rails.positive.voltage");
  });

  it("that asks for a given in a unit of another dimension is told line and column of the design file", async () => {
    const error = await failing(`const x = sheet.given({ V: ["rails.positive.voltage", mA] });`);
    expect(error.message).toMatch(/design\.yaml:\d+:\d+: rails\.positive\.voltage is voltage; the worksheet asks for current \(in mA\)/);
  });
});
