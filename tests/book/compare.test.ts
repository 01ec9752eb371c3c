/** Two revisions of books made by hand: every number of the report is from a sum done beside it. */
import { describe, expect, it } from "vitest";
import { type Comparison, compareRevisions } from "../../lib/book/compare/compare";
import { resultsRevision, revisionOf } from "../../lib/book/compare/revision";
import { bookResults, formatResults } from "../../lib/book/results";
import { compareMarkdown, compareText } from "../../lib/cli/compare-report";
import { readDesign } from "../../lib/design/read";
import type { Design } from "../../lib/design/types";
import type { GraphNode } from "../../lib/graph/node";
import type { Block, Display } from "../../lib/sheet/block";
import { choice, formula, switchOf } from "../graph/nodes";
import { shown } from "./display-fixture";
import { madeBook } from "./made";

const text = `product: { name: Lamp, revision: "1" }
sources:
  own: { type: document, title: Made up for this test }
  other: { type: document, title: Made up as well }
requirements:
  heat: { statement: Stays cool., limit: "<= 25 mW", judged: worst case }
  bright: { statement: Is bright., limit: ">= 4 mW", judged: typical }
decisions:
  lamp:
    kind: { chosen: full, reason: It is brighter., reconsider: Less power. }
givens:
  high: { value: 5 V ±2 %, meaning: the high rail, source: own }
  current: { value: 4 mA ±10 %, meaning: current of the lamp, source: own, note: By the maker. }
  share: { value: "0.5", meaning: share of the half lamp, source: own }
`;

interface Made {
  readonly law?: string;
  readonly stale?: boolean;
}

/** A sheet that computes P = V·I, or the share of it, as its decision says; the design as it would have run on it. */
function lamp(edit: (design: string) => string = (same) => same, { law = "V*I", stale = false }: Made = {}) {
  const design = readDesign(edit(text), "data/design.yaml");
  const watt = { dimension: "kg·m²·s⁻³", unit: "mW" };
  const paths = { V: design.given("high").id, I: design.given("current").id, s: design.given("share").id };
  const nodes: GraphNode[] = [
    ...["high", "current", "share"].map((path) => design.given(path)),
    choice("decisions.lamp.kind", ["full", "half"], design.decision("decisions.lamp.kind").chosen),
    formula("lamp.kind[full].P", law, paths, watt),
    formula("lamp.kind[half].P", "V*I*s", paths, watt),
    { ...switchOf("lamp.P", "decisions.lamp.kind", { full: "lamp.kind[full].P", half: "lamp.kind[half].P" }), ...watt, meaning: "power" },
  ];
  const display = (block: Block): Display => ({ sheet: "lamp", block, nodes });
  const notebook = shown(
    display({ type: "publish", names: { P: "lamp.P" } }),
    display({ type: "requirement", requirement: "heat", node: "lamp.P" }),
    display({ type: "requirement", requirement: "bright", node: "lamp.P" }),
  );
  const why = new Map(stale ? [["lamp", ["given high has changed in the design file"]]] : []);
  return { design, book: madeBook(stale ? [] : [{ name: "lamp", notebook }], design, why), stale };
}

type Side = ReturnType<typeof lamp>;

const sideOf = (name: string, { design, book, stale }: Side & { readonly design: Design }) =>
  revisionOf(name, { design, book }, { untrusted: stale ? ["lamp"] : [], waiting: stale ? ["heat", "bright"] : [], unrecorded: [] });

const compare = (before: Side, after: Side): Comparison => compareRevisions(sideOf("A", before), sideOf("B", after));

