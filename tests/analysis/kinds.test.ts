import { describe, expect, it } from "vitest";
import { Evaluation } from "../../lib/analysis/evaluation";
import { moments } from "../../lib/analysis/quantile";
import { StratifiedStream, stratifiedRows } from "../../lib/analysis/stratified";
import { isKept, worstOf } from "../../lib/analysis/verdict";
import { Graph } from "../../lib/graph/graph";
import { defineModel } from "../../lib/graph/model";
import type { GivenNode, GraphNode } from "../../lib/graph/node";
import type { Spread } from "../../lib/quantity/spread";
import { one } from "../../lib/units";
import { inFull } from "../full";
import { formula, given, model, normal, range, sweep, within } from "../graph/nodes";

type Columns = [Float64Array, Float64Array, Float64Array];

const knowledge = (id: string, nominal: number, spread: Spread): GivenNode => ({ ...given(id, nominal, spread), knowledge: true });
const both = (id: string, nominal: number, spread: Spread, doubt: Spread): GivenNode => ({ ...given(id, nominal, spread), doubt });
const evaluation = (nodes: readonly GraphNode[], options: { seed?: number; samples?: number } = {}) =>
  new Evaluation(Graph.from(nodes), options);

/** One-sided 95 % quantile of the standard normal (tables; JCGM 101:2008 uses 1.64 and 1.96). */
const z = 1.6448536269514722;

