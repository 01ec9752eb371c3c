import { describe, expect, it } from "vitest";
import { takesOf } from "../../lib/kernel/takes";
import { notebookOf } from "./fixture";

describe("takes of a worksheet", () => {
  it("are read from its cells without running them", () => {
    const notebook = notebookOf(
      '# Text that says sheet.take({ x: ["a.b", volt] })',
      'const sheet = worksheet("budget");',
      'const { P } = sheet.take({ P: ["indicators.P", mW],\n  R: [`indicators.R_green`, ohm] });\n// take({ no: ["x.y", volt] })',
      'sheet\n  .take({ t: ["battery.runtime", hour] });',
    );
    expect(takesOf(notebook)).toEqual([
      { sheet: "indicators", name: "P", cell: 2 },
      { sheet: "indicators", name: "R_green", cell: 2 },
      { sheet: "battery", name: "runtime", cell: 3 },
    ]);
  });

  it("are none where names are not literal or nothing is taken", () => {
    expect(takesOf(notebookOf("const x = 1;", "sheet.take(spec);", "sheet.take({ P: [name, mW] });"))).toEqual([]);
  });
});
