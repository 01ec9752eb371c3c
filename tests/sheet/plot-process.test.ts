/** Sheets of one run share a process: a plot must not change it. */
import { describe, expect, it } from "vitest";
import { compileSpec } from "../../lib/sheet/plot/vega";

describe("compiling a plot", () => {
  it("leaves the objects of the process as they were, so that the next sheet need not wait for a new one", () => {
    const spec = {
      data: { values: [{ x: 1, y: 2 }] },
      mark: "line" as const,
      encoding: { x: { field: "x", type: "quantitative" as const }, y: { field: "y", type: "quantitative" as const } },
    };
    expect(compileSpec(spec).marks).toHaveLength(1);
    expect(Object.hasOwn(Set.prototype, "toJSON")).toBe(false);
  });
});
