import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { CurveData, Interpolation } from "../../../lib/graph/curve";
import { curveArgument } from "../../../lib/graph/model";
import { light } from "../../../lib/physics";
import { tablePoint, tableVoltage } from "../../../lib/physics/light/diode-table";
import { type Junction, shockleyPoint } from "../../../lib/physics/light/shockley";
import { shockleyVoltage } from "./shockley-voltage";

const room = 298.15;
const green: Junction = { I_s: 1e-25, n: 2, R_s: 12 };

/** Rows of a Shockley diode, currents in equal ratios. */
function sampled(rows: number, interpolation: Interpolation, low = 1e-6, high = 30e-3): CurveData {
  const y = Array.from({ length: rows }, (_, i) => low * (high / low) ** (i / (rows - 1)));
  return curve(
    y.map((I) => shockleyVoltage(I, green, room)),
    y,
    interpolation,
  );
}

function curve(x: readonly number[], y: readonly number[], interpolation: Interpolation): CurveData {
  return { x: Float64Array.from(x), y: Float64Array.from(y), interpolation };
}

const fine = sampled(2000, "log-y");
const coarse = sampled(12, "log-y");
const lines = sampled(12, "linear");
const supplies = fc.double({ min: 2.2, max: 5, noNaN: true });
const resistors = fc.double({ min: 120, max: 1e5, noNaN: true });
const tables = fc.constantFrom(fine, coarse, lines);

describe("tablePoint(V_s, R, table, dV)", () => {
  it("agrees with the Shockley solution from which a fine table was sampled", () => {
    for (const V_s of [2.5, 3, 3.3, 4.5, 5]) {
      for (const R of [150, 330, 1000, 10e3]) {
        expect(tablePoint(V_s, R, fine, 0).I / shockleyPoint(V_s, R, green, room).I).toBeCloseTo(1, 5);
      }
    }
  });

  it("has an error that falls with the square of the row spacing", () => {
    const exact = shockleyPoint(3.3, 330, green, room).I;
    const error = (rows: number) =>
      Math.max(
        ...[3.1, 3.2, 3.3, 3.4, 3.5].map((V_s) =>
          Math.abs(tablePoint(V_s, 330, sampled(rows, "log-y"), 0).I / shockleyPoint(V_s, 330, green, room).I - 1),
        ),
      );
    expect(exact).toBeGreaterThan(0);
    expect(error(80) / error(20)).toBeLessThan(1 / 8);
  });

  it("holds Kirchhoff's voltage law to 1e-12 and lies on the table's curve", () => {
    fc.assert(
      fc.property(supplies, resistors, tables, fc.double({ min: -0.15, max: 0.15, noNaN: true }), (V_s, R, table, dV) => {
        const { I, V_f } = tablePoint(V_s, R, table, dV);
        expect(Math.abs(I * R + V_f - V_s)).toBeLessThanOrEqual(1e-12 * V_s);
        expect(Math.abs(tableVoltage(I, table, dV) - V_f)).toBeLessThanOrEqual(1e-12 * V_s);
      }),
      { seed: 4, numRuns: 3000 },
    );
  });

  it("gives less current through a larger resistor, and more from a larger supply", () => {
    fc.assert(
      fc.property(supplies, resistors, tables, (V_s, R, table) => {
        const { I } = tablePoint(V_s, R, table, 0);
        expect(tablePoint(V_s, R * 1.001, table, 0).I).toBeLessThan(I);
        expect(tablePoint(V_s + 1e-3, R, table, 0).I).toBeGreaterThan(I);
      }),
      { seed: 5, numRuns: 2000 },
    );
  });

  it("is continuous across a row and across the first row", () => {
    for (const table of [coarse, lines]) {
      for (const row of [0, 1, 5]) {
        const V_s = (table.x[row] ?? 0) + 330 * (table.y[row] ?? 0);
        const below = tablePoint(V_s - 1e-9, 330, table, 0).I;
        const above = tablePoint(V_s + 1e-9, 330, table, 0).I;
        expect(tablePoint(V_s, 330, table, 0).I / (table.y[row] ?? 0)).toBeCloseTo(1, 10);
        expect(above / below).toBeCloseTo(1, 5);
      }
    }
  });

  it("shifts with dV as the supply does", () => {
    const shifted = tablePoint(3.3 + 0.12, 330, coarse, 0.12);
    expect(shifted.I).toBeCloseTo(tablePoint(3.3, 330, coarse, 0).I, 15);
  });

  it("stays finite and falls by a decade every 118 mV where the supply no longer lights the diode", () => {
    const [low, lower] = [tablePoint(1.2, 330, fine, 0).I, tablePoint(1.2 - 0.1183, 330, fine, 0).I];
    expect(low).toBeGreaterThan(0);
    expect(low / lower).toBeCloseTo(10, 1);
    expect(tablePoint(0, 330, fine, 0).I).toBeLessThan(1e-20);
  });

  it("gives no current below a first row of no current, and none through an open circuit", () => {
    const dark = curve([1.5, 1.8, 2.2], [0, 1e-3, 20e-3], "linear");
    expect(tablePoint(1.4, 100, dark, 0)).toEqual({ I: 0, V_f: 1.4 });
    expect(tablePoint(5, Infinity, dark, 0)).toEqual({ I: 0, V_f: 5 });
  });

  it("solves a linear table in closed form", () => {
    const straight = curve([2, 3], [0, 10e-3], "linear");
    expect(tablePoint(4, 100, straight, 0).I).toBeCloseTo(2 / 200, 15);
    // 2 V and 100 Ω of the diode, shifted by dV, behind R
    for (const [V_s, R, dV] of [
      [3.1, 47, 0.12],
      [3.3, 330, -0.05],
    ] as const) {
      const { I, V_f } = light.operatingPoint.evaluate({ V_s, R, dV, diode: curveArgument(straight) });
      expect(I).toBeCloseTo((V_s - 2 - dV) / (100 + R), 14);
      expect(V_f).toBeCloseTo(2 + dV + 100 * I, 12);
    }
  });

  it("refuses to go above the last row, and says where it ends", () => {
    expect(() => tablePoint(24, 100, coarse, 0)).toThrow(/24 V through 100 Ω drives the diode beyond the last row/);
  });

  it("refuses a negative resistor and a rule it cannot lay a load line through", () => {
    expect(() => tablePoint(3, -1, coarse, 0)).toThrow(/zero or positive/);
    expect(() => tablePoint(3.3, 330, { ...coarse, interpolation: "monotone" }, 0)).toThrow(/linear or log-y/);
  });
});

describe("tableVoltage(I, table, dV)", () => {
  it("gives the rows back and interpolates by the table's rule", () => {
    const table = curve([1, 2, 3], [1e-4, 1e-3, 1e-2], "log-y");
    expect(tableVoltage(1e-3, table, 0)).toBe(2);
    expect(tableVoltage(Math.sqrt(1e-3 * 1e-2), table, 0.1)).toBeCloseTo(2.6, 14);
    expect(tableVoltage(5.5e-3, { ...table, interpolation: "linear" }, 0)).toBeCloseTo(2.5, 14);
    expect(tableVoltage(1e-5, table, 0)).toBeCloseTo(0, 14);
  });

  it("refuses no current, and current above the last row", () => {
    expect(() => tableVoltage(0, coarse, 0)).toThrow(/no forward voltage for 0 A/);
    expect(() => tableVoltage(1, coarse, 0)).toThrow(/end at 0.03 A/);
  });
});
