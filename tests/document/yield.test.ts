/** The sentence about the yield, where the share that meets each limit and all of them is known. */
import { describe, expect, it } from "vitest";
import { Evaluation } from "../../lib/analysis/evaluation";
import { renderYield } from "../../lib/document/live/yield";
import { type BookData, type RequirementData, view } from "../../lib/document/model/book-data";
import { Graph } from "../../lib/graph/graph";
import type { GivenNode } from "../../lib/graph/node";

/** Even between 9 V and 11 V. */
const evenly = (path: string): GivenNode => ({
  kind: "given",
  id: path,
  path,
  text: "10 V ±1 V",
  nominal: 10,
  spread: { kind: "rectangular", low: 9, high: 11 },
  dimension: "m2kgs-3A-1",
  unit: "V",
  provenance: { source: "own" },
});

const atMost = (id: string, high: number, judged: RequirementData["judged"] = "95 %"): RequirementData => ({
  id,
  statement: id,
  limit: { high },
  judged,
  answers: [{ node: id, sheet: "s" }],
  dimension: "m2kgs-3A-1",
  unit: "V",
});

const sentence = (...requirements: RequirementData[]): string => sentenceOf(["first", "second", "third"].map(evenly), requirements);

function sentenceOf(givens: readonly GivenNode[], requirements: readonly RequirementData[]): string {
  const graph = Graph.from(givens);
  const book: BookData = {
    nodes: graph.nodes(),
    blocks: {},
    requirements,
    plots: {},
    map: { width: 0, height: 0, places: [], lines: [] },
    laws: {},
    verdicts: {},
  };
  return renderYield(view(book, new Evaluation(graph), () => ""))
    .text.replace(/<[^>]+>/g, "")
    .replace(/\s+/g, " ");
}

describe("the yield", () => {
  it("is the product of the shares where results share nothing", () => {
    const text = sentence(atMost("first", 10.6), atMost("second", 10.2, "worst case"));
    const share = Number(/design: ([\d.]+) %/.exec(text)?.[1]);
    expect(Math.abs(share - 48)).toBeLessThan(1.5);
    expect(text).toContain("meet all 2 requirements");
    expect(text).toMatch(/fewest meet second \((59|60|61)[\d.]* %\), first \((79|80|81)[\d.]* %\)/);
  });

  it("says that what is not known stands at its best estimate, where a result rests on that", () => {
    const known = sentence(atMost("first", 12), atMost("second", 12));
    const doubted = sentenceOf(
      [evenly("first"), { ...evenly("second"), doubt: { kind: "rectangular", low: 9, high: 11 } }],
      [atMost("first", 12), atMost("second", 12)],
    );
    expect(known).not.toContain("best estimate");
    expect(doubted).toContain("of production, what is not known being at its best estimate, meet all 2");
  });

  it("names no requirement that every unit meets, and leaves out what is judged by its typical value", () => {
    const text = sentence(atMost("first", 12), atMost("second", 12), atMost("third", 9, "typical"));
    expect(text).toContain("100 % of units drawn from the stated spreads of production meet all 2 requirements");
    expect(text).not.toContain("fewest");
  });

  it("is not told of one requirement alone: its verdict says it", () => {
    expect(sentence(atMost("first", 10.6))).toBe("");
  });
});
