import { describe, expect, it } from "vitest";
import { scoresFor, strongest, valueCorrelation } from "../../lib/analysis/correlation";
import { cholesky, commonParts, couple } from "../../lib/analysis/couple";
import { drawer } from "../../lib/analysis/distribution";
import { Evaluation } from "../../lib/analysis/evaluation";
import { moments } from "../../lib/analysis/quantile";
import { correlatedGroups, scoreCorrelation, sourceOf, weightsOf } from "../../lib/analysis/shared";
import { Graph } from "../../lib/graph/graph";
import type { GivenNode, GraphNode } from "../../lib/graph/node";
import { limitsOf } from "../../lib/quantity/limits";
import type { Spread } from "../../lib/quantity/spread";
import { formula, given, normal, range, within } from "../graph/nodes";
import { correlated } from "./correlated";

const pair = (a: GivenNode, b: GivenNode, r: number): GivenNode[] =>
  correlated(
    [a, b],
    [
      [1, r],
      [r, 1],
    ],
  );

function draws(node: GivenNode, n = 100_000): Float64Array {
  const out = new Float64Array(n);
  drawer(node, sourceOf(node, 1))(out, 0, n);
  return out;
}

function correlationOf(a: Float64Array, b: Float64Array): number {
  const [x, y] = [moments(a), moments(b)];
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += ((a[i] as number) - x.mean) * ((b[i] as number) - y.mean);
  return sum / (a.length - 1) / (x.deviation * y.deviation);
}

const spreads: readonly (readonly [name: string, nominal: number, spread: Spread])[] = [
  ["rectangular", 2, within(1, 4)],
  ["normal", 2, normal(0.5)],
  ["triangular", 2, { kind: "triangular", low: 1, high: 4 }],
  ["split", 2, { kind: "split", low: 1.9, high: 4 }],
  ["discrete", 2, { kind: "discrete", values: [2, 1, 4], shares: [0.5, 0.25, 0.25] }],
  ["rectangular in decibels", 2, { kind: "rectangular", low: 2, high: 10, scale: { factor: 20, reference: 1 } }],
  ["log-normal", 2, { kind: "normal", sigma: 3, coverage: 2, scale: { factor: 20, reference: 1 } }],
];

