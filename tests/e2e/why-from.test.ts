/** `workings why --from`: what a given reaches, told of a book that is not fresh or has never run, without running anything. */
import { describe, expect, it } from "vitest";
import { FaultBook, healthy, opening, ranBook } from "./fault-book";

describe("workings why --from", { timeout: 120_000 }, () => {
  it("tells a stale sheet by its last run, a new one by its cells, and touches nothing", async () => {
    const book = await ranBook();
    book.sheet("02-fan.ipynb", opening("fan"), 'const g = sheet.given({ V: ["high", volt] });');
    book.list("01-lamp.ipynb", "02-fan.ipynb");
    book.write("data/design.yaml", book.read("data/design.yaml").replace("5 V ±2 %", "6 V ±2 %"));
    const before = book.files();
    const { status, stdout, stderr } = await book.workings("why", "--from", "high");
    expect(status).toBe(0);
    expect(stderr).toContain("not fresh (workings run brings it up to date):\n  lamp: given high has changed in the design file");
    const text = stdout.replaceAll("\u00a0", " ");
    expect(text).toMatch(
      /^high = 6 V ±2 % {2}\(the high rail\)\nreaches 2 sheets, 1 published result; results are given at 5\.4 V and 6\.6 V/,
    );
    // By the graph of the last run the given is 5 V: 4.5 V·2 mA = 9 mW.
    expect(text).toContain("lamp  (named in cell 2; what follows is of its last run: given high has changed in the design file)");
    expect(text).toContain("lamp.P  10 mW; at 4.5 V 9 mW; at 5.5 V 11 mW  power");
    expect(text).toContain("fan  (named in cell 2; its outputs do not know it: run it to see what it moves)");
    expect(book.files()).toEqual(before);
    expect(JSON.parse((await book.workings("why", "--from", "high", "--json")).stdout)).toMatchObject({
      path: "high",
      stale: { lamp: [expect.any(String)], fan: [expect.any(String)] },
      sheets: [
        { sheet: "lamp", outputs: "reached" },
        { sheet: "fan", outputs: "silent", cells: [2] },
      ],
    });
  });

  it("knows a book that has never run by its cells, and refuses a path that is none", async () => {
    const book = new FaultBook({ "01-lamp.ipynb": healthy("lamp") });
    expect((await book.workings("why", "--from", "high")).stdout).toContain("lamp  (named in cell 2; its outputs do not know it");
    const { status, stderr } = await book.workings("why", "--from", "hihg");
    expect([status, stderr]).toEqual([2, expect.stringContaining('has no given and no decision "hihg"; did you mean high')]);
  });
});
