/** Laws used outside the range in which they hold, behind a result: told with every verdict that rests on them. */
import { describe, expect, it } from "vitest";
import { Evaluation } from "../../lib/analysis/evaluation";
import { Graph } from "../../lib/graph/graph";
import type { GraphNode } from "../../lib/graph/node";
import { choice, formula, given, switchOf, tolerant } from "../graph/nodes";

const evaluation = (...nodes: GraphNode[]): Evaluation => new Evaluation(Graph.from(nodes), { samples: 200 });
const valid = [{ symbol: "x", low: -Infinity, high: 3, text: "< 3" }];
const law = (id: string, x: string) => formula(id, "2*x", { x }, { valid });
const limit = { high: 100 };
const said = "2*x: x is 4 here; the law holds up to 3";

describe("a verdict on a result behind which a law is used outside its range", () => {
  const far = evaluation(given("x", 4), law("a", "x"), formula("b", "a + 1", { a: "a" }), formula("c", "b*b", { b: "b" }));

  it("says so, however far behind the law is", () => {
    expect(far.verdict("c", limit, "typical")).toMatchObject({ verdict: "holds", outside: [expect.stringContaining(said)] });
    expect(far.verdict("a", limit, "worst case").outside).toEqual([expect.stringContaining(said)]);
  });

  it("is said of the result too, the law named where it is not the result's own", () => {
    expect(far.analysis("c").outside).toEqual([expect.stringContaining(said)]);
    expect(far.analysis("c").warnings).toEqual([expect.stringMatching(/^It follows from .*2\*x, used outside its range: x is 4 here;/)]);
    expect(far.analysis("a").warnings).toEqual([expect.stringMatching(/^x is 4 here; the law holds up to 3\.$/)]);
  });

  it("counts the worst case of the law's own argument, but not where the typical value decides", () => {
    const near = evaluation(tolerant("x", 2.8, 0.1), law("a", "x"), formula("b", "a - a", { a: "a" }));
    for (const judged of ["worst case", "95 %"] as const)
      expect(near.verdict("b", limit, judged).outside).toEqual([
        expect.stringMatching(/x is 3\.08\S* in the worst case; the law holds up to 3/),
      ]);
    expect(near.verdict("b", limit, "typical")).not.toHaveProperty("outside");
  });

  it("does not count the alternatives that are not chosen", () => {
    const nodes = [given("x", 4), given("y", 1), law("a", "x"), law("b", "y")];
    const chosen = (key: string) =>
      evaluation(...nodes, choice("which", ["far", "near"], key), switchOf("z", "which", { far: "a", near: "b" })).verdict(
        "z",
        limit,
        "typical",
      );
    expect(chosen("near")).not.toHaveProperty("outside");
    expect(chosen("far").outside).toHaveLength(1);
  });

  it("follows a change", () => {
    const changed = far.withChanges({ givens: { x: { nominal: 2, spread: { kind: "exact" }, text: "2" } } });
    expect(changed.verdict("c", limit, "typical")).not.toHaveProperty("outside");
  });
});
