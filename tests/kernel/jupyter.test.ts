import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { runNotebook } from "../../lib/kernel/host";
import { codeCells } from "../../lib/kernel/notebook";
import { formatSheetError } from "../../lib/kernel/sheet-error";
import { bundle, scratch, writeFixture } from "./fixture";
import { merged, noJupyter, runUnderJupyter } from "./jupyter";

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

describe.skipIf(noJupyter)("the runner beside a real tslab kernel", { timeout: 120_000 }, () => {
  it("gives the outputs that the kernel gives over the Jupyter protocol", async () => {
    const folder = scratch();
    bundle(folder, { "kernel-child": "kernel/child.ts" });
    const theirs = writeFixture(folder, "theirs.ipynb", ...cells);
    const ours = await runNotebook(writeFixture(folder, "ours.ipynb", ...cells), { child: join(folder, "kernel-child.js") });
    if (!ours.ok) throw new Error(formatSheetError(ours.error));
    const expected = codeCells(runUnderJupyter(theirs, folder)).map(({ outputs }) => merged(outputs));
    expect(codeCells(ours.notebook).map(({ outputs }) => outputs)).toEqual(expected);
    expect(expected.flat().length).toBeGreaterThan(8);
  });
});
