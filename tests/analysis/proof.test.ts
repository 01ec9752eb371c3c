/** What is said of a worst case: proved by bounds that nothing passes, proved given models, or searched. */
import { describe, expect, it } from "vitest";
import { proofOf, proofText } from "../../lib/analysis/proof";
import type { Bounds } from "../../lib/analysis/result";

const worst = (bounds?: Bounds) => ({ low: 1, high: 3, lowAt: {}, highAt: {}, searched: false, ...(bounds && { bounds }) });

describe("proofOf and proofText", () => {
  it.each([
    [undefined, "searched", "searched", "searched"],
    [{ low: 1, high: 3 }, "proved", "proved", "proved"],
    [{ low: 0.999, high: 3.001 }, "proved", "proved", "proved"],
    [{ low: 0.99, high: 3.01 }, "searched", "searched", "searched"],
    [
      { low: 0.5, high: 3, given: ["light.intensity"] },
      "searched",
      "proved",
      "low end searched, high end proved, given the ways stated by light.intensity",
    ],
    [{ low: 1, high: 4 }, "proved", "searched", "low end proved, high end searched"],
  ] as const)("of bounds %o", (bounds, low, high, text) => {
    expect(proofOf(worst(bounds))).toMatchObject({ low, high });
    expect(proofText(worst(bounds))).toBe(text);
  });

  it("names no model for what is searched", () => {
    expect(proofOf(worst({ low: 0, high: 4, given: ["light.intensity"] }))).toEqual({ low: "searched", high: "searched" });
  });
});
