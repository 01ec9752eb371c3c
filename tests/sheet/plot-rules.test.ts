/** Limits across a plot: from a quantity, or straight from a requirement of the design file. */
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { readDesign } from "../../lib/design/read";
import type { Display, PlotBlock } from "../../lib/sheet/block";
import type { RuleOptions } from "../../lib/sheet/plot-call";
import { Session } from "../../lib/sheet/session";
import { Worksheet } from "../../lib/sheet/worksheet";
import { mm, volt } from "../../lib/units";

const designText = `
product: { name: Lid, revision: "1" }
sources: { own: { type: document, title: Made up for this test } }
requirements:
  stiff: { statement: Is stiff., limit: "<= 0.5 mm", judged: worst case, source: own }
  size: { statement: Has its size., limit: 14 mm ±0.2 mm, judged: worst case, source: own }
  rail: { statement: Is low., limit: "<= 5 V", judged: worst case, source: own }
givens:
  deflection: { value: 0.4 mm ±10 %, meaning: deflection, source: own }
  most: { value: 0.6 mm, meaning: a limit of our own, source: own }
`;

const sinkKey = Symbol.for("workings.display");
const shared = globalThis as Record<symbol, unknown>;
let shown: { readonly data: Readonly<Record<string, unknown>> }[] = [];
let sheet: Worksheet;

beforeEach(() => {
  shown = [];
  shared[sinkKey] = (message: (typeof shown)[number]) => shown.push(message);
  sheet = new Worksheet(new Session("lid", readDesign(designText, "design.yaml")));
});
afterEach(() => {
  delete shared[sinkKey];
});

function rulesOf(...rules: RuleOptions[]) {
  const { w } = sheet.given({ w: ["deflection", mm] });
  sheet.plot({ name: "p", caption: "c", x: { label: "w", unit: mm }, spreads: { lid: w }, rules });
  const display = shown.at(-2)?.data["application/vnd.workings+json"] as Display | undefined;
  return (display?.block as PlotBlock | undefined)?.rules;
}

describe("a rule of a plot", () => {
  it("stands at a quantity", () => {
    const { most } = sheet.given({ most: ["most", mm] });
    expect(rulesOf({ axis: "x", label: "most", at: most })).toEqual([{ axis: "x", label: "most", value: 0.6e-3 }]);
  });

  it("stands at the limit of a requirement, or at both of them", () => {
    expect(rulesOf({ axis: "x", label: "limit", requirement: "stiff" })).toEqual([{ axis: "x", label: "limit", value: 0.5e-3 }]);
    const both = rulesOf({ axis: "x", label: "size", requirement: "size" }) ?? [];
    expect(both.map(({ value }) => value.toFixed(6))).toEqual(["0.013800", "0.014200"]);
  });

  it("is refused where its dimension is not that of the axis, or no requirement is called so", () => {
    expect(() => rulesOf({ axis: "x", label: "limit", requirement: "rail" })).toThrow(
      'plot "p": limit must be length on the x axis, got voltage',
    );
    expect(() => rulesOf({ axis: "x", label: "limit", requirement: "stif" })).toThrow(/stif/);
    expect(() => rulesOf({ axis: "x", label: "limit", at: volt(1) })).toThrow(/must be length on the x axis, got voltage/);
  });

  it("that a curve is to keep within needs its band, and its dimension", () => {
    const { w, most } = sheet.given({ w: ["deflection", mm], most: ["most", mm] });
    const curve = sheet.sweep(sheet.derive("s = 1*w", { w }, mm, "the same"), w, { from: w, to: most, points: 3 });
    const drawn = (within: string, band: boolean) =>
      sheet.plot({
        name: "p",
        caption: "c",
        x: { label: "w", unit: mm },
        y: { label: "s", unit: mm },
        series: [{ label: "s", curve, band, within }],
      });
    expect(() => drawn("stiff", false)).toThrow("s is to keep within stiff, which is judged by its spread; add band: true");
    expect(() => drawn("rail", true)).toThrow("requirement rail must be length on the y axis, got voltage");
    drawn("stiff", true);
    const display = shown.at(-2)?.data["application/vnd.workings+json"] as Display | undefined;
    expect((display?.block as PlotBlock | undefined)?.series[0]?.within).toEqual({ high: 0.5e-3, judged: "worst case" });
  });
});
