import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { thermalVoltage } from "../../../lib/physics/constants";
import { type Junction, shockleyPoint } from "../../../lib/physics/light/shockley";
import { shockleyVoltage } from "./shockley-voltage";

const room = 298.15;
const red: Junction = { I_s: 1e-17, n: 2, R_s: 8 };
const junctions = fc.record({
  I_s: fc.double({ min: -24, max: -6, noNaN: true }).map((x) => 10 ** x),
  n: fc.double({ min: 1, max: 3, noNaN: true }),
  R_s: fc.double({ min: 0, max: 50, noNaN: true }),
});
const supplies = fc.double({ min: 0.01, max: 24, noNaN: true });
const resistors = fc.double({ min: 1, max: 1e6, noNaN: true });

describe("shockleyPoint(V_s, R, diode, T)", () => {
  it("holds Kirchhoff's voltage law to 1e-12 of the supply", () => {
    fc.assert(
      fc.property(supplies, resistors, junctions, (V_s, R, diode) => {
        const { I, V_f } = shockleyPoint(V_s, R, diode, room);
        expect(Math.abs(I * R + V_f - V_s)).toBeLessThanOrEqual(1e-12 * V_s);
      }),
      { seed: 1, numRuns: 2000 },
    );
  });

  it("lies on the diode's own curve", () => {
    fc.assert(
      fc.property(supplies, resistors, junctions, (V_s, R, diode) => {
        const { I, V_f } = shockleyPoint(V_s, R, diode, room);
        expect(Math.abs(shockleyVoltage(I, diode, room) - V_f)).toBeLessThanOrEqual(1e-12 * V_s);
      }),
      { seed: 2, numRuns: 2000 },
    );
  });

  it("gives less current through a larger resistor", () => {
    fc.assert(
      fc.property(supplies, resistors, junctions, (V_s, R, diode) => {
        const { I } = shockleyPoint(V_s, R, diode, room);
        const less = shockleyPoint(V_s, R * 1.01, diode, room).I;
        expect(less).toBeLessThanOrEqual(I);
        // Where the resistor's drop is lost in rounding the two are one number.
        if (I * R > 1e-9 * V_s) expect(less).toBeLessThan(I);
      }),
      { seed: 3, numRuns: 1000 },
    );
  });

  it("gives the same current whatever unit of current I_s and R are stated in", () => {
    const { I, V_f } = shockleyPoint(3.3, 220, red, room);
    const inMilliamperes = shockleyPoint(3.3, 0.22, { I_s: 1e-14, n: 2, R_s: 0.008 }, room);
    expect(inMilliamperes.I / I).toBeCloseTo(1000, 9);
    expect(inMilliamperes.V_f).toBeCloseTo(V_f, 13);
  });

  it("gives no current from no supply, and none through an open circuit", () => {
    expect(shockleyPoint(0, 100, red, room).I).toBe(0);
    expect(shockleyPoint(3.3, Infinity, red, room)).toEqual({ I: 0, V_f: 3.3 });
  });

  it("tends to Ohm's law where the resistor takes nearly all of the supply", () => {
    const { I } = shockleyPoint(1e6, 1e6, red, room);
    expect(I).toBeCloseTo(1, 4);
  });

  it("tends to -I_s in reverse", () => {
    expect(shockleyPoint(-5, 100, red, room).I / -red.I_s).toBeCloseTo(1, 9);
  });

  it("solves a diode across the supply with no resistor at all", () => {
    const V = shockleyVoltage(0.01, { ...red, R_s: 0 }, room);
    expect(shockleyPoint(V, 0, { ...red, R_s: 0 }, room).I).toBeCloseTo(0.01, 12);
  });

  it("refuses a negative resistor, absolute zero and a junction with no current", () => {
    expect(() => shockleyPoint(3, -1000, red, room)).toThrow(/R = -1000 Ω/);
    expect(() => shockleyPoint(3, 100, red, 0)).toThrow(/T = 0 K/);
    expect(() => shockleyPoint(3, 100, { ...red, I_s: 0 }, room)).toThrow(/I_s = 0 A/);
  });
});

describe("thermalVoltage(T)", () => {
  it("is 25.693 mV at 25 °C", () => {
    expect(thermalVoltage(room)).toBeCloseTo(0.025693, 6);
  });
});
