/** A verdict that is not sure, in the document's table, its tally, a cell's text and a decision. */
import { describe, expect, it } from "vitest";
import { Evaluation } from "../../lib/analysis/evaluation";
import { renderVerdictTable, requirementVerdict } from "../../lib/document/live/requirements";
import { type BookData, type RequirementData, view } from "../../lib/document/model/book-data";
import { Graph } from "../../lib/graph/graph";
import { unitOf } from "../../lib/quantity/unit";
import { assessDecision } from "../../lib/sheet/decision";
import { verdictLine } from "../../lib/sheet/words";
import { choice, formula, given, within } from "../graph/nodes";

const names = ["a", "b", "c", "d"];
const graph = Graph.from([
  ...names.map((id) => given(id, 1, within(0, 2))),
  // Above the limit near one corner alone, in a law that no interval bounds closely; the plain one has its worst case at a corner.
  formula("guard", "if(a + b + c + d > 7.5, 5, a) + 100000*(a - a)"),
  formula("plain", "a + b"),
  choice("decisions.way", ["one", "other"], "one"),
]);
const evaluation = new Evaluation(graph, { samples: 100 });

const requirement = (node: string, high: number): RequirementData => ({
  id: `of-${node}`,
  statement: node,
  limit: { high },
  judged: "worst case",
  answers: [{ node, sheet: "s" }],
  dimension: "1",
  unit: "1",
});

const requirements = [requirement("guard", 6), requirement("plain", 4)];
const book: BookData = {
  nodes: graph.nodes(),
  blocks: {},
  requirements,
  plots: {},
  map: { width: 0, height: 0, places: [], lines: [] },
  laws: {},
  verdicts: {},
};
const reason = "a higher value may have been missed: a branch of the law is reached in a small part of the limits only";

describe("a verdict that is not sure", () => {
  it("stands in the table with its reason, and is counted apart from those that hold", () => {
    const shown = view(book, evaluation, () => "");
    const text = renderVerdictTable(shown).text;
    expect(requirements.map((own) => requirementVerdict(own, shown))).toEqual(["not sure", "holds"]);
    expect(text).toMatch(
      /<button type="button" class="badge badge-unsure" data-verdict="not sure" data-decided="Decided by [^"]+"><span aria-hidden="true">\?<\/span> not sure<\/button>/,
    );
    expect(text).toContain(reason);
    expect(text).toContain("1 of 2 requirements hold; 1 is not sure.");
  });

  it("is told in a cell's text with its reason", () => {
    expect(verdictLine(evaluation.verdict("guard", { high: 6 }, "worst case"), unitOf("1"))).toBe(
      `not sure (judged by worst case: 5, margin 1): ${reason}`,
    );
  });

  it("flags a chosen alternative as not sure, not as one that misses its limit", () => {
    const { flags } = assessDecision(
      {
        type: "decision",
        name: "way",
        question: "Which way?",
        reason: "",
        reconsider: "",
        choice: "decisions.way",
        criteria: [{ name: "y", label: "height", better: "lower", limit: { high: 6, judged: "worst case" } }],
        alternatives: [
          { name: "one", label: "first", values: { y: "guard" } },
          { name: "other", label: "second", values: { y: "plain" } },
        ],
      },
      evaluation,
    );
    expect(flags[0]).toBe(`It is not sure that the chosen alternative “first” keeps the limit on height: ${reason}.`);
  });
});
