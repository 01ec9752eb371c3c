/** What a plot says of its bands, and the lines that define its window. */
import { describe, expect, it } from "vitest";
import { Evaluation } from "../../lib/analysis/evaluation";
import { Graph } from "../../lib/graph/graph";
import type { PlotBlock } from "../../lib/sheet/block";
import { plotData } from "../../lib/sheet/plot/data";
import { keyWords } from "../../lib/sheet/plot/key-words";
import { innerWidth, linesOf } from "../../lib/sheet/plot/room";
import { formula, given, within } from "../graph/nodes";

const graph = Graph.from([
  given("a", 2, within(1.8, 2.2)),
  { ...given("k", 1, within(0.9, 1.1)), knowledge: true },
  formula("f", "a*3"),
  formula("g", "a*k"),
  ...(["f", "g"] as const).map((of) => ({
    ...({ kind: "sweep", id: `${of}-over-a`, of, over: "a", dimension: "1", unit: "1", xDimension: "1", xUnit: "1" } as const),
    points: [1, 2, 3],
  })),
  {
    ...({ kind: "sweep", id: "g-over-k", of: "g", over: "k", dimension: "1", unit: "1", xDimension: "1", xUnit: "1" } as const),
    points: [1, 2, 3],
  },
]);
const evaluation = new Evaluation(graph);
const axis = { label: "a", unit: "1", scale: "linear" } as const;
const bare = { type: "plot", name: "p", caption: "c", x: axis, y: axis } as const;
const words = (more: Partial<PlotBlock>) => {
  const block: PlotBlock = { ...bare, series: [], ...more };
  return keyWords(block, plotData(block, evaluation));
};

describe("the key of a plot", () => {
  it("is none of bare curves", () => {
    expect(words({ series: [{ label: "f", curve: "f-over-a" }] })).toBeUndefined();
  });

  it("tells how units differ in production from what is not known", () => {
    expect(words({ series: [{ label: "g", curve: "g-over-k", band: true }] })).toBe(
      "Dark band: 95 % of units, which differ in production; light band: worst case.",
    );
    expect(words({ series: [{ label: "g", curve: "g-over-a", band: true }] })).toMatch(
      /^Dark band: 95 % of units, which differ in production; light band: worst case; dotted: doubt, what the middle unit could be /,
    );
  });

  it("tells of several bands that they are of 95 % of units, and what bars mean", () => {
    const two = ["f", "g"].map((of) => ({ label: of, curve: `${of}-over-k`, band: true }));
    expect(words({ series: [two[1] ?? [], { ...two[1], label: "again" }] as PlotBlock["series"] })).toMatch(/^Bands: 95 % of units/);
    expect(words({ spreads: [{ label: "f", node: "f" }] })).toBe(
      "Tick: nominal; thick bar: 95 % of units, which differ in production; thin bar: worst case.",
    );
    expect(words({ spreads: [{ label: "g", node: "g" }] })).toContain("; dotted frame: doubt, ");
  });
});

describe("a plot with a window", () => {
  const block: PlotBlock = {
    ...bare,
    series: [{ label: "g", curve: "g-over-k", band: true, within: { high: 5, judged: "worst case" } }],
  };

  it("draws the limit, and the edge of the band that is held against it", () => {
    const { rules, lines } = plotData(block, evaluation);
    expect(rules.map(({ axis, label, value }) => [axis, label, value])).toEqual([["y", "limit of g", 5]]);
    expect(lines.map(({ edgeHigh }) => edgeHigh)).toEqual(lines.map(({ worstHigh }) => worstHigh));
    expect(lines.every(({ edgeLow }) => edgeLow === undefined)).toBe(true);
    expect(keyWords(block, plotData(block, evaluation))).toContain("; dashed: worst case, held against the limit; shaded: ");
  });

  it("draws no limit twice", () => {
    const { rules } = plotData({ ...block, rules: [{ axis: "y", label: "most", value: 5 }] }, evaluation);
    expect(rules.map(({ label }) => label)).toEqual(["most"]);
  });
});

describe("the room of a plot", () => {
  it("is less where names stand beside the axis", () => {
    expect(innerWidth({}, [], "wide")).toBeGreaterThan(innerWidth({}, ["a curve's name"], "wide"));
    expect(innerWidth({}, [], "wide") - innerWidth({}, [], "narrow")).toBe(188);
    expect(innerWidth({ spreads: [{ label: "a".repeat(60), node: "f" }] }, [], "narrow")).toBe(120);
  });

  it("sets a text in lines of whole words", () => {
    expect(linesOf("layout and slowest edges", 16)).toEqual(["layout and", "slowest edges"]);
    expect(linesOf("interconnections here", 8)).toEqual(["interconnections", "here"]);
  });
});
