import { describe, expect, it } from "vitest";
import { normalProbability, normalQuantile } from "../../lib/analysis/normal";
import { studentQuantile, studentScores } from "../../lib/analysis/student";

/** t with 95 % and 99 % between −t and t, JCGM 100:2008 table G.2 (from memory). */
const tableG2 = [
  [1, 12.71, 63.66],
  [2, 4.3, 9.92],
  [3, 3.18, 5.84],
  [5, 2.57, 4.03],
  [10, 2.23, 3.17],
  [16, 2.12, 2.92],
  [50, 2.01, 2.68],
] as const;

describe("Student's t", () => {
  it.each(tableG2)("has the quantiles of JCGM 100 table G.2 at %d degrees of freedom", (freedom, t95, t99) => {
    expect(Math.abs(studentQuantile(0.975, freedom) - t95)).toBeLessThanOrEqual(0.006);
    expect(Math.abs(studentQuantile(0.995, freedom) - t99)).toBeLessThanOrEqual(0.006);
  });

  it("has the closed forms of one, two and four degrees", () => {
    for (const p of [1e-9, 1e-4, 0.01, 0.3, 0.49, 0.6, 0.975, 0.99999]) {
      const alpha = 4 * p * (1 - p);
      expect(studentQuantile(p, 1) / Math.tan(Math.PI * (p - 0.5))).toBeCloseTo(1, 6);
      expect(studentQuantile(p, 2) / ((2 * (p - 0.5)) / Math.sqrt(alpha / 2))).toBeCloseTo(1, 11);
      const four = Math.sign(p - 0.5) * 2 * Math.sqrt(Math.cos(Math.acos(Math.sqrt(alpha)) / 3) / Math.sqrt(alpha) - 1);
      expect(studentQuantile(p, 4) / four).toBeCloseTo(1, 5);
    }
  });

  it("is odd about the median and near the normal for many degrees", () => {
    expect(studentQuantile(0.5, 7)).toBe(0);
    expect(studentQuantile(0.25, 7)).toBe(-studentQuantile(0.75, 7));
    expect(studentQuantile(0.975, 1e8)).toBeCloseTo(normalQuantile(0.975), 7);
    expect(studentQuantile(0.975, 1e12)).toBe(normalQuantile(0.975));
  });

  it.each([1, 2.5, 4, 18, 300])("is drawn by interpolation at normal scores as its quantile is: %d degrees", (freedom) => {
    const score = studentScores(freedom);
    for (let z = -7.3; z < 7.4; z += 0.0377) {
      const t = studentQuantile(normalProbability(-Math.abs(z)), freedom);
      expect(Math.abs(Math.abs(score(z)) + t), `z = ${z}`).toBeLessThanOrEqual((freedom < 3 ? 2e-6 : 2e-8) * Math.abs(t) + 1e-15);
      expect(score(-z)).toBe(-score(z));
    }
  });
});