describe("the verdict for 95 % under two kinds of spread", () => {
  // y = p + k, both normal: 95 % of units lie above k − z·σ_p, and k above −z·σ_k with 95 %. In closed form the deciding value is
  // −z·(σ_p + σ_k): a one-sided 95/95 tolerance limit (for the words ISO 16269-6).
  const ratios = [0.1, 0.5, 1, 2, 10] as const;

  it.each(ratios)("of a normal production beside a normal doubt %s times as wide agrees with the closed form within its error", (ratio) => {
    const nodes = [given("p", 0, normal(1)), knowledge("k", 0, normal(ratio)), formula("y", "p + k")];
    const exact = -z * (1 + ratio);
    for (const seed of [1, 2, 3, 4].slice(0, inFull(4, 2))) {
      const { deciding, doubted } = evaluation(nodes, { seed }).verdict("y", { low: -100 }, "95 %");
      const error = doubted?.standardError as number;
      expect(error).toBeLessThan(0.03 * (1 + ratio));
      expect(Math.abs(deciding - exact)).toBeLessThan(4 * error);
    }
  });

  it("states an honest standard error", () => {
    const nodes = [
      given("p", 0, normal(1)),
      given("q", 0, normal(0.5)),
      knowledge("k", 0, normal(0.8)),
      knowledge("m", 0, normal(0.6)),
      formula("y", "p + q + k + m"),
    ];
    const exact = -z * (Math.sqrt(1.25) + 1);
    const errors = Array.from({ length: inFull(200, 60) }, (_, seed) => {
      const { deciding, doubted } = evaluation(nodes, { seed: seed + 1 }).verdict("y", { low: -100 }, "95 %");
      return (deciding - exact) / (doubted?.standardError as number);
    });
    const { mean, deviation } = moments(Float64Array.from(errors));
    expect(Math.sqrt(mean * mean + deviation * deviation)).toBeGreaterThan(0.7);
    expect(Math.sqrt(mean * mean + deviation * deviation)).toBeLessThan(1.3);
    expect(Math.abs(mean)).toBeLessThan(0.5);
  }, 60_000);

  /*
   * Brute force in numpy, 6 runs of 20 000 units nested in 20 000 truths (one limit) and 10 of 8000 in 8000 (two):
   *   rng = numpy.random.default_rng(1)
   *   a = rng.uniform(9, 11, n); x = rng.normal(1, 0.3, n)
   *   u = rng.random(m); b = where(u < 0.5, 1.5 + u, 1 + 2*u); c = exp(rng.normal(0, log(1.5)/2, m))
   *   D = [quantile(a/(b_k + c_k*x*x), 0.05, method="median_unbiased") for each k]; quantile(D, 0.05)  # 1.7924, standard error 0.0027
   *   D = [quantile(minimum(y - 1.5, 4.5 - y), 0.05, …) for each k]; quantile(D, 0.05)                 # -1.1126, standard error 0.0066
   */
  const skewed: readonly GraphNode[] = [
    given("a", 10, within(9, 11)),
    given("x", 1, normal(0.3)),
    knowledge("b", 2, { kind: "split", low: 1.5, high: 3 }),
    // Log-normal: ×/÷1.5 (2σ), 10·lg of the factor being its level.
    knowledge("c", 1, { kind: "normal", sigma: (10 * Math.log10(1.5)) / 2, coverage: 2, scale: { factor: 10, reference: 1 } }),
    formula("y", "a/(b + c*x^2)"),
  ];

  it("of a skewed law agrees with brute force, for one limit and for two", () => {
    for (const seed of [1, 2, 3].slice(0, inFull(3, 1))) {
      const one = evaluation(skewed, { seed }).verdict("y", { low: 1.5 }, "95 %");
      expect(Math.abs(one.deciding - 1.7924)).toBeLessThan(4 * Math.hypot(one.doubted?.standardError as number, 0.0027));
      const two = evaluation(skewed, { seed }).verdict("y", { low: 1.5, high: 4.5 }, "95 %");
      expect(Math.abs(two.margin + 1.1126)).toBeLessThan(4 * Math.hypot(two.doubted?.standardError as number, 0.0066));
    }
  });

  it("needs no surrogate that is any good: y = p·k, whose middle unit does not depend on k", () => {
    // D(k) = −z·k with k even between ½ and 1½: its 5 % quantile is −z·1.45.
    const nodes = [given("p", 0, normal(1)), knowledge("k", 1, within(0.5, 1.5)), formula("y", "p*k")];
    const { deciding, doubted } = evaluation(nodes).verdict("y", { low: -100 }, "95 %");
    expect(Math.abs(deciding + z * 1.45)).toBeLessThan(3 * (doubted?.standardError as number));
    expect(doubted?.standardError).toBeLessThan(0.05);
  });

  it("is taken at the range point that leaves the least", () => {
    const nodes = [
      given("p", 0, normal(1)),
      knowledge("k", 0, normal(1)),
      given("T", 1, range(0, 3)),
      given("u", 1, range(1, 2)),
      formula("y", "p*T + k*u"),
    ];
    const verdict = evaluation(nodes).verdict("y", { low: -100 }, "95 %");
    expect(verdict.at).toEqual({ T: 3, u: 2 });
    expect(Math.abs(verdict.deciding + z * 5)).toBeLessThan(4 * (verdict.doubted?.standardError as number));
  });

  it("tells both shares, and the value at the best estimate", () => {
    const nodes = [given("p", 0, normal(1)), knowledge("k", 0, normal(1)), formula("y", "p + k")];
    // With the limit at −2.5, 99.4 % of units at the best estimate; at k = −z, 1 − Φ(−2.5 + z) = 80.4 %.
    const { verdict, probability, doubted, margin } = evaluation(nodes).verdict("y", { low: -2.5 }, "95 %");
    expect(verdict).toBe("does not hold");
    expect(probability?.estimate).toBeCloseTo(0.9938, 2);
    expect(doubted?.share).toBeCloseTo(0.804, 1.5);
    expect(doubted?.best.deciding).toBeCloseTo(-z, 1);
    expect(doubted?.best.margin).toBeCloseTo(2.5 - z, 1);
    // 95 % of units hold where k > −2.5 + z: Φ(0.855) = 80.4 %.
    expect(doubted?.confidence).toBeCloseTo(0.804, 1);
    expect(margin).toBeCloseTo(2.5 - 2 * z, 1);
  });

  it("is too close to call within two standard errors of the limit, on either side, and then does not count as kept", () => {
    const nodes = [given("p", 0, normal(1)), knowledge("k", 0, normal(1)), formula("y", "p + k")];
    const evaluated = evaluation(nodes);
    const { deciding, doubted } = evaluated.verdict("y", { low: -100 }, "95 %");
    const error = doubted?.standardError as number;
    const at = (shift: number) => evaluated.verdict("y", { low: deciding + shift * error }, "95 %");
    expect([-2.2, -1.8, 1.8, 2.2].map((shift) => at(shift).verdict)).toEqual([
      "holds for 95 %",
      "too close to call",
      "too close to call",
      "does not hold",
    ]);
    expect(isKept(at(-1.8))).toBe(false);
    expect(worstOf(["holds", "too close to call", "not sure"])).toBe("too close to call");
  });

  it("of knowledge alone is the plain one: what is drawn are truths", () => {
    const nodes = (node: GivenNode) => [node, formula("y", "2*k")];
    const { doubted, probability, deciding } = evaluation(nodes(knowledge("k", 0, normal(1)))).verdict("y", { low: -4 }, "95 %");
    expect(Math.abs(deciding + 2 * z)).toBeLessThan(0.1);
    expect([probability, doubted?.share, doubted?.best]).toEqual([{ estimate: 1, lower: 1 }, 1, { deciding: 0, margin: 4 }]);
    expect(doubted?.confidence).toBeCloseTo(0.977, 2);
    expect(evaluation(nodes(knowledge("k", 0, normal(1)))).verdict("y", { low: -3 }, "95 %").verdict).toBe("does not hold");
  });

  it("of production alone is what it was: no doubt is told of it", () => {
    const verdict = evaluation([given("p", 0, normal(1)), formula("y", "2*p")]).verdict("y", { low: -4 }, "95 %");
    expect(verdict).not.toHaveProperty("doubted");
  });

  it("keeps to the draws that a model allows", () => {
    let calls = 0;
    defineModel({
      name: "kinds.counted",
      inputs: { p: one, k: one },
      outputs: { y: one },
      meaning: "counts its calls",
      source: "this test",
      draws: 400,
      evaluate: ({ p, k }) => {
        calls++;
        return { y: p + k };
      },
    });
    const nodes = [given("p", 0, normal(1)), knowledge("k", 0, normal(1)), model("y", "kinds.counted", "y", { p: "p", k: "k" })];
    const evaluated = evaluation(nodes);
    evaluated.analysis("y");
    calls = 0;
    const { deciding, doubted } = evaluated.verdict("y", { low: -100 }, "95 %");
    expect(calls).toBeLessThanOrEqual(2 * 400);
    expect(Math.abs(deciding + 2 * z)).toBeLessThan(4 * (doubted?.standardError as number));
  });
});

