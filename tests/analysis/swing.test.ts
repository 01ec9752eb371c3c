import { describe, expect, it } from "vitest";
import { Evaluation } from "../../lib/analysis/evaluation";
import type { Swing } from "../../lib/analysis/swing";
import { Graph } from "../../lib/graph/graph";
import type { GraphNode } from "../../lib/graph/node";
import { choice, constant, formula, given, range, switchOf, table, tolerant, within } from "../graph/nodes";

const swingsOf = (id: string, ...nodes: readonly GraphNode[]) => new Evaluation(Graph.from(nodes)).swings(id);
const short = ({ path, rule, low, high }: Swing) => [path, rule, low.value, low.result, high.value, high.result];
const close = (...numbers: readonly number[]) => numbers.map((x) => expect.closeTo(x, 9));

describe("swings", () => {
  it("evaluates at both ends of 10 %, exact givens too, the largest difference first", () => {
    // P = V²/R with 5 V and 10 Ω is 2.5 W. By hand: 4.5²/10 = 2.025, 5.5²/10 = 3.025; 25/9 = 2.777…, 25/11 = 2.2727…
    const found = swingsOf("P", tolerant("V", 5, 0.02), given("R", 10), formula("P", "V^2/R"));
    expect(found.map(short)).toEqual([
      ["V", "10 %", 4.5, ...close(2.025), 5.5, ...close(3.025)],
      ["R", "10 %", 9, ...close(25 / 9), 11, ...close(25 / 11)],
    ]);
  });

  it("agrees with the derivative in closed form for small steps: ∂(V²/R)/∂V = 2V/R, ∂/∂R = −V²/R²", () => {
    const step = 1e-4;
    const stepped = (id: string, nominal: number) => ({ ...given(id, nominal), step });
    const found = swingsOf("P", stepped("V", 5), stepped("R", 10), formula("P", "V^2/R"));
    const slopes = Object.fromEntries(found.map(({ path, low, high }) => [path, ((high.result ?? 0) - (low.result ?? 0)) / (2 * step)]));
    expect(slopes).toEqual({ V: expect.closeTo(1, 7), R: expect.closeTo(-0.25, 7) });
    expect(found.map(({ rule }) => rule)).toEqual(["step", "step"]);
  });

  it("moves a range from end to end, a point of temperature by 10 K, a level by 1 dB, a deviation of zero to its limits", () => {
    const celsius = { ...given("T", 298.15), unit: "°C", dimension: "K|temperature" };
    const level = { ...given("A", 10), unit: "dB" };
    const nodes = [given("s", 4, range(3, 7)), celsius, level, given("d", 0, within(-0.1, 0.2)), given("z", 0)];
    const found = swingsOf("y", ...nodes, formula("y", "100*s + T + A + d + z"));
    expect(Object.fromEntries(found.map(({ path, rule, low, high }) => [path, [rule, low.value, high.value]]))).toEqual({
      s: ["range", 3, 7],
      T: ["10 K", ...close(288.15, 308.15)],
      // 20·lg of the factor is 1: 1.1220184543.
      A: ["1 dB", ...close(10 / 1.1220184543019633, 11.220184543019633)],
      d: ["limits", -0.1, 0.2],
    });
    expect(found[0]).toMatchObject({
      path: "s",
      low: { result: expect.closeTo(308.15 + 300, 6) },
      high: { result: expect.closeTo(308.15 + 700, 6) },
    });
  });

  it("keeps a step inside the range of a condition", () => {
    const stepped = { ...given("s", 4, range(3, 7)), step: 2 };
    expect(swingsOf("y", stepped, formula("y", "2*s")).map(short)).toEqual([["s", "step", 3, 6, 6, 12]]);
  });

  it("shows a limit that a derivative does not: the lamp that is full at 10", () => {
    // min(2·x, 10) at x = 5: 9 below, 10 above.
    expect(swingsOf("y", given("x", 5), constant("two", 2), formula("y", "min(two*x, 10)")).map(short)).toEqual([
      ["x", "10 %", 4.5, 9, 5.5, 10],
    ]);
  });

  it("leaves out the result at an end where there is none", () => {
    // sqrt(x − 0.95) has no value at 0.9.
    const [first] = swingsOf("y", given("x", 1), given("a", 3), formula("y", "a*sqrt(x - 0.95)"));
    expect(first).toMatchObject({ path: "x", low: { value: 0.9 }, high: { value: 1.1, result: expect.closeTo(3 * Math.sqrt(0.15), 9) } });
    expect(first?.low).not.toHaveProperty("result");
  });

  it("scales a table whole, chooses preferred values anew, and moves all parts of a path together", () => {
    const read: GraphNode = { kind: "curve-operation", id: "at", operation: "at", of: "t", argument: "x", dimension: "1", unit: "1" };
    const found = swingsOf("at", table("t", [0, 2], [0, 4]), given("x", 1), read);
    expect(found.map(short)).toEqual([
      ["t", "10 %", 0.9, ...close(1.8), 1.1, ...close(2.2)],
      ["x", "10 %", 0.9, ...close(1.8), 1.1, ...close(2.2)],
    ]);
    // E12 about 100: 90 → 82, 110 → 100 or 120; the nearest of 110 by ratio is 100 or 120 (110/100 = 1.1, 120/110 = 1.09).
    const select: GraphNode = { kind: "select", id: "R", of: "r", series: "E12", rule: "nearest", dimension: "1", unit: "1" };
    const [chosen] = swingsOf("R", given("r", 100), select);
    expect([chosen?.low.result, chosen?.high.result]).not.toContain(100);
    const parts = swingsOf(
      "y",
      tolerant("p", 10, 0.1),
      tolerant("p#a", 10, 0.1),
      formula("y", "first + second", { first: "p", second: "p#a" }),
    );
    expect(parts.map(short)).toEqual([["p", "10 %", 9, 18, 11, 22]]);
  });

  it("moves nothing of an alternative that is not chosen, and no constant of the reference tables", () => {
    const nodes = [given("a", 1), given("b", 2), { ...given("reference.constants.k", 3), path: "reference.constants.k" }];
    const found = swingsOf(
      "y",
      ...nodes,
      choice("decisions.s.d", ["one", "two"], "one"),
      formula("one", "a*k", { a: "a", k: "reference.constants.k" }),
      formula("two", "b"),
      switchOf("y", "decisions.s.d", { one: "one", two: "two" }),
    );
    expect(found.map(({ path }) => path)).toEqual(["a"]);
  });
});
