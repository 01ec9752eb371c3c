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

  it.each([
    ['sheet.derive("q = 1.05*Q/T", { Q, T }, mA, "current");', "1:19 1.05"],
    ['sheet.derive("q = Q/T + .5*Q/T", { Q, T }, mA, "current");', "1:25 .5"],
    ['sheet.derive("q = 1e3*Q/T", { Q, T }, mA, "current");', "1:19 1e3"],
    ['sheet.derive(\n  "q = Q/T^2*1.6e-19*a^0.5",\n  { Q, T }, mA, "current");', "2:14 1.6e-19"],
    ['const law = "q = (2 + 0.1)*Q";\nsheet.derive(law, { Q }, mA, "current");', "1:23 0.1"],
    [`sheet.derive(\`q = 1.05*\${name}\`, { Q }, mA, "current");`, "1:19 1.05"],
    [`sheet.derive(\`q = \${name}*2^n*3.7 + \${name}*1.\${n}\` as never, { Q }, mA, "current");`, "1:31 3.7, 1:45 1."],
    ['sheet.derive("q = 1." + "05*Q", { Q }, mA, "current");', "1:19 1.05"],
    ['const law = "q = " + "Q*2.5";', "1:25 2.5"],
    ['sheet.derive("1.05*Q", { Q }, mA, "current");', "1:15 1.05"],
    ['const laws = { sag: "V_s = 0.9*V" };', "1:28 0.9"],
  ])("lists a number in the text of a law: %s", (cell, expected) => {
    const found = quantityLiterals(notebookOf(cell)).map(({ line, column, text }) => `${line}:${column} ${text}`);
    expect(found.join(", ")).toBe(expected);
  });

  it("says what may stand in a law, and what to do with another number", () => {
    expect(quantityLiterals(notebookOf('sheet.derive("q = 1.05*Q", { Q }, mA, "current");'))[0]?.message).toBe(
      "1.05 is a number typed into a law, where only integers, their quotients (1/2), pi, e and exponents may stand: make it a given of the design file, or take a law of the library that cites it",
    );
  });

  it("lets integers, their quotients, pi, e and exponents stand in a law, and numbers in words", () => {
    expect(
      texts(
        'sheet.derive("E = 1/2*m*v^2 + 3/4*pi*e^-0.5*x^(1.5*n) + 12*y_2.5^+0.44", { m, v }, J, "energy, 1.05 = typical");',
        `sheet.derive(\`E = \${m}*v^2/2\`, { m, v }, J, "energy");`,
        'sheet.plot({ name: "a", caption: "I = 2.5*V", x: { label: "x = 0.5" } });',
        'sheet.table("P = 2.5 of the noise", {});',
      ),
    ).toEqual([]);
  });

  it("reads what it can of a cell that does not compile", () => {
    expect(texts("const a = (volt(5)")).toEqual(["volt(5)"]);
  });
});