describe("correlated givens", () => {
  it.each(spreads)("have the stated correlation of their values, and each its own distribution: %s", (_, nominal, spread) => {
    for (const r of [0.8, -0.5]) {
      const [a, b] = pair(given("a", nominal, spread), given("b", 3, within(2, 5)), r) as [GivenNode, GivenNode];
      expect(correlationOf(draws(a), draws(b))).toBeCloseTo(r, 1.8);
      expect(moments(draws(b)).deviation).toBeCloseTo(3 / Math.sqrt(12), 2);
      const [low, high] = limitsOf(b.spread, b.nominal);
      expect(draws(b).every((value) => value >= low && value <= high)).toBe(true);
    }
  });

  it("have scores whose correlation is 2·sin(πr/6) for rectangular ones", () => {
    const [a, b] = [given("a", 0, within(-1, 1)), given("b", 0, within(3, 4))];
    for (const r of [-0.95, -0.3, 0.1, 0.5, 0.9]) {
      expect(scoresFor(r, a, b)).toBeCloseTo(2 * Math.sin((Math.PI * r) / 6), 6);
      expect(valueCorrelation(a, b)(scoresFor(r, a, b) as number)).toBeCloseTo(r, 12);
    }
    expect([scoresFor(1, a, b), scoresFor(-1, a, b), scoresFor(0, a, b)]).toEqual([1, -1, 0]);
  });

  it("cannot be correlated at will where their shapes differ", () => {
    const [a, b] = [
      given("a", 1, { kind: "normal", sigma: 6, coverage: 2, scale: { factor: 20, reference: 1 } }),
      given("b", 0, normal(1)),
    ];
    // exp(sZ) and Z: s/√(exp(s²) − 1), s = 6·ln 10/20.
    const s = (6 * Math.LN10) / 20;
    expect(strongest(a, b)[1]).toBeCloseTo(s / Math.sqrt(Math.exp(s * s) - 1), 4);
    expect(scoresFor(0.95, a, b)).toBeUndefined();
    expect(scoresFor(0.5, a, b)).toBeGreaterThan(0.5);
  });

  it("leave the first of them, and every other given, its own draws", () => {
    const [a, b] = pair(given("a", 2, within(1, 4)), given("b", 3, within(2, 5)), 0.7) as [GivenNode, GivenNode];
    expect(a.shared).toBeUndefined();
    expect(draws(a, 100)).toEqual(draws(given("a", 2, within(1, 4)), 100));
    expect(draws(b, 100)).not.toEqual(draws(given("b", 3, within(2, 5)), 100));
  });

  it("draw the same block by block, and without the others in the graph", () => {
    const [, b] = pair(given("a", 2, normal(1)), given("b", 3, within(2, 5)), 0.7) as [GivenNode, GivenNode];
    const whole = draws(b, 1000);
    const parts = new Float64Array(1000);
    const fill = drawer(b, sourceOf(b, 1));
    for (let start = 0; start < 1000; start += 130) {
      const block = new Float64Array(Math.min(130, 1000 - start));
      fill(block, start, block.length);
      parts.set(block, start);
    }
    expect(parts).toEqual(whole);
    const alone = new Evaluation(Graph.from([b, formula("y", "b")]), { samples: 1000 });
    expect(alone.column("y")).toEqual(whole);
  });

  it("are equal in all but scale where the coefficient is 1, and opposite where it is −1", () => {
    const [a, b] = pair(given("a", 2, normal(1)), given("b", 3, normal(2)), 1) as [GivenNode, GivenNode];
    const [, c] = pair(given("a", 2, within(1, 3)), given("c", 3, within(1, 5)), -1) as [GivenNode, GivenNode];
    expect(Math.max(...draws(a, 1000).map((x, i) => Math.abs(3 + 2 * (x - 2) - (draws(b, 1000)[i] as number))))).toBeLessThan(1e-12);
    const first = draws(given("a", 2, within(1, 3)), 1000);
    expect(Math.max(...draws(c, 1000).map((x, i) => Math.abs(x - 3 + 2 * ((first[i] as number) - 2))))).toBeLessThan(1e-8);
  });

  it("share a common cause in any sheet: every two have the same correlation, parts of one path too", () => {
    const part = (id: string): GivenNode => {
      const node = given(id, 0, within(-0.01, 0.01));
      return { ...node, shared: commonParts(node, [{ name: "reel", share: 0.8 }]) };
    };
    const [a, b, c] = [part("tolerance"), part("tolerance#x.R1"), part("other")];
    expect(correlationOf(draws(a), draws(b))).toBeCloseTo(0.8, 2);
    expect(correlationOf(draws(b), draws(c))).toBeCloseTo(0.8, 2);
    expect([...weightsOf(b).keys()]).toEqual(["common reel", "tolerance#x.R1"]);
    expect(scoreCorrelation(a, b)).toBeCloseTo(2 * Math.sin((Math.PI * 0.8) / 6), 6);
  });

  it("do not pass a correlation of two paths on to further parts of them", () => {
    const [, b] = pair(given("a", 2, normal(1)), given("b", 3, normal(1)), 0.7) as [GivenNode, GivenNode];
    const part: GivenNode = { ...b, id: "b#other" };
    expect(scoreCorrelation(given("a", 2, normal(1)), part)).toBe(0);
    expect(draws(part, 10)).toEqual(draws(given("b#other", 3, normal(1)), 10));
  });

  it("are grouped where they hang together", () => {
    const [a, b, c] = correlated(
      [given("a", 0, normal(1)), given("b", 0, normal(1)), given("c", 0, normal(1))],
      [
        [1, 0.5, 0],
        [0.5, 1, 0.5],
        [0, 0.5, 1],
      ],
    ) as [GivenNode, GivenNode, GivenNode];
    const lone = given("lone", 0, normal(1));
    expect(correlatedGroups([c, lone, a, b]).map((group) => group.map(({ id }) => id))).toEqual([["c", "a", "b"]]);
    expect(scoreCorrelation(a, c)).toBe(0);
    expect(scoreCorrelation(b, c)).toBeCloseTo(0.5, 11);
    expect(correlatedGroups([lone, given("x", 1, normal(1))])).toEqual([]);
  });
});

