/** Plots of values that leave nothing to draw, or no span: all equal, all zero, below zero on a logarithmic axis. */
import { describe, expect, it } from "vitest";
import { Evaluation } from "../../lib/analysis/evaluation";
import { disagreementWarning } from "../../lib/analysis/warnings";
import { renderPlotPicture } from "../../lib/document/live/figures";
import { type BookData, view } from "../../lib/document/model/book-data";
import { Graph } from "../../lib/graph/graph";
import type { PlotBlock } from "../../lib/sheet/block";
import { plotData, vegaLite } from "../../lib/sheet/plot/plot";
import { compileSpec, renderSpec } from "../../lib/sheet/plot/vega";
import { table } from "../graph/nodes";

function picture(y: number[], scale: "linear" | "log"): string {
  const curve = table("t", [1, 2, 3], y);
  const block: PlotBlock = {
    type: "plot",
    name: "p",
    caption: "c",
    x: { label: "x", unit: curve.xUnit, scale: "linear" },
    y: { label: "y", unit: curve.unit, scale },
    series: [{ label: "a", curve: "t" }],
    rules: [{ axis: "y", label: "limit", value: 2 }],
  };
  const evaluation = new Evaluation(Graph.from([curve]));
  const book: BookData = {
    nodes: [curve],
    blocks: { "s/0": block },
    requirements: [],
    laws: {},
    plots: {},
    map: { width: 0, height: 0, places: [], lines: [] },
    verdicts: {},
  };
  const draw = () => renderSpec(compileSpec(vegaLite(block, plotData(block, evaluation))), "p");
  return renderPlotPicture(block, "s/0", view(book, evaluation, draw)).text;
}

describe("a plot", () => {
  it.each([
    ["equal", [3, 3, 3]],
    ["zero", [0, 0, 0]],
    ["negative", [-1, -2, -3]],
    ["of both signs", [-1, 0, 5]],
    ["nearly nothing", [1e-300, 1e-300, 2e-300]],
  ])("draws no NaN or infinity where its values are %s", (_, y) => {
    for (const scale of ["linear", "log"] as const) expect(picture(y, scale)).not.toMatch(/NaN|Infinity/);
  });

  it("says that it cannot be drawn where a logarithmic axis has no place for any of its values", () => {
    expect(picture([0, -1, -2], "log")).toContain(
      "It cannot be drawn with these values: nothing of the plot &#39;p&#39; can be drawn: a logarithmic axis has no place for 0 or less",
    );
    expect(picture([0, -1, -2], "linear")).toContain("<svg");
  });

  it("tells how many of its points are left out", () => {
    expect(picture([-1, 0, 5], "log")).toContain("a: 2 of 3 points are not drawn; a logarithmic axis has no place for 0 or less");
    expect(picture([-1, 0, 5], "linear")).not.toContain("not drawn");
  });
});

describe("the warning that first order and sampling disagree", () => {
  it("states no infinite share where the draws do not vary", () => {
    const [text] = disagreementWarning(table("t", [1, 2], [1, 2]), 0.1, 0);
    expect(text).toContain("is above zero, by sampling zero, so its contributions are approximate");
  });
});
