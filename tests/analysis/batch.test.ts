import { describe, expect, it } from "vitest";
import { batchStatistics } from "../../lib/analysis/batch";
import { chiSquareProbability, chiSquareQuantile } from "../../lib/analysis/chi-square";
import { toleranceFactor } from "../../lib/analysis/tolerance-factor";
import type { GivenNode } from "../../lib/graph/node";
import type { Spread } from "../../lib/quantity/spread";
import { given, within } from "../graph/nodes";

describe("the chi-square distribution", () => {
  // scipy 1.17.1: stats.chi2.ppf and cdf.
  it.each([
    [0.05, 9, 3.32511284],
    [0.95, 9, 16.9189776],
    [0.01, 1, 1.57087858e-4],
    [0.975, 19, 32.8523269],
  ])("has its quantile %s at %s degrees of freedom", (p, freedom, x) => {
    expect(chiSquareQuantile(p, freedom) / x).toBeCloseTo(1, 7);
  });

  it.each([
    [3.3, 9, 0.04879531],
    [30, 9, 0.99956128],
    [0.5, 3, 0.08110859],
  ])("holds up to %s with %s degrees of freedom", (x, freedom, p) => {
    expect(chiSquareProbability(x, freedom)).toBeCloseTo(p, 7);
  });
});

describe("factors of tolerance intervals", () => {
  // ISO 16269-6 and the tables of Odeh and Owen (from memory, three decimals), and the same integral in scipy to more digits.
  it.each([
    [5, 5.077],
    [10, 3.393],
    [20, 2.76],
  ])("of %s values hold 95 % of units with 95 % confidence at both sides", (count, k) => {
    expect(Math.abs(toleranceFactor(count, 0.95, 0.95) - k)).toBeLessThan(0.002);
  });

  // scipy 1.17.1: stats.nct.ppf(0.95, n - 1, stats.norm.ppf(0.95)*sqrt(n))/sqrt(n).
  it.each([
    [5, 4.202680741],
    [10, 2.910963413],
    [30, 2.219837532],
    [100, 1.926538851],
  ])("of %s values do so at one side: the non-central t distribution", (count, k) => {
    expect(toleranceFactor(count, 0.95, 0.95, "one") / k).toBeCloseTo(1, 6);
  });
});

/** numpy: round(default_rng(3).normal(2.86, 0.04, 20), 3), a batch with two units far out. */
const read = [
  2.942, 2.758, 2.877, 2.837, 2.842, 2.851, 2.779, 2.851, 2.825, 2.993, 2.869, 2.846, 2.849, 2.833, 2.818, 2.844, 2.879, 2.85, 2.898, 2.852,
];
const stated = (nominal: number, spread: Spread, extra: Partial<GivenNode> = {}): GivenNode => ({
  ...given("leds.forward", nominal, spread),
  ...extra,
});

describe("the readings of a batch", () => {
  it("have the mean, deviation, intervals and normality that scipy finds", () => {
    const found = batchStatistics(read, stated(2.85, within(2.7, 3)));
    expect(found.count).toBe(20);
    expect(found.mean).toBeCloseTo(2.85465, 10);
    expect(found.deviation).toBeCloseTo(0.05049781131, 10);
    // stats.t.interval(0.95, 19, mean, s/sqrt(20)); s*sqrt(19/stats.chi2.ppf([0.975, 0.025], 19)).
    expect(found.meanWithin[0]).toBeCloseTo(2.8310162968, 9);
    expect(found.meanWithin[1]).toBeCloseTo(2.8782837032, 9);
    expect(found.deviationWithin[0]).toBeCloseTo(0.0384031, 7);
    expect(found.deviationWithin[1]).toBeCloseTo(0.07375567, 7);
    // stats.anderson: A² = 0.944702, so A*² = 0.985450; p = exp(1.2937 − 5.709·A*² + 0.0186·A*⁴) = 0.0134.
    expect(found.normality).toBeCloseTo(0.0134, 4);
    expect(found.remarks).toContain("they do not look normal (Anderson and Darling): tolerance interval and capability are rough");
  });

  it("tell the capability of the stated limits with its lower bounds", () => {
    const { capability } = batchStatistics(read, stated(2.85, within(2.7, 3)));
    const s = 0.05049781131;
    expect(capability?.cp).toBeCloseTo(0.3 / (6 * s), 8);
    expect(capability?.cpk).toBeCloseTo((3 - 2.85465) / (3 * s), 8);
    // stats.chi2.ppf(0.05, 19) = 10.1170130639.
    expect(capability?.cpLow).toBeCloseTo((0.3 / (6 * s)) * Math.sqrt(10.1170130639 / 19), 8);
    expect(capability?.cpkLow as number).toBeLessThan(capability?.cpk as number);
  });

  it("contradict a spread that is too narrow, and a middle that lies elsewhere", () => {
    expect(batchStatistics(read, stated(2.85, within(2.8, 2.9))).contradictions).toEqual([
      "they scatter more than the stated spread does",
      "4 of 20 lie beyond the stated limits",
    ]);
    const shifted = batchStatistics(read, stated(2.7, within(2.55, 2.85)));
    expect(shifted.contradictions[0]).toMatch(/mean lies further from the stated middle than 20 units allow/);
  });

  it("do not contradict a middle within its doubt, and remark on a spread that is wider than theirs", () => {
    const doubted = stated(2.75, within(2.5, 3), { doubt: within(2.6, 2.9) });
    expect(batchStatistics(read, doubted).contradictions).toEqual([]);
    expect(batchStatistics(read, doubted).remarks[0]).toMatch(/scatter less than the stated spread/);
  });

  it("contradict a given that says units do not differ", () => {
    const one = stated(2.85, within(2.8, 2.9), { knowledge: true });
    expect(batchStatistics(read, one).contradictions[0]).toMatch(/states no spread between them/);
  });

  it("count in the given's own unit, whatever its scale", () => {
    const celsius = { ...given("oven.temperature", 298.15, within(296.15, 300.15)), unit: "°C", dimension: "K|temperature" };
    const found = batchStatistics([297.15, 298.15, 299.15, 298.15, 298.15], celsius);
    expect(found.mean).toBeCloseTo(25, 9);
    expect(found.deviation).toBeCloseTo(Math.SQRT1_2, 9);
  });
});
