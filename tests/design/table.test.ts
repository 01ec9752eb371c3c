import { describe, expect, it } from "vitest";
import { readReferences } from "../../lib/design/reference";
import type { TableNode } from "../../lib/graph/node";

const file = (columns: string, interpolation: string, rows: string) =>
  readReferences({
    "t.yaml": `name: t
sources: { desk: { title: Desk, type: report } }
meaning: loss against frequency
source: desk
year: 2020
memory: false
table:
  columns: [${columns}]
  interpolation: ${interpolation}
  rows: [${rows}]
`,
  }).nodes.get("reference.t") as TableNode;

describe("a table along logarithms", () => {
  it("takes levels below 0 dB, which are ratios above zero", () => {
    const { y } = file("frequency in Hz, loss in dB", "log-log", "[10, -20], [1000, -60]");
    expect(y[0]).toBeCloseTo(0.1, 12);
    expect(y[1]).toBeCloseTo(0.001, 12);
  });

  it("refuses what has no logarithm as a quantity, in either column", () => {
    expect(() => file("frequency in Hz, voltage in V", "log-y", "[10, -20], [1000, 60]")).toThrow(/row 1 of .*: -20 has no logarithm/);
    expect(() => file("frequency in Hz, voltage in V", "log-log", "[0, 20], [1000, 60]")).toThrow(/row 1 of .*: 0 has no logarithm/);
  });
});
