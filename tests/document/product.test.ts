/** Block diagram and power tree: what the design file states is drawn, nothing lies over anything else, and the figures live. */
import { describe, expect, it } from "vitest";
import { Evaluation } from "../../lib/analysis/evaluation";
import type { BlockRow } from "../../lib/design/types";
import type { Box, Corner } from "../../lib/document/drawing/boxes";
import { productDrawing } from "../../lib/document/front/product-layout";
import { productSection, renderDiagram, renderPower } from "../../lib/document/live/product";
import { type BookData, view } from "../../lib/document/model/book-data";
import { Graph } from "../../lib/graph/graph";
import { demo } from "../demo-book";
import { formula, tolerant } from "../graph/nodes";
import { atRandom, drawings, faults } from "./drawing-faults";

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
const graph = Graph.from([{ ...tolerant("V", 3, 0.1), symbol: "V" }, tolerant("I", 2, 0.1), formula("P", "V*I")]);
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
  const present = view(book, evaluation, () => "");
  const [plan, power] = [renderDiagram(present), renderPower(present)];
  return { product, power: power.text, section: productSection(product, plan, power).text };
}

const words = (markup: string) => markup.replace(/<[^>]+>/g, " ").replace(/\s+/g, " ");

describe("the product in drawings", () => {
  it("has a box for every block, in the diagram and in the table, and adding one adds it", () => {
    const { section } = shown(blocks);
    for (const { name } of blocks) expect(section.split(name).length - 1, name).toBeGreaterThanOrEqual(2);
    expect(section).not.toContain("the siren");
    const added = shown([...blocks, block("siren", { power: ["cell"], signal: ["stage"] })]);
    expect(added.section.split("the siren").length - 1).toBeGreaterThanOrEqual(3);
    expect(added.product?.diagram.lines.length).toBe((shown(blocks).product?.diagram.lines.length ?? 0) + 2);
  });

  it("tells signal, power and returns apart by their lines, and leads each block's return to its rail", () => {
    const { section, product } = shown(blocks);
    expect(product?.diagram.lines.map(({ kind }) => kind).toSorted()).toEqual(["power", "power", ...Array(4).fill("return"), "signal"]);
    expect(product?.diagram.joints).toHaveLength(2);
    for (const kind of ["signal", "power", "return"]) expect(section).toContain(`link-${kind}`);
  });

  it("says a given that no sheet reads as the design file states it, and its nominal value in the diagram", () => {
    const source = block("source", { voltage: "U" });
    const product = productDrawing([...blocks, source], resolve, (name) =>
      name === "U" ? { text: "5 V ±0.2 V", short: "5 V" } : undefined,
    );
    expect(product?.diagram.places.find(({ id }) => id === "source")?.figure).toMatchObject({ text: "5 V ±0.2 V", short: "5 V" });
  });

  it("shows a figure of a block or a return in the diagram, with its symbol, and the voltage alone of what gives power", () => {
    const { section } = shown([
      ...blocks.filter(({ id }) => id !== "ground"),
      block("ground", { shows: "s.P" }),
      block("filter", { shows: "V" }),
    ]);
    expect(words(section)).toMatch(/the ground 6 /);
    expect(words(section)).toMatch(/the filter V = 3 /);
    expect(words(section)).toMatch(/the lamp 3 /);
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

  it("leads a line back up to what it feeds back into", () => {
    const back = blocks.map((row) => (row.id === "jack" ? { ...row, signal: ["stage"] } : row));
    const ends = shown(back)
      .product?.diagram.lines.filter(({ kind }) => kind === "signal")
      .map(({ corners }) => Math.sign((corners.at(-1)?.[1] ?? 0) - (corners[0]?.[1] ?? 0)));
    expect(ends?.toSorted()).toEqual([-1, 1]);
  });
});

describe("the drawings' lines", () => {
  it("of the demo cross no box, and none lies on another; both drawings are no wider than the measure of the page", () => {
    const product = productDrawing(demo.design.blocks, () => undefined);
    expect(demo.design.blocks.length).toBeGreaterThan(15);
    for (const drawing of drawings(product)) {
      expect(faults(drawing)).toEqual([]);
      expect(drawing.width).toBeLessThanOrEqual(656);
    }
  });

  it("of products drawn at random cross no box either", () => {
    for (let seed = 1; seed <= 40; seed++) {
      for (const drawing of drawings(productDrawing(atRandom(seed), () => undefined))) expect(faults(drawing), `seed ${seed}`).toEqual([]);
    }
  });

  it("are told to be faulty where one crosses a box, one lies on another, or two boxes overlap", () => {
    const [drawing] = drawings(productDrawing(blocks, () => undefined));
    if (drawing === undefined) throw new Error("nothing drawn");
    const [[x, y, width, height]] = drawing.boxes as [Box];
    const through: Corner[] = [
      [x - 5, y + height / 2],
      [x + width + 5, y + height / 2],
    ];
    expect(faults({ ...drawing, lines: [...drawing.lines, { kind: "signal", corners: through }] })).not.toEqual([]);
    expect(faults({ ...drawing, lines: [...drawing.lines, ...drawing.lines.filter(({ kind }) => kind === "signal")] })).not.toEqual([]);
    expect(faults({ ...drawing, boxes: [...drawing.boxes, [x + 1, y + 1, width, height]] })).not.toEqual([]);
  });
});
