import { describe, expect, it } from "vitest";
import { bookTakes, tiesOf } from "../../lib/kernel/takes";
import { notebookOf } from "./fixture";

describe("takes of a worksheet", () => {
  it("are read from its cells without running them", () => {
    const notebook = notebookOf(
      '# Text that says sheet.take({ x: ["a.b", volt] })',
      'const sheet = worksheet("budget");',
      'const { P } = sheet.take({ P: ["indicators.P", mW],\n  R: [`indicators.R_green`, ohm] });\n// take({ no: ["x.y", volt] })',
      'sheet\n  .take({ t: ["battery.runtime", hour] });',
    );
    expect(tiesOf(notebook).takes).toEqual([
      { sheet: "indicators", name: "P", cell: 2 },
      { sheet: "indicators", name: "R_green", cell: 2 },
      { sheet: "battery", name: "runtime", cell: 3 },
    ]);
  });

  it("are none where nothing is taken, and open where names are not literal", () => {
    const nothing = { takes: [], contributes: [], collects: [], opens: [] };
    expect(tiesOf(notebookOf("const x = 1;"))).toEqual({ ...nothing, isOpen: false });
    for (const cell of [
      "sheet.take(spec);",
      "sheet.take({ P: [name, mW] });",
      "sheet.collect(budget, gram);",
      "sheet.contribute(budget, {});",
    ])
      expect(tiesOf(notebookOf(cell)), cell).toEqual({ ...nothing, isOpen: true });
    expect(tiesOf(notebookOf('sheet.take({ P: ["a.b", mW] });')).isOpen).toBe(false);
  });

  it("are those of roll-ups too: a sheet that collects takes from every other that contributes", () => {
    const sheets = {
      brief: ['const M = sheet.collect("mass", gram, { name: "M", meaning: "mass" });', 'sheet.contribute("mass", { spare: m });'],
      enclosure: ['sheet.contribute("mass", { shell: m });\nsheet.contribute("cost", { shell: c });'],
      battery: ['sheet.contribute("mass", { cell: m });\nsheet.confirm("indicators.play", P);'],
      indicators: ['sheet.assume("play", "budget.play", mW);'],
    };
    const takes = bookTakes(Object.entries(sheets).map(([name, cells]) => ({ name, ties: tiesOf(notebookOf(...cells)) })));
    expect(takes.get("brief")).toEqual([
      { sheet: "enclosure", name: "roll-up mass", cell: 1 },
      { sheet: "battery", name: "roll-up mass", cell: 1 },
    ]);
    expect(takes.get("battery")).toEqual([{ sheet: "indicators", name: "play", cell: 1 }]);
    expect(takes.get("enclosure")).toEqual([]);
  });
});
