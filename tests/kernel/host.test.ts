import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { type RunOptions, runNotebook, settingOf } from "../../lib/kernel/host";
import { Kernel } from "../../lib/kernel/kernel";
import { codeCells, type Output, readNotebook } from "../../lib/kernel/notebook";
import { formatSheetError, type SheetError } from "../../lib/kernel/sheet-error";
import { bundle, quickEngine, scratch, writeFixture } from "./fixture";

const folder = scratch();
const child = join(folder, "kernel-child.js");
beforeAll(() => bundle(folder, { "kernel-child": "kernel/child.ts" }));
/** One for all: a sheet that leaves it as it was saves the next the start of a process. */
const kernel = new Kernel();
afterAll(() => kernel.close());

/** What cells print, and where they fail, is the same by both ways of running them; those with tslab's display go to tslab in any case. */
const engine = quickEngine(join(folder, "cells"));
const engineName = engine.native === undefined ? "tslab" : "native";

const run = (path: string, options: RunOptions = {}) => runNotebook(path, { child, kernel, ...engine, ...options });

/** Runs cells that must fail; the file must keep its bytes. */
async function failure(name: string, cells: readonly string[], options: RunOptions = {}): Promise<SheetError> {
  const path = writeFixture(folder, `${name}.ipynb`, ...cells);
  const before = readFileSync(path, "utf8");
  const result = await run(path, options);
  if (result.ok) throw new Error(`${name} did not fail`);
  expect(readFileSync(path, "utf8")).toBe(before);
  return result.error;
}

async function outputs(name: string, ...cells: readonly string[]): Promise<Output[][]> {
  const result = await run(writeFixture(folder, `${name}.ipynb`, ...cells));
  if (!result.ok) throw new Error(formatSheetError(result.error));
  return codeCells(result.notebook).map((cell) => cell.outputs);
}

const stdout = (text: string): Output => ({ output_type: "stream", name: "stdout", text });

describe("runNotebook", { timeout: 60_000 }, () => {
  it("writes outputs in order, counts executed cells, and leaves an unchanged file alone", async () => {
    const path = writeFixture(
      folder,
      "plain é.ipynb",
      "# Text",
      "console.log(1); console.error(2); console.log(3);\nconsole.log(4)",
      "",
      'import { display } from "tslab";\ndisplay.html("<b>5</b>"); "six"',
    );
    const first = await run(path);
    expect(first).toMatchObject({ ok: true, changed: true, warnings: [] });
    expect(codeCells(readNotebook(path)).map(({ execution_count, outputs }) => [execution_count, outputs])).toEqual([
      [1, [stdout("1\n"), { output_type: "stream", name: "stderr", text: "2\n" }, stdout("3\n4\n")]],
      [null, []],
      [2, [{ output_type: "display_data", data: { "text/html": "<b>5</b>" }, metadata: {} }, stdout("six\n")]],
    ]);
    expect(await run(path)).toMatchObject({ ok: true, changed: false });
  });

  it("updates a display in place", async () => {
    const shown = await outputs("update", 'import { newDisplay } from "tslab";\nconst d = newDisplay();\nd.text("old");', 'd.text("new");');
    expect(shown).toEqual([[{ output_type: "display_data", data: { "text/plain": "new" }, metadata: {} }], []]);
  });

  it("tells the cell which cell it is, and runs it in the notebook's folder", async () => {
    const shown = await outputs(
      "where",
      "console.log(JSON.stringify((globalThis as any)[Symbol.for('workings.cell')]))",
      "console.log(process.cwd().split('/').pop())",
    );
    expect(shown).toEqual([[stdout('{"notebook":"where.ipynb","index":1,"id":"c1"}\n')], [stdout(`${folder.split("/").pop()}\n`)]]);
  });

  it("waits for timers and counts their output to the cell that started last", async () => {
    expect(await outputs("late", "setTimeout(() => console.log('late'), 60);\nconst a = 1;", "const b = a;")).toEqual([
      [],
      [stdout("late\n")],
    ]);
  });

  it("closes what is still open after the grace and says so", async () => {
    const result = await run(writeFixture(folder, "open.ipynb", "const timer = setInterval(() => undefined, 50);"), { grace: 200 });
    expect(result).toMatchObject({ ok: true, warnings: [expect.stringMatching(/^still open 0\.2 s after the last cell \(Timeout\)/)] });
  });
});

