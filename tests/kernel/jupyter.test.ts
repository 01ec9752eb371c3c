import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { runNotebook } from "../../lib/kernel/host";
import { registerKernel } from "../../lib/kernel/kernelspec";
import { codeCells, type Notebook } from "../../lib/kernel/notebook";
import { formatSheetError } from "../../lib/kernel/sheet-error";
import { bundle, scratch, writeFixture } from "./fixture";
import { merged, noJupyter, runByItsOwnKernel, runUnderJupyter } from "./jupyter";

const cells = [
  "# A fixture",
  'import { display, newDisplay } from "tslab";\nimport { join } from "path";\nconst table: Record<string, number[]> = { a: [1, 2.5], b: [] };',
  'console.log("plain", table);\nconsole.error("to stderr");\nconsole.log("more");\nprocess.stdout.write("no newline");',
  'display.html("<b>Ω</b>\\n<i>µ</i>");\ndisplay.svg("<svg xmlns=\\"http://www.w3.org/2000/svg\\"/>");\nconsole.log(join("a", "b"));\ndisplay.png(Uint8Array.of(1, 2, 3));',
  "",
  "class Point { constructor(readonly x: number, readonly y: number) {} }\nconst points = [new Point(1, 2)];\npoints",
  "const later = await Promise.resolve(points.length + 1);\nlater",
  'const shown = newDisplay();\nshown.text("first");\nshown.text("second");',
];

const mergedOutputs = (notebook: Notebook) => codeCells(notebook).map(({ outputs }) => merged(outputs));

describe.skipIf(noJupyter)("over the Jupyter protocol", { timeout: 120_000 }, () => {
  it("a real tslab kernel and our own give the outputs that the runner gives", async () => {
    const folder = scratch();
    const child = join(folder, "kernel-child.js");
    bundle(folder, { "kernel-child": "kernel/child.ts" });
    const path = writeFixture(folder, "cells.ipynb", ...cells);
    const run = await runNotebook(path, { child, write: false });
    if (!run.ok) throw new Error(formatSheetError(run.error));
    const expected = codeCells(run.notebook).map(({ outputs }) => outputs);
    expect(expected.flat().length).toBeGreaterThan(8);
    expect(mergedOutputs(runUnderJupyter(path, folder))).toEqual(expected);
    const { folder: jupyterPath } = registerKernel(join(folder, "jupyter"), child);
    expect(mergedOutputs(runByItsOwnKernel(path, folder, jupyterPath))).toEqual(expected);
  });
});
