/** Our own kernel as a Jupyter front end finds and uses it. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import { runNotebook } from "../../lib/kernel/host";
import { codeCells, readNotebook } from "../../lib/kernel/notebook";
import { formatSheetError } from "../../lib/kernel/sheet-error";
import { isFull } from "../full";
import { type Answer, begin, type Conversation, converse, type Step } from "../kernel/conversation";
import { merged, noJupyter, runByItsOwnKernel } from "../kernel/jupyter";
import { root } from "../root";
import { FaultBook } from "./fault-book";
import { sheetPath } from "./run";

let book: FaultBook;
let jupyterPath: string;
beforeAll(async () => {
  book = new FaultBook({});
  const said = await book.workings("kernel", "--json");
  expect(said).toMatchObject({ status: 0, stderr: "" });
  ({ jupyterPath } = JSON.parse(said.stdout));
});

const opening = `import { worksheet } from "workings";
import { mA, ohm, volt } from "workings/units";
const sheet = worksheet("lamp");
const h = sheet.given({ V: ["high", volt], I: ["current", mA] });`;
const deriving = 'const R = sheet.derive("R = V/I", h, ohm, "resistor");';

/** One conversation for all: each step under the name by which the tests ask for its answer. */
const steps = {
  opening: { ask: "execute", code: opening, cellId: "opening" },
  derives: { ask: "execute", code: deriving, cellId: "resistor" },
  again: { ask: "execute", code: deriving.replace("V/I", "2*V/I"), cellId: "resistor" },
  twice: { ask: "execute", code: deriving, cellId: "another" },
  shows: { ask: "execute", code: "console.log(R.in(ohm));" },
  members: { ask: "complete", code: "R." },
  part: { ask: "complete", code: "const sum = R.pl" },
  givens: { ask: "complete", code: "h." },
  names: { ask: "complete", code: "she" },
  quantity: { ask: "inspect", code: "R" },
  method: { ask: "inspect", code: "sheet.derive" },
  nothing: { ask: "inspect", code: "" },
  short: { ask: "execute", code: "const both = { R, h };\nconsole.log(both.R === R, both.h === h);" },
  throws: { ask: "execute", code: 'const scale = () => {\n  throw new RangeError("no such part");\n};\nconsole.log("before");\nscale();' },
  compiles: { ask: "execute", code: "console.log(1);\nconst x = h.V.plus(h.I);" },
  refuses: { ask: "execute", code: 'sheet.given({ V: ["hihg", volt] });' },
  computes: { ask: "execute", code: "let turns = 0;\nfor (;;) turns++;", interruptAfter: 1 },
  waits: { ask: "execute", code: "await new Promise(() => undefined);", interruptAfter: 1 },
  after: { ask: "execute", code: "console.log(R.in(ohm) > 0);" },
  late: { ask: "execute", code: 'const late = () => {\n  throw new Error("too late");\n};' },
  meanwhile: { ask: "execute", code: "setTimeout(late, 0);\nawait new Promise((done) => setTimeout(done, 200));" },
  helper: { ask: "execute", code: 'const half = () => {\n  return sheet.derive("H = V/I", h, ohm, "half");\n};', cellId: "helper" },
  helped: { ask: "execute", code: "half();\nhalf();", cellId: "helped" },
  edited: { ask: "execute", code: 'sheet.derive("A = V/I", h, ohm, "a");', cellId: "edited" },
  renamed: { ask: "execute", code: 'sheet.derive("B = V/I", h, ohm, "b");', cellId: "edited" },
  reused: { ask: "execute", code: 'sheet.derive("A = 2*V/I", h, ohm, "a");', cellId: "reused" },
  untold: { ask: "execute", code: 'sheet.derive("A = 3*V/I", h, ohm, "a");' },
  holds: { ask: "execute", code: "void setInterval(() => undefined, 1000);" },
} satisfies Record<string, Step>;

