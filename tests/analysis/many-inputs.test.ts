import { describe, expect, it } from "vitest";
import { Evaluation } from "../../lib/analysis/evaluation";
import { Study } from "../../lib/analysis/study";
import { type WorstCaseFound, worstCase } from "../../lib/analysis/worst-case";
import { Graph } from "../../lib/graph/graph";
import type { GivenNode } from "../../lib/graph/node";
import { formula, given, range, tolerant, within } from "../graph/nodes";
import { correlated } from "./correlated";

const found = (text: string, givens: readonly GivenNode[]): WorstCaseFound =>
  worstCase(new Study(Graph.from([...givens, formula("y", text)]), "y")) as WorstCaseFound;

/** Where a load cell's beam is read: gains of 500 mm, offsets, and drifts that vanish at the nominal temperature. */
function budget(drifts: number): { text: string; givens: GivenNode[]; high: number } {
  const gains = Array.from({ length: 4 }, (_, k) => given(`g${k}`, 0, within(-0.01 - 0.001 * k, 0.01 + 0.001 * k)));
  const offsets = Array.from({ length: 3 }, (_, k) => given(`o${k}`, 0, within(-1 - k, 1 + k)));
  const drift = Array.from({ length: drifts }, (_, k) => given(`d${k}`, 0, within(-0.1, 0.02 + 0.01 * k)));
  // Further below the nominal than above it, where the drifts reach further too.
  const T = given("T", 20, range(-30, 60));
  const names = (nodes: readonly GivenNode[]): string => nodes.map(({ id }) => id).join(" + ");
  const fixed = 500 * (0.04 + 0.006) + 6;
  // By hand: the drifts' low ends at the cold end against their high ends at the warm one.
  const high = fixed + Math.max(50 * 0.1 * drifts, 40 * drift.reduce((sum, _, k) => sum + 0.02 + 0.01 * k, 0));
  return {
    text: `500*(${names(gains)}) + ${names(offsets)} + (T - 20)*(${names(drift)})`,
    givens: [...gains, ...offsets, ...drift, T],
    high,
  };
}

describe("the worst case of an error budget", () => {
  it.each([8, 15, 22])("is that of the far end of the temperature, with %i drifts that vanish at the nominal one", (drifts) => {
    const { text, givens, high } = budget(drifts);
    const { worst } = found(text, givens);
    expect(worst.high).toBeCloseTo(high, 9);
    expect(worst.highAt.T).toBe(-30);
    expect(worst.highDoubt).toBeUndefined();
  });

  it("of sixteen inputs makes a requirement fail that it breaks by a tenth", () => {
    // Gains whose slopes against temperature vanish at the nominal one, on a reading that is 0 there: 37.84 had been found.
    const spread = (id: string, half: number): GivenNode => given(id, 0, within(-half, half));
    const x = given("x", 0, range(-0.8, 1));
    const T = given("T", 20, range(-30, 60));
    const gains = [2, 2.3, 2.6, 2.9].map((half, k) => spread(`g${k}`, half));
    const slopes = [0.05, 0.1, 0.15].map((half, k) => spread(`k${k}`, half));
    const offsets = [1, 2].map((half, k) => spread(`o${k}`, half));
    const drifts = [0.04, 0.05, 0.06, 0.07, 0.08].map((half, k) => spread(`d${k}`, half));
    const names = (nodes: readonly GivenNode[]): string => nodes.map(({ id }) => id).join(" + ");
    const text = `x*(${names(gains)} + (T - 20)*(${names(slopes)})) + ${names(offsets)} + (T - 20)*(${names(drifts)})`;
    const givens = [x, T, ...gains, ...slopes, ...offsets, ...drifts];
    expect(givens.length).toBe(16);
    // By hand, x = 1 and T − 20 = −50: 9.8 + 50·0.3 + 3 + 50·0.3.
    const evaluation = new Evaluation(Graph.from([...givens, formula("y", text)]), { samples: 100 });
    const limit = { low: -39, high: 39 };
    expect(evaluation.verdict("y", limit, "worst case")).toMatchObject({ verdict: "does not hold", margin: expect.closeTo(-3.8, 9) });
    expect(evaluation.analysis("y").worst).toMatchObject({ low: expect.closeTo(-42.8, 9), high: expect.closeTo(42.8, 9) });
    expect(evaluation.verdict("y", { low: -43, high: 43 }, "worst case").verdict).toBe("holds");
  });
});

