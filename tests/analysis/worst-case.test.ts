import { describe, expect, it } from "vitest";
import { Evaluation } from "../../lib/analysis/evaluation";
import { Graph } from "../../lib/graph/graph";
import type { GivenNode } from "../../lib/graph/node";
import { Program } from "../../lib/graph/program";
import { limitsOf } from "../../lib/quantity/limits";
import { formula, given, range, tolerant, within } from "../graph/nodes";

/** Extremes over a grid of `steps` + 1 points in each given. */
function bruteForce(text: string, givens: readonly GivenNode[], steps: number): { low: number; high: number } {
  const graph = Graph.from([...givens, formula("result", text)]);
  const moving = givens.filter(({ spread }) => spread.kind !== "exact");
  const rows = (steps + 1) ** moving.length;
  const columns = new Map(
    moving.map((node, k) => {
      const [low, high] = limitsOf(node.spread, node.nominal);
      return [
        node.id,
        Float64Array.from({ length: rows }, (_, row) => low + ((high - low) * (Math.floor(row / (steps + 1) ** k) % (steps + 1))) / steps),
      ];
    }),
  );
  const values = Program.compile(graph, ["result"]).block(rows, columns, ["result"])[0] as Float64Array;
  return values.reduce((extremes, value) => ({ low: Math.min(extremes.low, value), high: Math.max(extremes.high, value) }), {
    low: Infinity,
    high: -Infinity,
  });
}

const cases: readonly { name: string; text: string; givens: readonly GivenNode[]; steps: number; searched: boolean }[] = [
  {
    name: "a shared given in x/(x + y)",
    text: "x/(x + y)",
    givens: [tolerant("x", 10, 0.1), tolerant("y", 20, 0.1)],
    steps: 40,
    searched: false,
  },
  {
    name: "the power into a matched load",
    text: "V^2*R/(R + r)^2",
    givens: [tolerant("V", 4.5, 0.02), given("R", 50, range(8, 600)), tolerant("r", 50, 0.2)],
    steps: 80,
    searched: true,
  },
  {
    name: "a resonance",
    text: "1/sqrt(R^2 + (w*L - 1/(w*C))^2)",
    givens: [tolerant("R", 1, 0.1), given("w", 1000, range(500, 2000)), tolerant("L", 1e-3, 0.2), tolerant("C", 1e-3, 0.2)],
    steps: 24,
    searched: true,
  },
  {
    name: "class-AB dissipation against swing",
    text: "2*V*A/(pi*R) - A^2/(2*R)",
    givens: [tolerant("V", 4.5, 0.02), given("A", 1, range(0, 4.4)), tolerant("R", 38, 0.1)],
    steps: 60,
    searched: true,
  },
  { name: "x*(1 - x)", text: "x*(1 - x)", givens: [given("x", 0.5, within(0.2, 0.9))], steps: 700, searched: true },
  {
    name: "a sine over two periods",
    text: "a*sin(x)",
    givens: [given("x", 3, within(0, 12.6)), tolerant("a", 2, 0.1)],
    steps: 1000,
    searched: true,
  },
  {
    name: "a saddle with its ridge across the axes",
    text: "(x - y)^2 - (x + y - 1)^2",
    givens: [given("x", 0.5, within(0, 1)), given("y", 0.5, within(0, 1))],
    steps: 400,
    searched: false,
  },
  {
    name: "the largest of two",
    text: "max(x, y) - min(x, y)",
    givens: [given("x", 1, within(0, 2)), given("y", 1.5, within(1, 3))],
    steps: 200,
    searched: true,
  },
  {
    name: "six givens",
    text: "a*b/(c + d) + e^2 - f*(a - e)",
    givens: ["a", "b", "c", "d", "e", "f"].map((id, k) => tolerant(id, 1 + k, 0.3)),
    steps: 6,
    searched: false,
  },
  {
    name: "a hill inside five dimensions",
    text: "1/(1 + (a - b)^2 + (c - 2*d)^2 + e^2)",
    givens: [
      given("a", 1, within(0, 2)),
      given("b", 2, within(1, 3)),
      given("c", 0, within(-1, 1)),
      given("d", 0, within(-1, 2)),
      given("e", 1, within(-1, 2)),
    ],
    steps: 12,
    searched: true,
  },
];

describe("worst case", () => {
  it.each(cases)("is no narrower than a grid, and hardly wider: $name", ({ text, givens, steps, searched }) => {
    const { worst } = new Evaluation(Graph.from([...givens, formula("result", text)])).analysis("result");
    const grid = bruteForce(text, givens, steps);
    const span = grid.high - grid.low;
    expect(worst?.low).toBeLessThanOrEqual(grid.low + 1e-9 * span);
    expect(worst?.high).toBeGreaterThanOrEqual(grid.high - 1e-9 * span);
    expect(worst?.low).toBeGreaterThan(grid.low - 0.03 * span);
    expect(worst?.high).toBeLessThan(grid.high + 0.03 * span);
    expect(worst?.searched).toBe(searched);
  });

  it("tries every value of a list, and nothing between", () => {
    const bins = given("x", 1, { kind: "discrete", values: [1, 2, 5] });
    const { worst, interval } = new Evaluation(Graph.from([bins, tolerant("a", 1, 0.1), formula("y", "a*x*(5.2 - x)")])).analysis("y");
    expect([worst?.low, worst?.high]).toEqual([expect.closeTo(0.9, 12), expect.closeTo(1.1 * 6.4, 12)]);
    expect(worst?.highAt.x).toBe(2);
    expect(interval?.low).toBeGreaterThan(0.9);
  });

  it("names the givens' values at which the extremes lie", () => {
    const graph = Graph.from([tolerant("x", 10, 0.1), tolerant("y", 20, 0.1), formula("z", "x/y")]);
    const { worst } = new Evaluation(graph).analysis("z");
    expect(worst?.lowAt).toEqual({ x: 9, y: 22 });
    expect(worst?.highAt).toEqual({ x: 11, y: 18 });
    expect(worst?.high).toBe(11 / 18);
  });

  it("is exactly zero wide for x − x", () => {
    const { worst, interval } = new Evaluation(Graph.from([tolerant("x", 10, 0.1), formula("z", "x - x")])).analysis("z");
    expect([worst?.low, worst?.high, interval?.low, interval?.high]).toEqual([0, 0, 0, 0]);
  });

  it("finds the corner of a monotone law in thirty givens", () => {
    const ids = Array.from({ length: 30 }, (_, k) => `g${k}`);
    const text = ids.map((id, k) => (k % 2 === 0 ? id : `1/${id}`)).join(" + ");
    const { worst } = new Evaluation(Graph.from([...ids.map((id) => tolerant(id, 2, 0.1)), formula("y", text)]), { samples: 200 }).analysis(
      "y",
    );
    expect(worst?.high).toBeCloseTo(15 * 2.2 + 15 / 1.8, 9);
    expect(worst?.low).toBeCloseTo(15 * 1.8 + 15 / 2.2, 9);
    expect(worst?.searched).toBe(false);
  });

  it("is absent where nothing has a spread", () => {
    const { worst, interval, standardUncertainty } = new Evaluation(Graph.from([given("x", 3), formula("y", "2*x")])).analysis("y");
    expect([worst, interval, standardUncertainty]).toEqual([null, null, 0]);
  });
});
