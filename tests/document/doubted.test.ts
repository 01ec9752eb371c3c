/** What is not known, in the document's table, in words, in a decision, in contributions, plots, open questions and changes. */
import { describe, expect, it } from "vitest";
import { contributionGroups } from "../../lib/analysis/contributions";
import { Evaluation } from "../../lib/analysis/evaluation";
import { measuring } from "../../lib/analysis/measuring";
import { renderQuestions, renderWeakest } from "../../lib/document/back/questions";
import { readAssignment } from "../../lib/document/live/change";
import { renderContributions } from "../../lib/document/live/contributions";
import { renderVerdictTable } from "../../lib/document/live/requirements";
import { turnGiven } from "../../lib/document/live/turn";
import { type BookData, type RequirementData, view } from "../../lib/document/model/book-data";
import { Graph } from "../../lib/graph/graph";
import type { GivenNode } from "../../lib/graph/node";
import { unitOf } from "../../lib/quantity/unit";
import { assessDecision } from "../../lib/sheet/decision";
import { givenText, resultLine, verdictLine } from "../../lib/sheet/words";
import { choice, formula, given, normal, range, within } from "../graph/nodes";

const truth: GivenNode = { ...given("k", 0, within(-2, 2)), knowledge: true, text: "0 ±2" };
const both: GivenNode = { ...given("b", 10, normal(1)), doubt: within(8, 12), text: "10 σ 1, doubt ±2" };
const nodes = [given("p", 0, normal(1)), truth, formula("y", "p + k + 10"), choice("decisions.way", ["one", "other"], "one")];
const graph = Graph.from(nodes);
const evaluation = new Evaluation(graph);
const { deciding } = evaluation.verdict("y", { low: 0 }, "95 %");

const book = (low: number): BookData => {
  const requirement: RequirementData = {
    id: "least",
    statement: "least",
    limit: { low },
    judged: "95 %",
    answers: [{ node: "y", sheet: "s" }],
    dimension: "1",
    unit: "1",
  };
  const none = { plots: {}, map: { width: 0, height: 0, places: [], lines: [] }, laws: {}, verdicts: {} };
  return { nodes: graph.nodes(), blocks: {}, requirements: [requirement], ...none };
};
const shown = (low: number) => view(book(low), evaluation, () => "");

