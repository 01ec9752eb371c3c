import { describe, expect, it } from "vitest";
import type { Axis } from "../../lib/sheet/block";
import { endLabels, namedAtEnds, plotHeight } from "../../lib/sheet/plot/end-labels";

const axis: Axis = { label: "level", unit: "V", scale: "linear", low: 0, high: 300 };
/** Two points a series; with this axis a unit of y is a pixel. */
const lines = (ends: Readonly<Record<string, number>>, right = 1) =>
  Object.entries(ends).flatMap(([series, y]) => [0, right].map((x, order) => ({ series, order, x, y })));
const labels = (ends: Readonly<Record<string, number>>, at = axis) =>
  Object.fromEntries(endLabels(lines(ends), at).map(({ series, labelY }) => [series, Math.round(labelY * 100) / 100]));

describe("endLabels", () => {
  it("leave names that do not touch at the ends of their lines", () => {
    expect(plotHeight).toBe(300);
    expect(labels({ a: 100, b: 120, c: 10 })).toEqual({ a: 100, b: 120, c: 10 });
  });
  it("move names that touch apart about their mean, in the order of their lines", () => {
    expect(labels({ a: 104, b: 100 })).toEqual({ a: 110, b: 94 });
    expect(labels({ a: 100, b: 100, c: 100, d: 200 })).toEqual({ a: 84, b: 100, c: 116, d: 200 });
  });
  it("move a neighbour that the move would touch", () => {
    expect(labels({ a: 100, b: 100, c: 115 })).toEqual({ a: 89, b: 105, c: 121 });
  });
  it("keep names apart by height, not by value, on a logarithmic axis drawn to whole decades", () => {
    const placed = endLabels(lines({ a: 0.02, b: 0.02, c: 5 }), { label: "level", unit: "V", scale: "log" });
    // Three decades over 300 pixels: 16 pixels are 0.16 decades.
    expect(Math.log10((placed[1]?.labelY ?? 0) / (placed[0]?.labelY ?? 1))).toBeCloseTo(0.16, 9);
  });
});

describe("namedAtEnds", () => {
  const named = (ends: Readonly<Record<string, number>>) => namedAtEnds(lines(ends), endLabels(lines(ends), axis), axis);
  it("holds where every name stands near its line", () => expect(named({ a: 100, b: 101, c: 104 })).toBe(true));
  it("fails where so many lines end together that names would stray", () =>
    expect(named({ a: 100, b: 100, c: 100, d: 100, e: 100 })).toBe(false));
  it("fails where a line ends before the right edge", () => {
    const some = [...lines({ a: 100 }), ...lines({ b: 200 }, 0.5)];
    expect(namedAtEnds(some, endLabels(some, axis), axis)).toBe(false);
  });
});