describe("a failing sheet", { timeout: 60_000 }, () => {
  it("that throws is placed in the cell that the error came from, with the calls that led there", async () => {
    const error = await failure("throws", [
      "# Text",
      "interface Row { a: number }\n\nfunction scale(row: Row): number {\n  if (row.a > 1) throw new RangeError('too much');\n  return row.a;\n}",
      "console.log('so far');\nconst s = [1, 2].map((a: number) => scale({ a }));",
    ]);
    expect(error).toMatchObject({ kind: "throw", sheet: "throws.ipynb", cell: 1, id: "c2", line: 4, message: "RangeError: too much" });
    expect(error.trace[0]).toBe("cell 1, line 4, column 24 in scale");
    expect(error.trace.at(-1)).toBe("cell 2, line 2, column 18");
  });

  it("is reported with the source, a caret and what was printed", async () => {
    const error = await failure("framed", ["console.log('so far');\n\tthrow new Error('no');"]);
    expect(formatSheetError(error)).toBe(
      [
        "framed.ipynb, cell 1 (id c1), line 2:8",
        "   1 | console.log('so far');",
        "   2 | \tthrow new Error('no');",
        "     | \t      ^",
        "Error: no",
        "printed before it failed:",
        "  so far",
      ].join("\n"),
    );
  });

  it("that does not compile is placed by its first diagnostic", async () => {
    const error = await failure("compile", ["const a: number = 1;", "const b = a;\nconst c: string = a;\nconst d = zz;"]);
    expect(error).toMatchObject({
      kind: "compile",
      cell: 2,
      line: 2,
      column: 7,
      printed: "",
      message: "Type 'number' is not assignable to type 'string'.\n(and 1 more error in this cell)",
    });
    expect(error.sourceLines.at(-1)).toBe("     |       ^");
  });

  it("that the library's types refuse is told by their sentence alone", async () => {
    const cell =
      'function take<T extends string>(text: T extends "x" ? T : \'✗ cannot add V_s (voltage) and "I" (current)\'): void {}\ntake("y");';
    expect(await failure("types", [cell])).toMatchObject({
      kind: "compile",
      line: 2,
      column: 6,
      message: 'cannot add V_s (voltage) and "I" (current)',
    });
  });

  it("that loops for ever is stopped", async () => {
    const error = await failure("loop", ["console.log('x');", "console.log('y');\nfor (;;) {}"], { timeout: 700 });
    expect(error).toMatchObject({ kind: "timeout", cell: 2, printed: "y\n", message: "the cell did not end within 0.7 s and was stopped" });
  });

  it("that exits the process is placed at the exit", async () => {
    expect(await failure("exits", ["const a = 1;\nprocess.exit(0);"])).toMatchObject({
      kind: "exit",
      cell: 1,
      line: 2,
      message: expect.stringContaining("process.exit, code 0"),
    });
  });

  it("that kills the process has the signal in its report", async () => {
    expect(await failure("killed", ["process.kill(process.pid, 'SIGKILL'); for (;;) {}"])).toMatchObject({
      kind: "death",
      cell: 1,
      message: "the kernel's process ended by signal SIGKILL before the sheet was done",
    });
  });

  it("that rejects later is placed in the cell that made the promise", async () => {
    expect(
      await failure("rejects", [
        "const p = 1;\nvoid new Promise((_, reject) => setTimeout(() => reject(new Error('later')), 30));",
        "const q = 2;",
      ]),
    ).toMatchObject({ kind: "rejection", cell: 1, line: 2, message: "Error: later" });
  });

  it("that awaits what nothing settles does not wait for the time limit", async () => {
    expect(await failure("stalls", ["await new Promise(() => undefined);"])).toMatchObject({ kind: "stalled", cell: 1 });
  });

  it("that exhausts its memory is told so", async () => {
    expect(
      await failure("memory", ["const kept: number[][] = [];\nfor (;;) kept.push(new Array(100000).fill(1.5));"], { heap: 120 }),
    ).toMatchObject({ kind: "death", cell: 1, message: "the sheet needs more memory than its limit of 120 MiB" });
  });

  it("that throws no error is told what it threw", async () => {
    expect((await failure("bare", ["throw { code: 7 };"])).message).toBe("the cell threw { code: 7 }, which is not an Error");
  });

  it("is left as it is when it was saved meanwhile, or interrupted", async () => {
    const path = writeFixture(folder, "saved.ipynb", "await new Promise((done) => setTimeout(done, 300));");
    const result = await run(path, { onCell: () => writeFixture(folder, "saved.ipynb", "// newer") });
    expect(result).toMatchObject({ ok: false, error: { kind: "changed" } });
    expect(readNotebook(path).cells[0]?.source).toBe("// newer");
    const interrupt = new AbortController();
    const stopped = await failure("stopped", ["for (;;) {}"], { signal: interrupt.signal, onCell: () => interrupt.abort() });
    expect(stopped.kind).toBe("interrupted");
  });

  it("that cannot be read, is of another language, or whose kernel does not start is an error value", async () => {
    const path = join(folder, "malformed.ipynb");
    writeFileSync(path, "{");
    expect(await run(path)).toMatchObject({
      ok: false,
      error: { kind: "read", message: expect.stringMatching(/^malformed\.ipynb:1:2: not a notebook/) },
    });
    const python = writeFixture(folder, "python.ipynb", "1");
    writeFileSync(python, readFileSync(python, "utf8").replaceAll('"typescript"', '"python"'));
    expect(await run(python)).toMatchObject({ ok: false, error: { message: expect.stringContaining('its kernelspec says "python"') } });
    const never = join(folder, "never.js");
    writeFileSync(never, "setInterval(() => undefined, 1000)");
    expect(await run(writeFixture(folder, "never.ipynb", "1"), { child: never, startTimeout: 300 })).toMatchObject({
      ok: false,
      error: { kind: "timeout", message: "the kernel did not start within 0.3 s and was stopped" },
    });
    expect(await run(writeFixture(folder, "absent.ipynb", "1"), { child: join(folder, "absent.js") })).toMatchObject({
      ok: false,
      error: { kind: "death" },
    });
  });
});

describe("a kernel that was started beforehand", () => {
  const shown = async (own: Kernel, path: string): Promise<string> => {
    const result = await runNotebook(path, { child, kernel: own, ...engine });
    if (!result.ok) throw new Error(result.error.message);
    return JSON.stringify(codeCells(result.notebook).at(-1)?.outputs);
  };

  it("runs the notebook with that setting, and gives way to another process for a different one", { timeout: 60_000 }, async () => {
    const path = writeFixture(folder, "beforehand.ipynb", "console.log(1)");
    const own = new Kernel();
    const started = vi.spyOn(own as unknown as { runAnew: () => unknown }, "runAnew");
    own.start(settingOf(path, { child }, engineName));
    expect(await shown(own, path)).toContain("1");
    expect(started).not.toHaveBeenCalled();
    own.close();
    own.start(settingOf(path, { child, heap: 512 }, engineName));
    expect(await shown(own, path)).toContain("1");
    expect(started).toHaveBeenCalledTimes(1);
    own.start(settingOf(path, { child, heap: 512 }, engineName));
    own.start(settingOf(path, { child }, engineName));
    expect(await shown(own, path)).toContain("1");
    expect(started).toHaveBeenCalledTimes(1);
    own.close();
  });
});
