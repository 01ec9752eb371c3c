import { describe, expect, it } from "vitest";
import { Evaluation } from "../../lib/analysis/evaluation";
import { parseCommand } from "../../lib/cli/usage";
import { Graph } from "../../lib/graph/graph";
import { statisticsLines } from "../../lib/sheet/statistics-words";
import { formula, given, normal } from "../graph/nodes";

const evaluation = new Evaluation(
  Graph.from([
    given("p", 10, normal(1)),
    { ...given("k", 0, normal(2)), knowledge: true as const },
    given("q", 5, normal(1)),
    formula("y", "p + k"),
    formula("w", "p + q"),
    formula("e", "exp(p - 10)"),
    formula("x", "2 + 3"),
  ]),
);
const lines = (id: string, coverage: number, beside?: string) =>
  statisticsLines(id, evaluation, { coverage, ...(beside !== undefined && { beside }) }).join("\n");
const numbers = (text: string) => [...text.matchAll(/-?\d+(?:\.\d+)?/g)].map(Number);

describe("statistics of a result", () => {
  it("of a normal one agree with the normal quantiles and k (scipy: norm.ppf(0.995) = 2.575829)", () => {
    const text = lines("w", 0.99);
    const [moments = "", intervals = "", expanded = ""] = text.split("\n");
    const [mean = 0, deviation = 0, draws] = numbers(moments);
    expect(mean).toBeCloseTo(15, 1);
    expect(deviation).toBeCloseTo(Math.SQRT2, 1);
    expect(draws).toBe(10_000);
    const [, low = 0, high = 0] = numbers(intervals.replace("99 %", "99"));
    expect(Math.abs(low - (15 - 2.575829 * Math.SQRT2))).toBeLessThan(0.25);
    expect(Math.abs(high - (15 + 2.575829 * Math.SQRT2))).toBeLessThan(0.25);
    expect(expanded).toBe("expanded uncertainty to first order, all tolerances of both kinds: U = 3.64 at 99 %, k = 2.576");
  });

  it("tell production, what is not known and both apart", () => {
    const text = lines("y", 0.9).split("\n");
    const deviations = text.filter((line) => line.includes("standard deviation")).map((line) => numbers(line)[1] as number);
    for (const [k, exact] of [1, 2, Math.sqrt(5)].entries()) expect((deviations[k] as number) / exact).toBeCloseTo(1, 1);
  });

  it("give a shortest interval that is shorter than the middle one of a skewed result", () => {
    const [, intervals = ""] = lines("e", 0.95).split("\n");
    const [, low = 0, high = 0, , shortLow = 0, shortHigh = 0] = numbers(intervals);
    expect(shortHigh - shortLow).toBeLessThan(0.9 * (high - low));
    expect(shortLow).toBeLessThan(low);
  });

  it("tell the correlation of two results: cov(p + k, p + q) over units is 1/√2", () => {
    const text = lines("y", 0.95, "w").split("\n").at(-1) as string;
    expect(text).toMatch(/^correlation with w: 0\.\d+ over units/);
    expect(Math.abs((numbers(text)[0] as number) - Math.SQRT1_2)).toBeLessThan(0.02);
  });

  it("refuse a coverage that the draws cannot tell, and say so of what has no spread", () => {
    expect(() => lines("w", 0.9999)).toThrow("10000 draws cannot tell 99.99 %");
    expect(lines("x", 0.95)).toContain("has no spread of units and no doubt");
  });

  it("are asked for by --coverage and --beside", () => {
    expect(parseCommand(["why", "a.b", "--coverage", "0.99", "--beside", "c.d"]).options).toMatchObject({ coverage: 0.99, beside: "c.d" });
    expect(() => parseCommand(["why", "a.b", "--coverage", "99"])).toThrow("--coverage must be a share below 1");
    expect(() => parseCommand(["why", "--from", "a", "--coverage", "0.9"])).toThrow("leave --from out");
    expect(() => parseCommand(["check", "--coverage", "0.9"])).toThrow("--coverage belongs to the command why");
  });
});
