/** The short forms of a plot, for notebooks and pages: the same picture. */
import { describe, expect, it } from "vitest";
import { Evaluation } from "../../lib/analysis/evaluation";
import { Graph } from "../../lib/graph/graph";
import type { PlotBlock } from "../../lib/sheet/block";
import { inColumns } from "../../lib/sheet/plot/columns";
import { type PlotData, pictureRows, plotData } from "../../lib/sheet/plot/data";
import { shortSvg } from "../../lib/sheet/plot/short-svg";
import { vegaLite } from "../../lib/sheet/plot/spec";
import { compileSpec, renderSpec } from "../../lib/sheet/plot/vega";
import { formula, given, within } from "../graph/nodes";

const graph = Graph.from([
  given("a", 2, within(1.8, 2.2)),
  formula("f", "a^3"),
  formula("g", "5 - a"),
  ...(["f", "g"] as const).map((of) => ({
    ...({ kind: "sweep", id: `${of}-over-a`, of, over: "a", dimension: "1", unit: "1", xDimension: "1", xUnit: "1" } as const),
    points: Array.from({ length: 21 }, (_, i) => 1 + i / 10),
  })),
]);
const block = (more: Partial<PlotBlock> = {}): PlotBlock => ({
  type: "plot",
  name: "p",
  caption: "c",
  x: { label: "a", unit: "1", scale: "linear" },
  y: { label: "f", unit: "1", scale: "linear" },
  series: [
    { label: "f", curve: "f-over-a", band: true },
    { label: "g", curve: "g-over-a", transposed: true },
  ],
  rules: [{ axis: "y", label: "limit", value: 5 }],
  ...more,
});
const evaluation = new Evaluation(graph);

describe("a specification by columns", () => {
  it.each<[string, Partial<PlotBlock>]>([
    ["a band beside a curve without one", {}],
    ["two bands", { series: [1, 2].map((n) => ({ label: `f${n}`, curve: n === 1 ? "f-over-a" : "g-over-a", band: true })) }],
    ["a logarithmic axis", { x: { label: "a", unit: "1", scale: "log" }, y: { label: "f", unit: "1", scale: "log" } }],
    [
      "bars",
      {
        series: [],
        spreads: [
          { label: "f", node: "f" },
          { label: "g", node: "g" },
        ],
      },
    ],
  ])("draws %s as the one by rows does, in fewer lines", (_, more) => {
    const spec = vegaLite(block(more), plotData(block(more), evaluation));
    expect(renderSpec(compileSpec(inColumns(spec)), "p")).toBe(renderSpec(compileSpec(spec), "p"));
    const lines = (one: object) => JSON.stringify(one, null, 1).split("\n").length;
    if (more.spreads === undefined) expect(lines(inColumns(spec))).toBeLessThan(lines(spec));
  });
});

describe("rows of a picture", () => {
  const data = (values: readonly number[]): PlotData => ({
    ...{
      lines: values.map((x, order) => ({ series: "s", order, x, y: 1 / 3 })),
      points: [],
      ends: [],
      spreads: [],
      rules: [],
      windows: [],
    },
  });
  it("keep six digits, and as many more as a narrow span needs", () => {
    expect(pictureRows(data([1 / 3, 2 / 3, 1e-9 / 3])).lines.map(({ x }) => x)).toEqual([0.333333, 0.666667, 3.33333e-10]);
    const narrow = [298.15, 298.15 + 1 / 3000, 298.15 + 2 / 3000];
    for (const [index, { x }] of pictureRows(data(narrow)).lines.entries()) expect(Math.abs(x - (narrow[index] ?? 0))).toBeLessThan(1e-9);
  });
});

describe("short SVG", () => {
  it("makes one path of a grid, and names at a group what its marks have alike", () => {
    const line = (x: number, y: number, dx: number, dy: number) =>
      `<line transform="translate(${x},${y})" x2="${dx}" y2="${dy}" stroke="#222"/>`;
    expect(shortSvg(`<g class="mark-rule role-mark">${line(80, -300, 0, 300)}${line(79.99999, 0.5, 7, 0)}${line(1, 2, 3, 4)}</g>`)).toBe(
      '\n<g class="mark-rule role-mark" stroke="#222"><path d="M80,-300v300M80,0.5h7M1,2l3,4"/></g>',
    );
    const text = (x: number, fill: string) => `<text transform="translate(${x},16)" font-size="12px" fill="${fill}">1.23456</text>`;
    expect(shortSvg(`<g class="mark-text role-axis">${text(0.123456, "#222")}${text(1e-7, "#333")}</g>`)).toBe(
      '\n<g font-size="12px"><text transform="translate(0.12,16)" fill="#222">1.23456</text><text transform="translate(1e-7,16)" fill="#333">1.23456</text></g>',
    );
  });
});
