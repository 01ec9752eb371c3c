import { describe, expect, it } from "vitest";
import { Evaluation } from "../../lib/analysis/evaluation";
import { moments } from "../../lib/analysis/quantile";
import { Graph } from "../../lib/graph/graph";
import type { GivenNode, GraphNode, NodeId, ReadingNode } from "../../lib/graph/node";
import type { Spread } from "../../lib/quantity/spread";
import { formula, given, normal, range, within } from "../graph/nodes";

const knowledge = (id: string, nominal: number, spread: Spread): GivenNode => ({ ...given(id, nominal, spread), knowledge: true });

function reading(of: NodeId, nominal: number, spread: Spread, extra: Partial<ReadingNode> = {}): ReadingNode {
  return {
    kind: "reading",
    id: `readings.${of}`,
    of,
    text: `${nominal}`,
    nominal,
    spread,
    unit: "1",
    dimension: "",
    evidence: true,
    provenance: { source: "test" },
    ...extra,
  };
}

const evaluation = (nodes: readonly GraphNode[], options: { seed?: number; samples?: number } = {}) =>
  new Evaluation(Graph.from(nodes), options);

/** One-sided 95 % quantile of the standard normal (tables). */
const z = 1.6448536269514722;

/**
 * A normal prior of deviation u about 0 and a reading y of deviation v: normal, mean y·u²/(u² + v²), variance u²v²/(u² + v²).
 * A. Gelman et al., Bayesian Data Analysis, 2.5; JCGM 106:2012 uses the same (both from memory).
 */
const posterior = (u: number, y: number, v: number) => ({
  mean: (y * u * u) / (u * u + v * v),
  deviation: (u * v) / Math.sqrt(u * u + v * v),
});

