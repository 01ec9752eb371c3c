/** Block diagram and power tree: what the design file states is drawn, nothing lies over anything else, and the figures live. */
import { describe, expect, it } from "vitest";
import { Evaluation } from "../../lib/analysis/evaluation";
import type { BlockRow } from "../../lib/design/types";
import type { Box } from "../../lib/document/arrange";
import { type BookData, view } from "../../lib/document/book-data";
import { productSection, renderPower } from "../../lib/document/live-product";
import { productDrawing } from "../../lib/document/product-layout";
import { Graph } from "../../lib/graph/graph";
import { demo } from "../demo-book";
import { formula, tolerant } from "../graph/nodes";

const block = (id: string, more: Partial<BlockRow> = {}): BlockRow => ({
  id,
  name: `the ${id}`,
  does: `does ${id}`,
  signal: [],
  power: [],
  return: [],
  ...more,
});

const blocks: BlockRow[] = [
  block("cell", { return: ["ground"], draws: "s.total" }),
  block("stage", { signal: ["jack"], power: ["cell"], return: ["ground"], draws: "s.P" }),
  block("jack", { return: ["ground"] }),
  block("lamp", { power: ["cell"], voltage: "V" }),
  block("ground"),
];
const graph = Graph.from([tolerant("V", 3, 0.1), tolerant("I", 2, 0.1), formula("P", "V*I")]);
const resolve = (name: string) => ({ V: "V", "s.P": "P" })[name];

function shown(rows: readonly BlockRow[], evaluation = new Evaluation(graph)) {
  const product = productDrawing(rows, resolve);
  const book: BookData = {
    nodes: graph.nodes(),
    blocks: {},
    requirements: [],
    plots: {},
    map: { width: 0, height: 0, places: [], lines: [] },
    laws: {},
    verdicts: {},
    ...(product && { product }),
  };
  const power = renderPower(view(book, evaluation, () => ""));
  return { product, power: power.text, section: productSection(product, power).text };
}

const words = (markup: string) => markup.replace(/<[^>]+>/g, " ").replace(/\s+/g, " ");

function expectApart(boxes: readonly Box[]): void {
  boxes.forEach(([x, y, width, height], index) => {
    for (const [a, b, w, h] of boxes.slice(index + 1)) expect(x + width <= a || a + w <= x || y + height <= b || b + h <= y).toBe(true);
  });
}

describe("the product in drawings", () => {
  it("has a box for every block, in the diagram and in the table, and adding one adds it", () => {
    const { section } = shown(blocks);
    for (const { name } of blocks) expect(section.split(name).length - 1, name).toBeGreaterThanOrEqual(2);
    expect(section).not.toContain("the siren");
    const added = shown([...blocks, block("siren", { power: ["cell"], signal: ["stage"] })]);
    expect(added.section.split("the siren").length - 1).toBeGreaterThanOrEqual(3);
    expect(added.product?.diagram.lines.length).toBe((shown(blocks).product?.diagram.lines.length ?? 0) + 2);
  });

  it("tells signal, power and returns apart by their lines, and marks each block with its return", () => {
    const { section, product } = shown(blocks);
    expect(product?.diagram.lines.map(({ kind }) => kind).toSorted()).toEqual(["power", "power", "signal"]);
    expect(product?.diagram.places.filter(({ returns }) => returns.includes("A")).length).toBe(4);
    for (const kind of ["signal", "power", "return"]) expect(section).toContain(`link-${kind}`);
  });

  it("says what is given, what is computed, and plainly what is not", () => {
    const { power } = shown(blocks);
    expect(words(power)).toMatch(/the stage takes 6 95 %: 5\.\d+ to 6\.\d+/);
    expect(words(power)).toMatch(/the cell not computed yet/);
    expect(words(power)).toMatch(/the lamp gives 3 /);
  });

  it("follows the state of the book", () => {
    const changed = new Evaluation(graph).withChanges({ givens: { I: { nominal: 4, spread: { kind: "exact" }, text: "4" } } });
    expect(words(shown(blocks, changed).power)).toMatch(/the stage takes 12(?:\.0)? 95 %: 1[01]\./);
  });

  it("is not there for a design without blocks", () => {
    expect(shown([]).section).toBe("");
    expect(shown([]).power).toBe("");
  });

  it("escapes what the design file calls its blocks", () => {
    const evil = shown([block("x", { name: '<script>"&', does: "<img onerror=1>", power: ["y"] }), block("y")]);
    expect(evil.section).not.toMatch(/<script|<img/);
  });

  it("of the demo lets no two boxes overlap and keeps every name inside its box", () => {
    const { design } = demo;
    const product = productDrawing(design.blocks, () => undefined);
    expect(design.blocks.length).toBeGreaterThan(15);
    for (const drawing of [product?.diagram, product?.power]) {
      const places = drawing?.places ?? [];
      expectApart(places.map(({ box }) => box));
      for (const { box, lines } of places) expect(Math.max(...lines.map((line) => line.length * 6.6))).toBeLessThan(box[2] - 8);
    }
  });
});
