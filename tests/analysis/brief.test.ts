/** What a document keeps of an evaluation, against the evaluation itself: everything comes back to the last bit. */
import { describe, expect, it } from "vitest";
import { type Ask, answering, overheard } from "../../lib/analysis/ask";
import { briefOf } from "../../lib/analysis/brief";
import { Evaluation } from "../../lib/analysis/evaluation";
import { shownNumbers } from "../../lib/document/model/shown-numbers";
import type { GivenNode } from "../../lib/graph/node";
import { pair } from "../demo-book";
import { fixtureBook } from "../document/make";
import { inFull, isFull } from "../full";

const book = isFull ? pair.made() : fixtureBook();
const turnedPath = isFull ? "indicators.green.forward" : "lamp.drift";
const { graph, evaluation } = book;
const analyses = [...new Set(shownNumbers(Object.values(book.blocks), graph).map(({ node }) => node))];
const answered = book.requirements.flatMap(({ row, answers }) =>
  answers.map(({ node }) => ({ node, limit: row.limit, judged: row.judged })),
);
const curves = Object.values(book.blocks).flatMap((block) =>
  block.type === "plot" ? block.series.flatMap(({ curve, band }) => (band === true && curve !== undefined ? [curve] : [])) : [],
);
const asks: Ask[] = [
  ...analyses.map((node) => ({ kind: "analysis", node }) as const),
  ...answered.map((asked) => ({ kind: "verdict", ...asked }) as const),
  ...curves.map((node) => ({ kind: "band", node }) as const),
  { kind: "yield", asked: answered },
];
const kept = () => Evaluation.remembering(graph, JSON.parse(JSON.stringify(briefOf(evaluation, asks))));

describe("what a document keeps of an evaluation", () => {
  it("is restored to the last bit", () => {
    const restored = kept();
    for (const node of analyses) expect(restored.analysis(node), node).toEqual(evaluation.analysis(node));
    for (const { node, limit, judged } of answered)
      expect(restored.verdict(node, limit, judged), node).toEqual(evaluation.verdict(node, limit, judged));
    for (const node of curves) expect(restored.band(node), node).toEqual(evaluation.band(node));
    expect(restored.yieldOf(answered)).toEqual(evaluation.yieldOf(answered));
    expect(analyses.length).toBeGreaterThan(inFull(50, 8));
  });

  it("answers every ask without a search or a draw", () => {
    const restored = kept();
    for (const ask of asks) expect(restored.knows(ask), JSON.stringify(ask)).toBe(true);
    expect(new Evaluation(graph).knows(asks[0] as Ask)).toBe(false);
  });

  it("serves a changed book where the change does not reach, and gives what an evaluation from nothing gives", () => {
    const given = graph.nodes().find((node): node is GivenNode => node.kind === "given" && node.path === turnedPath) as GivenNode;
    const turned = { givens: { [given.path]: { nominal: given.nominal * 1.02, spread: { kind: "exact" as const }, text: "other" } } };
    const changed = kept().withChanges(turned);
    const known = asks.filter((ask) => changed.knows(ask)).length;
    expect(known).toBeGreaterThan(0);
    expect(known).toBeLessThan(asks.length);
    const fresh = new Evaluation(graph.withChanges(turned));
    for (const node of analyses) expect(changed.analysis(node), node).toEqual(fresh.analysis(node));
    expect(changed.yieldOf(answered)).toEqual(fresh.yieldOf(answered));
  });

  it("is the same whatever the evaluation has found before", { timeout: 1_200_000 }, () => {
    const other = new Evaluation(graph);
    for (const node of graph.nodes()) if (node.kind === "formula") other.verdict(node.id, { low: 0 }, "worst case");
    expect(JSON.stringify(briefOf(other, asks))).toBe(JSON.stringify(briefOf(new Evaluation(graph), asks)));
  });

  it("keeps numbers that JSON has no word for", () => {
    const band = { x: [0, 1], worstLow: [-0, -Infinity], worstHigh: [Number.NaN, Infinity], low: [0, 0], high: [1, 1] };
    const columns = Object.fromEntries(Object.entries(band).map(([name, values]) => [name, Float64Array.from(values)]));
    const odd = new Evaluation(graph);
    odd.learn({ ...odd.found, bands: new Map([["odd", columns as never]]) });
    const brief = JSON.parse(JSON.stringify(briefOf(odd, [{ kind: "band", node: "odd" }])));
    expect(Evaluation.remembering(graph, brief).band("odd")).toEqual(columns);
  });
});

describe("an evaluation that is overheard", () => {
  it("tells what it is asked, and answers as itself or as told", () => {
    const heard: Ask[] = [];
    const other = overheard(evaluation, (ask) => {
      heard.push(ask);
      return ask.kind === "verdict" ? "told" : undefined;
    });
    const [node = ""] = analyses;
    expect(other.analysis(node)).toEqual(evaluation.analysis(node));
    expect(other.verdict(node, { low: 0 }, "typical")).toBe("told");
    expect(other.nominal(node)).toBe(evaluation.nominal(node));
    expect(heard.map(({ kind }) => kind)).toEqual(["analysis", "verdict"]);
    for (const ask of heard) expect([...answering(ask, evaluation)]).toEqual([]);
  });
});
