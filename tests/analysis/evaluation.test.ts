import { describe, expect, it } from "vitest";
import { Evaluation } from "../../lib/analysis/evaluation";
import { Graph } from "../../lib/graph/graph";
import { defineModel } from "../../lib/graph/model";
import type { GraphNode } from "../../lib/graph/node";
import { unitOf } from "../../lib/quantity/unit";
import { choice, formula, given, model, range, reading, select, sweep, switchOf, table, tolerant, within } from "../graph/nodes";

const evaluation = (...nodes: GraphNode[]): Evaluation => new Evaluation(Graph.from(nodes));
const one = unitOf("1");

defineModel({
  name: "test.root",
  meaning: "the root of y² = x by halving",
  source: "test",
  inputs: { x: one },
  outputs: { y: one },
  valid: [{ symbol: "x", low: 0, high: 5, text: "0 to 5" }],
  evaluate: ({ x }) => {
    let low = 0;
    let high = 100;
    for (let step = 0; step < 60; step++) {
      const middle = (low + high) / 2;
      if (middle * middle > x) high = middle;
      else low = middle;
    }
    return { y: low };
  },
});

defineModel({
  name: "test.line",
  meaning: "a line through 0",
  source: "test",
  inputs: { a: one },
  outputs: { line: { shape: "curve", x: one, y: one } },
  evaluate: ({ a }) => ({ line: { x: [0, 1, 2], y: [0, a, 2 * a] } }),
});
defineModel({
  name: "test.slow",
  meaning: "takes long",
  source: "test",
  inputs: { a: one },
  outputs: { y: one },
  draws: 100,
  evaluate: ({ a }) => ({ y: a }),
});