describe("what is not known", () => {
  it("stands beside a verdict: best estimate, both shares, standard error", () => {
    const line = verdictLine(evaluation.verdict("y", { low: 6 }, "95 %"), unitOf("1"));
    expect(line).toMatch(
      /^holds for 95 % \(judged by 95 %: 6\.\d+, margin 0\.\d+; best estimate 8\.\d+, met by 100 % of units; with the doubt by 9\d(\.\d)? %; standard error 0\.0\d+\)$/,
    );
    expect(renderVerdictTable(shown(6)).text).toContain("best estimate 8.");
  });

  it("stands on the front page, the share behind the requirement that it makes least certain beside it", () => {
    const text = renderWeakest(shown(deciding), new Map()).text;
    expect(text.replace(/<[^>]*>/g, "")).toBe("The weakest sourcesk: 100\u00a0% of the doubt behind leastWhat measuring them would win");
    expect(text).toContain('<a href="#questions">');
    expect(renderWeakest({ ...shown(deciding), book: { ...book(deciding), requirements: [] } }, new Map()).text).toBe("");
  });

  it("makes a verdict too close to call, with a badge of its own, counted apart", () => {
    const { text } = renderVerdictTable(shown(deciding));
    expect(text).toMatch(
      /<button type="button" class="badge badge-close" data-verdict="too close to call" data-decided="Decided by [^"]+"><span aria-hidden="true">≈<\/span> too close to call<\/button>/,
    );
    expect(text).toContain("0 of 1 requirements hold; 1 is too close to call.");
  });

  it("flags a chosen alternative as too close to call, which contradicts nothing yet", () => {
    const assessed = (low: number) =>
      assessDecision(
        {
          type: "decision",
          name: "way",
          question: "Which way?",
          reason: "",
          reconsider: "",
          choice: "decisions.way",
          criteria: [{ name: "y", label: "height", better: "higher", limit: { low, judged: "95 %" } }],
          alternatives: [
            { name: "one", label: "first", values: { y: "y" } },
            { name: "other", label: "second", values: { y: "p" } },
          ],
        },
        evaluation,
      );
    const text = "Whether the chosen alternative “first” keeps the limit on height is too close to call.";
    expect(assessed(deciding)).toMatchObject({ flags: [text], open: [text] });
    expect(assessed(8)).toMatchObject({
      flags: ["The chosen alternative “first” misses the limit on height; so does every other alternative."],
      open: [],
    });
  });

  it("is told of a result beside its interval, and alone where units do not differ", () => {
    expect(resultLine(evaluation.analysis("y"), unitOf("1"))).toMatch(
      /^10, worst case .*, 95 % 8\.\d+ to 1[12]\.\d+, doubt 8\.\d+ to 11\.\d+$/,
    );
    const alone = new Evaluation(Graph.from([truth])).analysis("k");
    expect(resultLine(alone, unitOf("1"))).toMatch(/^0, worst case .*, doubt -?\S+ to \S+$/u);
    expect(givenText(truth)).toBe("0 ±2, knowledge");
  });

  it("stands in a group of its own among the contributions, each group with a sum of 1", () => {
    const groups = contributionGroups(evaluation.analysis("y").contributions);
    expect(groups.map(({ kind, size }) => [kind, Math.round(100 * size)])).toEqual([
      ["production", 43],
      ["knowledge", 57],
    ]);
    for (const { contributions } of groups) expect(contributions.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 12);
    expect(renderContributions("y", shown(6)).text).toContain("what is not known (doubt)");
  });

  it("is what the open questions rank, with what a measurement would win, computed", () => {
    const { text } = renderQuestions(shown(6), new Map());
    expect(text).toContain("100\u00a0% behind");
    expect(text).not.toContain("register-p");
    // k known to ±0.5 (a quarter of ±2): −z·1 − 0.9·0.5 = −2.09 where −z·1 − 0.9·2 = −3.44 was.
    const found = measuring(evaluation, evaluation, { node: "y", limit: { low: 6 }, judged: "95 %" }, truth);
    expect(found?.half).toEqual({ si: 0.5 });
    expect(found?.before).toBeCloseTo(4 - 1.645 - 1.8, 1);
    expect(found?.after).toBeCloseTo(4 - 1.645 - 0.45, 1);
    // 10 + k − 1.645 − 0.45 = 6.
    expect(found?.turnsAt).toBeCloseTo(-1.905, 1);
    const strict = measuring(evaluation, evaluation, { node: "y", limit: { low: 7.5 }, judged: "95 %" }, truth);
    // 10 + k − 1.645 − 0.45 = 7.5.
    expect(strict?.turnsAt).toBeCloseTo(-0.405, 1);
    expect(measuring(evaluation, evaluation, { node: "y", limit: { low: 6 }, judged: "95 %" }, given("p", 0, normal(1)))).toBeUndefined();
  });
});

describe("turning the kind of a spread", () => {
  it("by its word, the value staying; a value without it keeps kind and doubt", () => {
    expect(turnGiven(truth, "production").change).toEqual({
      nominal: 0,
      spread: truth.spread,
      text: "0 ±2, production",
      kind: "production",
    });
    expect(turnGiven(truth, "1 ±3, knowledge").change).toMatchObject({ nominal: 1, kind: "knowledge", spread: { low: -2, high: 4 } });
    expect(turnGiven(both, "20").change).toMatchObject({ nominal: 20, spread: { sigma: 2 }, doubt: { low: 16, high: 24 } });
    expect(turnGiven(both, "20 σ 1, doubt ±1").change).toMatchObject({ nominal: 20, spread: { sigma: 1 }, doubt: { low: 19, high: 21 } });
    const moved = evaluation.withChanges({ givens: { k: turnGiven(truth, "production").change } });
    expect(moved.verdict("y", { low: 6 }, "95 %")).not.toHaveProperty("doubted");
    expect(moved.analysis("y").doubt).toBeUndefined();
  });

  it("refuses a kind for a condition of use, and a doubt beside what is no tolerance", () => {
    expect(() => turnGiven(given("T", 0, range(-1, 1)), "knowledge")).toThrow("condition of use, which every unit meets");
    expect(() => turnGiven(truth, "0 ±2, doubt ±1")).toThrow("a doubt stands beside a tolerance of production");
    expect(() => turnGiven(both, "knowledge")).toThrow("has both kinds of spread");
    expect(readAssignment("k=production", nodes)).toMatchObject({ path: "k", kind: "givens", change: { kind: "production" } });
  });
});
