/** The first screen's budgets and map of decisions, on a small graph whose answers are known. */
import { describe, expect, it } from "vitest";
import { Evaluation } from "../../lib/analysis/evaluation";
import { mapLayout } from "../../lib/document/front/map-layout";
import { renderBudgets } from "../../lib/document/live/budgets";
import { renderMap } from "../../lib/document/live/map";
import { type BookData, type RequirementData, view } from "../../lib/document/model/book-data";
import { parseFormula } from "../../lib/formula/parse";
import { Graph } from "../../lib/graph/graph";
import type { GivenNode, GraphNode, NodeId } from "../../lib/graph/node";
import type { Block, DecisionBlock } from "../../lib/sheet/block";
import { faults } from "./drawing-faults";

const kilogram = { dimension: "kg", unit: "g" } as const;

const mass = (path: string, grams: number): GivenNode => ({
  kind: "given",
  id: path,
  path,
  text: `${grams} g`,
  nominal: grams / 1000,
  spread: { kind: "exact" },
  meaning: `mass of the ${path}`,
  provenance: { source: "own" },
  ...kilogram,
});

const sum = (id: string, parts: Readonly<Record<string, NodeId>>): GraphNode => ({
  kind: "formula",
  id,
  text: Object.keys(parts).join(" + "),
  expression: parseFormula(Object.keys(parts).join(" + "), Object.keys(parts)).expression,
  arguments: parts,
  meaning: `mass ${id}`,
  ...kilogram,
});

const choice = (path: string, ...options: string[]): GraphNode => ({
  kind: "choice",
  id: path,
  path,
  options,
  chosen: options[0] as string,
  dimension: "1",
  unit: "1",
  provenance: { source: "own" },
});

const either = (id: string, of: string, cases: Readonly<Record<string, NodeId>>): GraphNode => ({
  kind: "switch",
  id,
  choice: of,
  cases,
  ...kilogram,
});

/** The cell is chosen first; the lid's alternatives carry the chosen cell; the sum rests on the lid, and through it on the cell. */
const nodes: GraphNode[] = [
  mass("small", 7),
  mass("large", 9),
  mass("tin", 4),
  mass("steel", 6),
  mass("screw", 1),
  choice("decisions.cell", "small", "large"),
  either("cell", "decisions.cell", { small: "small", large: "large" }),
  choice("decisions.lid", "tin", "steel"),
  sum("rest", { x_1: "cell", x_2: "screw" }),
  sum("with tin", { m: "rest", l: "tin" }),
  sum("with steel", { m: "rest", l: "steel" }),
  either("total", "decisions.lid", { tin: "with tin", steel: "with steel" }),
];

const decision = (name: string, values: Readonly<Record<string, NodeId>>): DecisionBlock => ({
  type: "decision",
  name,
  question: `Which ${name}?`,
  choice: `decisions.${name}`,
  criteria: [{ name: "m", label: "mass", better: "lower" }],
  alternatives: Object.entries(values).map(([key, node]) => ({ name: key, label: `the ${key} one`, values: { m: node } })),
  reason: "",
  reconsider: "",
});

const requirement = (id: string, high: number, node: NodeId): RequirementData => ({
  id,
  statement: id,
  limit: { high },
  judged: "worst case",
  answers: [{ node, sheet: "s" }],
  ...kilogram,
});

const blocks: Record<string, Block> = {
  "s/0": decision("cell", { small: "small", large: "large" }),
  "s/1": {
    type: "collection",
    budget: "mass",
    node: "rest",
    items: [
      { label: "cell", sheet: "s", node: "cell" },
      { label: "screw", sheet: "s", node: "screw" },
    ],
  },
  "s/2": decision("lid", { tin: "with tin", steel: "with steel" }),
};
const requirements = [requirement("light", 0.0125, "total"), requirement("thin", 0.001, "cell"), requirement("other", 1, "screw")];

function shown(chosen: Readonly<Record<string, string>> = {}) {
  const graph = Graph.from(nodes).withChanges({ choices: chosen });
  const map = mapLayout({ blocks, requirements }, graph);
  const book: BookData = { nodes: graph.nodes(), blocks, requirements, plots: {}, laws: {}, map, verdicts: {} };
  return view(book, new Evaluation(graph), () => "");
}

const none = (text: string) => ({ nominal: 0, text: `0 g of ${text}`, spread: { kind: "exact" } as const });

const words = (markup: string) =>
  markup
    .replace(/<[^>]+>/g, " ")
    .replace(/\s+/g, " ")
    .trim();

describe("the map of decisions", () => {
  const { map } = shown().book;
  const nameOf = (index: number) => map.places[index]?.decision ?? map.places[index]?.requirements?.join();

  it("draws what rests on what, and leaves out what a longer way says and what rests on nothing", () => {
    expect(map.lines.map(({ from, to }) => [nameOf(from), nameOf(to)]).toSorted()).toEqual([
      ["decisions.cell", "decisions.lid"],
      ["decisions.cell", "thin"],
      ["decisions.lid", "light"],
    ]);
    expect(map.places.map((_, index) => nameOf(index))).not.toContain("other");
  });

  it("puts what comes first above, no two places over one another, no line over a place", () => {
    const boxes = map.places.map(({ box }) => box);
    for (const { from, to } of map.lines) {
      const [upper, lower] = [boxes[from], boxes[to]] as [(typeof boxes)[0], (typeof boxes)[0]];
      expect(upper[1] + upper[3]).toBeLessThan(lower[1]);
    }
    expect(faults({ ...map, boxes, lines: map.lines.map(({ corners }) => ({ kind: "rests", corners })) })).toEqual([]);
  });

  it("says what is chosen and which verdicts follow, also after a change", () => {
    expect(words(renderMap(shown()).text)).toMatch(/Which lid\? the tin one .*✕ thin .*✓ light/);
    expect(words(renderMap(shown({ "decisions.lid": "steel" })).text)).toMatch(/Which lid\? the steel one .*✕ light/);
  });

  it("stands beside a list that says the same", () => {
    expect(words(renderMap(shown()).text)).toContain("Which lid? the tin one; rests on: Which cell?");
  });
});

describe("the budgets", () => {
  it("show each item, what is added on the way to the total, the total and its limit", () => {
    const text = words(renderBudgets(shown()).text);
    expect(text).toContain("Mass");
    expect(text).toMatch(/cell 7\sg screw 1\sg mass of the tin 4\sg total 12\sg limit ✓ holds ≤\s12.5\sg/);
  });

  it("draw no bars where every item is zero", () => {
    const empty = { givens: { small: none("small"), tin: none("tin"), screw: none("screw") } };
    const graph = Graph.from(nodes).withChanges(empty);
    const { book } = shown();
    const markup = renderBudgets(view(book, new Evaluation(graph), () => "")).text;
    expect(words(markup)).toMatch(/cell 0\sg screw 0\sg/);
    expect(markup).not.toContain("NaN");
    expect(markup).toContain("M0,0h0v8");
  });

  it("follow the choices", () => {
    const text = words(renderBudgets(shown({ "decisions.cell": "large", "decisions.lid": "steel" })).text);
    expect(text).toMatch(/cell 9\sg screw 1\sg mass of the steel 6\sg total 16\sg limit ✕ does not hold/);
  });
});
