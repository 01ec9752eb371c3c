import { describe, expect, it } from "vitest";
import { battery } from "../../../lib/physics";
import { chargeTimes, type LinearCharge } from "../../../lib/physics/battery/charge";

const charge: LinearCharge = { a: 3.5, b: 0.7, R: 0.15, V_cv: 4.2, I: 0.5, I_end: 0.05, Q: 3600, s_0: 0 };

/** Steps through time with the smaller of the charger's current and what its voltage drives, until that is I_end. */
function stepped({ a, b, R, V_cv, I, I_end, Q, s_0 }: LinearCharge, dt: number): { readonly t: number; readonly s: number } {
  let [t, s] = [0, s_0];
  for (;;) {
    const current = (x: number): number => Math.min(I, (V_cv - a - b * x) / R);
    const half = current(s + (current(s) * dt) / 2 / Q);
    if (half <= I_end) return { t, s };
    s += (half * dt) / Q;
    t += dt;
  }
}

describe("chargeTimes(charge)", () => {
  it.each([
    ["from empty", {}],
    ["begun nearly full, at constant voltage", { s_0: 0.95 }],
    ["with a larger resistance", { R: 0.9 }],
  ])("agrees with brute-force steps through time %s", (_case, change) => {
    const cell = { ...charge, ...change };
    const { t, s_end } = battery.linearChargeTime.evaluate(cell);
    const steps = stepped(cell, 0.05);
    expect(Math.abs(steps.t - t)).toBeLessThanOrEqual(0.2);
    expect(steps.s).toBeCloseTo(s_end, 5);
  });

  it("has no second phase without resistance, and ends full", () => {
    expect(chargeTimes({ ...charge, R: 0 })).toEqual({
      t_cc: expect.closeTo(7200, 9),
      I_start: 0.5,
      t_cv: 0,
      t: expect.closeTo(7200, 9),
      s_end: expect.closeTo(1, 12),
    });
  });

  it("begins at constant voltage with less than I where the cell is nearly full", () => {
    const { t_cc, I_start } = chargeTimes({ ...charge, s_0: 0.95 });
    expect(t_cc).toBe(0);
    expect(I_start).toBeCloseTo((4.2 - 3.5 - 0.7 * 0.95) / 0.15, 12);
  });

  it("does not charge a full cell, nor one above the charging voltage", () => {
    expect(chargeTimes({ ...charge, s_0: 0.995 })).toMatchObject({ t: 0, s_end: 0.995 });
    expect(chargeTimes({ ...charge, V_cv: 3.4, s_0: 0.5 })).toMatchObject({ t: 0, I_start: 0, s_end: 0.5 });
  });

  it("refuses a cell whose voltage does not rise", () => {
    expect(() => chargeTimes({ ...charge, b: 0 })).toThrow("a charge needs b, I, I_end and Q > 0 and R ≥ 0; got b = 0 V");
  });
});
