import { describe, expect, it } from "vitest";
import { battery } from "../../../lib/physics";
import { rectifiedShare } from "../../../lib/physics/battery/signal";

/** Crest factor and mean rectified/rms of noise of rms 1 cut off at ±a, by the midpoint rule over its density. */
function sampled(a: number): { readonly C: number; readonly k: number } {
  const [steps, end] = [200_000, 10];
  let [mean, square, total] = [0, 0, 0];
  for (let i = 0; i < steps; i++) {
    const x = (end * (i + 0.5)) / steps;
    const weight = Math.exp((-x * x) / 2);
    const cut = Math.min(x, a);
    mean += cut * weight;
    square += cut * cut * weight;
    total += weight;
  }
  const rms = Math.sqrt(square / total);
  return { C: a / rms, k: mean / total / rms };
}

describe("rectifiedShare(C)", () => {
  it.each([0.1, 0.5, 1, 1.5, 2.5, 4, 6])("agrees with noise cut off at %d times its rms value, summed over its density", (a) => {
    const { C, k } = sampled(a);
    expect(battery.rectifiedMean.evaluate({ C }).k).toBeCloseTo(k, 8);
  });

  it("is 1 for a square wave, √(2/π) for noise without bound, and 2.8 % below a sine's at a sine's crest factor", () => {
    expect(rectifiedShare(1)).toBe(1);
    expect(rectifiedShare(1 + 1e-9)).toBeCloseTo(1, 6);
    expect(rectifiedShare(50)).toBeCloseTo(Math.sqrt(2 / Math.PI), 12);
    expect(rectifiedShare(Math.SQRT2) / ((2 * Math.SQRT2) / Math.PI)).toBeCloseTo(1 - 0.028, 3);
  });

  it("falls with the crest factor, at most half as fast: 1 − (C − 1)/2 near a square wave", () => {
    const values = Array.from({ length: 1000 }, (_, i) => rectifiedShare(1 + i / 100));
    const steps = values.slice(1).map((value, i) => (values[i] ?? 0) - value);
    expect(Math.min(...steps)).toBeGreaterThanOrEqual(-1e-12);
    expect((1 - rectifiedShare(1 + 1e-5)) / 1e-5).toBeCloseTo(0.5, 3);
    expect(Math.max(...steps)).toBeLessThan(5e-3);
  });

  it("hardly depends on a crest factor above 4", () => {
    expect(rectifiedShare(4) / Math.sqrt(2 / Math.PI)).toBeCloseTo(1, 4);
  });

  it("refuses a crest factor below 1", () => {
    expect(() => rectifiedShare(0.9)).toThrow("the crest factor is 0.9; a peak is at least the rms value, so 1 or more");
    expect(() => rectifiedShare(Number.NaN)).toThrow(expect.objectContaining({ code: "nominal-domain" }));
  });
});