describe("a reading that is evidence", () => {
  const sum = (sigma: { p: number; k: number }) => [
    given("p", 0, normal(sigma.p)),
    knowledge("k", 0, normal(sigma.k)),
    formula("y", "p + k"),
  ];

  it.each([
    { p: 1, k: 2, s: 0.5, y: 1.5 },
    { p: 0.5, k: 1, s: 1, y: -1 },
    { p: 1, k: 1, s: 0, y: 0.5 },
  ])("narrows a normal doubt as in closed form: production $p, doubt $k, instrument $s", ({ p, k, s, y }) => {
    const exact = posterior(k, y, Math.hypot(p, s));
    const one = evaluation([...sum({ p, k }), reading("y", y, s === 0 ? { kind: "exact" } : normal(s))]);
    const learned = one.learned("readings.y");
    expect(learned?.isUsed).toBe(true);
    const [truth] = learned?.truths ?? [];
    const effective = learned?.effective as number;
    expect(truth?.before.deviation).toBeCloseTo(k, 1);
    expect(Math.abs((truth?.after.mean as number) - exact.mean)).toBeLessThan((4 * exact.deviation) / Math.sqrt(effective));
    expect(Math.abs((truth?.after.deviation as number) / exact.deviation - 1)).toBeLessThan(4 / Math.sqrt(2 * effective));
    const { deciding, doubted } = one.verdict("y", { low: -100 }, "95 %");
    const error = doubted?.standardError as number;
    expect(error).toBeLessThan(0.06 * exact.deviation + 0.03 * p);
    expect(Math.abs(deciding - (exact.mean - z * (p + exact.deviation)))).toBeLessThan(4 * error);
  });

  it("leaves what differs between units, the nominal value and the worst case as they were", () => {
    const nodes = [given("p", 0, within(-1, 1)), knowledge("k", 0, within(-2, 2)), formula("y", "p + k")];
    const [before, after] = [evaluation(nodes), evaluation([...nodes, reading("y", 0.5, normal(0.5))])];
    const [a, b] = [before.analysis("y"), after.analysis("y")];
    expect([b.nominal, b.worst, b.interval]).toEqual([a.nominal, a.worst, a.interval]);
    expect(b.doubt?.high as number).toBeLessThan(a.doubt?.high as number);
    expect(after.predicted("y")).toEqual(before.predicted("y"));
  });

  it("counts in the doubt of other results of the same truth, and in no others", () => {
    const nodes = [...sum({ p: 1, k: 2 }), knowledge("m", 0, normal(1)), formula("w", "3*k + m"), formula("v", "2*m")];
    const [before, after] = [evaluation(nodes), evaluation([...nodes, reading("y", 0, normal(0.1))])];
    expect(after.analysis("v")).toEqual(before.analysis("v"));
    const exact = Math.hypot(3 * posterior(2, 0, Math.hypot(1, 0.1)).deviation, 1);
    expect(moments(after.column("w", {}, "knowledge")).deviation / exact).toBeCloseTo(1, 1);
    expect(after.analysis("w").standardUncertainty / exact).toBeCloseTo(1, 1);
  });

  it("ties what it narrows together: after a reading of k + m those two vary against each other", () => {
    const nodes = [given("p", 0, normal(0.2)), knowledge("k", 0, normal(1)), knowledge("m", 0, normal(1)), formula("y", "p + k + m")];
    const { standardUncertainty, contributions, warnings } = evaluation([...nodes, reading("y", 0, normal(0.2))]).analysis("y");
    const exact = Math.hypot(0.2, posterior(Math.SQRT2, 0, Math.hypot(0.2, 0.2)).deviation);
    expect(standardUncertainty / exact).toBeCloseTo(1, 1);
    expect(contributions.reduce((total, { share }) => total + share, 0)).toBeCloseTo(1, 9);
    expect(warnings.filter((text) => text.startsWith("To first order"))).toEqual([]);
  });

  it("is not used, and says why, where too few draws agree with it", () => {
    const nodes = sum({ p: 0.1, k: 1 });
    const after = evaluation([...nodes, reading("y", 6, normal(0.1))]);
    const learned = after.learned("readings.y");
    expect(learned?.isUsed).toBe(false);
    expect(learned?.refused).toMatch(/only \d+ of 10000 draws of what is not known agree with it, and at least 500 must/);
    expect(after.analysis("y")).toEqual(evaluation(nodes).analysis("y"));
  });

  it.each([
    [[given("p", 0, normal(1)), formula("y", "2*p")], /nothing behind y is stated as knowledge/],
    [[knowledge("k", 0, normal(1)), given("T", 1, range(0, 2)), formula("y", "k*T")], /depends on a condition of use/],
  ])("is not used where it can narrow nothing", (nodes, words) => {
    expect(evaluation([...nodes, reading("y", 0.5, normal(0.2))]).learned("readings.y")?.refused).toMatch(words);
  });

  it("without an uncertainty of its own is not used where units do not differ", () => {
    const nodes = [knowledge("k", 0, normal(1)), formula("y", "2*k")];
    expect(evaluation([...nodes, reading("y", 0.5, { kind: "exact" })]).learned("readings.y")?.refused).toMatch(/states no uncertainty/);
  });

  it("counts from when it comes into a growing graph, and gives what a graph that had it from the beginning gives", () => {
    const nodes = [...sum({ p: 1, k: 2 }), formula("w", "3*k")];
    const graph = Graph.from(nodes);
    const growing = new Evaluation(graph);
    const before = growing.analysis("w");
    const kept = new Evaluation(Graph.from([...nodes, reading("y", 1, normal(0.3))]));
    const exact = kept.analysis("w");
    expect(before.doubt).not.toEqual(exact.doubt);
    graph.add(reading("y", 1, normal(0.3)));
    expect(growing.analysis("w")).toEqual(exact);
    // What was found with evidence is no answer to the graph without it, and the other way round.
    const again = new Evaluation(Graph.from(nodes), { earlier: kept.found });
    expect(again.analysis("w")).toEqual(before);
    const later = new Evaluation(Graph.from([...nodes, reading("y", 1, normal(0.3))]), { earlier: again.found });
    expect(later.analysis("w")).toEqual(exact);
    expect(new Evaluation(kept.graph, { from: [again] }).analysis("w")).toEqual(exact);
    expect(new Evaluation(again.graph, { from: [kept] }).analysis("w")).toEqual(before);
  });

  it("follows what the reading rests on: with another doubt of a given it is weighed anew", () => {
    const nodes = [...sum({ p: 1, k: 2 }), formula("w", "3*k"), reading("y", 1, normal(0.3))];
    const changed = evaluation(nodes).withChanges({ givens: { p: { nominal: 0, spread: normal(0.2), text: "0" } } });
    const exact = 3 * posterior(2, 1, Math.hypot(0.2, 0.3)).deviation;
    expect(moments(changed.column("w", {}, "knowledge")).deviation / exact).toBeCloseTo(1, 1);
  });
});
