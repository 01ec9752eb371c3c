import { expect, test } from "vitest";
import { validityLimit } from "../../lib/formula/validity";
import { ampere, celsius, hertz, kelvin, mA, one, volt } from "../../lib/units";

test.each([
  ["> 0", volt, Number.MIN_VALUE, Infinity],
  ["> 0 V", volt, Number.MIN_VALUE, Infinity],
  [">= 0", volt, 0, Infinity],
  ["< 5 kHz", hertz, -Infinity, 5000],
  ["< 0", one, -Infinity, -Number.MIN_VALUE],
  ["1 mA to 20 mA", ampere, 0.001, 0.02],
  ["0.5 to 1.5", one, 0.5, 1.5],
  ["-1 to 1", one, -1, 1],
  ["<= 10 A", mA, -Infinity, 10],
  ["233 K to 398 K", celsius, 233, 398],
  ["−40 °C to 85 °C", celsius, 233.15, 358.15],
  ["1e-3 K to 10 K", kelvin, 0.001, 10],
] as const)("the limit %s is read in SI", (text, unit, low, high) => {
  const limit = validityLimit("x", text, unit);
  expect(limit).toMatchObject({ symbol: "x", text });
  expect(limit.low).toBeCloseTo(low, 9);
  expect(limit.high).toBeCloseTo(high, 9);
});

test("a strict limit at zero leaves zero out", () => {
  expect(0 >= validityLimit("x", "> 0", volt).low).toBe(false);
  expect(0 >= validityLimit("x", ">= 0", volt).low).toBe(true);
});

test.each([
  ["5 to 6", volt, "5 needs a unit of voltage"],
  ["> 0", celsius, "0 needs a unit of temperature"],
  ["> 1 mA", volt, "mA is current, the symbol is voltage"],
  ["2 V to 1 V", volt, "the lower limit must come first"],
  ["about 5 V", volt, 'write it as "> 0", "<= 5 V" or "1 V to 5 V"'],
  ["> V", volt, '"V" is no number with a unit'],
] as const)("the limit %s is refused: %s", (text, unit, why) => {
  expect(() => validityLimit("x", text, unit)).toThrow(why);
});
