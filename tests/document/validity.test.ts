/**
 * Every public formula and model that states a range, called outside it: the analysis warns, and the document shows the
 * warning; where the law has no value there, it is refused with a sentence instead. Of models that give curves alone, what is
 * read from the curve warns.
 */
import { describe, expect, it } from "vitest";
import { Evaluation } from "../../lib/analysis/evaluation";
import type { Example } from "../../lib/design/examples";
import { renderWarnings } from "../../lib/document/live/result";
import { view } from "../../lib/document/model/book-data";
import { type CatalogueEntry, pathOf } from "../../lib/document/reference/catalogue";
import { inputsOf, outputsOf, workedExample } from "../../lib/document/reference/example";
import type { ValidityLimit } from "../../lib/formula/validity";
import { Graph } from "../../lib/graph/graph";
import type { GivenNode, GraphNode } from "../../lib/graph/node";
import { WorkingsError } from "../../lib/quantity/error";
import { entries, examplesOf } from "./all-examples";

interface Case {
  readonly title: string;
  readonly entry: CatalogueEntry;
  readonly limit: ValidityLimit;
  /** Outside, SI. */
  readonly values: readonly number[];
}

const cases: readonly Case[] = entries.flatMap((entry) =>
  (entry.law.of.valid ?? []).flatMap((limit): Case[] => {
    const title = (side: string) => `${pathOf(entry)}, ${limit.symbol} ${side} ${limit.text}`;
    const below = limit.low === Number.MIN_VALUE ? [0] : [beyond(limit.low, -1)];
    return [
      ...(Number.isFinite(limit.low) ? [{ title: title("below"), entry, limit, values: below }] : []),
      ...(Number.isFinite(limit.high) ? [{ title: title("above"), entry, limit, values: [beyond(limit.high, 1)] }] : []),
    ];
  }),
);

/** A little outside, so that most laws still have a value. */
function beyond(limit: number, sign: number): number {
  return limit + sign * (limit === 0 ? 1e-3 : 0.02 * Math.abs(limit));
}

/** The graph of an example with one argument moved, and for each curve its highest value as a result. */
function moved(entry: CatalogueEntry, example: Example, symbol: string, value: number) {
  const { graph, results } = workedExample(entry, example);
  const nodes = graph.nodes().map((node) => (node.id === symbol ? { ...(node as GivenNode), nominal: value } : node));
  const curves = Object.entries(outputsOf(entry)).filter(([, slot]) => "shape" in slot);
  const readings = curves.map(([name, slot]): GraphNode => {
    const unit = "shape" in slot ? slot.y : slot;
    const common = { dimension: unit.dimension.key, unit: unit.symbol };
    return { kind: "curve-operation", id: `highest.${name}`, operation: "maximum", of: `result.${name}`, ...common };
  });
  const scalars = Object.keys(results).filter((name) => !curves.some(([curve]) => curve === name));
  return {
    graph: Graph.from([...nodes, ...readings]),
    asked: [...scalars.map((name) => `result.${name}`), ...readings.map(({ id }) => id)],
  };
}

/** What is said of one result: warnings, or the sentence of its refusal. */
function said(
  evaluation: Evaluation,
  id: string,
): { readonly warnings: readonly string[]; readonly refused?: string; readonly markup: string } {
  const shown = view(
    {
      nodes: evaluation.graph.nodes(),
      blocks: {},
      requirements: [],
      plots: {},
      map: { width: 0, height: 0, places: [], lines: [] },
      laws: {},
      verdicts: {},
    },
    evaluation,
    () => "",
  );
  try {
    return { warnings: evaluation.analysis(id).warnings, markup: renderWarnings(id, shown).text };
  } catch (error) {
    if (!(error instanceof WorkingsError)) throw error;
    return { warnings: [], refused: error.message, markup: "" };
  }
}

const refusedCases: string[] = [];

describe("a formula or model called outside its range", () => {
  it.each(cases)("$title, warns in the result and in the document, or is refused", ({ title, entry, limit, values }) => {
    const example = examplesOf(entry)[0];
    if (example === undefined) throw new Error("no example");
    expect(Object.keys(inputsOf(entry))).toContain(limit.symbol);
    for (const value of values) {
      const { graph, asked } = moved(entry, example, limit.symbol, value);
      const evaluation = new Evaluation(graph, { samples: 10 });
      for (const id of asked) {
        const { warnings, refused, markup } = said(evaluation, id);
        if (refused !== undefined) {
          refusedCases.push(title);
          expect(refused.length).toBeGreaterThan(20);
          continue;
        }
        expect(warnings.join("\n")).toContain(`${limit.symbol} is `);
        expect(warnings.join("\n")).toMatch(/the law holds (from|up to) /);
        expect(markup).toContain('<ul class="warnings">');
        expect(markup).toContain("; the law holds ");
      }
    }
  });

  it("is tried at both ends of all ranges, and mostly warns rather than refuses", () => {
    const stated = entries.filter(({ law }) => (law.of.valid ?? []).length > 0);
    const tried = new Set(cases.map(({ entry }) => entry));
    expect(stated.filter((entry) => !tried.has(entry)).map(pathOf)).toEqual([]);
    console.log(`${stated.length} laws with a range, ${cases.length} ends, ${new Set(refusedCases).size} refused`);
    // The rest say in words where they hold
    expect(entries.filter((entry) => !tried.has(entry) && (entry.law.of.holds ?? "").length < 20).map(pathOf)).toEqual([]);
    expect(entries.length - stated.length).toBeLessThanOrEqual(5);
    expect(new Set(refusedCases).size).toBeLessThan(cases.length / 2);
  });
});