describe("Evaluation", () => {
  it("gives a result the same numbers in any sheet, order and company", () => {
    const nodes = [tolerant("a", 2, 0.1), tolerant("b", 3, 0.1), formula("p", "a*b"), formula("q", "p + a"), formula("r", "q/b")];
    const alone = evaluation(...nodes).analysis("r");
    const together = evaluation(given("z", 1), ...[...nodes].reverse());
    for (const id of ["p", "q", "a"]) together.analysis(id);
    expect(together.analysis("r")).toEqual(alone);
    expect(new Evaluation(Graph.from(JSON.parse(JSON.stringify(Graph.from(nodes))))).analysis("r")).toEqual(alone);
  });

  it("follows a graph that grows, and one whose nodes are replaced", () => {
    const graph = Graph.from([tolerant("a", 2, 0.1)]);
    const session = new Evaluation(graph);
    expect(session.nominal("a")).toBe(2);
    graph.add(formula("p", "2*a"));
    expect(session.nominal("p")).toBe(4);
    expect(session.analysis("p").worst?.high).toBeCloseTo(4.4, 12);
    graph.add(formula("p", "3*a"), { replace: true });
    expect(session.nominal("p")).toBe(6);
    expect(session.analysis("p").worst?.high).toBeCloseTo(6.6, 12);
  });

  it("takes the interval as the union over the range points, and the worst case over everything", () => {
    const { interval, worst } = evaluation(given("x", 0, within(-1, 1)), given("T", 0, range(-10, 10)), formula("y", "x + T")).analysis(
      "y",
    );
    expect(interval?.low).toBeCloseTo(-10.95, 1);
    expect(interval?.high).toBeCloseTo(10.95, 1);
    expect(interval?.at).toBeUndefined();
    expect([worst?.low, worst?.high]).toEqual([-11, 11]);
  });

  it.each([4, 7])("finds the worst of many range points: %d ranges", (count) => {
    const ranges = Array.from({ length: count }, (_, k) => given(`T${k}`, 0, range(-1 - k, 1)));
    const nodes = evaluation(tolerant("x", 10, 0.1), ...ranges, formula("y", ["x", ...ranges.map(({ id }) => id)].join(" + ")));
    expect(nodes.analysis("y").interval?.high).toBeCloseTo(10.95 + count, 1);
    expect(nodes.verdict("y", { low: 0 }, "95 %").at).toEqual(Object.fromEntries(ranges.map(({ id }, k) => [id, -1 - k])));
  });

  it("falls back on differences where a derivative is infinite", () => {
    const { contributions, standardUncertainty } = evaluation(
      given("x", 0, within(0, 1)),
      given("z", 1, within(0.9, 1.1)),
      formula("y", "z + sqrt(x)"),
    ).analysis("y");
    expect(contributions.map(({ share }) => share).reduce((a, b) => a + b)).toBeCloseTo(1, 12);
    expect(standardUncertainty).toBeGreaterThan(0);
    expect(standardUncertainty).toBeLessThan(10);
  });

  it("draws nothing where only a range moves the result", () => {
    const { interval, contributions, standardUncertainty } = evaluation(given("T", 0, range(-10, 10)), formula("y", "2*T")).analysis("y");
    expect(interval).toEqual({ low: -20, high: 20, samples: 1 });
    expect([contributions, standardUncertainty]).toEqual([[], 0]);
  });

  it("draws parts of one given independently, and one part once", () => {
    const { standardUncertainty } = evaluation(
      tolerant("R#1", 100, 0.01),
      tolerant("R#2", 100, 0.01),
      formula("y", "a/b", { a: "R#1", b: "R#2" }),
    ).analysis("y");
    expect(standardUncertainty).toBeCloseTo((Math.SQRT2 * 0.01) / Math.sqrt(3), 9);
    expect(evaluation(tolerant("R#1", 100, 0.01), formula("y", "a/b", { a: "R#1", b: "R#1" })).analysis("y").interval).toMatchObject({
      low: 1,
      high: 1,
    });
  });

  it("holds a preferred value while tolerances vary, and spreads it by its deviation", () => {
    const { nominal, worst, contributions } = evaluation(
      tolerant("x", 268, 0.2),
      given("d", 0, within(-0.01, 0.01)),
      select("R", "x", { deviation: "d" }),
    ).analysis("R");
    expect([nominal, worst?.low, worst?.high]).toEqual([270, 267.3, 272.7]);
    expect(contributions.map(({ given: id, share }) => [id, share])).toEqual([["d", 1]]);
  });

  it("keeps frozen numbers still and says so, downstream too", () => {
    const frozen: GraphNode = { kind: "frozen", id: "f", dimension: "1", unit: "1", value: 5, reads: ["x"] };
    const found = evaluation(tolerant("x", 5, 0.1), frozen, formula("y", "2*f"), formula("z", "y + x")).analysis("z");
    expect(found).toMatchObject({ frozen: true, nominal: 15, worst: { low: 14.5, high: 15.5 } });
    expect(evaluation(tolerant("x", 5, 0.1), formula("y", "2*x")).analysis("y").frozen).toBe(false);
  });

  it("follows a decision to another alternative", () => {
    const graph = Graph.from([
      tolerant("a", 1, 0.1),
      tolerant("b", 5, 0.1),
      choice("d", ["p", "q"], "p"),
      switchOf("s", "d", { p: "a", q: "b" }),
      formula("y", "2*s"),
    ]);
    expect(new Evaluation(graph).analysis("y")).toMatchObject({ nominal: 2, contributions: [{ given: "a" }] });
    expect(new Evaluation(graph.withChanges({ choices: { d: "q" } })).analysis("y")).toMatchObject({
      nominal: 10,
      contributions: [{ given: "b" }],
    });
  });

  it("takes contributions across models by central differences", () => {
    const { contributions, worst, standardUncertainty } = evaluation(
      tolerant("u", 2, 0.01),
      tolerant("v", 3, 0.02),
      formula("x", "u*v"),
      model("y", "test.root", "y", { x: "x" }),
    ).analysis("y");
    expect(contributions.map(({ given: id, share }) => [id, share])).toEqual([
      ["v", expect.closeTo(0.8, 5)],
      ["u", expect.closeTo(0.2, 5)],
    ]);
    expect(standardUncertainty).toBeCloseTo((Math.sqrt(6) / 2) * Math.sqrt(0.0005 / 3), 6);
    expect(worst?.high).toBeCloseTo(Math.sqrt(6 * 1.01 * 1.02), 9);
  });

  it("warns where an argument leaves the limits of its law, here or in the worst case", () => {
    const nodes = [tolerant("x", 4.8, 0.1), model("y", "test.root", "y", { x: "x" })];
    expect(evaluation(...nodes).analysis("y").warnings).toEqual([
      expect.stringMatching(/^x is 5\.28\S* in the worst case; the law holds from 0 to 5/),
    ]);
    const valid = [{ symbol: "x", low: -Infinity, high: 3, text: "< 3" }];
    expect(evaluation(given("x", 4), formula("y", "2*x", { x: "x" }, { valid })).analysis("y").warnings).toEqual([
      expect.stringMatching(/^x is 4\S* here; the law holds up to 3/),
    ]);
    const unnamed = formula("~1", "2*x", { x: "x" }, { valid });
    expect(evaluation(given("x", 4), unnamed, formula("y", "a + 1", { a: "~1" })).analysis("y").warnings).toHaveLength(1);
  });

  it("counts draws and corners that leave a table", () => {
    const { warnings, worst } = evaluation(
      given("x", 1, within(0, 2)),
      table("t", [0, 1.5], [0, 3]),
      reading("y", "at", "t", "x"),
    ).analysis("y");
    expect(worst?.low).toBe(0);
    expect(worst?.high).toBeCloseTo(3, 3);
    expect(warnings.filter((warning) => warning.includes("have no value"))).toHaveLength(2);
  });

  it("gives bands about a sweep, the swept given held at each point", () => {
    const band = evaluation(given("x", 1, range(0, 10)), tolerant("k", 2, 0.1), formula("y", "k*x"), sweep("s", "y", "x", [0, 1, 5])).band(
      "s",
    );
    expect([...band.x]).toEqual([0, 1, 5]);
    expect([...band.worstHigh]).toEqual([0, expect.closeTo(2.2, 9), expect.closeTo(11, 9)]);
    expect(band.low[2]).toBeCloseTo(10 - 0.95, 1);
  });

  it("gives bands about a model's curve, and none about a table", () => {
    const nodes = evaluation(given("a", 2, within(1.5, 2.5)), model("c", "test.line", "line", { a: "a" }), table("t", [0, 1], [2, 3]));
    const { x, worstLow, worstHigh, low, high } = nodes.band("c");
    expect([x[2], worstLow[2], worstHigh[2]]).toEqual([2, 3, 5]);
    expect(low[2]).toBeCloseTo(3.05, 1);
    expect(high[2]).toBeCloseTo(4.95, 1);
    expect(nodes.band("t").worstHigh).toEqual(Float64Array.of(2, 3));
  });

  it("draws a model that takes long as often as it allows", () => {
    const nodes = evaluation(
      tolerant("a", 2, 0.1),
      model("y", "test.slow", "y", { a: "a" }),
      formula("z", "y + a"),
      tolerant("b", 1, 0.1),
      formula("w", "z + b"),
    );
    expect(["y", "z", "w", "b"].map((id) => nodes.analysis(id).interval?.samples)).toEqual([100, 100, 100, 10_000]);
  });

  it("analyses the peak of a sweep with the swept given held", () => {
    const { nominal, worst } = evaluation(
      given("x", 1, range(0, 10)),
      tolerant("k", 2, 0.1),
      formula("y", "k*x*(4 - x)"),
      sweep("s", "y", "x", [0, 1, 2, 3]),
      reading("m", "maximum", "s"),
    ).analysis("m");
    expect([nominal, worst?.low, worst?.high]).toEqual([8, expect.closeTo(7.2, 9), expect.closeTo(8.8, 9)]);
  });

  it("asks for numbers of numbers and curves of curves", () => {
    const nodes = evaluation(table("t", [0, 1], [2, 3]), given("x", 1));
    expect([...nodes.curve("t").y]).toEqual([2, 3]);
    expect(() => nodes.nominal("t")).toThrow("'t' is a curve");
    expect(() => nodes.curve("x")).toThrow("'x' is a number");
    expect(() => nodes.analysis("t")).toThrow("'t' is a curve");
  });
});
