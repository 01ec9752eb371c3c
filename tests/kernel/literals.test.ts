import { describe, expect, it } from "vitest";
import { quantityLiterals } from "../../lib/kernel/literals";
import { notebookOf } from "./fixture";

const texts = (...cells: string[]) => quantityLiterals(notebookOf(...cells)).map(({ text }) => text);

describe("quantityLiterals", () => {
  it("lists numbers, unit tokens called with numbers, quantity texts and calls", () => {
    expect(
      texts(
        "const a = 2.2;",
        "const b = mA(2); const c = volt(-3.3);",
        'const d = quantity("4.7 kΩ ±1 %");',
        'const e = ["3.3 V", `20 mA`];',
        "x.mul(2)",
      ),
    ).toEqual(["2.2", "mA(2)", "volt(-3.3)", 'quantity("4.7 kΩ ±1 %")', '"3.3 V"', "`20 mA`", "2"]);
  });

  it("says cell, id, line and column", () => {
    expect(quantityLiterals(notebookOf("# Text", "const a = 0;", "// two lines\nconst b = mA(20);"))).toEqual([
      {
        cell: 2,
        id: "c3",
        line: 2,
        column: 11,
        text: "mA(20)",
        message: "mA(20) is a quantity typed into a cell; move it to the design file and take it with sheet.given",
      },
    ]);
  });

  it("lets 0, 1, exponents, indices, counts and the ends of a plot's axis pass", () => {
    expect(
      texts(
        "const zero = mA(0), one = 1, minus = -1;",
        "r.pow(2); list[3]; sheet.sweep(r, i, { points: 81 });",
        'sheet.plot({ name: "iv", x: { label: "I", unit: mA, from: 0.5, to: 20 }, y: { label: "V", unit: volt, from: -2, to: 4 }, series: [] });',
      ),
    ).toEqual([]);
  });

  it("does not take the ends of anything else for those of an axis", () => {
    expect(texts("sheet.sweep(r, i, { from: mA(2), to: mA(20) });", "const range = { x: { from: 5 } };")).toEqual(["mA(2)", "mA(20)", "5"]);
  });

  it("lets words, names, paths and formulas pass", () => {
    expect(
      texts(
        'import { E24 } from "workings";\nconst names = ["E24", "3", "2nd", "indicators.green.forward", "2*pi*f", "10 to the sheet"];',
        'sheet.decide("rail", { question: "3.3 V", reason: "5 V", label: "12 V" });',
        'sheet.derive("f = 1/(2*pi*R*C)", { R: r, C: c }, hertz, "corner of the 2 stages");',
        "type Pair = 3 | 4;",
      ),
    ).toEqual([]);
  });

  it("reads what it can of a cell that does not compile", () => {
    expect(texts("const a = (volt(5)")).toEqual(["volt(5)"]);
  });
});