describe("compareRevisions", () => {
  it("tells a given that was changed, the verdict that it turns and the result that it moves", () => {
    // P = 5 V · 4 mA = 20 mW, at most 5.1 V · 4.4 mA = 22.44 mW; with 6 V 24 mW, at most 6.12 V · 4.4 mA = 26.928 mW: 1.928 mW too much.
    const report = compareText(
      compare(
        lamp(),
        lamp((design) => design.replace("5 V ±2 %", "6 V ±2 %")),
      ),
    );
    expect(report.replaceAll("\u00a0", " ").split("\n")).toEqual([
      "A → B: T, revision A",
      "1 verdict got worse (heat); 1 margin grew; 1 result moved; changed: given high",
      "",
      "Verdicts",
      "  heat  holds → does not hold  2.56 mW → −1.928 mW  worst case 22.44 mW → 26.93 mW  <= 25 mW  by high",
      "      Stays cool.",
      "",
      "Margins that grew",
      "  bright  holds  16 mW → 20 mW  typical 20 mW → 24 mW  >= 4 mW  by high",
      "      Is bright.",
      "",
      "Results",
      expect.stringMatching(
        /^ {2}lamp\.P {2}\+20 % {2}20 mW \(95 %: 18\.\d+ mW to 22\.\d+ mW\) → 24 mW \(95 %: 21\.\d+ mW to 26\.\d+ mW\) {2}by high {2}power$/,
      ),
      "",
      "Givens",
      "  high  5 V ±2 % → 6 V ±2 %  value  the high rail",
      "",
    ]);
  });

  it("turns each of several changes alone: what carried most comes first", () => {
    // 6 V alone: +4 mW; 3 mA alone: −5 mW; both: 18 mW.
    const change = (design: string) => design.replace("5 V ±2 %", "6 V ±2 %").replace("4 mA ±10 %", "3 mA ±10 %");
    const [moved] = compare(lamp(), lamp(change)).results;
    expect(moved).toMatchObject({ name: "lamp.P", by: "−10\u00a0%", share: -0.1 });
    expect(moved?.carriers).toEqual([
      { name: "current", effect: expect.closeTo(-5, 9) },
      { name: "high", effect: expect.closeTo(4, 9) },
    ]);
  });

  it("turns eight of many changed inputs alone, and tells how many more there are and what they do together", () => {
    const adding = (values: readonly number[]) => {
      const lines = values.map((value, index) => `  g${index}: { value: "${value}", meaning: a part, source: own }\n`);
      return (design: string) => design + lines.join("");
    };
    // Each part is 1 before, then 2; a sum of as many, and of the 20 mW of the lamp nothing.
    const side = (count: number, value: number) => {
      const { design } = lamp(adding(Array.from({ length: count }, () => value)));
      const parts = Array.from({ length: count }, (_, index) => design.given(`g${index}`));
      const symbols = parts.map((_, index) => `x_${index}`);
      const sum = formula("lamp.S", symbols.join(" + "), Object.fromEntries(parts.map(({ id }, index) => [`x_${index}`, id])));
      const display: Display = { sheet: "lamp", block: { type: "publish", names: { S: "lamp.S" } }, nodes: [...parts, sum] };
      return { design, book: madeBook([{ name: "lamp", notebook: shown(display) }], design), stale: false };
    };
    const comparison = compare(side(11, 1), side(11, 2));
    const carriers = comparison.results[0]?.carriers ?? [];
    expect(carriers.slice(0, 8).map(({ name, effect }) => [name, effect])).toEqual(
      Array.from({ length: 8 }, (_, index) => [`g${index}`, expect.closeTo(1, 9)]),
    );
    // In the JSON too, with their paths.
    expect(JSON.parse(JSON.stringify(carriers.slice(8)))).toEqual([
      { name: "3 more together", effect: expect.closeTo(3, 9), of: ["g8", "g9", "g10"] },
    ]);
    for (const report of [compareText(comparison), compareMarkdown(comparison)]) expect(report).toContain("g7 +1, 3 more together +3");
    expect(compare(side(9, 1), side(9, 2)).results[0]?.carriers.map(({ name }) => name)).toContain("g8");
    expect(compare(side(9, 1), side(9, 2)).results[0]?.carriers).toHaveLength(9);
  });

  it("names a decision as the carrier, and asks for its reason where that is the former one", () => {
    const comparison = compare(
      lamp(),
      lamp((design) => design.replace("chosen: full", "chosen: half")),
    );
    expect(comparison.results[0]?.carriers).toEqual([{ name: "decisions.lamp.kind", effect: expect.closeTo(-10, 9) }]);
    expect(compareText(comparison)).toMatch(/^ {2}lamp\.kind {2}chosen: full → half; the reason is that of the former choice$/m);
    // A given that only the alternative not chosen reads carries nothing.
    const share = compare(
      lamp(),
      lamp((design) => design.replace('value: "0.5"', 'value: "0.6"')),
    );
    expect([share.results, share.judgements, share.worse]).toEqual([[], [], []]);
    expect(share.design?.givens.map(({ path, what }) => [path, what])).toEqual([["share", ["value"]]]);
  });

  it("names the cells where a law is another one, beside what the givens do", () => {
    // Twice the power by the law, 6 V instead of 5 V: 20 mW, 24 mW with the given alone, 48 mW.
    const after = lamp((design) => design.replace("5 V ±2 %", "6 V ±2 %"), { law: "2*V*I" });
    expect(compare(lamp(), after).results[0]?.carriers).toEqual([
      { name: "cells of lamp", effect: expect.closeTo(24, 9) },
      { name: "high", effect: expect.closeTo(4, 9) },
    ]);
  });

  it("counts a limit that was loosened as what carried the verdict", () => {
    const tight = lamp((design) => design.replace("<= 25 mW", "<= 20 mW"));
    const { judgements, worse, design } = compare(tight, lamp());
    expect(worse).toEqual([]);
    // 20 mW − 22.44 mW before, 25 mW − 22.44 mW after.
    expect(judgements).toMatchObject([
      { requirement: "heat", before: { verdict: "does not hold", margin: -2.44 }, after: { verdict: "holds", margin: 2.56 } },
    ]);
    expect(judgements[0]?.carriers).toEqual([{ name: "limit", effect: expect.closeTo(5, 9) }]);
    expect(design?.requirements).toEqual([
      { id: "heat", change: "changed", fields: [{ field: "limit", before: "<= 20 mW", after: "<= 25 mW" }] },
    ]);
  });

  it("finds a tolerance alone by the spread: 5.5 V · 4.4 mA = 24.2 mW at most, 0.88 mW less margin than 23.32 mW had", () => {
    const wide = (part: string) => lamp((design) => design.replace("5 V ±2 %", `5 V ±${part} %`));
    const { results, judgements } = compare(wide("6"), wide("10"));
    expect(results[0]).toMatchObject({ by: "", share: null });
    // Half the width of the worst case: (5.5·4.4 − 4.5·3.6)/2 = 4 mW; before (5.3·4.4 − 4.7·3.6)/2 = 3.2 mW.
    expect(results[0]?.carriers).toEqual([{ name: "high", effect: expect.closeTo(0.8, 6) }]);
    expect(judgements[0]).toMatchObject({ requirement: "heat", before: { margin: 1.68 }, after: { margin: 0.8 } });
  });

  it("tells source, memory, unit and kind of spread; a note and a meaning in one line", () => {
    const after = lamp((design) =>
      design
        .replace(
          "5 V ±2 %, meaning: the high rail, source: own",
          "5 V in 4.9 V to 5.1 V, meaning: the high rail, source: other, memory: true",
        )
        .replace("4 mA", "0.004 A")
        .replace("By the maker.", "By its maker."),
    );
    const { design, results } = compare(lamp(), after);
    expect(design?.givens).toMatchObject([
      { path: "high", what: ["kind of spread"], fields: [{ field: "source", before: "own", after: "other" }, { field: "from memory" }] },
      { path: "current", what: ["unit"], fields: [] },
    ]);
    expect(design?.wording).toEqual(["meaning or note of 1 given"]);
    expect(results.map(({ by }) => by)).toEqual([""]);
  });

  it("knows a given that was renamed by its note, or by saying the same", () => {
    const lines = (path: string, note = "") => `  ${path}: { value: 1 W, meaning: spare, source: own${note} }\n`;
    const changes = (before: string, after: string) =>
      compare(
        lamp((design) => design + before),
        lamp((design) => design + after),
      ).design?.givens.map(({ path, change, from }) => [path, change, from]);
    expect(changes(lines("spare"), lines("reserve"))).toEqual([["reserve", "renamed", "spare"]]);
    const changed = "  reserve: { value: 2 W, meaning: what is left, source: own, note: Was spare until A. }\n";
    expect(changes(lines("spare"), changed)).toEqual([["reserve", "renamed", "spare"]]);
    expect(changes(lines("spare"), changed.replace("spare", "kept"))).toEqual([
      ["reserve", "added", undefined],
      ["spare", "removed", undefined],
    ]);
    // Two that say the same: which of them it was, nobody knows.
    expect(changes(lines("spare") + lines("other"), lines("reserve"))?.map(([, change]) => change)).toEqual([
      "added",
      "removed",
      "removed",
    ]);
  });

  it("judges nothing by a side that is not fresh, and says so first", () => {
    const stale = compare(
      lamp(),
      lamp((design) => design.replace("5 V ±2 %", "6 V ±2 %"), { stale: true }),
    );
    expect(stale).toMatchObject({ worse: [], notJudged: ["heat", "bright"], results: [] });
    const [, first, second] = compareText(stale).split("\n");
    expect(first).toBe("B is not fresh: lamp: given high has changed in the design file");
    expect(second).toBe("B: not compared by their numbers: lamp; workings run brings a book up to date");
    // The design file is what it is, run or not.
    expect(stale.design?.givens.map(({ path }) => path)).toEqual(["high"]);
  });

  it("finds nothing between a book and itself", () => {
    const same = compare(lamp(), lamp());
    expect(compareText(same)).toBe(
      "A → B: T, revision A\nno verdict got worse; no result moved; givens, decisions and requirements as before\n",
    );
  });

  it("compares two results files by what they tell, and says what they do not", () => {
    const file = (name: string, side: Side) => resultsRevision(name, formatResults(bookResults(side.book)));
    const after = lamp((design) => design.replace("5 V ±2 %", "6 V ±2 %"));
    const comparison = compareRevisions(file("a.json", lamp()), file("b.json", after));
    expect(comparison).toMatchObject({ worse: ["heat"], design: null, results: [{ name: "lamp.P", by: "+20\u00a0%", carriers: [] }] });
    expect(compareText(comparison)).toContain("a.json is a results file: it tells no givens and no decisions");
    // Against the book itself: the same numbers.
    const mixed = compareRevisions(file("a.json", lamp()), sideOf("B", lamp()));
    expect([mixed.results, mixed.judgements]).toEqual([[], []]);
  });

  it("refuses a file that is no results file, with what is wrong", () => {
    expect(() => resultsRevision("x.json", "{")).toThrow(/^x\.json is no JSON: /);
    expect(() => resultsRevision("x.json", '{"version": 2}')).toThrow(/^x\.json is no results file of this library: version is no 1; /);
    const content = formatResults(bookResults(lamp().book)).replace('"value": 20', '"value": "20"');
    expect(() => resultsRevision("x.json", content)).toThrow("sheets.lamp.P.value is no number");
  });

  it("is Markdown in which a name cannot become markup", () => {
    const after = lamp((design) => design.replace("5 V ±2 %, meaning: the high rail", '6 V ±2 %, meaning: "the <b>high</b> | rail"'));
    const markdown = compareMarkdown(compare(lamp(), after));
    expect(markdown).toContain("**1 verdict got worse (heat); 1 margin grew; 1 result moved; changed: given high**");
    expect(markdown).toContain(
      "| high | 5\u00a0V ±2 % → 6\u00a0V ±2 % | value | the \\<b\\>high\\</b\\> \\| rail |".replaceAll("\u00a0", " "),
    );
  });
});
