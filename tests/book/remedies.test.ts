import { describe, expect, it } from "vitest";
import { Evaluation } from "../../lib/analysis/evaluation";
import { remedies } from "../../lib/book/remedies";
import { Graph } from "../../lib/graph/graph";
import { formula, given, tolerant } from "../graph/nodes";

describe("remedies of a requirement that does not hold", () => {
  const graph = Graph.from([
    given("exact", 1),
    tolerant("large", 10, 0.1),
    tolerant("small", 2, 0.1),
    formula("y", "a + b + c", { a: "exact", b: "large", c: "small" }),
  ]);

  it("name the weightiest givens, each with the value at which it would just hold", () => {
    // 1.1·b + 2.2 + 1 = 13.5 and 11 + 1.1·c + 1 = 13.5
    expect(remedies(new Evaluation(graph), { node: "y", limit: { high: 13.5 }, judged: "worst case" }).map(({ text }) => text)).toEqual([
      "would just hold with large at 9.36 instead of 10",
      "would just hold with small at 1.36 instead of 2",
    ]);
  });

  it("name a given once, however many parts are drawn from it", () => {
    const parts = Graph.from([
      tolerant("part", 2, 0.1),
      tolerant("part#second", 2, 0.1),
      formula("y", "a + b", { a: "part", b: "part#second" }),
    ]);
    // 2·1.1·p = 4
    expect(remedies(new Evaluation(parts), { node: "y", limit: { high: 4 }, judged: "worst case" })).toEqual([
      { given: "part", text: "would just hold with part at 1.82 instead of 2" },
    ]);
  });

  it("leave out a given that cannot make it hold", () => {
    expect(remedies(new Evaluation(graph), { node: "y", limit: { high: 9 }, judged: "worst case" }).map(({ given: path }) => path)).toEqual(
      ["large"],
    );
  });
});