describe("inputs of which the way is known", () => {
  const half = (id: string, middle: number, by: number): GivenNode => given(id, middle, within(middle - by, middle + by));
  // y rises with each c; of a and b intervals know no way, since each stands on both sides of the quotient.
  const factors = Array.from({ length: 24 }, (_, k) => half(`c${k}`, 1 + k / 8, 0.01 * (k + 1)));
  const product = factors.map(({ id }) => id).join("*");
  const at = (end: "low" | "high"): number => factors.reduce((all, { spread }) => all * (spread as { low: number; high: number })[end], 1);

  it("are set at their ends, so that the corners of the two others prove the worst case of twenty-six", () => {
    const { worst, tried } = found(`${product}*(a - b)/(a + b)`, [half("a", 4, 1), half("b", 1, 0.5), ...factors]);
    expect(worst.low / (at("low") * (1.5 / 4.5))).toBeCloseTo(1, 12);
    expect(worst.high / (at("high") * (4.5 / 5.5))).toBeCloseTo(1, 12);
    expect(worst.bounds).toEqual({ low: worst.low, high: worst.high });
    expect(tried).toBeLessThanOrEqual(8);
  });

  it("are set at their ends, and an extreme between the limits of another is found", () => {
    const { worst } = found(`${product}*(2 - (a - 1)^2)`, [half("a", 1.2, 0.7), ...factors]);
    expect(worst.high / (at("high") * 2)).toBeCloseTo(1, 9);
    expect(worst.low / (at("low") * (2 - 0.81))).toBeCloseTo(1, 12);
    expect(worst.highAt.a).toBeCloseTo(1, 3);
  });

  it("are searched like the others where the law has no value at their end", () => {
    // Above c = 2 there is no value; the way that is known up to there must not lead to it.
    const { worst } = found("c*sqrt(2 - c)*(2 - (a - 1)^2)", [half("c", 1.5, 1), half("a", 1.2, 0.7)]);
    expect(worst.high).toBeCloseTo(2 * (4 / 3) * Math.sqrt(2 / 3), 5);
  });
});

describe("corners alone", () => {
  const x = tolerant("x", 2, 0.5);
  const z = tolerant("z", 3, 0.2);
  const w = given("w", 0, within(-1, 1));

  it.each([
    ["x + z", [x, z]],
    ["(x + w)/(x + z)", [x, z, w]],
    ["x/(x + z)", [x, z]],
    ["(x - z)*w", [x, z, w]],
    ["sqrt(x^2 + z^2)", [x, z]],
    ["exp(-x/z)*w", [x, z, w]],
    ["max(x, z)*w", [x, z, w]],
    ["abs(x + 1)*w", [x, w]],
  ] as const)("are tried where the law goes one way along every input, and prove the worst case: %s", (text, givens) => {
    const { tried, worst } = found(text, givens);
    expect(tried).toBeLessThanOrEqual(2 ** givens.length);
    expect(worst.bounds).toEqual({ low: worst.low, high: worst.high });
  });

  it.each([
    ["w^2 + x", [x, w]],
    ["x/(w - 0.5)", [x, w]],
    ["x*z/(x + z)^2", [x, z]],
    ["x + 1/x", [x]],
    ["abs(w) + x", [x, w]],
    ["sin(x) + z", [x, z]],
    ["max(x, z) - x", [x, z]],
    ["x*(x - z)", [x, z]],
    ["exp(x) - x", [x]],
    ["if(x > z, x, w)", [x, z, w]],
  ] as const)("are not where it may turn round: %s", (text, givens) => {
    expect(found(text, givens).tried).toBeGreaterThan(200);
  });

  it("are not the extremes of a sum whose parts move together", () => {
    const tied = correlated(
      [given("a", 1, within(0.5, 4)), given("b", 1, within(0.5, 4))],
      [
        [1, 1],
        [1, 1],
      ],
    );
    const { worst } = found("1/a + b", tied);
    expect([worst.low, worst.high]).toEqual([expect.closeTo(2, 9), 4.25]);
  });
});
