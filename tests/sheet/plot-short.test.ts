/** The short forms of a plot, for notebooks and pages: the same picture. */
import { describe, expect, it } from "vitest";
import { type PlotData, pictureRows } from "../../lib/sheet/plot/data";
import { shortSvg } from "../../lib/sheet/plot/short-svg";

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
  it("draws a line by its corners in tenths of a pixel, never a twentieth beside it, and no text that says nothing", () => {
    expect(shortSvg('<path d="M0,0L10,0.04L20,0L30,-12.34L30.04,5"/>')).toBe('<path d="M0,0l20,0 10-12.3 0,17.3"/>');
    expect(shortSvg('<path d="M1,1L2,2M5,5L4,4.5L4,9L5,5Z"/>')).toBe('<path d="M1,1l1,1M5,5l-1-0.5 0,4.5 1-4Z"/>');
    expect(shortSvg('<g><text transform="translate(1,2)"/><text x="1"></text><text x="1">a</text></g>')).toBe(
      '\n<g><text x="1">a</text></g>',
    );

    const wave = Array.from({ length: 400 }, (_, x) => [x, 100 + 80 * Math.sin(x / 30)] as const);
    const [, drawn = ""] = /d="([^"]*)"/.exec(shortSvg(`<path d="M${wave.map(([x, y]) => `${x},${y}`).join("L")}"/>`)) ?? [];
    let [x, y] = [0, 0];
    const corners = (drawn.match(/-?[\d.]+/g) ?? []).map(Number).reduce<(readonly [number, number])[]>((found, number, index, all) => {
      if (index % 2 === 0) return found;
      [x, y] = [x + (all[index - 1] ?? 0), y + number];
      found.push([x, y]);
      return found;
    }, []);
    const off = wave.map(([at, height]) => {
      const next = corners.findIndex(([right]) => right >= at - 1e-9);
      const [right, to] = corners[next] ?? [0, 0];
      const [left, from] = corners[Math.max(0, next - 1)] ?? [0, 0];
      return Math.abs(height - (right === left ? to : from + ((to - from) * (at - left)) / (right - left)));
    });
    // A tenth by what goes and by what is rounded, a steep piece more along its height.
    expect(Math.max(...off)).toBeLessThan(0.4);
    expect(corners.length).toBeLessThan(200);
  });

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
