import { describe, expect, it } from "vitest";
import type { CurveData, Interpolation } from "../../lib/graph/curve";
import { checkCurve, curveAt, curveCrossing, curveIntegral, curveMaximum, curveMinimum } from "../../lib/graph/interpolate";

const curve = (x: number[], y: number[], interpolation: Interpolation = "linear"): CurveData => ({
  x: Float64Array.from(x),
  y: Float64Array.from(y),
  interpolation,
});
const rules: Interpolation[] = ["linear", "log-y", "log-log", "monotone"];

describe("curves", () => {
  it.each(rules)("pass through their points: %s", (rule) => {
    const c = curve([1, 2, 4, 8], [3, 5, 6, 20], rule);
    expect([1, 2, 4, 8].map((x) => curveAt(c, x))).toEqual([3, 5, 6, 20]);
    expect([3, 5, 6, 20].map((y) => curveCrossing(c, y))).toEqual([1, 2, 4, 8]);
  });

  it.each(rules)("find where they cross what they have at a place: %s", (rule) => {
    const c = curve([1, 2, 4, 8], [3, 5, 6, 20], rule);
    for (const x of [1.3, 3.1, 7.7]) expect(curveCrossing(c, curveAt(c, x))).toBeCloseTo(x, 9);
  });

  it("are exact for the laws of their rules", () => {
    expect(curveAt(curve([1, 3], [10, 30]), 2)).toBe(20);
    expect(curveAt(curve([0, 2], [1, 100], "log-y"), 1)).toBeCloseTo(10, 12);
    expect(curveAt(curve([1, 100], [1, 10000], "log-log"), 10)).toBeCloseTo(100, 10);
    expect(curveIntegral(curve([0, 2], [1, Math.exp(2)], "log-y"))).toBeCloseTo(Math.exp(2) - 1, 12);
    expect(curveIntegral(curve([1, 3], [1, 9], "log-log"))).toBeCloseTo(26 / 3, 10);
    expect(curveIntegral(curve([1, 3], [1, 1 / 3], "log-log"))).toBeCloseTo(Math.log(3), 12);
  });

  it("never overshoot between points under the monotone rule", () => {
    const c = curve([0, 1, 2, 3, 4], [0, 0, 1, 1, 5], "monotone");
    for (let x = 0; x <= 3; x += 0.05) {
      expect(curveAt(c, x)).toBeGreaterThanOrEqual(0);
      expect(curveAt(c, x)).toBeLessThanOrEqual(1);
    }
    let sum = 0;
    for (let k = 0; k < 40000; k++) sum += curveAt(c, (k + 0.5) / 10000) / 10000;
    expect(curveIntegral(c)).toBeCloseTo(sum, 6);
  });

  it("give extremes, and the first crossing", () => {
    const c = curve([0, 1, 2, 3], [0, 4, -2, 6]);
    expect([curveMaximum(c), curveMinimum(c)]).toEqual([6, -2]);
    expect(curveCrossing(c, 2)).toBe(0.5);
    expect(curveIntegral(c)).toBe(5);
    expect(() => curveCrossing(c, 7)).toThrow("never passes 7");
  });

  it("refuse reading outside, and points that make no curve", () => {
    expect(() => curveAt(curve([1, 2], [1, 2]), 2.1)).toThrow("x = 2.1 lies outside the table, which runs from 1 to 2");
    expect(() => curveAt(curve([1, 2], [1, 2]), Number.NaN)).toThrow("outside");
    expect(() => checkCurve(curve([1, 1], [1, 2]), "t")).toThrow("x of t does not increase at point 2");
    expect(() => checkCurve(curve([1, 2], [1, 0], "log-y"), "t")).toThrow("point 2 of t is not positive");
    expect(() => checkCurve(curve([1, 2], [1]), "t")).toThrow("2 abscissae and 1 ordinates");
    expect(() => checkCurve(curve([1, 2], [1, Number.NaN]), "t")).toThrow("not finite");
  });
});
