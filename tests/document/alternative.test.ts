/** Results within alternatives: the document shows how the chosen one was computed, and links to a decision's results lead there whatever is chosen. */
import { beforeAll, describe, expect, it } from "vitest";
import { Evaluation } from "../../lib/analysis/evaluation";
import { alternativeOf, isOfAnother, workingsOf } from "../../lib/document/model/alternative";
import { bookData, type PlotMaker } from "../../lib/document/model/assemble";
import { type BookData, placesOf, targetOf, view } from "../../lib/document/model/book-data";
import { Finder } from "../../lib/document/model/finder";
import { renderPart } from "../../lib/document/model/parts";
import type { Graph } from "../../lib/graph/graph";
import { madeBook } from "../book/made";
import { demo } from "../demo-book";

const plots: PlotMaker = { compile: () => ({}), render: () => "" };
const path = "decisions.enclosure.material";

describe("the workings of decisions", () => {
  let graph: Graph;
  let data: BookData;
  let magnesium: Graph;
  let ref = "";
  beforeAll(() => {
    const book = madeBook(demo.sheets(), demo.design);
    graph = book.graph;
    data = bookData(book, plots);
    magnesium = graph.withChanges({ choices: { [path]: "magnesium" } });
    ref = Object.entries(data.blocks).find(([, block]) => block.type === "decision" && block.choice === path)?.[0] ?? "";
  }, 240_000);
  const markup = (state: Graph) =>
    renderPart(
      "workings",
      ref,
      view(data, new Evaluation(state), () => ""),
    ).text;

  it("belong to one alternative each", () => {
    expect(alternativeOf("enclosure.material[draft].m_s", graph)).toEqual({ choice: path, alternative: "draft" });
    expect(alternativeOf("enclosure.material.m_s", graph)).toBeUndefined();
    expect(alternativeOf("enclosure.compared[ABS].m_t", graph)).toBeUndefined();
    expect(isOfAnother("enclosure.material[draft].m_s", graph)).toBe(true);
    expect(isOfAnother("enclosure.material[magnesium].m_s", magnesium)).toBe(false);
  });

  it("are of the chosen one alone, inputs first, each in a place of its own", () => {
    for (const state of [graph, magnesium])
      for (const [, workings] of workingsOf(data.blocks, state)) {
        expect(workings.length).toBeGreaterThan(1);
        expect(workings.filter(({ node }) => isOfAnother(node, state))).toEqual([]);
        expect(new Set(workings.map(({ target }) => target)).size).toBe(workings.length);
        const before = new Set<string>();
        for (const { node } of workings) {
          expect(
            state.ancestors([node]).filter((id) => id !== node && workings.some((other) => other.node === id && !before.has(id))),
          ).toEqual([]);
          before.add(node);
        }
      }
  });

  it("keep the places of a decision's results when another alternative is chosen", () => {
    const results = graph.nodes().filter((node) => node.kind === "switch" && node.choice === path);
    expect(results.length).toBeGreaterThan(8);
    const [here, there] = [placesOf(data.blocks, graph), placesOf(data.blocks, magnesium)];
    for (const node of results) expect(targetOf(node, there)).toBe(targetOf(node, here));
  });

  it("show law, numbers, spread, a place for what is asked of it, and what a result comes from", () => {
    const text = markup(graph);
    const own = text.slice(text.indexOf('id="node-enclosure.material.m_s"'), text.indexOf('id="node-enclosure.material.m_b"'));
    expect(own).toMatch(/mass of the shell/i);
    expect(own).toMatch(
      /aria-label="law"[\s\S]*<mi>ρ<\/mi>[\s\S]*aria-label="the law with numbers"[\s\S]*1\.37\u00a0g\/cm³[\s\S]*9\.705\u00a0cm³/,
    );
    expect(own).toContain('data-node="enclosure.material[pa-gf30].m_s" data-show="worst"');
    expect(own).toContain('<div class="asked" data-of="enclosure.material[pa-gf30].m_s" data-spread></div>');
    expect(own).toMatch(/<dt>from<\/dt><dd>.*href="#node-enclosure\.material\.V".*href="#node-[^"]*ribs"/);
  });

  it("follow the choice, with laws typeset when the book was published", () => {
    const text = markup(magnesium);
    expect(text).toContain("for the chosen alternative, magnesium");
    expect(text).toContain("<math");
    expect(text).not.toContain("<code>");
    expect(text).toMatch(/1\.8\d*\u00a0g\/cm³/);
  });

  it("put brackets around a negative value behind a sign", () => {
    expect(markup(graph)).toMatch(/data-show="operand"[^>]*>\(−0\.\d+\u00a0%\/K\)/);
  });

  it("are found by words, and say what rests on them as decided", () => {
    const finder = new Finder(data, graph);
    const [first] = finder.find("mass of the shell", 5);
    expect(first).toMatchObject({ target: "node-enclosure.material.m_s" });
    const { places, requirements } = finder.uses(first?.node.id ?? "");
    expect(places.map(({ node }) => node.id)).toContain("enclosure.material.M");
    expect(places.filter(({ node }) => isOfAnother(node.id, graph))).toEqual([]);
    expect(requirements).toContain("mass");
    expect(finder.nodeAt("node-enclosure.material.m_s")).toBe(first?.node.id);
    expect(new Finder(data, magnesium).uses("reference.materials.pa-gf30-density").requirements).not.toContain("mass");
    expect(finder.uses("reference.materials.pa-gf30-density").requirements).toContain("mass");
  });
});
