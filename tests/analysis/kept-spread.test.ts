import { describe, expect, it } from "vitest";
import { keptSpread } from "../../lib/analysis/kept-spread";
import { limitsOf } from "../../lib/quantity/limits";
import type { Spread } from "../../lib/quantity/spread";
import { given, normal } from "../graph/nodes";

const kept = (spread: Spread, nominal: number, before = 2) => keptSpread(given("g", before, spread), nominal);

describe("keptSpread", () => {
  it("keeps a factor as a factor, and refuses a value that has no logarithm", () => {
    const factor: Spread = { kind: "normal", sigma: 3, coverage: 2, scale: { factor: 20, reference: 1 } };
    const [low, high] = limitsOf(factor, 2);
    expect(limitsOf(kept(factor, 6), 6)).toEqual([expect.closeTo(3 * low, 12), expect.closeTo(3 * high, 12)]);
    expect(() => kept(factor, -1)).toThrow("g: its tolerance is stated in decibels or as a factor, so its value is above 0, not -1");
  });

  it("keeps a list that holds the new value, and scales another", () => {
    const bins: Spread = { kind: "discrete", values: [1, 2, 4], shares: [0.2, 0.5, 0.3] };
    expect(kept(bins, 4)).toBe(bins);
    expect(kept(bins, 3)).toEqual({ ...bins, values: [1.5, 3, 6] });
    expect(kept(bins, 0.5, 0)).toMatchObject({ values: [1.5, 2.5, 4.5] });
  });

  it("keeps degrees of freedom", () => {
    expect(kept({ ...normal(0.1), freedom: 9 }, 4)).toEqual({ kind: "normal", sigma: 0.2, coverage: 3, freedom: 9 });
  });
});
