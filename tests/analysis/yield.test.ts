import { describe, expect, it } from "vitest";
import { Evaluation } from "../../lib/analysis/evaluation";
import { lowerBound, upperBound } from "../../lib/analysis/probability";
import { shortestInterval } from "../../lib/analysis/quantile";
import { Graph } from "../../lib/graph/graph";
import type { GraphNode } from "../../lib/graph/node";
import { formula, given, normal, range, within } from "../graph/nodes";

const evaluation = (nodes: GraphNode[], samples = 50_000) => new Evaluation(Graph.from(nodes), { samples });

describe("yieldOf", () => {
  it("multiplies shares of independent results", () => {
    const both = evaluation([given("a", 0.5, within(0, 1)), given("b", 0.5, within(0, 1))]);
    const found = both.yieldOf([
      { node: "a", limit: { high: 0.9 } },
      { node: "b", limit: { low: 0.2 } },
    ]);
    expect(found.estimate).toBeCloseTo(0.72, 2);
    expect(found.each).toEqual([expect.closeTo(0.9, 2), expect.closeTo(0.8, 2)]);
    expect(found.samples).toBe(50_000);
    const count = Math.round(found.estimate * found.samples);
    expect([found.lower, found.upper]).toEqual([lowerBound(count, 50_000), upperBound(count, 50_000)]);
    expect(found.lower).toBeLessThan(found.estimate);
    expect(found.upper).toBeGreaterThan(found.estimate);
  });

  it("takes the same units for results of one given: the lesser share, or none at all", () => {
    const one = evaluation([given("a", 0.5, within(0, 1)), formula("twice", "2*a")]);
    const limits = (low: number) => [
      { node: "a", limit: { high: 0.6 } },
      { node: "twice", limit: { low } },
    ];
    expect(one.yieldOf(limits(0)).estimate).toBe(one.yieldOf([{ node: "a", limit: { high: 0.6 } }]).estimate);
    expect(one.yieldOf(limits(1.3)).estimate).toBe(0);
    expect(one.yieldOf(limits(1.3)).each[1]).toBeCloseTo(0.35, 2);
  });

  it("asks of each unit that it meets every limit at every range point", () => {
    const at = evaluation([given("a", 0, normal(1)), given("T", 0, range(-1, 1)), formula("y", "a + T"), formula("z", "a - T")]);
    const found = at.yieldOf([
      { node: "y", limit: { low: -2, high: 2 } },
      { node: "z", limit: { high: 2 } },
    ]);
    // |a| ≤ 1 for the first at both ends, a ≤ 1 for the second.
    expect(found.each).toEqual([expect.closeTo(0.6827, 2), expect.closeTo(0.8413, 2)]);
    expect(found.estimate).toBe(found.each[0]);
    expect(found.each[0]).toBeLessThanOrEqual(at.verdict("y", { low: -2, high: 2 }, "95 %").probability?.estimate ?? 0);
  });

  it("holds a result without tolerance for every unit, and fails units without a value", () => {
    const nodes = [given("a", 1, within(-1, 3)), given("c", 5), formula("y", "sqrt(a)")];
    const found = evaluation(nodes).yieldOf([
      { node: "y", limit: { low: 0 } },
      { node: "c", limit: { high: 5 } },
    ]);
    expect(found.estimate).toBeCloseTo(0.75, 2);
    expect(found.each[1]).toBe(1);
    expect(evaluation(nodes).yieldOf([{ node: "c", limit: { high: 4 } }])).toEqual({
      estimate: 0,
      lower: 0,
      upper: 0,
      samples: 1,
      each: [0],
    });
    expect(() => evaluation(nodes).yieldOf([])).toThrow("at least one result");
  });
});

describe("the shortest interval", () => {
  it("begins at the mode of an exponential, where the middle one does not", () => {
    const skewed = evaluation([given("u", 0.5, within(0, 1)), formula("y", "-ln(u)")], 200_000);
    const { low, high } = skewed.shortestInterval("y");
    expect(low).toBeLessThan(0.002);
    expect(high).toBeCloseTo(-Math.log(0.05), 1);
    expect(skewed.intervalAt("y", {}).low).toBeCloseTo(-Math.log(0.975), 2);
  });

  it("is found among sorted values, the lowest of equal ones", () => {
    expect(shortestInterval(Float64Array.of(9, 1, 2, 3, 8), 0.4)).toEqual({ low: 1, high: 3 });
    expect(shortestInterval(Float64Array.of(7), 0.95)).toEqual({ low: 7, high: 7 });
    expect(shortestInterval(new Float64Array(0), 0.95).low).toBeNaN();
  });

  it("names the range point at which it was taken", () => {
    const at = evaluation([given("a", 0, normal(1)), given("T", 0, range(-1, 1)), formula("y", "a + T")], 1000);
    expect(at.shortestInterval("y", { T: 1 })).toMatchObject({ at: { T: 1 }, samples: 1000 });
  });
});

describe("expanded uncertainty", () => {
  it("takes the normal quantile where uncertainties are known, and leaves stored analyses as they are", () => {
    const known = evaluation([given("a", 0, within(-1, 1)), formula("y", "2*a")]);
    const { uncertainty, coverage, freedom } = known.expanded("y");
    expect([coverage, freedom]).toEqual([expect.closeTo(1.959964, 6), null]);
    expect(uncertainty).toBeCloseTo((1.959964 * 2) / Math.sqrt(3), 5);
    expect(known.analysis("y")).not.toHaveProperty("expanded");
  });

  it("is stored where a given states degrees of freedom, with Student's t", () => {
    const few = evaluation([given("a", 0, { ...normal(1), freedom: 4 }), given("b", 0, normal(1)), formula("y", "a + b")]);
    // ν_eff = u⁴/(1/4) = 16.
    expect(few.analysis("y").expanded).toMatchObject({
      freedom: expect.closeTo(16, 9),
      coverage: expect.closeTo(2.1199, 4),
      probability: 0.95,
    });
    expect(few.analysis("y").warnings).toEqual([]);
    expect(few.analysis("a").expanded?.coverage).toBeCloseTo(2.7764, 4);
    expect(few.analysis("b")).not.toHaveProperty("expanded");
  });
});
