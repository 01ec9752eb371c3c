import { describe, expect, it } from "vitest";
import { esd } from "../../../lib/physics";
import { pulseAt } from "../../../lib/physics/circuit/pulse-wave";

describe("the analytic contact discharge", () => {
  it("lies inside the standard's tolerances at each level: peak 3.75 A/kV ±15 %, 2 A/kV and 1 A/kV ±30 %, 0.8 ns ±25 %", () => {
    for (const U of esd.contactLevels) {
      const { I_p, I_30, I_60, t_r } = esd.pulse.evaluate({ U });
      const kV = U / 1000;
      expect(Math.abs(I_p / (3.75 * kV) - 1)).toBeLessThan(0.15);
      expect(Math.abs(I_30 / (2 * kV) - 1)).toBeLessThan(0.3);
      expect(Math.abs(I_60 / kV - 1)).toBeLessThan(0.3);
      expect(Math.abs(t_r / 0.8e-9 - 1)).toBeLessThan(0.25);
    }
  });

  it("is at each time what IEC 61000-4-2:2008 writes, 5.6: two terms of 16.6 A and 9.3 A at 4 kV, n = 1.8", () => {
    const term = (t: number, I: number, rise: number, fall: number): number => {
      const ratio = (t / rise) ** 1.8;
      const k = Math.exp((-rise / fall) * ((1.8 * fall) / rise) ** (1 / 1.8));
      return ((I / k) * ratio * Math.exp(-t / fall)) / (1 + ratio);
    };
    for (let t = 0.05; t < 200; t *= 1.1) {
      const theirs = term(t, 16.6, 1.1, 2) + term(t, 9.3, 12, 37);
      expect(esd.pulseCurrent.evaluate({ U: 4000, t: t * 1e-9 }).i, `${t} ns`).toBeCloseTo(theirs, 10);
      expect(esd.pulseCurrent.evaluate({ U: 8000, t: t * 1e-9 }).i, `${t} ns`).toBeCloseTo(2 * theirs, 10);
    }
    const whole = (t: number): number => term(t, 16.6, 1.1, 2) + term(t, 9.3, 12, 37);
    const fine = Array.from({ length: 40_000 }, (_, k) => whole(k * 1e-4));
    const peak = Math.max(...fine);
    const start = fine.findIndex((I) => I >= 0.1 * peak) * 1e-4;
    const pulse = esd.pulse.evaluate({ U: 4000 });
    expect(pulse.I_p / peak).toBeCloseTo(1, 6);
    expect(pulse.t_p * 1e9).toBeCloseTo(fine.indexOf(peak) * 1e-4, 3);
    expect(pulse.t_r * 1e9).toBeCloseTo(fine.findIndex((I) => I >= 0.9 * peak) * 1e-4 - start, 3);
    expect([pulse.I_30, pulse.I_60]).toEqual([expect.closeTo(whole(start + 30), 3), expect.closeTo(whole(start + 60), 3)]);
    Array.from(pulse.i.x).forEach((t, k) => {
      expect(pulse.i.y[k]).toBeCloseTo(whole(t * 1e9), 10);
    });
  });

  it("is proportional to the voltage, either sign, and nothing before its start", () => {
    const at = (U: number, t: number): number => esd.pulseCurrent.evaluate({ U, t }).i;
    expect(at(8000, 5e-9)).toBeCloseTo(2 * at(4000, 5e-9), 12);
    expect(at(-4000, 5e-9)).toBe(-at(4000, 5e-9));
    expect([at(4000, 0), at(4000, -1e-9)]).toEqual([0, 0]);
  });

  it("carries about the charge of 150 pF at its voltage", () => {
    const n = 40_000;
    const h = 1e-6 / n;
    let charge = 0;
    for (let i = 0; i < n; i++) charge += h * pulseAt(esd.dischargeWave(4000), (i + 0.5) * h);
    expect(charge / (150e-12 * 4000)).toBeGreaterThan(0.8);
    expect(charge / (150e-12 * 4000)).toBeLessThan(1.2);
  });

  it("has its peak where no sample of its curve is higher", () => {
    const { I_p, t_p, i } = esd.pulse.evaluate({ U: 8000 });
    expect(Math.max(...Array.from(i.y))).toBeLessThanOrEqual(I_p);
    expect(Math.max(...Array.from(i.y))).toBeGreaterThan(0.998 * I_p);
    expect(t_p).toBeGreaterThan(1e-9);
    expect(t_p).toBeLessThan(2e-9);
    expect(i.x.length).toBe(i.y.length);
  });
});
