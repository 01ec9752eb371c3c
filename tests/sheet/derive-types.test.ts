/** What a cell that derives may and may not say, to both compilers: exact result types, and one sentence for each mistake. */
import { expect, test } from "vitest";
import { compileAsNotebook, compileStrict, imports } from "../types/compile";

const header = [
  imports({
    "quantity/quantity": ["Quantity", "Unit", "Voltage", "Current", "Resistance", "Temperature", "LuminousIntensity", "Dimensionless"],
    "sheet/curve": ["Curve"],
    "sheet/worksheet": ["Worksheet"],
    "formula/formula": ["Formula"],
    "graph/model": ["Model", "TableInput"],
  }),
  "declare const sheet: Worksheet, ohm: Unit<Resistance>, volt: Unit<Voltage>, mA: Unit<Current>;",
  "declare const g: { V_s: Quantity<Voltage>; V_f: Quantity<Voltage>; I: Quantity<Current>; T: Quantity<Temperature> };",
  "declare const iv: Curve<Voltage, Current>, wrong: Curve<Current, Dimensionless>, R: Quantity<Resistance>;",
  "declare const resistor: Formula<{ readonly V_s: Unit<Voltage>; readonly V_f: Unit<Voltage>; readonly I: Unit<Current> }, Resistance>;",
  "declare const point: Model<{ readonly V_s: Unit<Voltage>; readonly R: Unit<Resistance>; readonly diode: TableInput<Voltage, Current> }, { readonly I: Unit<Current>; readonly V_f: Unit<Voltage> }>;",
  "type Same<A, B> = (<T>() => T extends A ? 1 : 2) extends <T>() => T extends B ? 1 : 2 ? true : false;",
  "declare function is<A, B>(same: Same<A, B>): void;",
].join("\n");

const right = [
  'const a = sheet.derive("R = (V_s - V_f)/I", g, ohm, "resistor"); is<typeof a, Quantity<Resistance>>(true);',
  "const b = sheet.derive(resistor, g, ohm); is<typeof b, Quantity<Resistance>>(true);",
  'const c = sheet.derive(resistor, { ...g, more: 5 }, ohm, { name: "R_c" }); is<typeof c, Quantity<Resistance>>(true);',
  'const d = sheet.derive(point, { V_s: g.V_s, R, diode: iv }, { name: "d" }); is<typeof d.I, Quantity<Current>>(true); is<typeof d.V_f, Quantity<Voltage>>(true);',
  "const e = sheet.derive(point, { V_s: g.V_s, R, diode: iv, more: 1 });",
  "const f = sheet.derive(point, { V_s: g.I.mul(R), R: g.V_s.div(g.I), diode: iv });",
  "declare const anything: any; const h = sheet.derive(point, { V_s: anything, R, diode: iv });",
];

/** A wrong line, and what its one-line error says. */
const wrongCalls: Readonly<Record<string, string>> = {
  'sheet.derive("X = V_s + I", g, volt, "nonsense")': "✗ cannot add V_s (voltage) and I (current)",
  'sheet.derive("X = V_s/I", g, volt, "nonsense")': "✗ V_s/I is resistance, not voltage",
  'sheet.derive("X = V_s/Q", g, volt, "nonsense")': "✗ unknown symbol 'Q'",
  'sheet.derive("X = V_s", g, "volt", "nonsense")': "✗ a unit is missing, such as volt",
  "sheet.derive(resistor, { V_s: g.I, V_f: g.V_f, I: g.I }, ohm)": "✗ V_s must be voltage, got current",
  "sheet.derive(resistor, { V_s: g.T, V_f: g.V_f, I: g.I }, ohm)": "✗ V_s must be voltage, got temperature",
  "sheet.derive(resistor, { V_s: iv, V_f: g.V_f, I: g.I }, ohm)": "✗ V_s must be voltage, got no quantity",
  "sheet.derive(resistor, { V_s: 5, V_f: g.V_f, I: g.I }, ohm)": "✗ V_s must be voltage, got no quantity",
  "sheet.derive(resistor, { V_s: g.V_s, V_f: g.V_f }, ohm)": "✗ I is missing: current",
  "sheet.derive(resistor, g, volt)": "✗ the law gives resistance, not voltage",
  "sheet.derive(resistor, g, 5)": "✗ a unit is missing, such as volt",
  "sheet.derive(point, { V_s: g.I, R, diode: iv })": "✗ V_s must be voltage, got current",
  "sheet.derive(point, { V_s: g.V_s, R, diode: g.V_f })": "✗ diode must be a table of current against voltage",
  "sheet.derive(point, { V_s: g.V_s, R, diode: wrong })":
    "✗ diode must be a table of current against voltage, got one of dimensionless against current",
  "sheet.derive(point, { V_s: g.V_s, R })": "✗ diode is missing: a table of current against voltage",
  'sheet.derive(5, g, ohm, "nonsense")': "✗ derive takes the text of a law, a formula or a model",
};

const lines = [header, ...right, ...Object.keys(wrongCalls)].join("\n").split("\n");
const firstWrong = lines.length - Object.keys(wrongCalls).length + 1;

function expectSentences(errors: readonly { line: number; message: string }[]): void {
  expect(errors.filter(({ line }) => line < firstWrong)).toEqual([]);
  for (const [index, [call, sentence]] of Object.entries(wrongCalls).entries()) {
    const own = errors.filter(({ line }) => line === firstWrong + index);
    expect(own.length, call).toBe(1);
    expect(own[0]?.message, call).toContain(sentence);
  }
}

test("TypeScript 5.0 without strict, as the notebook kernel checks, says one sentence for each mistake", () => {
  const { errors, instantiations } = compileAsNotebook(lines.join("\n"));
  expectSentences(errors);
  // A third above what was measured when written: notebooks wait for every instantiation.
  expect(instantiations).toBeLessThan(45_000);
});

test("the current TypeScript with strict says the same", () => {
  expectSentences(compileStrict(lines.join("\n")));
});
