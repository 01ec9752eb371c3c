/** What was found before is used node by node in a graph that grows, where it holds, and nowhere else. */
import { describe, expect, it } from "vitest";
import { Evaluation } from "../../lib/analysis/evaluation";
import { Graph } from "../../lib/graph/graph";
import type { GraphNode } from "../../lib/graph/node";
import { formula, sweep, tolerant } from "../graph/nodes";

const nodes = (a: number): GraphNode[] => [
  tolerant("a", a, 0.1),
  tolerant("b", 3, 0.05),
  tolerant("c", 5, 0.05),
  formula("sum", "b + c"),
  formula("y", "a*sum"),
  formula("apart", "sum^2"),
  sweep("swept", "apart", "b", [1, 2, 3]),
  sweep("moved", "y", "b", [1, 2, 3]),
];
const results = ["sum", "y", "apart"];
const limit = { high: 41 };

/** As a sheet does: a node comes in, then it is asked about. */
function grown(all: readonly GraphNode[], earlier?: Evaluation["found"]) {
  const graph = new Graph();
  const evaluation = new Evaluation(graph, { earlier });
  const answers = all.map((node) => {
    graph.add(node);
    if (results.includes(node.id))
      return [evaluation.nominal(node.id), evaluation.analysis(node.id), evaluation.verdict(node.id, limit, "95 %")];
    return node.kind === "sweep" ? evaluation.band(node.id) : undefined;
  });
  const asked = ["sum", "apart"].map((node) => ({ node, limit }));
  return { evaluation, answers: [...answers, evaluation.yieldOf(asked)] };
}

describe("an evaluation that is given what was found before", () => {
  const first = grown(nodes(2)).evaluation;

  it("gives the same answers, and takes over what follows from nothing that differs", () => {
    const again = grown(nodes(2.5), structuredClone(first.found));
    expect(again.answers).toEqual(grown(nodes(2.5)).answers);
    const found = structuredClone(first.found);
    const taken = grown(nodes(2.5), found).evaluation;
    expect(taken.analysis("apart")).toBe(found.analyses.get("apart"));
    expect(taken.band("swept")).toBe(found.bands.get("swept"));
    expect(taken.analysis("y")).not.toEqual(found.analyses.get("y"));
    expect(taken.band("moved")).not.toEqual(found.bands.get("moved"));
  });

  it("keeps what nobody asked for this time, so that the next one knows it", () => {
    const graph = Graph.from(nodes(2));
    const silent = new Evaluation(graph, { earlier: structuredClone(first.found) });
    expect(silent.found.analyses.get("y")).toEqual(first.analysis("y"));
    expect(silent.found.verdicts.size).toBe(first.found.verdicts.size);
    expect(silent.found.worst).toEqual(first.found.worst);
  });

  it("uses nothing where the seed or the number of draws is another", () => {
    const found = structuredClone(first.found);
    for (const other of [{ seed: 2 }, { samples: 1000 }]) {
      const evaluation = new Evaluation(Graph.from(nodes(2)), { ...other, earlier: found });
      expect(evaluation.analysis("y")).not.toEqual(found.analyses.get("y"));
    }
  });

  it("forgets it with a node that is replaced", () => {
    const graph = Graph.from(nodes(2));
    const evaluation = new Evaluation(graph, { earlier: structuredClone(first.found) });
    expect(evaluation.nominal("y")).toBe(16);
    graph.add(tolerant("a", 4, 0.1), { replace: true });
    expect(evaluation.nominal("y")).toBe(32);
    expect(evaluation.analysis("y")).toEqual(new Evaluation(Graph.from(nodes(4))).analysis("y"));
  });

  it("does not take two orders of a law's arguments for the same: a budget tells them in that order", () => {
    const other = nodes(2).map((node) =>
      node.id === "sum" && node.kind === "formula" ? { ...node, arguments: { c: "c", b: "b" } } : node,
    );
    expect(grown(other, structuredClone(first.found)).answers).toEqual(grown(other).answers);
    expect(grown(other, structuredClone(first.found)).evaluation.analysis("sum")).not.toBe(first.analysis("sum"));
  });

  it("counts givens that vary with one another as one", () => {
    const tied = (spread: number): GraphNode[] => [
      { ...tolerant("a", 2, 0.1), shared: [{ with: "b", weight: 0.8 }] } as GraphNode,
      tolerant("b", 3, spread),
      formula("y", "2*a"),
    ];
    const graph = Graph.from(tied(0.05));
    const before = new Evaluation(graph);
    before.analysis("y");
    const found = structuredClone(before.found);
    const after = new Evaluation(Graph.from(tied(0.5)), { earlier: found });
    expect(after.analysis("y")).not.toBe(found.analyses.get("y"));
    expect(new Evaluation(Graph.from(tied(0.05)), { earlier: found }).analysis("y")).toBe(found.analyses.get("y"));
  });
});