describe("what is drawn of each kind", () => {
  it("a given with both draws them apart, and they add on the scale of the spread", () => {
    const plain = evaluation([both("x", 10, normal(1), normal(0.5))]);
    expect(moments(plain.column("x")).deviation).toBeCloseTo(1, 1);
    expect(moments(plain.column("x", {}, "knowledge")).deviation).toBeCloseTo(0.5, 2);
    expect(moments(plain.column("x", {}, "both")).deviation).toBeCloseTo(Math.sqrt(1.25), 1);
    const [units, truths, all] = (["production", "knowledge", "both"] as const).map((kind) => plain.column("x", {}, kind)) as Columns;
    expect(all[7]).toBeCloseTo((units[7] as number) + (truths[7] as number) - 10, 12);
    const scale = { factor: 20, reference: 1 } as const;
    const level = evaluation([
      both("x", 5, { kind: "rectangular", low: 13, high: 15, scale }, { kind: "rectangular", low: 12, high: 16, scale }),
    ]);
    const [u, t, a] = (["production", "knowledge", "both"] as const).map((kind) => level.column("x", {}, kind)) as Columns;
    expect(a[7]).toBeCloseTo(((u[7] as number) * (t[7] as number)) / 5, 12);
  });

  it("the worst case adds the limits of both", () => {
    const { worst } = evaluation([both("x", 10, within(9, 11), within(8, 13)), formula("y", "2*x")]).analysis("y");
    expect([worst?.low, worst?.high]).toEqual([14, 28]);
  });

  it("the interval is of units at the best estimate, the doubt of the middle unit, a prediction of one unit that is built", () => {
    const evaluated = evaluation([given("p", 0, normal(1)), knowledge("k", 0, normal(2)), formula("y", "p + k")]);
    const { interval, doubt } = evaluated.analysis("y");
    expect(interval?.high).toBeCloseTo(1.96, 1);
    expect(doubt?.high).toBeCloseTo(3.92, 1);
    expect(evaluated.predicted("y")?.high).toBeCloseTo(1.96 * Math.sqrt(5), 0);
    expect(evaluation([given("p", 0, normal(1))]).analysis("p").doubt).toBeUndefined();
  });

  it("contributions are told by kind; a given with both has two", () => {
    const { contributions } = evaluation([both("x", 10, normal(1), normal(3)), given("p", 0, normal(2)), formula("y", "x + p")]).analysis(
      "y",
    );
    expect(contributions.map(({ given: id, share, kind }) => [id, Math.round(100 * share), kind])).toEqual([
      ["x", 64, "knowledge"],
      ["p", 29, undefined],
      ["x", 7, undefined],
    ]);
  });

  it("what is not known of a kind of part is the same in each part; units differ", () => {
    const parts = (one: GivenNode) => [one, { ...one, id: "x#other" }, formula("y", "a - b", { a: "x", b: "x#other" })];
    const spread = (one: GivenNode) => evaluation(parts(one)).analysis("y");
    expect(spread(given("x", 10, normal(1))).standardUncertainty).toBeCloseTo(Math.SQRT2, 9);
    expect(spread(knowledge("x", 10, normal(1)))).toMatchObject({ standardUncertainty: 0, worst: { low: 0, high: 0 } });
    expect(spread(both("x", 10, normal(1), normal(5))).standardUncertainty).toBeCloseTo(Math.SQRT2, 9);
    expect(moments(evaluation(parts(both("x", 10, normal(1), normal(5)))).column("y", {}, "knowledge")).deviation).toBeLessThan(1e-9);
  });

  it("a plot's band has both", () => {
    const nodes = [
      given("p", 0, normal(1)),
      knowledge("k", 0, normal(2)),
      given("s", 1),
      formula("y", "s*(p + k)"),
      sweep("c", "y", "s", [1, 2]),
    ];
    const { high, doubtHigh } = evaluation(nodes).band("c");
    expect(high[1]).toBeCloseTo(3.92, 0);
    expect(doubtHigh?.[1]).toBeCloseTo(7.84, 0);
  });

  it("truths are spread evenly over each block, the same values in any part of a column", () => {
    const stream = new StratifiedStream(1, "k");
    const column = new Float64Array(2 * stratifiedRows);
    stream.fill(column, 0, column.length);
    for (const block of [column.subarray(0, stratifiedRows), column.subarray(stratifiedRows)])
      expect([...block].map((u) => Math.floor(u * stratifiedRows)).sort((a, b) => a - b)).toEqual([...Array(stratifiedRows).keys()]);
    const part = new Float64Array(100);
    new StratifiedStream(1, "k").fill(part, 450, 100);
    expect(part).toEqual(column.slice(450, 550));
    expect([...column].every((u) => u > 0 && u < 1 && Number.isInteger(u * 2 ** 33))).toBe(true);
  });
});
