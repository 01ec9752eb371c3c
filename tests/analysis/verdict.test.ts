import { describe, expect, it } from "vitest";
import { Evaluation } from "../../lib/analysis/evaluation";
import { leastCount, lowerBound } from "../../lib/analysis/probability";
import { Graph } from "../../lib/graph/graph";
import { defineModel } from "../../lib/graph/model";
import type { GraphNode } from "../../lib/graph/node";
import { one } from "../../lib/units";
import { formula, given, normal, range, within } from "../graph/nodes";

defineModel({
  name: "verdictTest.resonance",
  inputs: { w: one, L: one },
  outputs: { I: one },
  meaning: "current of a tank of quality 200",
  source: "made up",
  evaluate: ({ w, L }) => ({ I: 1 / Math.sqrt(1 + (w * L - 200 / w) ** 2) }),
});

const evaluation = (...nodes: GraphNode[]): Evaluation => new Evaluation(Graph.from(nodes));

describe("verdicts", () => {
  const sum = evaluation(given("x", 10, within(9, 11)), given("T", 0, range(-1, 2)), formula("y", "x + T"));

  it("by worst case hold where the extreme is within the limit, the limit included", () => {
    expect(sum.verdict("y", { high: 13 }, "worst case")).toMatchObject({ verdict: "holds", deciding: 13, margin: 0, at: { x: 11, T: 2 } });
    expect(sum.verdict("y", { high: 12.5 }, "worst case")).toMatchObject({ verdict: "does not hold", deciding: 13, margin: -0.5 });
    expect(sum.verdict("y", { low: 7, high: 20 }, "worst case")).toMatchObject({
      verdict: "holds",
      deciding: 8,
      margin: 1,
      at: { x: 9, T: -1 },
    });
  });

  it("by worst case are not sure where the search doubts the end that has the limit, and say why", () => {
    // A resonance a hundred times narrower than its range, in a model of which nothing is known: the greatest current is V/R = 1.
    const tank = evaluation(given("w", 1.2, range(0.5, 2)), given("L", 200, within(190, 210)), {
      ...formula("I", "w"),
      ...{ kind: "model", model: "verdictTest.resonance", output: "I", arguments: { w: "w", L: "L" } },
    } as unknown as GraphNode);
    const { worst, warnings } = tank.analysis("I");
    expect(worst?.high).toBeCloseTo(1, 6);
    expect(worst?.highDoubt).toMatch(/peak so narrow/);
    expect(warnings.join()).toContain(`The high end of the worst case was searched and may fall short: ${worst?.highDoubt}`);
    expect(tank.verdict("I", { high: 1.1 }, "worst case")).toMatchObject({
      verdict: "not sure",
      doubt: `a higher value may have been missed: ${worst?.highDoubt}`,
    });
    expect(tank.verdict("I", { high: 0.9 }, "worst case")).toMatchObject({ verdict: "does not hold" });
    expect(tank.verdict("I", { low: 0 }, "worst case")).toMatchObject({ verdict: "holds" });
    expect(tank.verdict("I", { high: 1.1 }, "typical")).toMatchObject({ verdict: "holds" });
  });

  it("by worst case are not sure where the law has no value somewhere within the limits", () => {
    const root = evaluation(given("x", 1, within(-0.5, 2)), given("a", 1, within(0.9, 1.1)), formula("y", "a*sqrt(x)"));
    expect(root.verdict("y", { high: 2 }, "worst case")).toMatchObject({
      verdict: "not sure",
      doubt: expect.stringContaining("has no value at"),
    });
  });

  it("by worst case hold where the search is in doubt of a law that an enclosure bounds", () => {
    const tank = evaluation(given("w", 1.2, range(0.5, 2)), given("L", 200, within(190, 210)), formula("I", "1/sqrt(1 + (w*L - 200/w)^2)"));
    const { worst } = tank.analysis("I");
    expect(worst?.highDoubt).toBeUndefined();
    expect(worst?.high).toBeGreaterThanOrEqual(1);
    expect(worst?.high).toBeLessThan(1.002);
    expect(tank.verdict("I", { high: 1.1 }, "worst case")).toMatchObject({ verdict: "holds" });
  });

  it("by worst case are not sure where a branch of the law is reached near one corner only, within what its enclosure spans", () => {
    const names = ["a", "b", "c", "d"];
    const guard = evaluation(...names.map((id) => given(id, 1, within(0, 2))), formula("y", "if(a + b + c + d > 7.5, 5, a)"));
    expect(guard.analysis("y").worst?.high).toBe(5);
    expect(guard.verdict("y", { high: 6 }, "worst case").verdict).toBe("holds");
    const hidden = evaluation(...names.map((id) => given(id, 1, within(0, 2))), formula("y", "if(sin(9*a)*sin(9*b)*c*d > 3.9, 5, a)"));
    expect(hidden.verdict("y", { high: 4 }, "worst case").verdict).not.toBe("holds");
    expect(guard.verdict("y", { high: 4 }, "worst case").verdict).toBe("does not hold");
  });

  it("by the typical value look at nothing else", () => {
    expect(sum.verdict("y", { high: 10.5 }, "typical")).toEqual({ verdict: "holds", judged: "typical", deciding: 10, margin: 0.5 });
  });

  it("for 95 % are taken at the range point that shrinks the margin, named", () => {
    const verdict = sum.verdict("y", { high: 13 }, "95 %");
    expect(verdict).toMatchObject({ verdict: "holds for 95 %", at: { T: 2 }, probability: { estimate: 1 } });
    expect(verdict.deciding).toBeCloseTo(11 + 0.9 + 1, 1);
    expect(sum.verdict("y", { low: 8.2 }, "95 %").at).toEqual({ T: -1 });
    expect(sum.intervalAt("y", { T: 2 })).toMatchObject({ low: expect.closeTo(11.05, 1), high: expect.closeTo(12.95, 1), at: { T: 2 } });
  });

  it("for 95 % turn with the lower bound of the share, and the margin's sign with them", () => {
    const unit = evaluation(given("x", 0.5, within(0, 1)));
    const nodes = unit.verdict("x", { high: 0.95 }, "95 %");
    expect(nodes.probability?.estimate).toBeCloseTo(0.95, 2);
    for (let high = 0.93; high < 0.97; high += 0.0007) {
      const { verdict, margin, probability } = unit.verdict("x", { high }, "95 %");
      expect(verdict === "holds for 95 %").toBe(margin >= 0);
      expect(verdict === "holds for 95 %").toBe((probability?.lower as number) >= 0.95);
      expect(probability?.lower).toBeLessThan(probability?.estimate as number);
    }
    expect(unit.verdict("x", { high: 0.955 }, "95 %").verdict).toBe("holds for 95 %");
    expect(unit.verdict("x", { high: 0.945 }, "95 %").verdict).toBe("does not hold");
  });

  it("for 95 % between two limits count the units inside both", () => {
    const unit = evaluation(given("x", 0, normal(1)));
    expect(unit.verdict("x", { low: -2.1, high: 2.1 }, "95 %")).toMatchObject({
      verdict: "holds for 95 %",
      probability: { estimate: expect.closeTo(0.9643, 2) },
    });
    expect(unit.verdict("x", { low: -1.9, high: 1.9 }, "95 %").verdict).toBe("does not hold");
  });

  it("for 95 % find the worst range point inside the range, where the law is not monotone", () => {
    const load = evaluation(given("R", 100, range(8, 600)), given("V", 4, within(3.9, 4.1)), formula("P", "V^2*R/(R + 50)^2"));
    expect(load.verdict("P", { high: 0.083 }, "95 %").at?.R).toBeCloseTo(50, 1);
  });

  it("of a result without spread rest on its nominal value", () => {
    const bare = evaluation(given("x", 2), formula("y", "2*x"));
    expect(bare.verdict("y", { high: 4 }, "worst case")).toMatchObject({ verdict: "holds", margin: 0 });
    expect(bare.verdict("y", { high: 3 }, "95 %")).toMatchObject({
      verdict: "does not hold",
      deciding: 4,
      margin: -1,
      probability: { estimate: 0 },
    });
    expect(bare.verdict("y", { high: 5 }, "95 %")).toMatchObject({ verdict: "holds for 95 %", probability: { estimate: 1, lower: 1 } });
  });

  it("of gains in decibels have a ratio as margin", () => {
    const gain = { ...formula("G", "2*x"), unit: "dB", dimension: "1|field gain" };
    const { margin } = evaluation(given("x", 2, within(1.9, 2.1)), gain).verdict("G", { high: 5, low: 2 }, "worst case");
    expect(margin).toBeCloseTo(5 / 4.2, 12);
  });

  it("count units without a value as failing", () => {
    const rooted = evaluation(given("x", 1, within(-1, 9)), formula("y", "sqrt(x)"));
    expect(rooted.verdict("y", { high: 10 }, "95 %")).toMatchObject({
      verdict: "does not hold",
      probability: { estimate: expect.closeTo(0.9, 1) },
    });
    expect(rooted.analysis("y").warnings.join(" ")).toMatch(/draws have no value/);
  });
});

describe("the lower bound of a share", () => {
  it("is Wilson's", () => {
    // Wilson's condition: (p − p₀)/√(p₀(1 − p₀)/n) = z.
    const bound = lowerBound(95, 100);
    expect((0.95 - bound) / Math.sqrt((bound * (1 - bound)) / 100)).toBeCloseTo(1.6448536, 6);
    expect(lowerBound(0, 100)).toBe(0);
    expect(lowerBound(10_000, 10_000)).toBeGreaterThan(0.9997);
  });

  it("is reached by the least count and not by one fewer", () => {
    for (const total of [100, 1000, 10_000]) {
      const count = leastCount(total, 0.95);
      expect(lowerBound(count, total)).toBeGreaterThanOrEqual(0.95);
      expect(lowerBound(count - 1, total)).toBeLessThan(0.95);
    }
    expect(leastCount(20, 0.95)).toBe(21);
  });
});