describe.skipIf(noJupyter)("our kernel, asked by a front end", { timeout: 120_000 }, () => {
  let said: Conversation;
  const answer = (name: keyof typeof steps) => said.answers[Object.keys(steps).indexOf(name)] as Answer;
  const stdout = (text: string) => ({ type: "stream", name: "stdout", text });
  beforeAll(() => {
    said = converse(jupyterPath, book.file("notebooks"), Object.values(steps));
  }, 180_000);

  it("completes the members of a quantity and of an object of givens, and names", () => {
    expect(answer("members").reply?.matches).toEqual(expect.arrayContaining(["in", "as", "plus", "minus", "mul", "div"]));
    expect(answer("part").reply).toMatchObject({ matches: ["plus"], cursor_start: "const sum = R.".length });
    expect(answer("givens").reply?.matches).toEqual(["I", "V"]);
    expect(answer("names").reply?.matches).toContain("sheet");
  });

  it("tells of a quantity what it is, in the words of the trade, and of a function what it does", () => {
    expect(answer("quantity").reply?.data).toEqual({ "text/plain": "const R: Quantity<Resistance>" });
    expect(answer("method").reply?.data?.["text/plain"]).toContain("Computes a result from a law.");
    expect(answer("nothing").reply).toMatchObject({ status: "ok", found: false });
  });

  it("shows what the same cell derives when it is run again in place of what it derived", () => {
    const text = ({ published }: Answer) => String(published[0]?.data?.["text/plain"]);
    expect(text(answer("derives"))).toMatch(/R = V\/I\n {4}= 2\.5\skΩ/);
    expect(text(answer("again"))).toMatch(/R = 2\*V\/I\n {4}= 5\skΩ/);
  });

  it("refuses a name that another cell derives, and keeps the first", () => {
    const message = "lamp, cell 4: R is defined twice, in cell 3, line 1 and in cell 4, line 1; give one of the two another name";
    expect(answer("twice").reply).toMatchObject({ status: "error", evalue: message });
    expect(answer("shows").published).toEqual([stdout("5000\n")]);
  });

  it("refuses a helper that is called twice, with both calls and the remedy", () => {
    const calls =
      "H is defined twice, in cell 15, line 2 (called from cell 16, line 1) and in cell 15, line 2 (called from cell 16, line 2)";
    expect(answer("helped").reply).toMatchObject({ status: "error", evalue: expect.stringContaining(calls) });
    expect(answer("helped").reply).toMatchObject({ evalue: expect.stringContaining("let sheet.each call it") });
  });

  it("gives a name free that its cell, edited and run again, defines no more", () => {
    expect(answer("reused").reply).toMatchObject({ status: "ok" });
  });

  it("replaces, and says so, where a front end does not tell its cells apart", () => {
    const texts = answer("untold").published.map(({ data }) => String(data?.["text/plain"]));
    expect(texts[0]).toBe("lamp: A is defined again; what it stood for before is replaced");
    expect(texts[1]).toMatch(/A = 3\*V\/I/);
  });

  it("takes the short form of names of earlier cells", () => {
    expect(answer("short").published).toEqual([stdout("true true\n")]);
  });

  it("sends an error as Jupyter's own, with the cell's source and the calls that led there", () => {
    const [before, error] = answer("throws").published;
    expect(before).toEqual(stdout("before\n"));
    expect(error).toEqual({
      type: "error",
      ename: "RangeError",
      evalue: "no such part",
      traceback: [
        "this notebook, cell 7, line 2:9",
        "   1 | const scale = () => {",
        '   2 |   throw new RangeError("no such part");',
        "     |         ^",
        "RangeError: no such part",
        "  at cell 7, line 2, column 9 in scale",
        "  at cell 7, line 5, column 1",
      ],
    });
    expect(answer("throws").reply).toMatchObject({ status: "error", ename: "RangeError", evalue: "no such part" });
  });

  it("sends what the compiler or the library says about quantities, before the cell runs or from where it was called", () => {
    expect(answer("compiles").published).toEqual([
      {
        type: "error",
        ename: "TypeScript",
        evalue: "cannot add current to voltage",
        traceback: [
          "this notebook, cell 8, line 2:20",
          "   1 | console.log(1);",
          "   2 | const x = h.V.plus(h.I);",
          "     |                    ^",
          "cannot add current to voltage",
        ],
      },
    ]);
    const [refused] = answer("refuses").published;
    expect(refused?.traceback?.slice(0, 2)).toEqual(["this notebook, cell 9, line 1:7", '   1 | sheet.given({ V: ["hihg", volt] });']);
    expect(refused?.evalue).toContain("high");
  });

  it.each(["computes", "waits"] as const)("lets go of a cell that %s for ever on an interrupt, and goes on", (name) => {
    expect(answer(name).reply).toMatchObject({ status: "error", ename: "Interrupted" });
    expect(answer(name).published[0]?.traceback?.[0]).toMatch(/^this notebook, cell \d+$/);
    expect(answer("after").published).toEqual([stdout("true\n")]);
  });

  it("says what is thrown outside of a cell, and where in which cell", () => {
    const [late] = answer("meanwhile").published;
    expect(late).toMatchObject({ type: "stream", name: "stderr" });
    expect(late?.text).toContain("cell 13, line 2:9\n");
    expect(late?.text).toContain("Error: too late");
  });

  it("ends when it is shut down, whatever cells have left open", () => {
    expect(answer("holds").reply).toMatchObject({ status: "ok" });
    expect(said.ended).toBe(0);
    expect(() => process.kill(said.pid, 0)).toThrow(/ESRCH/);
  });

  it("ends with a front end that is killed, also in a cell that never ends", async () => {
    const code = 'import { writeFileSync } from "fs";\nwriteFileSync("turning", "");\nfor (;;) {}';
    const { frontEnd, kernel } = await begin(jupyterPath, book.file("notebooks"), [{ ask: "execute", code }]);
    const isAlive = () => {
      try {
        return process.kill(kernel, 0);
      } catch {
        return false;
      }
    };
    await expect.poll(() => book.has("notebooks/turning"), { timeout: 60_000 }).toBe(true);
    expect(isAlive()).toBe(true);
    frontEnd.kill("SIGKILL");
    await expect.poll(isAlive, { timeout: 20_000 }).toBe(false);
  });
});

describe.runIf(isFull && !noJupyter)("a notebook of the book under our kernel", { timeout: 180_000 }, () => {
  it("opens with it as it is, and gives the outputs of the runner", async () => {
    const run = await runNotebook(sheetPath, { write: false, child: join(root, "dist/kernel-child.js") });
    if (!run.ok) throw new Error(formatSheetError(run.error));
    const before = readFileSync(sheetPath, "utf8");
    const executed = runByItsOwnKernel(sheetPath, join(root, "notebooks"), jupyterPath);
    const outputs = codeCells(executed).map(({ id, outputs: shown }) => ({ id, shown: merged(shown) }));
    expect(outputs).toEqual(codeCells(run.notebook).map(({ id, outputs: shown }) => ({ id, shown })));
    expect(executed.metadata).toEqual(readNotebook(sheetPath).metadata);
    expect(readFileSync(sheetPath, "utf8")).toBe(before);
  });
});
