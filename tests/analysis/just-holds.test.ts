import { describe, expect, it } from "vitest";
import { Evaluation } from "../../lib/analysis/evaluation";
import { type Demand, justHolds } from "../../lib/analysis/just-holds";
import { Graph } from "../../lib/graph/graph";
import type { GivenNode, GraphNode } from "../../lib/graph/node";
import { formula, given, range, tolerant, within } from "../graph/nodes";

const graphOf = (...nodes: GraphNode[]) => Graph.from(nodes);
const of = (graph: Graph, id: string) => graph.get(id) as GivenNode;
const demand = (limit: Demand["limit"], judged: Demand["judged"] = "worst case", node = "y"): Demand => ({ node, limit, judged });

describe("the value at which a requirement would just hold", () => {
  const product = graphOf(tolerant("a", 2, 0.1), tolerant("b", 3, 0.1), formula("y", "a*b", { a: "a", b: "b" }));

  it("is the closed form for a worst case, tolerance kept relative", () => {
    // 1.1·a · 3.3 = 5
    expect(justHolds(new Evaluation(product), demand({ high: 5 }), of(product, "a"))).toBeCloseTo(5 / (1.1 * 3.3), 3);
    // 0.9·a · 2.7 = 8
    expect(justHolds(new Evaluation(product), demand({ low: 8 }), of(product, "a"))).toBeCloseTo(8 / (0.9 * 2.7), 3);
  });

  it("is judged as the requirement is", () => {
    expect(justHolds(new Evaluation(product), demand({ high: 5 }, "typical"), of(product, "a"))).toBeCloseTo(5 / 3, 3);
    const sampled = justHolds(new Evaluation(product, { samples: 2000 }), demand({ high: 5 }, "95 %"), of(product, "a")) as number;
    expect(sampled).toBeGreaterThan(5 / (1.1 * 3.3));
    expect(sampled).toBeLessThan(5 / 3);
  });

  it("lies on the nearer side of the present value where both sides hold", () => {
    const square = graphOf(tolerant("a", 0.5, 0), formula("y", "a^2", { a: "a" }));
    expect(justHolds(new Evaluation(square), demand({ low: 1 }, "typical"), of(square, "a"))).toBeCloseTo(1, 3);
  });

  it("is none where no value of the given makes it hold, or none that it may have", () => {
    const sum = graphOf(tolerant("a", 2, 0.1), tolerant("b", 30, 0.1), formula("y", "a + b", { a: "a", b: "b" }));
    expect(justHolds(new Evaluation(sum), demand({ high: 29 }), of(sum, "a"))).toBeUndefined();
    const used = graphOf(given("T", 2, range(1, 3)), formula("y", "T*2", { T: "T" }));
    expect(justHolds(new Evaluation(used), demand({ low: 7 }, "typical"), of(used, "T"))).toBeUndefined();
    expect(justHolds(new Evaluation(used), demand({ low: 5 }, "typical"), of(used, "T"))).toBeCloseTo(2.5, 3);
  });

  it("steps over values for which the law has no result", () => {
    const root = graphOf(tolerant("a", 0.5, 0), formula("y", "sqrt(a - 1)", { a: "a" }));
    expect(justHolds(new Evaluation(root), demand({ low: 0.1 }, "typical"), of(root, "a"))).toBeCloseTo(1.01, 3);
  });

  it("moves a given about zero by its limits", () => {
    const offset = graphOf(given("a", 0, within(-1, 1)), formula("y", "a + 5", { a: "a" }));
    expect(justHolds(new Evaluation(offset), demand({ high: 5.5 }), of(offset, "a"))).toBeCloseTo(-0.5, 3);
  });
});
