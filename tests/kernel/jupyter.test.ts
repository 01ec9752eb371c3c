import { mkdirSync, writeFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { describe, expect, it } from "vitest";
import { runNotebook } from "../../lib/kernel/host";
import { codeCells, type Output, readNotebook } from "../../lib/kernel/notebook";
import { formatSheetError } from "../../lib/kernel/sheet-error";
import { bundle, scratch, writeFixture } from "./fixture";
import { python, runPython } from "./python";

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

/** nbclient 0.7 keeps every message apart; front ends and later versions merge consecutive texts of one stream. */
function merged(outputs: readonly Output[]): Output[] {
  const result: Output[] = [];
  for (const output of outputs) {
    const last = result.at(-1);
    if (output.output_type === "stream" && last?.output_type === "stream" && last.name === output.name) last.text += output.text;
    else result.push({ ...output });
  }
  return result;
}

const executeScript = `
import nbformat, sys
from nbclient import NotebookClient
nb = nbformat.read(sys.argv[1], as_version=4)
NotebookClient(nb, kernel_name="tslab-test", timeout=60, startup_timeout=60, resources={"metadata": {"path": sys.argv[2]}}).execute()
nbformat.write(nb, sys.argv[1])
`;

describe.runIf(python)("the runner beside a real tslab kernel", { timeout: 120_000 }, () => {
  it("gives the outputs that the kernel gives over the Jupyter protocol", async () => {
    const folder = scratch();
    bundle(folder, { "kernel-child": "kernel/child.ts" });
    const kernel = join(folder, "jupyter/kernels/tslab-test");
    mkdirSync(kernel, { recursive: true });
    const tslab = resolve(__dirname, "../../node_modules/tslab/bin/tslab");
    writeFileSync(
      join(kernel, "kernel.json"),
      JSON.stringify({
        argv: [process.execPath, tslab, "kernel", "--config-path={connection_file}"],
        display_name: "tslab",
        language: "typescript",
      }),
    );
    const theirs = writeFixture(folder, "theirs.ipynb", ...cells);
    const ours = await runNotebook(writeFixture(folder, "ours.ipynb", ...cells), { child: join(folder, "kernel-child.js") });
    if (!ours.ok) throw new Error(formatSheetError(ours.error));
    const { FORCE_COLOR: _, ...environment } = process.env;
    runPython(executeScript, [theirs, folder], { ...(environment as Record<string, string>), JUPYTER_PATH: join(folder, "jupyter") });
    const expected = codeCells(readNotebook(theirs)).map(({ outputs }) => merged(outputs));
    expect(codeCells(ours.notebook).map(({ outputs }) => outputs)).toEqual(expected);
    expect(expected.flat().length).toBeGreaterThan(8);
  });
});
