/** The stored form of nodes: what is left out comes back, short lines, and a change changes the lines that say it. */
import { describe, expect, it } from "vitest";
import { parseFormula } from "../../lib/formula/parse";
import type { FormulaNode, GivenNode, GraphNode, SweepNode } from "../../lib/graph/node";
import { type Json, pythonJson } from "../../lib/kernel/python-json";
import { parseQuantity } from "../../lib/quantity/parse";
import { readNodes, storeNodes } from "../../lib/sheet/stored-nodes";
import { switchOf } from "../graph/nodes";

const given = (path: string, text: string): GivenNode => {
  const { si, spread, unit, dimension } = parseQuantity(text);
  const common = { id: `givens.${path}`, path, meaning: `value of ${path}`, symbol: "x", unit: unit.symbol, dimension: dimension.key };
  return { kind: "given", ...common, text, nominal: si, spread, provenance: { source: "own", note: "a: b", fromMemory: true } };
};
const law = (id: string, text: string, args: Record<string, string>, more: Partial<FormulaNode> = {}): FormulaNode => {
  const expression = parseFormula(text, Object.keys(args)).expression;
  const common = { symbol: id.slice(id.lastIndexOf(".") + 1), meaning: "a result", dimension: "kg·m²·s⁻³·A⁻²", unit: "Ω" };
  return { kind: "formula", id, ...common, text, expression, arguments: args, ...more };
};
const limits = [
  { symbol: "V", low: Number.MIN_VALUE, high: Infinity, text: "> 0" },
  { symbol: "T", low: 233.15, high: 398.15, text: "-40 °C to 125 °C" },
];
const scoped = (name: string, supply: string): FormulaNode[] => [
  law(`lamp.rail[${name}].V`, "V_s - V_f", { V_s: supply, V_f: "givens.forward" }, { valid: limits }),
  law(`lamp.rail[${name}].R`, "V/I", { V: `lamp.rail[${name}].V`, I: "givens.current" }),
];
const sweep: SweepNode = {
  ...{ kind: "sweep", id: "~0123456789abcdef", dimension: "A", unit: "mA", of: "lamp.I", over: "givens.forward" },
  ...{ xDimension: "kg·m²·s⁻³·A⁻¹", xUnit: "V", points: Array.from({ length: 41 }, (_, i) => 2 + i / 30) },
};

const written = (nodes: readonly GraphNode[]) => JSON.parse(pythonJson(storeNodes(nodes) as unknown as Json)) as unknown[];
const lines = (nodes: readonly GraphNode[]) => pythonJson(storeNodes(nodes) as unknown as Json).split("\n");

describe("stored nodes", () => {
  it.each<[string, readonly GraphNode[]]>([
    [
      "givens of every kind of spread",
      [
        "3 V ±2 %",
        "2.85 V ±0.12 V (3σ)",
        "78 % (72 to 82 %)",
        "25 °C in 5 °C to 35 °C",
        "2 V ×/÷1.3 (3σ)",
        "one of 300 Ω (40 %), 330 Ω (60 %)",
        "25 nm σ 3 nm ν 18",
        "3 dBm ±1 dB",
        "56 mcd",
      ].map((text, i) => given(`g${i}`, text)),
    ],
    ["a further part of a given", [{ ...given("r", "1 kΩ ±1 %"), id: "givens.r#lamp.a" }]],
    [
      "a given whose numbers its text does not state",
      [{ ...given("g", "3 V ±2 %"), nominal: 3.1, shared: [{ common: "reel", weight: 0.5 }] }],
    ],
    [
      "a reading that is evidence",
      [
        {
          ...{
            kind: "reading",
            id: "readings.bench",
            of: "lamp.V",
            text: "77.2 % (76.4 to 78 %)",
            unit: "%",
            dimension: "1",
            meaning: "reading of V",
          },
          ...{ nominal: 0.772, spread: { kind: "split", low: 0.764, high: 0.78 }, evidence: true, provenance: { source: "own" } },
        },
      ],
    ],
    ["the laws of two alternatives", [...scoped("logic", "givens.low"), ...scoped("analog", "givens.high")]],
    ["a law whose tree is not that of its text", [{ ...law("lamp.R", "V/I", { V: "a", I: "b" }), expression: { symbol: "V" } }]],
    [
      "what a decision chooses",
      [
        switchOf("lamp.rail.R", "decisions.rail", { logic: "lamp.rail[logic].R", own: "givens.R" }),
        switchOf("lamp.rail.V", "decisions.rail", { logic: "lamp.rail[logic].V", own: "givens.V" }),
      ].map((node) => ({ ...node, symbol: node.id.slice(10) })),
    ],
    ["names with spaces", [...scoped("the logic rail", "givens.low"), ...scoped("the analog rail", "givens.high")]],
    ["numbers without end", [sweep]],
    ["names of objects", [law("lamp.R", "constructor/toString", { constructor: "a", toString: "b" })]],
  ])("gives back %s as they were", (_, nodes) => {
    expect(readNodes(written(nodes))).toEqual(nodes);
    expect(Math.max(...lines(nodes).map((line) => line.length))).toBeLessThan(250);
  });

  it("tells an alternative by the first one", () => {
    expect(storeNodes([...scoped("logic", "givens.low"), ...scoped("analog", "givens.high")]).slice(2)).toEqual([
      { node: "formula lamp.rail[analog].V", like: "lamp.rail[logic].V", arguments: "V_s givens.high" },
      "formula lamp.rail[analog].R like lamp.rail[logic].R",
    ]);
  });

  it("changes one line for a changed given, and one for a law that all alternatives have", () => {
    const book = (text: string, formula: string) =>
      lines([
        given("low", text),
        given("high", "5 V ±2 %"),
        ...["a", "b", "c"].map((name) => law(`lamp.rail[${name}].R`, formula, { V: "givens.low", I: "givens.high" })),
      ]);
    const differing = (before: readonly string[], after: readonly string[]) => {
      expect(after.length).toBe(before.length);
      return after.filter((line, index) => line !== before[index]);
    };
    const before = book("3 V ±2 %", "V/I");
    expect(differing(before, book("3.1 V ±1 %", "V/I"))).toEqual(['  "text": "3.1 V ±1 %",']);
    expect(differing(before, book("3 V ±2 %", "2*V/I"))).toEqual(['  "text": "2*V/I",']);
  });
});