describe("cholesky", () => {
  it("factors what is positive semidefinite, and names the row at which a matrix is not", () => {
    const { rows } = cholesky([
      [1, 0.5, 0.5],
      [0.5, 1, 1],
      [0.5, 1, 1],
    ]);
    expect(rows[2]?.[1]).toBeCloseTo(rows[1]?.[1] as number, 15);
    expect(rows[2]?.[2]).toBe(0);
    const impossible = [
      [1, 0.9, 0.9],
      [0.9, 1, -0.9],
      [0.9, -0.9, 1],
    ];
    expect(cholesky(impossible).failed).toBe(2);
    expect(couple([given("a", 0, normal(1)), given("b", 0, normal(1)), given("c", 0, normal(1))], impossible)).toBeUndefined();
    expect(
      cholesky([
        [1, 1, 0],
        [1, 1, 0.5],
        [0, 0.5, 1],
      ]).failed,
    ).toBe(2);
  });
});

describe("analyses of correlated givens", () => {
  const evaluate = (nodes: readonly GraphNode[], samples = 20_000) => new Evaluation(Graph.from(nodes), { samples });

  it("have the variance of both to first order and by sampling, and shares that sum to 1", () => {
    for (const r of [-0.9, -0.3, 0.6, 1]) {
      const nodes = [...pair(given("a", 5, within(4, 6)), given("b", 7, within(5, 9)), r), formula("y", "a + 2*b")];
      const evaluation = evaluate(nodes, 100_000);
      const { standardUncertainty, contributions, warnings } = evaluation.analysis("y");
      const [u, v] = [1 / Math.sqrt(3), 2 / Math.sqrt(3)];
      expect(standardUncertainty).toBeCloseTo(Math.sqrt(u * u + 4 * v * v + 4 * r * u * v), 9);
      expect(moments(evaluation.column("y")).deviation / standardUncertainty).toBeCloseTo(1, 2);
      expect(contributions.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 12);
      const negative = contributions.filter(({ share }) => share < 0).map(({ given: id }) => id);
      expect(negative).toEqual(r < -0.25 ? ["a"] : []);
      expect(warnings.filter((text) => text.includes("negative share"))).toHaveLength(negative.length);
    }
  });

  it("cancel where two that are one are subtracted", () => {
    const nodes = [...pair(given("a", 5, normal(1)), given("b", 7, normal(1)), 1), formula("y", "b - a")];
    const { standardUncertainty, contributions, interval, worst } = evaluate(nodes).analysis("y");
    expect(standardUncertainty).toBe(0);
    expect(contributions.map(({ share }) => share)).toEqual([0, 0]);
    expect((interval?.high ?? 1) - (interval?.low ?? 0)).toBeLessThan(1e-12);
    expect((worst?.high ?? 1) - (worst?.low ?? 0)).toBeLessThan(1e-12);
  });

  it("keep the worst case of independent ones unless one determines the other", () => {
    const worst = (r: number) =>
      evaluate([...pair(given("a", 5, within(4, 6)), given("b", 7, within(5, 9)), r), formula("y", "b - a")], 100).analysis("y").worst;
    expect([worst(0.99)?.low, worst(0.99)?.high]).toEqual([-1, 5]);
    expect([worst(1)?.low, worst(1)?.high]).toEqual([1, 3]);
    expect(worst(1)?.highAt).toEqual({ a: 6, b: 9 });
    expect([worst(-1)?.low, worst(-1)?.high]).toEqual([-1, 5]);
    expect(worst(-1)?.highAt).toEqual({ a: 4, b: 9 });
  });

  it("go with ranges, verdicts, yields and changes", () => {
    const nodes = [
      ...pair(given("a", 5, normal(0.5)), given("b", 5, normal(0.5)), 0.95),
      given("T", 1, range(0.5, 2)),
      formula("y", "T*(a - b)"),
    ];
    const tight = evaluate(nodes).verdict("y", { low: -0.7, high: 0.7 }, "95 %");
    expect(tight.verdict).toBe("holds for 95 %");
    const changed = Graph.from(nodes).withChanges({ givens: { b: { nominal: 5, spread: normal(1), text: "5" } } });
    const moved = new Evaluation(changed, { samples: 20_000 });
    expect(moved.analysis("y").standardUncertainty).toBeCloseTo(Math.sqrt(0.25 + 1 - 0.95), 9);
    expect(moved.verdict("y", { low: -0.7, high: 0.7 }, "95 %").verdict).toBe("does not hold");
  });
});
