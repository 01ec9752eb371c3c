/** What a cell may and may not say to a worksheet, to both compilers: exact result types, and one sentence for each mistake. */
import { expect, test } from "vitest";
import { compileAsNotebook, compileStrict, imports } from "../types/compile";

const header = [
  imports({
    "quantity/quantity": [
      "Quantity",
      "Unit",
      "Voltage",
      "Current",
      "Resistance",
      "Temperature",
      "Dimensionless",
      "Energy",
      "Torque",
      "Work",
    ],
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
  "declare const E: Quantity<Energy>, M: Quantity<Torque>, W: Quantity<Work>, joule: Unit<Energy>, newtonMetre: Unit<Torque>, work: Unit<Work>;",
  "declare const anything: any, text: string, someQuantity: Quantity<any>, someUnit: Unit<any>, someCurve: Curve<any, any>;",
  "declare const leds: { red: { V: Quantity<Voltage> }; green: { V: Quantity<Voltage> } };",
  "declare const options: { a: { label: string; V: Quantity<Voltage> }; b: { label: string; V: Quantity<Voltage> } };",
  "declare const spent: Formula<{ readonly E: Unit<Energy> }, Energy>;",
  "const rail = sheet.alternatives('rail', { a: { label: 'A', V: g.V_s }, b: { label: 'B', V: g.V_f } }, ({ V }) => ({ V, part: { V } }));",
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
  "const h = sheet.derive(point, { V_s: anything, R, diode: someCurve }); is<typeof h.I, Quantity<Current>>(true);",
  "const i = sheet.derive(anything, g, ohm); is<typeof i, any>(true);",
  'const j = sheet.derive(text, g, ohm, "resistor"); is<typeof j, Quantity<Resistance>>(true);',
  'const k = sheet.derive("R = V_s/I", g, someUnit, "resistor"); is<typeof k, Quantity<any>>(true);',
  "const l = sheet.derive(spent, { E: W }, work); is<typeof l, Quantity<Work>>(true);",
  "const m = sheet.derive(spent, { E: someQuantity }, joule); is<typeof m, Quantity<Energy>>(true);",
  'const n = sheet.given({ V: ["a", volt], iv: ["b", volt, mA] }); is<typeof n.V, Quantity<Voltage>>(true); is<typeof n.iv, Curve<Voltage, Current>>(true);',
  "const o = sheet.sweep(g.I, E, { from: W, points: 5 }); is<typeof o, Curve<Energy, Current>>(true);",
  "const p = sheet.sweep(g.I, g.V_s); is<typeof p, Curve<Voltage, Current>>(true);",
  "const q = iv.at(g.V_s); is<typeof q, Quantity<Current>>(true); const r = iv.crossing(someQuantity); is<typeof r, Quantity<Voltage>>(true);",
  'const s = sheet.decide(rail, { question: "which", criteria: { V: { label: "voltage", better: "lower" } } }); is<typeof s.part.V, Quantity<Voltage>>(true);',
  'sheet.decide(rail, { question: "which", criteria: { V: { label: "voltage", nearest: g.V_s, requirement: "a" } } });',
  'sheet.decide(rail, { question: "which", criteria: { V: { label: "voltage", better: "smallest spread" } } });',
  "const set = sheet.setOnce(R); is<typeof set, Quantity<Resistance>>(true);",
  "const t = sheet.derive(resistor, anything, ohm); is<typeof t, Quantity<Resistance>>(true);",
  'const u = sheet.derive("R = V_s/I", { V_s: anything, I: g.I, iv, more: 5 }, ohm, "resistor"); is<typeof u, Quantity<Resistance>>(true);',
  'const v = sheet.each("led", leds, led => ({ V: led.V, part: { I: g.I } }), "caption"); is<typeof v.red.part.I, Quantity<Current>>(true); is<keyof typeof v, "red" | "green">(true);',
  'const w = sheet.alternatives("w", { a: { label: "A", V: g.V_s }, b: { label: "B", V: g.V_f, more: R } }, (one) => ({ V: one.V })); is<typeof w.items[0]["results"]["V"], Quantity<Voltage>>(true);',
  'const x = sheet.alternatives("x", options, ({ V }, name) => { const out = sheet.derive("I = V/R", { V, R }, mA, name); return { I: out }; }); is<typeof x.items[0]["results"], { I: Quantity<Current> }>(true);',
  'const y = sheet.take({ V: ["other.V", volt] }); is<typeof y.V, Quantity<Voltage>>(true);',
];

/** A wrong line, and the sentence in its error: all of what the runner shows of it. */
const wrongCalls: Readonly<Record<string, string | RegExp>> = {
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
  "sheet.derive(point, g)": "✗ R is missing: resistance",
  "sheet.derive(point, { V_s: g.V_s })": /✗ (R is missing: resistance|diode is missing: a table of current against voltage)/,
  "sheet.derive(spent, { E: M }, joule)": "✗ E must be energy, got torque",
  "sheet.derive(spent, { E }, newtonMetre)": "✗ the law gives energy, not torque",
  'sheet.derive(5, g, ohm, "nonsense")': "✗ derive takes the text of a law, a formula or a model",
  'sheet.derive({}, g, ohm, "nonsense")': "✗ derive takes the text of a law, a formula or a model",
  'sheet.derive("V_s/I", g, ohm, "resistor")': "✗ the result has no name; begin with one, as in R = V_s/I",
  'sheet.derive("X = V_s*2", { V_s: 5 }, volt, "nonsense")': "✗ V_s is no quantity",
  'sheet.derive("X = iv", { iv }, volt, "nonsense")': "✗ iv is no quantity",
  "sheet.derive(resistor, g.V_s, ohm)": "✗ derive takes the quantities of the law by symbol, as in { V: V, I: I }",
  "sheet.derive(point, 5)": "✗ derive takes the quantities of the law by symbol, as in { V: V, I: I }",
  'sheet.take({ R: ["other.R"] })': "✗ R must be [sheet.name, unit]",
  'sheet.take({ R: "other.R" })': "✗ R must be [sheet.name, unit]",
  'sheet.each("led", leds, led => led.V)': "✗ return the results by name, as in { R: R }",
  'sheet.each("led", leds, led => { const V = led.V; })': "✗ return the results by name, as in { R: R }",
  'sheet.each("led", leds, led => ({ V: led.V, iv }))': "✗ iv must be a quantity, or quantities by name",
  'sheet.alternatives("x", options, ({ V }) => { V; })': "✗ return the results by name, as in { R: R }",
  'sheet.alternatives("x", options, ({ V }) => ({ V, share: 5 }))': "✗ share must be a quantity, or quantities by name",
  'sheet.alternatives("x", { a: { label: "A", V: g.V_s }, b: { V: g.V_f } }, ({ V }) => ({ V }))': "✗ an alternative needs a label",
  'sheet.given({ V: ["a", volt], W: ["b"] })': "✗ W must be [path, unit], or [path, unit, unit] for a table",
  'sheet.given({ V: ["a", "volt"] })': "✗ V must be [path, unit], or [path, unit, unit] for a table",
  'sheet.given({ V: "a" })': "✗ V must be [path, unit], or [path, unit, unit] for a table",
  'sheet.given({ V: ["a", volt, mA, mA] })': "✗ V must be [path, unit], or [path, unit, unit] for a table",
  "sheet.sweep(g.I, g.V_s, { from: g.I })": "✗ from must be voltage, got current",
  "sheet.sweep(g.I, E, { to: M })": "✗ to must be energy, got torque",
  "iv.at(g.I)": "✗ the abscissa must be voltage, got current",
  "iv.crossing(g.V_s)": "✗ the ordinate must be current, got voltage",
  'sheet.decide(rail, { question: "which", criteria: { X: { label: "x", better: "lower" } } })': "✗ the alternatives give no quantity 'X'",
  'sheet.decide(rail, { question: "which", criteria: { part: { label: "x", better: "lower" } } })':
    "✗ the alternatives give no quantity 'part'",
  'sheet.decide(rail, { question: "which", criteria: { V: { label: "x", nearest: g.I } } })': "✗ nearest must be voltage, got current",
  'sheet.decide(rail, { question: "which", criteria: { V: { label: "x", better: "lower", nearest: g.V_s } } })':
    "✗ say better or nearest, not both",
  'sheet.decide(rail, { question: "which", criteria: { V: { label: "x" } } })': "✗ say what is best: better, or nearest",
};

const lines = [header, ...right, ...Object.keys(wrongCalls)].join("\n").split("\n");
const firstWrong = lines.length - Object.keys(wrongCalls).length + 1;

function firstSentence(message: string): string | undefined {
  return /"(✗ [^"]*)"/.exec(message)?.[1];
}

function expectSentences(errors: readonly { line: number; message: string }[]): void {
  expect(errors.filter(({ line }) => line < firstWrong)).toEqual([]);
  for (const [index, [call, sentence]] of Object.entries(wrongCalls).entries()) {
    const own = errors.filter(({ line }) => line === firstWrong + index);
    expect(own.length, call).toBe(1);
    expect(firstSentence(own[0]?.message ?? ""), call).toEqual(sentence instanceof RegExp ? expect.stringMatching(sentence) : sentence);
  }
}

test("TypeScript 5.0 without strict, as the notebook kernel checks, says one sentence for each mistake", () => {
  const { errors, instantiations } = compileAsNotebook(lines.join("\n"));
  expectSentences(errors);
  // 22 138 when written; a third more is a change to look at, since notebooks wait for every instantiation.
  expect(instantiations).toBeLessThan(29_500);
});

test("the current TypeScript with strict says the same", () => {
  expectSentences(compileStrict(lines.join("\n")));
});
