import { describe, expect, it } from "vitest";
import { preferred, preferredNumbers } from "../../lib/graph/preferred";

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
