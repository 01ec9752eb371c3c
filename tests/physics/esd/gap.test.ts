/** Air gaps: Paschen's law against the tables of IEC 60664-1, its altitude factors, limiting cases. */
import { describe, expect, it } from "vitest";
import { curveArgument } from "../../../lib/graph/model";
import { esd } from "../../../lib/physics";
import { law, reference } from "../check-rows";

const even = reference("clearances").table("even-field");
const uneven = reference("clearances").table("uneven-field");
const table = (rows: { readonly x: readonly number[]; readonly y: readonly number[] }) =>
  curveArgument({ x: Float64Array.from(rows.x), y: Float64Array.from(rows.y) });
const density = (p: number): number => law(esd.relativeAirDensity, { p, p_0: 101325, T: 293.15, T_0: 293.15 });

describe("air between even faces", () => {
  it("breaks down at the voltages of the standard's table at 80 kPa within 15 %, from 1 kV to 15 kV", () => {
    even.x.forEach((U, i) => {
      if (U < 1e3 || U > 15e3) return;
      const breakdown = law(esd.uniformBreakdown, { delta: density(80e3), d: even.y[i] as number });
      expect(Math.abs(breakdown / U - 1), `${U} V`).toBeLessThan(0.15);
    });
  });

  it("of 1 cm and 1 atm holds 30.3 kV, and the gap of a voltage is the law turned round", () => {
    expect(law(esd.uniformBreakdown, { delta: 1, d: 0.01 })).toBeCloseTo(30300, 6);
    for (const U of [1e3, 8e3, 15e3, 100e3])
      for (const delta of [0.5, 1])
        expect(law(esd.uniformBreakdown, { delta, d: law(esd.uniformGap, { U, delta }) }) / U).toBeCloseTo(1, 12);
  });

  it("holds less where it is warm or thin, in proportion of its density", () => {
    expect(density(101325)).toBe(1);
    expect(law(esd.relativeAirDensity, { p: 101325, p_0: 101325, T: 333.15, T_0: 293.15 })).toBeCloseTo(293.15 / 333.15, 12);
    const gaps = [1, 0.5].map((delta) => law(esd.uniformGap, { U: 15e3, delta }));
    expect((gaps[1] as number) / (gaps[0] as number)).toBeCloseTo(2, 12);
  });
});

describe("esd.leastClearance", () => {
  // IEC 60664-1, altitude correction: m, kPa, factor; from memory
  it.each([
    [2000, 80, 1],
    [3000, 70, 1.14],
    [4000, 62, 1.29],
    [5000, 54, 1.48],
    [6000, 47, 1.7],
    [8000, 35.5, 2.25],
    [10000, 26.5, 3.02],
  ])("at %d m, %d kPa, is the standard's factor %d times the row", (_, p, factor) => {
    const { d } = esd.leastClearance.evaluate({ U: 15e3, p: 1e3 * p, table: table(uneven) });
    expect(Math.abs(d / (18e-3 * factor) - 1)).toBeLessThan(5e-3);
  });

  it("at sea level is that of the table: 18 mm for 15 kV between points, 5.5 mm between even faces", () => {
    const at = (rows: typeof even): number => esd.leastClearance.evaluate({ U: 15e3, p: 101325, table: table(rows) }).d;
    expect(at(uneven)).toBeCloseTo(0.018, 12);
    expect(at(even)).toBeCloseTo(0.0055, 12);
    expect(() => esd.leastClearance.evaluate({ U: 200e3, p: 101325, table: table(even) })).toThrow();
  });
});

describe("creepage", () => {
  // IEC 60664-1, pollution degree 2, material groups I, II, III in mm; from memory
  it.each([
    [500, 2.5, 3.6, 5],
    [630, 3.2, 4.5, 6.3],
    [800, 4, 5.6, 8],
    [1000, 5, 7.1, 10],
  ])("at %d V is that of the table within 2 %", (U, ...rows) => {
    [5e-6, 7.1e-6, 10e-6].forEach((c, i) => {
      expect(Math.abs(law(esd.creepageDistance, { d: 0, c, U }) / (1e-3 * (rows[i] as number)) - 1)).toBeLessThan(0.02);
    });
  });

  it("is never below the clearance", () => {
    expect(law(esd.creepageDistance, { d: 0.018, c: 10e-6, U: 5 })).toBe(0.018);
  });
});
