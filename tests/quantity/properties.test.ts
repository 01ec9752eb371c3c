/** Laws that hold for all values. The seed is fixed and printed, so a failure repeats. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { format, roundOutward } from "../../lib/quantity/format";
import { limitsOf } from "../../lib/quantity/limits";
import { quantity } from "../../lib/quantity/parse";
import { power } from "../../lib/quantity/power";
import { Quantity } from "../../lib/quantity/quantity";
import { unitOf } from "../../lib/quantity/unit";
import { unitTable } from "../../lib/quantity/unit-table";

const seed = 20_190_520;
console.log(`seed ${seed}`);
const settings = { seed, numRuns: 400 };
const check = (property: fc.IProperty<any>) => fc.assert(property, settings);

const number = fc
  .tuple(fc.integer({ min: -999_999, max: 999_999 }), fc.integer({ min: -18, max: 12 }))
  .map(([m, e]) => Number(`${m}e${e}`));
const decimalUnit = fc.constantFrom("V", "kΩ", "µF", "nH", "GHz", "g", "mm", "nV/√Hz", "W/(m·K)", "ppm/K", "%", "Pa", "1", "g/cm³");
const anyLinear = fc.constantFrom(...unitTable.map((row) => row.symbol));
const levelUnit = fc.constantFrom("dB", "dB (power)", "dBV", "dBu", "dBm", "dBµV/m", "dB SPL", "dB/mW", "dB/V");

const close = (a: number, b: number, relative: number) => Math.abs(a - b) <= relative * Math.max(Math.abs(a), Math.abs(b));

describe("quantity(format(q))", () => {
  it("is q to the rounding of four digits", () => {
    check(
      fc.property(number, decimalUnit, (x, unit) => {
        const q = unitOf(unit)(x);
        return close(quantity(format(q)).si, q.si, 5.01e-4);
      }),
    );
  });

  it("is exactly q with 17 digits in units that are powers of ten", () => {
    check(
      fc.property(
        fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e12, max: 1e12 }).filter((x) => x === 0 || Math.abs(x) > 1e-200),
        decimalUnit,
        (si, unit) => {
          const u = unitOf(unit);
          const q = new Quantity<any>(si, u.dimension, u);
          expect(Object.is(quantity(format(q, { digits: 17 })).si, si === 0 ? 0 : si)).toBe(true);
        },
      ),
    );
  });

  it("is q to 4 units in the last place with 17 digits in every linear unit", () => {
    check(
      fc.property(number, anyLinear, (x, unit) => {
        const q = unitOf(unit)(x);
        return close(quantity(format(q, { digits: 17, prefix: false })).si, q.si, 1e-15);
      }),
    );
  });

  it("keeps levels to half of their last digit", () => {
    check(
      fc.property(fc.integer({ min: -1500, max: 1500 }), levelUnit, (tenths, unit) => {
        const q = unitOf(unit)(tenths / 10);
        return close(quantity(format(q)).si, q.si, 0.012);
      }),
    );
  });

  it("keeps the kind of a spread and its limits", () => {
    const spread = fc.constantFrom("±5 %", "±0.12", "+0.2/-0.1", "±0.3 (3σ)", "±0.3 (2σ)", "±0.1 (triangular)", "σ 0.04");
    check(
      fc.property(fc.integer({ min: 100, max: 999 }), spread, fc.constantFrom("V", "kΩ", "µA"), (hundredths, tail, unit) => {
        const spaced = tail.includes("%") ? tail : tail.includes("/") ? `${tail} ${unit}` : tail.replace(/([\d.]+)/, `$1 ${unit}`);
        const q = quantity(`${hundredths / 100} ${unit} ${spaced}`);
        const again = quantity(format(q));
        expect(again.spread.kind).toBe(q.spread.kind);
        const [low, high] = limitsOf(q.spread, q.si);
        const [low2, high2] = limitsOf(again.spread, again.si);
        const step = 0.011 * (high - low) + 5.01e-4 * Math.abs(q.si);
        expect(Math.abs(low2 - low)).toBeLessThanOrEqual(step);
        expect(Math.abs(high2 - high)).toBeLessThanOrEqual(step);
      }),
    );
  });

  it("does not change when printed again", () => {
    check(
      fc.property(number, decimalUnit, (x, unit) => {
        const once = format(unitOf(unit)(x));
        return format(quantity(once)) === once;
      }),
    );
  });
});

describe("units", () => {
  it("give back the number they were called with", () => {
    check(fc.property(number, anyLinear, (x, unit) => close(unitOf(unit)(x).in(unitOf(unit)), x, 1e-15)));
  });

  it("convert through another unit of the dimension as directly", () => {
    check(
      fc.property(number, fc.constantFrom("psi", "bar", "mmHg", "atm"), fc.constantFrom("Torr", "kPa", "ksi"), (x, from, to) => {
        const direct = unitOf(from)(x).in(unitOf(to));
        return close(unitOf("Pa")(unitOf(from)(x).in(unitOf("Pa"))).in(unitOf(to)), direct, 1e-14);
      }),
    );
  });

  it("of levels turn a sum of decibels into a product of ratios", () => {
    check(
      fc.property(fc.integer({ min: -600, max: 600 }), fc.integer({ min: -600, max: 600 }), (a, b) => {
        const dB = unitOf("dB");
        return close(dB(a / 10).mul(dB(b / 10)).si, dB((a + b) / 10).si, 1e-13);
      }),
    );
  });
});

describe("text without meaning", () => {
  it("is refused with an error of ours or read, never anything else", () => {
    const piece = fc.constantFrom(
      "1",
      "4k7",
      "2.5",
      "e",
      "±",
      "+",
      "-",
      "/",
      "(",
      ")",
      " ",
      "V",
      "kΩ",
      "%",
      "dB",
      "to",
      "in",
      "σ",
      "3σ",
      "min",
      "typ",
      ",",
      "^",
      "√",
      "·",
      "µ",
      "°C",
      "∞",
      "constructor",
      "__proto__",
    );
    check(
      fc.property(fc.array(piece, { maxLength: 10 }), (pieces) => {
        try {
          expect(Number.isFinite(quantity(pieces.join("")).si)).toBe(true);
        } catch (error) {
          expect((error as { code?: string }).code, pieces.join("")).toMatch(/quantity-text|unit-text|dimension|level/);
        }
      }),
    );
  });
});

describe("roundOutward", () => {
  it("never loses what lies within the limits, and adds at most a digit's step on each side", () => {
    check(
      fc.property(fc.double({ min: -1e6, max: 1e6, noNaN: true }), fc.double({ min: 1e-3, max: 1e5, noNaN: true }), (low, width) => {
        const high = low + width;
        const [down, up] = roundOutward(low, high);
        const slack = 1e-8 * Math.max(Math.abs(low), Math.abs(high));
        return down <= low + slack && up >= high - slack && up - down <= width * 1.11 * 1.1 + slack;
      }),
    );
  });
});

describe("power", () => {
  it("agrees with Math.pow to rounding", () => {
    check(
      fc.property(fc.double({ min: 1e-6, max: 1e6, noNaN: true }), fc.double({ min: -8, max: 8, noNaN: true }), (x, y) =>
        close(power(x, y), x ** y, 5e-14),
      ),
    );
  });
});
