/** A changed book takes over what no change reaches: its answers are those of an evaluation from nothing, to the last bit. */
import { describe, expect, it } from "vitest";
import { Evaluation } from "../../lib/analysis/evaluation";
import { type Changes, Graph } from "../../lib/graph/graph";
import type { GraphNode, NodeId } from "../../lib/graph/node";
import { inFull, isFull } from "../full";
import { choice, formula, given, range, reading, select, sweep, switchOf, table, tolerant } from "../graph/nodes";

const nodes: GraphNode[] = [
  tolerant("a", 2, 0.1),
  tolerant("b", 3, 0.05),
  { ...tolerant("c", 5, 0.2), shared: [{ with: "b", weight: 0.8 }] } as GraphNode,
  given("T", 20, range(5, 35)),
  given("d", 0),
  table("v", [0, 10, 40], [1, 2, 7]),
  choice("way", ["sum", "product"], "sum"),
  formula("sum", "a + b"),
  formula("product", "a*b*T"),
  switchOf("chosen", "way", { sum: "sum", product: "product" }),
  formula("far", "chosen*c"),
  reading("read", "at", "v", "T"),
  formula("apart", "read*c"),
  select("R", "apart", { deviation: "d" }),
  formula("both", "far/apart + R"),
  sweep("swept", "both", "T", [6, 20, 34]),
];
const numbers: NodeId[] = ["sum", "chosen", "far", "read", "apart", "R", "both"];

const to = (nominal: number, half: number) =>
  ({ nominal, spread: { kind: "rectangular", low: nominal - half, high: nominal + half }, text: "" }) as const;
const states: readonly Changes[] = [
  {},
  { givens: { a: to(2.5, 0.2) } },
  { givens: { a: to(2.5, 0.2), b: to(3, 0.3) } },
  { choices: { way: "product" } },
  { choices: { way: "product" }, tables: { v: { x: [0, 10, 40], y: [2, 3, 9] } } },
  { givens: { b: to(2, 0.1) }, tables: { v: { x: [0, 20, 40], y: [2, 3, 9] } } },
  { givens: { T: { nominal: 25, spread: { kind: "range", low: 6, high: 40 }, text: "" } } },
];

/** Everything that can be asked, as plain data. */
function answers(evaluation: Evaluation) {
  return {
    analyses: numbers.map((id) => evaluation.analysis(id)),
    verdicts: numbers.map((id) => evaluation.verdict(id, { high: 30 }, "95 %")),
    columns: numbers.map((id) => [...evaluation.column(id)].slice(0, 50)),
    yield: evaluation.yieldOf([
      { node: "far", limit: { high: 30 } },
      { node: "both", limit: { low: 2 } },
    ]),
    band: Object.values(evaluation.band("swept")).map((column) => [...column]),
  };
}

const samples = inFull(500, 200);
const graph = Graph.from(nodes);
const afresh = (changes: Changes) => answers(new Evaluation(graph.withChanges(changes), { samples }));

describe("an evaluation that takes over from others", () => {
  it("answers as one from nothing does, from whichever state it comes", () => {
    const expected = states.map(afresh);
    for (const before of isFull ? states : states.slice(4, 5)) {
      for (const [index, after] of states.entries()) {
        const published = new Evaluation(graph, { samples });
        const present = published.withChanges(before);
        answers(present);
        const next = new Evaluation(graph.withChanges(after), { samples, from: [published, present] });
        expect(answers(next)).toEqual(expected[index]);
      }
    }
  });

  it("answers the same when only a part had been asked before, in any order", () => {
    const published = new Evaluation(graph, { samples });
    published.column("far");
    published.analysis("both");
    expect(answers(published.withChanges(states[2] as Changes))).toEqual(afresh(states[2] as Changes));
  });

  it("does not compute again what no change reaches", () => {
    const published = new Evaluation(graph, { samples });
    const [apart, far] = [published.analysis("apart"), published.analysis("far")];
    const changed = published.withChanges({ givens: { a: to(2.5, 0.2) } });
    expect(changed.analysis("apart")).toBe(apart);
    expect(changed.analysis("far")).not.toBe(far);
  });

  it("takes nothing over from draws of another number or seed", () => {
    const other = new Evaluation(graph, { samples: 100 });
    other.analysis("sum");
    expect(answers(new Evaluation(graph, { samples, from: [other] }))).toEqual(afresh({}));
  });
});
