/** Names of rules lie over no curve, no other rule and no other name, where there is such a place. */
import { describe, expect, it } from "vitest";
import type { PlotBlock } from "../../lib/sheet/block";
import { plotHeight } from "../../lib/sheet/plot/end-labels";
import { withPlaces } from "../../lib/sheet/plot/rule-labels";

const plotWidth = 560;

/** A unit is a pixel on both axes. */
const block: PlotBlock = {
  type: "plot",
  name: "p",
  caption: "c",
  x: { label: "x", unit: "mm", scale: "linear", low: 0, high: plotWidth },
  y: { label: "y", unit: "mm", scale: "linear", low: 0, high: plotHeight },
  series: [{ label: "a" }],
};
const line = (...points: readonly (readonly [number, number])[]) => points.map(([x, y], order) => ({ series: "a", order, x, y }));
const place = (lines: ReturnType<typeof line>, ...rules: readonly { axis: "x" | "y"; label: string; value: number }[]) =>
  withPlaces(rules, lines, [], block, plotWidth).map(
    ({ align, baseline, dy }) => `${align} ${baseline} ${dy < 0 || baseline === "bottom" ? "above" : "below"}`,
  );
const limit = { axis: "y", label: "limit", value: 150 } as const;

describe("the name of a rule", () => {
  it("stands at the left above it where nothing is in the way", () => {
    expect(place(line([0, 20], [560, 40]), limit)).toEqual(["left bottom above"]);
  });

  it("goes to the right where a curve crosses the rule at the left", () => {
    expect(place(line([0, 140], [60, 180], [560, 280]), limit)).toEqual(["right bottom above"]);
  });

  it("goes below where curves lie over both ends above", () => {
    expect(place(line([0, 160], [560, 160]), limit)).toEqual(["left top below"]);
  });

  it("gives way to another rule and its name", () => {
    const [first, second] = withPlaces(
      [
        { axis: "x", label: "least", value: 200 },
        { axis: "x", label: "more", value: 220 },
      ],
      [],
      [],
      block,
      plotWidth,
    );
    expect([first?.align, second?.align]).toEqual(["right", "left"]);
  });

  it("stands above the plot where bars fill it", () => {
    const bar = { label: "b", nominal: 100, low: 90, high: 110, worstLow: 80, worstHigh: 120 };
    const bars = { ...block, series: [], spreads: [{ label: "b", node: "n" }] };
    const [row] = withPlaces([{ axis: "x", label: "limit", value: 100 }], [], [bar], bars, plotWidth);
    expect(row).toMatchObject({ along: 0, baseline: "bottom", dy: -3 });
    const near = [
      { axis: "x", label: "least, aged", value: 98 },
      { axis: "x", label: "least, new", value: 100 },
    ] as const;
    expect(withPlaces(near, [], [bar], bars, plotWidth).map(({ align }) => align)).toEqual(["right", "left"]);
  });
});
