/** The stored form of blocks: short, and the block comes back from it. */
import { describe, expect, it } from "vitest";
import type { Block } from "../../lib/sheet/block";
import { readBlock, storeBlock } from "../../lib/sheet/stored-block";
import { formula } from "../graph/nodes";

const table = (label: string, ...cells: string[]): Block => ({
  type: "table",
  caption: "c",
  laws: [],
  columns: [],
  rows: [{ label, cells }],
});
const decision: Block = {
  ...{ type: "decision", name: "rail", question: "?", choice: "decisions.lamp.rail", criteria: [], reason: "r", reconsider: "o" },
  alternatives: [
    { name: "logic", label: "logic rail", values: { I: "lamp.rail[logic].I", C: "givens.cost" } },
    { name: "the other", label: "other rail", values: { I: "lamp.rail[the other].I", "odd name": "givens.cost" } },
  ],
};
const law = formula("lamp.R", "V/I", { V: "a", I: "b" });
const result = (more: object): Block => ({
  ...{ type: "result", node: "lamp.R", law: "\\frac{V}{I}" },
  substituted: {
    latex: "\\frac{\\text{⟦0⟧}}{\\text{⟦1⟧}}",
    values: [
      { node: "a", unit: "V" },
      { node: "b", unit: "mA" },
    ],
  },
  ...more,
});

describe("a stored block", () => {
  it.each<[string, Block, object]>([
    ["givens, a line each", { type: "givens", rows: [{ symbol: "V", node: "givens.a b" }] }, { rows: ["V givens.a b"] }],
    [
      "givens whose symbols cannot stand in a line",
      { type: "givens", rows: [{ symbol: "V x", node: "a" }] },
      { rows: [{ symbol: "V x" }] },
    ],
    ["a table, a line a row", table("hen's egg", "x[hen's egg].n", "y"), { rows: ["hen's egg: x[hen's egg].n, y"] }],
    ["a table whose label could be taken for more", table("a: b", "x"), { rows: [{ label: "a: b" }] }],
    ["a decision", decision, { alternatives: [{ values: "I .I, C givens.cost" }, { values: { I: ".I" } }] }],
    ["a result without what its node says", result({}), { units: "V in V, I in mA" }],
    ["a result that says otherwise", result({ source: "elsewhere" }), { law: "\\frac{V}{I}", source: "elsewhere" }],
  ])("holds %s", (_, block, short) => {
    const nodes = new Map([[law.id, law]]);
    const stored = storeBlock(block, nodes);
    expect(stored).toMatchObject(short);
    expect(readBlock(JSON.parse(JSON.stringify(stored)), nodes)).toEqual(block);
  });
});
