/** What a book says against itself, on outputs whose answers are known. */
import { describe, expect, it } from "vitest";
import { findings as findingsOf } from "../../lib/book/findings";
import type { Reading } from "../../lib/design/types";
import type { GraphNode } from "../../lib/graph/node";
import type { Block, Display } from "../../lib/sheet/block";
import { display, nodes, publishBlock, shown } from "./display-fixture";
import { madeBook, named } from "./made";

const findings = (notebooks: readonly ReturnType<typeof shown>[], readings: readonly Reading[]) =>
  findingsOf(madeBook(named(...notebooks), { readings }));

const reading = (nominal: number, result = "light.V_s"): Reading => ({
  id: "first",
  result,
  text: `${nominal} V`,
  nominal,
  spread: { kind: "exact" },
  unit: "V",
  dimension: "kg·m²·s⁻³·A⁻¹",
  source: "own",
  place: "data/design.yaml:1:1",
});

const volt = { dimension: "kg·m²·s⁻³·A⁻¹", unit: "V" } as const;
const assumed = (low: number, high: number): GraphNode => ({
  kind: "given",
  id: "assumed",
  path: "assumed",
  text: "assumed",
  nominal: (low + high) / 2,
  spread: { kind: "rectangular", low, high },
  provenance: { source: "own" },
  ...volt,
});

/** A sheet that assumes a voltage, and one that confirms it with the supply of 4.5 V ±2 %. */
function assuming(low: number, high: number, confirms = true) {
  const assumption: Block = { type: "assumption", name: "V", node: "assumed" };
  const confirmation: Block = { type: "confirmation", of: "early.V", assumed: "assumed", node: "logic.supply" };
  const known = (sheet: string, block: Block): Display => ({ ...display(sheet, block), nodes: [...nodes, assumed(low, high)] });
  return [shown(known("early", assumption)), ...(confirms ? [shown(known("late", confirmation))] : [])];
}

const choosing = (chosen: string): readonly Display[] => {
  const choice: GraphNode = {
    kind: "choice",
    id: "decisions.light.rail",
    path: "decisions.light.rail",
    options: ["supply", "assumed"],
    chosen,
    provenance: { source: "own" },
    dimension: "1",
    unit: "1",
  };
  const block: Block = {
    type: "decision",
    name: "rail",
    question: "Which rail?",
    choice: "decisions.light.rail",
    criteria: [{ name: "V", label: "voltage", better: "higher", limit: { low: 4, judged: "worst case" } }],
    alternatives: [
      { name: "supply", label: "the supply", values: { V: "logic.supply" } },
      { name: "assumed", label: "the other", values: { V: "assumed" } },
    ],
    reason: "",
    reconsider: "",
  };
  return [{ ...display("light", block), nodes: [...nodes, assumed(2, 3), choice] }];
};

describe("findings", () => {
  it("are none in a book that agrees with itself", () => {
    expect(findings([shown(display("light", publishBlock)), ...assuming(4.4, 4.6)], [reading(4.5)])).toEqual([]);
    expect(findings([shown(...choosing("supply"))], [])).toEqual([]);
  });

  it("name a reading outside the interval, and one of nothing", () => {
    const book = [shown(display("light", publishBlock))];
    expect(findings(book, [reading(4.7)])).toEqual([
      {
        weight: "wrong",
        text: expect.stringMatching(
          /^reading first: 4.7 V of light.V_s lies outside 4\.414\sV to 4\.586\sV, 95 % of what one unit was predicted to be$/,
        ),
      },
    ]);
    expect(findings(book, [reading(4.5, "light.none")])).toEqual([
      { weight: "open", text: "reading first: no sheet publishes light.none" },
    ]);
  });

  it("name an assumption that is contradicted, half confirmed or answered by nothing", () => {
    expect(findings(assuming(4.6, 4.8), [])).toEqual([{ weight: "wrong", text: "assumption early.V: not confirmed" }]);
    expect(findings(assuming(4.45, 4.55), [])).toEqual([{ weight: "open", text: "assumption early.V: confirmed for typical units" }]);
    expect(findings(assuming(4.4, 4.6, false), [])).toEqual([{ weight: "open", text: "assumption early.V: no sheet computes it yet" }]);
  });

  it("name a choice that no longer meets its limits", () => {
    const [finding, ...others] = findings([shown(...choosing("assumed"))], []);
    expect(finding).toMatchObject({ weight: "wrong", text: expect.stringMatching(/^decision rail: .*the other/) });
    expect(others.every(({ text }) => text.startsWith("decision rail: "))).toBe(true);
  });
});
