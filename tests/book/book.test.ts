/** The book as one thing: what contradicts itself is an error that says where, and what to do. */
import { describe, expect, it } from "vitest";
import { readOutputs } from "../../lib/book/outputs";
import type { GivenNode, GraphNode } from "../../lib/graph/node";
import { type Block, type Display, displayType } from "../../lib/sheet/block";
import { reference, storeDisplay } from "../../lib/sheet/stored";
import { display, nodes, publishBlock, requirementDisplay, shown } from "./display-fixture";
import { madeBook } from "./made";

const sheet = (name: string, ...displays: readonly Display[]) => ({ name, notebook: shown(...displays) });
const supply = nodes[0] as GivenNode;

describe("a book", () => {
  it("is one graph of all sheets, with the names that they publish and what they answer", () => {
    const book = madeBook([sheet("light", display("light", publishBlock)), sheet("dark", requirementDisplay("dark"))]);
    expect(book.graph.nodes().map(({ id }) => id)).toEqual(["logic.supply", "ambient"]);
    expect([...book.published]).toEqual([
      ["light.V_s", "logic.supply"],
      ["light.T_a", "ambient"],
    ]);
    expect(Object.keys(book.blocks)).toEqual(["light/0", "dark/0"]);
  });

  it("refuses two nodes of one id, and names both places", () => {
    const other = { ...display("dark", publishBlock), nodes: [{ ...supply, text: "5 V" }, nodes[1] as GraphNode] };
    expect(() => madeBook([sheet("light", display("light", publishBlock)), sheet("dark", other)])).toThrow(
      /^logic\.supply is given 4\.5 V ±2 % in light, cell 1, but given 5 V in dark, cell 1; .*workings run/,
    );
  });

  it("refuses a notebook whose outputs are of a worksheet of another name", () => {
    expect(() => madeBook([sheet("brief", display("breif", publishBlock))])).toThrow(
      'the notebook of the sheet "brief", cell 1, opens worksheet("breif"); write worksheet("brief") there, or rename the notebook',
    );
  });

  it("refuses an output that names what no output holds", () => {
    const block: Block = { type: "publish", names: { x: "gone" } };
    expect(() => madeBook([sheet("light", display("light", block))])).toThrow(
      "light, cell 1: its output names gone, which no cell's output holds (was a cell deleted or cleared?); workings run light makes it anew",
    );
  });

  it("refuses one name published for two results", () => {
    const again: Block = { type: "publish", names: { V_s: "ambient" } };
    expect(() => madeBook([sheet("light", display("light", publishBlock), display("light", again))])).toThrow(
      "light, cell 2: publishes V_s as ambient, an earlier cell as logic.supply",
    );
  });

  it("refuses a figure of the design file that fits a given and a result", () => {
    const given: GraphNode = { ...supply, id: "givens.light.V_s", path: "light.V_s" };
    const both = { ...display("light", publishBlock), nodes: [...nodes, given] };
    const blocks = [{ id: "cell", name: "Cell", does: "", signal: [], power: [], return: [], voltage: "light.V_s" }];
    expect(() => madeBook([sheet("light", both)], { blocks })).toThrow(
      "block cell: voltage: light.V_s is a result and a given; write sheets.light.V_s or givens.light.V_s",
    );
  });
});

