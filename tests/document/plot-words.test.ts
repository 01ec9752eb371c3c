import { describe, expect, it } from "vitest";
import { plotWords } from "../../lib/document/text/plot-words";
import type { PlotBlock } from "../../lib/sheet/block";

const empty = { lines: [], points: [], ends: [], spreads: [], rules: [], windows: [] };
const place = { along: 4, align: "left", baseline: "bottom", dx: 0, dy: -3 } as const;
const block: PlotBlock = {
  type: "plot",
  name: "p",
  caption: "c",
  x: { label: "time", unit: "h", scale: "linear" },
  y: { label: "level", unit: "V", scale: "linear" },
  series: [{ label: "cell" }],
};
const words = (...input: Parameters<typeof plotWords>) =>
  plotWords(...input)
    .text.replace(/<[^>]+>/g, "|")
    .replace(/\|+/g, "|");

describe("plotWords", () => {
  it("tells where a curve begins, ends and turns, and the limits", () => {
    const lines = [1, 5, 2].map((y, x) => ({ series: "cell", order: x, x, y }));
    expect(words(block, { ...empty, lines, rules: [{ axis: "y", label: "most", value: 4, ...place }] })).toBe(
      "|In words|level against time.|cell: from 1\u00a0V at 0\u00a0h to 2\u00a0V at 2\u00a0h; highest 5\u00a0V at 1\u00a0h|most: 4\u00a0V|",
    );
  });
  it("rounds the ends of an interval outward", () => {
    const lines = [0, 1].map((x) => ({ series: "cell", order: x, x, y: 2, low: 1.2349, high: 2.7651 }));
    expect(words(block, { ...empty, lines })).toMatch(/95 % of units 1\.23\sV to 2\.77\sV/);
  });
  it("tells what the bars of a spread plot span", () => {
    const spreads = [{ label: "thin", nominal: 2, low: 1.5, high: 2.5, worstLow: 1, worstHigh: 3 }];
    expect(words({ ...block, series: [], spreads: [{ label: "thin", node: "n" }] }, { ...empty, spreads })).toMatch(
      /^\|In words\|time\.\|thin: 2\sh; 95 % of units 1\.50\sh to 2\.50\sh; worst case 1\.0\sh to 3\.0\sh\|$/,
    );
  });
});
