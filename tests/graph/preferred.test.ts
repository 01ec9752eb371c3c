import { describe, expect, it } from "vitest";
import { type Arrangement, preferred, preferredNumbers, preferredPair, type SelectionRule, type Series } from "../../lib/graph/preferred";

describe("preferred", () => {
  it("has the series of IEC 60063", () => {
    expect(Object.entries(preferredNumbers).map(([name, values]) => [name, values.length])).toEqual([
      ["E3", 3],
      ["E6", 6],
      ["E12", 12],
      ["E24", 24],
      ["E48", 48],
      ["E96", 96],
      ["E192", 192],
    ]);
    expect(preferredNumbers.E12).toEqual([100, 120, 150, 180, 220, 270, 330, 390, 470, 560, 680, 820]);
    expect(preferredNumbers.E48.slice(0, 6)).toEqual([100, 105, 110, 115, 121, 127]);
    expect(preferredNumbers.E96).not.toContain(120);
    expect(preferredNumbers.E192).toContain(920);
  });

  it("rounds E48 to E192 from powers of ten but for 920", () => {
    const rounded = Array.from({ length: 192 }, (_, k) => Math.round(100 * 10 ** (k / 192)));
    expect(preferredNumbers.E192.filter((value, k) => value !== rounded[k])).toEqual([920]);
  });

  it.each([
    [268, "E24", "nearest", 270],
    [268, "E24", "not below", 270],
    [268, "E24", "not above", 240],
    [270, "E24", "not above", 270],
    [270, "E24", "not below", 270],
    [999, "E24", "nearest", 1000],
    [999, "E24", "not above", 910],
    [0.0047, "E6", "nearest", 0.0047],
    [3.3e-10, "E6", "not below", 3.3e-10],
    [33 * 1e-11, "E6", "not above", 3.3e-10],
    [1, "E3", "not above", 1],
    [945, "E24", "nearest", 910],
    [955, "E24", "nearest", 1000],
  ] as const)("of %d in %s, %s, is %d", (x, series, rule, expected) => {
    expect(preferred(x, series, rule)).toBe(expected);
  });

  it("is nearest by relative error: the geometric mean divides", () => {
    expect(preferred(Math.sqrt(100 * 220) * 0.9999, "E3", "nearest")).toBe(100);
    expect(preferred(Math.sqrt(100 * 220) * 1.0001, "E3", "nearest")).toBe(220);
  });

  it("refuses what is not positive and finite", () => {
    for (const x of [0, -1, Number.NaN, Infinity]) expect(() => preferred(x, "E24", "nearest")).toThrow("a positive number");
  });
});

/** Every pair of members from a hundredth of x to a hundred times x. */
function allPairs(x: number, series: Series, arrangement: Arrangement): number[] {
  const exponents = Array.from({ length: 13 }, (_, k) => Math.floor(Math.log10(x)) - 8 + k);
  const values = exponents
    .flatMap((e) => preferredNumbers[series].map((value) => Number(`${value}e${e}`)))
    .filter((v) => v > x / 100 && v < x * 100);
  return values.flatMap((a) => values.map((b) => (arrangement === "series" ? a + b : (a * b) / (a + b))));
}

describe("preferredPair", () => {
  it.each([
    [127, "E24", "series", "nearest", [91, 36], 127],
    [100, "E24", "series", "nearest", [51, 49], 100],
    [5000, "E12", "parallel", "nearest", [10_000, 10_000], 5000],
    [14_700, "E12", "series", "nearest", [10_000, 4700], 14_700],
    [1e-9, "E6", "series", "nearest", [6.8e-10, 3.3e-10], 1.01e-9],
  ] as const)("of %d in %s, %s, %s", (x, series, arrangement, rule, parts, value) => {
    const found = preferredPair(x, series, arrangement, rule);
    if (x === 100) expect(found.value).toBeCloseTo(100, 9);
    else expect(found).toEqual({ parts: parts.map((part) => expect.closeTo(part, 12)), value: expect.closeTo(value, 12) });
  });

  it("is the best of all pairs, for every rule", () => {
    for (const series of ["E3", "E6", "E12", "E24"] as const) {
      for (const arrangement of ["series", "parallel"] as const) {
        for (let x = 1.003; x < 20; x *= 1.0719) {
          const all = allPairs(x, series, arrangement);
          const error = (value: number) => Math.abs(value / x - 1);
          const best = (rule: SelectionRule) =>
            Math.min(...all.filter((value) => rule === "nearest" || (rule === "not below" ? value >= x : value <= x)).map(error));
          for (const rule of ["nearest", "not below", "not above"] as const) {
            const found = preferredPair(x, series, arrangement, rule);
            expect(error(found.value), `${x} ${series} ${arrangement} ${rule}`).toBeLessThanOrEqual(best(rule) + 1e-9);
            if (rule === "not below") expect(found.value).toBeGreaterThanOrEqual(x * (1 - 1e-9));
            if (rule === "not above") expect(found.value).toBeLessThanOrEqual(x * (1 + 1e-9));
          }
        }
      }
    }
  });

  it("takes of equally good pairs the one whose parts are nearest to each other", () => {
    // 20 = 10 + 10 and no other sum of E12; 30 = 15 + 15 = 18 + 12 = 27 + 3 + …
    expect(preferredPair(30, "E12", "series").parts).toEqual([15, 15]);
    expect(preferredPair(45, "E12", "series").parts).toEqual([27, 18]);
    expect(preferredPair(5, "E24", "parallel").parts).toEqual([10, 10]);
  });

  it("refuses what is not positive and finite", () => {
    for (const x of [0, -1, Number.NaN, Infinity]) expect(() => preferredPair(x, "E24", "series")).toThrow("a positive number");
  });
});