describe("a forged output", () => {
  const good = storeDisplay(display("light", publishBlock));
  const [first, second] = good.nodes as Record<string, unknown>[];
  const givens = { type: "givens", rows: [null] };
  const formula = { node: "formula light.x", unit: "1", text: "a", arguments: {} };
  it.each<[string, object, string]>([
    ["without a version", { ...good, version: undefined }, "version is no 2"],
    ["without a sheet", { ...good, sheet: 7 }, "sheet is no text"],
    ["with an empty row", { ...good, block: givens }, "block.rows[0] is no mapping"],
    ["with a node that is none", { ...good, nodes: [null] }, "nodes[0] is of no kind"],
    ["with a node of a kind that is inherited", { ...good, nodes: [{ ...first, node: "toString x" }] }, "nodes[0] is of no kind"],
    ["with a given whose text states nothing", { ...good, nodes: [{ ...first, text: "wide" }, second] }, "nodes[0].nominal is no number"],
    ["with a given whose value is text", { ...good, nodes: [{ ...first, nominal: "4.5" }, second] }, "nodes[0].nominal is no number"],
    ["with a spread that is none", { ...good, nodes: [{ ...first, spread: { kind: "wide" } }, second] }, "nodes[0].spread is of no kind"],
    ["with a table of words", { ...good, nodes: [{ ...first, node: "table t", x: "1 two" }] }, "nodes[0].xName is no text"],
    ["with a law that cannot be read", { ...good, nodes: [{ ...formula, text: "a +" }] }, "nodes[0].expression is no mapping"],
    ["with a law that is none", { ...good, nodes: [{ ...formula, expression: { call: "add" } }] }, "nodes[0].expression is no expression"],
    ["with a law of the wrong kind", { ...good, nodes: [{ ...formula, expression: 7 }] }, "nodes[0].expression is no mapping"],
    ["with a node like one that is not there", { ...good, nodes: ["formula light.y like light.x"] }, "light.y is said to be like light.x"],
    ["with a node like itself", { ...good, nodes: ["formula light.x like light.x"] }, "light.x is said to be like light.x"],
    [
      "with a node like one of another kind",
      { ...good, nodes: [first, "formula light.y like logic.supply"] },
      "which is no formula before it",
    ],
  ])("%s is refused with its sheet, its cell and the way out", (_, value, reason) => {
    const making = () => readOutputs({ name: "light", notebook: showing([value]) });
    expect(making).toThrow(
      /^light, cell 1: its output was edited, or is of another version of this library: .*; workings run light makes it anew$/,
    );
    expect(making).toThrow(reason);
  });

  it("of another version is told so", () => {
    expect(() => readOutputs({ name: "light", notebook: showing([{ ...good, version: 1 }]) })).toThrow(
      "light, cell 1: its output was written by another version of this library; workings run light makes it anew",
    );
  });
});

describe("outputs that were mixed up", () => {
  const [supply, ambient] = nodes as [GivenNode, GivenNode];
  const publish = (name: string, id: string): Block => ({ type: "publish", names: { [name]: id } });
  const first = { sheet: "light", block: publish("V", "logic.supply"), nodes: [supply] };
  const later = { sheet: "light", block: publish("T", "ambient"), nodes: [ambient], refers: [reference(supply)] };
  const read = (...displays: readonly Display[]) => readOutputs({ name: "light", notebook: shown(...displays) });
  const end = "; workings run light makes it anew";

  it("are read where a later cell refers to what an earlier one holds, and where an earlier to a later one, run before it", () => {
    expect(read(first, later).displays.length).toBe(2);
    expect(read(later, first).displays.length).toBe(2);
  });

  it("are refused where the cell that held a node was deleted, whether it is named or referred to", () => {
    const gone = "which no cell's output holds (was a cell deleted or cleared?)";
    expect(() => read(later)).toThrow(`light, cell 1: its output names logic.supply, ${gone}${end}`);
    const named = { ...first, nodes: [] };
    expect(() => read(named)).toThrow(`light, cell 1: its output names logic.supply, ${gone}${end}`);
  });

  it("are refused where two hold one node with two contents", () => {
    const other = { ...supply, text: "5 V", nominal: 5 };
    expect(() => read(first, { ...first, nodes: [other] })).toThrow(
      `light, cell 2: its output has another logic.supply than that of cell 1${end}`,
    );
  });

  it("are refused where a later cell was run on another content than is held", () => {
    const other = { ...supply, text: "5 V", nominal: 5 };
    expect(() => read({ ...first, nodes: [other] }, later)).toThrow(
      `light, cell 2: its output was made with another logic.supply than that in cell 1${end}`,
    );
    expect(() => read(first, { ...later, refers: ["logic.supply"] })).toThrow(/^light, cell 2: its output names/);
  });
});

/** A notebook with a cell that shows these as our outputs. */
function showing(values: readonly unknown[]) {
  const outputs = values.map((value) => ({ output_type: "display_data", metadata: {}, data: { [displayType]: value } }));
  return { cells: [{ cell_type: "code", id: "c", metadata: {}, source: "", outputs }] };
}
