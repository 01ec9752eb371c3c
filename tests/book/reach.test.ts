/** What a given reaches, by a book made by hand and by cells that have not run. */
import { describe, expect, it } from "vitest";
import { reachOf } from "../../lib/book/reach";
import { reachReport } from "../../lib/cli/reach-report";
import { readDesign } from "../../lib/design/read";
import type { GraphNode } from "../../lib/graph/node";
import { cellsNaming } from "../../lib/kernel/naming";
import { linkedCells } from "../../lib/prose/linked-cells";
import type { Block, Display } from "../../lib/sheet/block";
import { choice, formula, switchOf } from "../graph/nodes";
import { notebookOf } from "../kernel/fixture";
import { shown } from "./display-fixture";
import { madeBook } from "./made";

const design = readDesign(
  `product: { name: Lamp, revision: "1" }
sources:
  own: { type: document, title: Made up for this test }
requirements:
  heat: { statement: Stays cool., limit: "<= 25 mW", judged: worst case }
decisions:
  lamp:
    kind: { chosen: full, reason: It is brighter., reconsider: Less power. }
givens:
  lamp:
    high: { value: 5 V ±2 %, meaning: the high rail, source: own }
    current: { value: 4 mA, meaning: current of the lamp, source: own }
    share: { value: "0.5", meaning: share of the half lamp, source: own }
  spare: { value: 1 W, meaning: nobody reads it, source: own }
`,
  "data/design.yaml",
);
const paths = ["lamp.high", "lamp.current", "lamp.share"];
const watt = { dimension: "kg·m²·s⁻³", unit: "mW" };
const [V, I, s] = paths.map((path) => design.given(path).id) as [string, string, string];
const nodes: GraphNode[] = [
  ...paths.map((path) => design.given(path)),
  choice("decisions.lamp.kind", ["full", "half"], "full"),
  formula("lamp.full", "V*I", { V, I }, watt),
  formula("lamp.half", "V*I*s", { V, I, s }, watt),
  { ...switchOf("lamp.P", "decisions.lamp.kind", { full: "lamp.full", half: "lamp.half" }), ...watt, meaning: "power" },
];
const display = (block: Block): Display => ({ sheet: "lamp", block, nodes });
const ran = shown(
  display({ type: "publish", names: { P: "lamp.P" } }),
  display({ type: "requirement", requirement: "heat", node: "lamp.P" }),
  display({ type: "collection", budget: "power", node: "lamp.P", items: [] }),
);
const notebook = {
  ...ran,
  cells: [...ran.cells, { cell_type: "markdown" as const, id: "said", metadata: {}, source: "It takes [20 mW](#P)." }],
};
const book = madeBook([{ name: "lamp", notebook }], design);
// The sheets as their cells are now: the lamp names two of its givens by a template; the fan has never run, the box takes from it.
const sheets = [
  {
    name: "lamp",
    notebook: notebookOf(
      'sheet.given({ V: ["lamp.high", volt] })',
      "each(name => sheet.given({ x: [`lamp.#{name}`, one] }))".replace("#", "$"),
    ),
  },
  { name: "fan", notebook: notebookOf("1", 'sheet.given({ V: ["lamp.high", volt] })') },
  { name: "box", notebook: notebookOf("2") },
];
const takes = new Map([["box", [{ sheet: "fan", name: "t", cell: 1 }]]]);
const reach = (path: string) => reachOf(path, { book, design, sheets, takes });

describe("reachOf", () => {
  it("tells what a given reaches by the graph, with what results are worth at both ends: 4.5 V·4 mA = 18 mW, 5.5 V·4 mA = 22 mW", () => {
    const [lamp, fan, box] = reach("lamp.high").sheets;
    expect(lamp).toMatchObject({ sheet: "lamp", outputs: "reached", cells: [1, 2], requirements: ["heat"], budgets: ["power"], others: 2 });
    expect(lamp?.results).toEqual([
      {
        name: "lamp.P",
        meaning: "power",
        worth: {
          now: "20\u00a0mW",
          at: [
            { input: "4.5\u00a0V", result: "18\u00a0mW" },
            { input: "5.5\u00a0V", result: "22\u00a0mW" },
          ],
        },
      },
    ]);
    expect(fan).toMatchObject({ sheet: "fan", outputs: "left out", cells: [2], results: [] });
    expect(box).toMatchObject({ sheet: "box", through: ["fan"], cells: [] });
  });

  it("tells what only an alternative reads that is not chosen as reached and not moved", () => {
    expect(reach("lamp.share").sheets[0]?.results).toEqual([{ name: "lamp.P", meaning: "power" }]);
  });

  it("gives for a decision what every other alternative would make of the results, and takes it by its short name", () => {
    const { path, stated, sheets: found } = reach("lamp.kind");
    expect([path, stated]).toEqual(["decisions.lamp.kind", "full"]);
    expect(found[0]?.results[0]?.worth).toEqual({ now: "20\u00a0mW", at: [{ input: "half", result: "10\u00a0mW" }] });
  });

  it("finds the links of the text", () => {
    expect(linkedCells(book, reach("lamp.high").nodes)).toEqual([{ sheet: "lamp", cell: "said", links: ["#P"] }]);
    expect(linkedCells(book, reach("spare").nodes)).toEqual([]);
  });

  it("says where nothing reads a given, and refuses a path that is none with the nearest", () => {
    expect(reachReport(reach("spare"), [])).toBe("spare = 1 W  (nobody reads it)\nno sheet reads it: neither outputs nor cells name it\n");
    expect(() => reach("lamp.hihg")).toThrow('data/design.yaml has no given and no decision "lamp.hihg"; did you mean lamp.high');
  });

  it("is told sheet by sheet", () => {
    const { nodes: found, ...rest } = reach("lamp.high");
    const text = reachReport({ nodes: found, ...rest }, linkedCells(book, found)).replaceAll("\u00a0", " ");
    expect(text.split("\n")).toEqual([
      "lamp.high = 5 V ±2 %  (the high rail)",
      "reaches 3 sheets, 1 requirement, 1 published result, 1 budget, 1 link in text; results are given at 4.5 V and 5.5 V (10 % to either side)",
      "",
      "lamp  (named in cells 1, 2)",
      "  requirements: heat",
      "  lamp.P  20 mW; at 4.5 V 18 mW; at 5.5 V 22 mW  power",
      "  2 further results within the sheet",
      "  budgets: power",
      "  text: cell said (#P)",
      "",
      "fan  (named in cell 2; its outputs do not stand beside those of others and are left out)",
      "",
      "box  (takes from fan, which names it; its outputs do not stand beside those of others and are left out)",
      "",
    ]);
  });
});

describe("cellsNaming", () => {
  it("sees literals and templates, no comments, no longer paths", () => {
    const cells = [
      'given("a.b.c")',
      "// a.b.c",
      'given("a.b.c.d")',
      "given(`a.#{x}.c`)",
      "given(`#{x}`)",
      "given(`a.#{x}.d`)",
      "given('a.b.c')",
    ];
    expect(cellsNaming(notebookOf(...cells.map((cell) => cell.replaceAll("#", "$"))), "a.b.c")).toEqual([1, 4, 7]);
  });
});
