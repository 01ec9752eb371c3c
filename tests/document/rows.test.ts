/** A sheet in two columns: what stands beside which text, and which results stand within another. */
import { describe, expect, it } from "vitest";
import type { Output, SheetOutputs } from "../../lib/book/outputs";
import { helpersOf } from "../../lib/document/model/helpers";
import { type Item, inRows, sectionsOf } from "../../lib/document/sheet/rows";
import { html } from "../../lib/document/text/html";
import { parseFormula } from "../../lib/formula/parse";
import { Graph } from "../../lib/graph/graph";
import type { GraphNode } from "../../lib/graph/node";
import type { Block } from "../../lib/sheet/block";

const item = (place: Item["place"], name: string, lines: number, more: Partial<Item> = {}): Item => ({
  place,
  lines,
  markup: html`${name}`,
  ...more,
});
const shown = (...items: Item[]) =>
  inRows(items).map(({ text }) =>
    text.replace(/<div class="(\w+)(?: (\w+))?">/g, (_, name, kind) => `(${kind ?? name} `).replaceAll("</div>", ")"),
  );

describe("the rows of a sheet", () => {
  it("set beside a text what follows it, in the order of the sheet", () => {
    expect(shown(item("text", "A", 9), item("beside", "r", 1), item("text", "B", 9), item("beside", "s", 1))).toEqual([
      "(row (told A)(beside r))",
      "(row (told B)(beside s))",
    ]);
  });
  it("leave a text alone in the width that suits it, and give tables of a decision both columns", () => {
    expect(shown(item("text", "A", 9), item("wide", "D", 9), item("text", "B", 2))).toEqual(["(plain (told A))", "D", "(plain (told B))"]);
  });
  it("let the text go on beside a figure that is the longer", () => {
    expect(shown(item("text", "A", 3), item("beside", "f", 15, { isBroad: true }), item("text", "B", 8))).toEqual([
      "(broad (told A)(beside f)(told B))",
    ]);
  });
  it("stand the first of many results below a short text", () => {
    const results = ["p", "q", "r", "s", "t", "u"].map((name) => item("beside", name, 1.4));
    expect(shown(item("text", "A", 2), ...results)).toEqual(["(row (told Apq)(beside rstu))"]);
  });
  it("give a table both columns where it would be much longer than the text beside it", () => {
    const table = item("beside", "T", 20, { isBroad: true, mayBeWide: true });
    expect(shown(item("text", "A", 3), table)).toEqual(["(plain (told A))", "T"]);
    expect(shown(item("text", "A", 18), table)).toEqual(["(broad (told A)(beside T))"]);
  });
  it("keep every item, whatever its kind", () => {
    const places = ["text", "below", "beside", "wide"] as const;
    for (let seed = 0; seed < 200; seed++) {
      const random = (n: number) => Math.floor(((Math.sin(seed * 91.7 + n * 37.3) + 1) * 5000) % 997);
      const items = Array.from({ length: 12 }, (_, n) =>
        item(places[random(n) % 4] ?? "text", `<${n}>`, 1 + (random(n + 50) % 12), { mayBeWide: random(n) % 3 === 0 }),
      );
      const order = [
        ...inRows(items)
          .map(({ text }) => text)
          .join("")
          .matchAll(/&lt;(\d+)&gt;/g),
      ].map(([, n]) => Number(n));
      expect(order, `seed ${seed}`).toEqual(items.map((_, n) => n));
    }
  });
  it("begin at each heading", () => {
    expect(sectionsOf(html`<h2>t</h2><p>a</p>`).map(({ place, markup }) => [place, markup.text])).toEqual([
      ["wide", "<h2>t</h2>"],
      ["text", "<p>a</p>"],
    ]);
    expect(sectionsOf(html`<p>a</p>${html`<h3 id="x">b</h3><p>c</p>`}`).map(({ markup }) => markup.text)).toEqual([
      "<p>a</p>",
      '<h3 id="x">b</h3><p>c</p>',
    ]);
  });
});

const law = (id: string, text: string, symbols: Readonly<Record<string, string>>): GraphNode => ({
  kind: "formula",
  id,
  text,
  expression: parseFormula(text, Object.keys(symbols)).expression,
  arguments: symbols,
  dimension: "1",
  unit: "1",
  symbol: id.slice(id.indexOf(".") + 1),
  meaning: id,
});
const nodes: readonly GraphNode[] = [
  { kind: "constant", id: "~two", value: 2, dimension: "1", unit: "1" },
  law("s.a", "2*x", { x: "~two" }),
  law("s.b", "a + 1", { a: "s.a" }),
  law("s.c", "b + 1", { b: "s.b" }),
  law("s.d", "c + 1", { c: "s.c" }),
];

/** The results in the order of their names; `prose` stands before the last. */
function book(prose: string, others: readonly Block[] = []) {
  const blocks: Block[] = [...["a", "b", "c", "d"].map((name): Block => ({ type: "result", node: `s.${name}` })), ...others];
  const outputs = blocks.map(
    (block, index) => ({ kind: "display", ref: `s/${index}`, display: { sheet: "s", block, nodes } }) as unknown as Output,
  );
  const pieces: SheetOutputs["pieces"] = [
    { kind: "code", source: "", outputs: outputs.slice(0, 3) },
    ...(prose === "" ? [] : [{ kind: "prose" as const, markdown: prose, cell: "p", attachments: undefined }]),
    { kind: "code", source: "", outputs: outputs.slice(3) },
  ];
  const displays = outputs as unknown as SheetOutputs["displays"];
  return {
    sheets: [{ name: "s", pieces, displays }],
    graph: Graph.from(nodes),
    blocks: Object.fromEntries(blocks.map((block, index) => [`s/${index}`, block])),
    published: new Map<string, string>(),
  };
}

describe("results within another", () => {
  it("are those that only it needs and that stand above it without text between", () => {
    expect([...helpersOf(book(""))]).toEqual([
      ["s/0", "s/1"],
      ["s/1", "s/2"],
      ["s/2", "s/3"],
    ]);
    expect([...helpersOf(book("Some words."))]).toEqual([
      ["s/0", "s/1"],
      ["s/1", "s/2"],
    ]);
  });
  it("are none that a text links to, or that a requirement, a plot or another block names", () => {
    expect([...helpersOf(book("It is [5](#b)."))]).toEqual([["s/0", "s/1"]]);
    expect([...helpersOf(book("", [{ type: "requirement", requirement: "r", node: "s.a" }]))]).toEqual([
      ["s/1", "s/2"],
      ["s/2", "s/3"],
    ]);
    expect([...helpersOf(book("", [{ type: "publish", names: { b: "s.b" } }]))]).toEqual([
      ["s/0", "s/1"],
      ["s/2", "s/3"],
    ]);
  });
  it("are none that something else is computed from as well", () => {
    const more = law("t.e", "a + 3", { a: "s.a" });
    expect([...helpersOf({ ...book(""), graph: Graph.from([...nodes, more]) })]).toEqual([
      ["s/1", "s/2"],
      ["s/2", "s/3"],
    ]);
  });
});
