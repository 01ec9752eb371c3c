/** What a book drops, or cannot judge, is said by run and check, not by the document alone. */
import { beforeAll, describe, expect, it } from "vitest";
import { formatNotebook } from "../../lib/kernel/notebook";
import { displayType } from "../../lib/sheet/block";
import { notebookOf } from "../kernel/fixture";
import { design, FaultBook, opening } from "./fault-book";

const requirement = 'requirements:\n  heat: { statement: Stays cool., limit: "<= 20 mW", judged: worst case, source: own }\ngivens:\n';
const notebook = notebookOf(
  opening("lamp"),
  'const h = sheet.given({ V: ["high", volt], I: ["current", mA], zero: ["none", volt] });\nconst P = sheet.derive("P = V*I", { V: h.V, I: h.I }, mW, "power");\nsheet.require(P, "heat");',
  'const curve = sheet.sweep(P, h.V, { from: h.zero, to: h.V });\nsheet.plot({ name: "power", caption: "Power, ![drawn](lost.png).", x: { label: "V", unit: volt, scale: "log" }, y: { label: "P", unit: mW }, series: [{ label: "lamp", curve: curve }] });',
);
const text = { cell_type: "markdown", id: "m1", metadata: {}, source: "# Lamp\n\n![found](found.svg)\n![lost](lost.png)" } as const;
const omitted = /plot "power": lamp: 1 of \d+ points are not drawn; a logarithmic axis has no place for 0 or less/;
const missing = [
  "picture lost.png: there is no such file (lamp, cell m1)",
  "picture lost.png: only the text of a notebook has pictures beside it (lamp, code cell 3)",
];

describe("what a book drops", { timeout: 240_000 }, () => {
  let book: FaultBook;
  let ran: Awaited<ReturnType<FaultBook["run"]>>;
  beforeAll(async () => {
    book = new FaultBook({}, design.replace("givens:\n", requirement));
    book.write("notebooks/01-lamp.ipynb", formatNotebook({ ...notebook, cells: [text, ...notebook.cells] }));
    book.write("notebooks/found.svg", "<svg><path d='M0 0L1 1'/></svg>");
    book.list("01-lamp.ipynb");
    ran = await book.run();
  }, 120_000);

  it("points without a place in a plot are told by the run, which succeeds, and are open to check", async () => {
    expect(ran.status).toBe(0);
    expect(ran.stderr).toMatch(omitted);
    expect(JSON.stringify(book.notebook("01-lamp.ipynb"))).toMatch(/warning: plot .{1,5}power.{1,5}: lamp: 1 of/);
    expect((await book.workings("check")).stdout).toMatch(new RegExp(`^lamp, ${omitted.source}$`, "m"));
    const { findings } = JSON.parse((await book.workings("check", "--json")).stdout);
    expect(findings).toContainEqual({ weight: "open", text: expect.stringMatching(omitted) });
  });

  it("pictures that are not there are told by check as by publish, which both refuse", async () => {
    const checked = await book.workings("check");
    const published = await book.workings("publish");
    expect([checked.status, published.status]).toEqual([1, 2]);
    for (const sentence of missing) {
      expect(checked.stdout).toContain(`${sentence}\n`);
      expect(published.stderr).toContain(sentence);
    }
  });

  it("one requirement is counted as one", async () => {
    expect((await book.workings("check")).stdout).toContain("\n1 requirement: 1 holds, 0 do not hold, 0 not shown by any sheet\n");
  });

  it("a requirement whose sheet is stale is not judged, where its outputs cannot be read or have no such answer yet", async () => {
    const before = book.read("notebooks/01-lamp.ipynb");
    const broken = { output_type: "display_data", metadata: {}, data: { [displayType]: { version: 99 } } } as const;
    book.edit("01-lamp.ipynb", (cell, index) => (index === 1 ? { ...cell, outputs: [broken] } : cell));
    expect((await book.workings("check")).stdout).toMatch(
      /^heat +not judged +lamp not fresh; lamp, cell 2: its output was written by another version of this library; .*; limit <= 20 mW$/m,
    );
    book.edit("01-lamp.ipynb", (cell) => ({ ...cell, outputs: [] }));
    expect((await book.workings("check")).stdout).toMatch(/^heat +not judged +lamp not fresh; limit <= 20 mW$/m);
    expect((await book.workings("check")).stdout).toContain(
      "\n1 requirement: 0 hold, 0 do not hold, 0 not shown by any sheet, 1 not judged: a sheet that answers it is not fresh\n",
    );
    book.write("notebooks/01-lamp.ipynb", before);
  });
});
