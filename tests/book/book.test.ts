/** The book as one thing: what contradicts itself is an error that says where, and what to do. */
import { describe, expect, it } from "vitest";
import type { GivenNode, GraphNode } from "../../lib/graph/node";
import type { Block, Display } from "../../lib/sheet/block";
import { display, nodes, publishBlock, requirementDisplay, shown } from "./display-fixture";
import { madeBook } from "./made";

const sheet = (name: string, ...displays: readonly Display[]) => ({ name, notebook: shown(...displays) });
const supply = nodes[0] as GivenNode;

describe("a book", () => {
  it("is one graph of all sheets, with the names that they publish and what they answer", () => {
    const book = madeBook([sheet("light", display("light", publishBlock)), sheet("dark", requirementDisplay("dark", "holds"))]);
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
      "light, cell 1: no output of the book holds gone, which this one names; workings run light makes it anew",
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
  const good = display("light", publishBlock) as unknown as Record<string, unknown>;
  const [first, second] = nodes;
  const givens = { type: "givens", rows: [null] };
  const formula = { kind: "formula", id: "light.x", dimension: "1", unit: "1", text: "a", arguments: {} };
  it.each<[string, object, string]>([
    ["of another version", { ...good, version: 2 }, "version is no 1"],
    ["without a sheet", { ...good, sheet: 7 }, "sheet is no text"],
    ["with an empty row", { ...good, block: givens }, "block.rows[0] is no mapping"],
    ["with a node that is none", { ...good, nodes: [null] }, "nodes[0] is of no kind"],
    ["with a node of a kind that is inherited", { ...good, nodes: [{ ...first, kind: "toString" }] }, "nodes[0] is of no kind"],
    ["with a given whose value is text", { ...good, nodes: [{ ...first, nominal: "4.5" }, second] }, "nodes[0].nominal is no number"],
    ["with a spread that is none", { ...good, nodes: [{ ...first, spread: { kind: "wide" } }, second] }, "nodes[0].spread is of no kind"],
    ["with a law that is none", { ...good, nodes: [{ ...formula, expression: { call: "add" } }] }, "nodes[0].expression is no expression"],
    ["with a law of the wrong kind", { ...good, nodes: [{ ...formula, expression: 7 }] }, "nodes[0].expression is no mapping"],
  ])("%s is refused with its sheet, its cell and the way out", (_, value, reason) => {
    const making = () => madeBook([sheet("light", value as Display)]);
    expect(making).toThrow(
      /^light, cell 1: its output was edited, or is of another version of this library: .*; workings run light makes it anew$/,
    );
    expect(making).toThrow(reason);
  });
});
