/** Charging current against the cell's temperature: rows read by hand, ngspice's own reading of them, the ends of the table. */
import { describe, expect, it } from "vitest";
import { curveArgument } from "../../../lib/graph/model";
import { charging } from "../../../lib/physics";
import { reference } from "../check-rows";
import { ngspicePresent, ngspiceRows } from "../ngspice";

const skip = !ngspicePresent && process.env["CI"] !== "true";
const rows = reference("charge-limits").table("lithium-polymer");
const limit = curveArgument({ x: Float64Array.from(rows.x), y: Float64Array.from(rows.y) });
const Q = 0.5 * 3600;
const at = (celsius: number, I_set = 1) => charging.temperatureLimit.evaluate({ T: celsius + 273.15, Q, I_set, limit });

describe("charging.temperatureLimit", () => {
  it("is the row's share of the capacity an hour, between rows on a straight line, and the setting where that is less", () => {
    expect(at(25).I).toBeCloseTo(0.25, 12);
    expect(at(5).I).toBeCloseTo(0.5 * 0.125, 12);
    expect(at(12.5).c * 3600).toBeCloseTo(0.35, 12);
    expect(at(25, 0.1).I).toBe(0.1);
  });

  it("is nothing outside the table, and at its warm end", () => {
    expect([at(-0.1).I, at(60.1).I, at(60).I]).toEqual([0, 0, 0]);
    expect(at(0).I).toBeGreaterThan(0);
  });

  it.skipIf(skip)("agrees with ngspice reading the same rows from 0 °C to 60 °C", () => {
    const pairs = rows.x.map((T, i) => `${T - 273.15}, ${0.5 * 3600 * (rows.y[i] as number)}`).join(", ");
    const cards = ["* limit", "V_T t 0 PWL(0 0 60 60)", `B_I i 0 V = min(0.2, pwl(v(t), ${pairs}))`, "R t i 1e9"];
    const found = ngspiceRows([...cards, ".tran 0.5 60 0 0.5", ".print tran v(t) v(i)", ".end", ""].join("\n"));
    expect(found.length).toBeGreaterThan(60);
    for (const [, T = 0, I = 0] of found.filter(([, T = 0]) => T > 0.01 && T < 59.99))
      expect(Math.abs(at(T, 0.2).I - I), `${T} °C`).toBeLessThan(1e-4);
  });
});
