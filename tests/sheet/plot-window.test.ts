/** The window of a plot on curves whose crossings are known by hand. */
import { describe, expect, it } from "vitest";
import { Evaluation } from "../../lib/analysis/evaluation";
import { Graph } from "../../lib/graph/graph";
import type { PlotBlock } from "../../lib/sheet/block";
import { plotData } from "../../lib/sheet/plot/data";
import { formula, sweep, tolerant } from "../graph/nodes";

/** t = 2 ± 0.25, d = 1 ± 0.5: falling is 4 − t, half more or less, and rising t. */
const graph = Graph.from([
  tolerant("t", 2, 0.125),
  tolerant("d", 1, 0.5),
  formula("falling", "3 - t + d"),
  formula("rising", "1*t"),
  sweep("f", "falling", "t", [0, 1, 2, 3, 4]),
  sweep("r", "rising", "t", [0, 1, 2, 3, 4]),
]);

const axis = { label: "a", unit: "1", scale: "linear" } as const;
const block = (fall: PlotBlock["series"][0]["within"], rise?: PlotBlock["series"][0]["within"]): PlotBlock => ({
  type: "plot",
  name: "p",
  caption: "c",
  x: axis,
  y: axis,
  series: [
    { label: "f", curve: "f", band: true, ...(fall && { within: fall }) },
    { label: "r", curve: "r", band: true, ...(rise && { within: rise }) },
  ],
});
const windows = (...limits: Parameters<typeof block>) => plotData(block(...limits), new Evaluation(graph)).windows;

describe("the window of a plot", () => {
  it("is not there where no curve has a limit to keep", () => expect(windows(undefined)).toEqual([]));

  it("reaches from where one limit is met to where the other no longer is, less the tolerance at either end", () => {
    // 4 − t ≤ 2.5 from t = 1.5, t ≤ 3.2; the tolerance of t takes 0.25 at either end.
    const [found] = windows({ high: 2.5, judged: "typical" }, { high: 3.2, judged: "typical" });
    expect(found?.from).toBeCloseTo(1.75, 9);
    expect(found?.to).toBeCloseTo(2.95, 9);
    expect(found?.label).toBe("1.75 to 2.95");
  });

  it("is judged by the worst case where the requirement is", () => {
    // 4 − t + 0.5 ≤ 2.5 from t = 2.
    const [found] = windows({ high: 2.5, judged: "worst case" }, { high: 3.2, judged: "typical" });
    expect(found?.from).toBeCloseTo(2.25, 9);
  });

  it("is none where the limits exclude one another", () => {
    expect(windows({ high: 1, judged: "typical" }, { high: 2, judged: "typical" })).toEqual([]);
  });

  it("says its ends rounded inward", () => {
    const [found] = windows({ high: 2.5037, judged: "typical" }, { high: 3.2089, judged: "typical" });
    expect(found?.label).toBe("1.75 to 2.95");
  });
});
