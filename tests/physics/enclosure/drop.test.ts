import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { evaluate } from "../../../lib/formula/evaluate";
import type { AnyFormula } from "../../../lib/formula/formula";
import { enclosure } from "../../../lib/physics";

const value = (law: AnyFormula, symbols: Readonly<Record<string, number>>): number => evaluate(law.expression, symbols);
const g = 9.80665;

/** A mass that meets a spring at the speed of a fall from h, stepped through time (leapfrog): peak force and time of contact. */
function landing(m: number, h: number, k: number): { readonly peak: number; readonly time: number; readonly leaving: number } {
  const step = Math.sqrt(m / k) / 2000;
  let [x, peak, time] = [0, 0, 0];
  let v = Math.sqrt(2 * g * h) + (g * step) / 2;
  do {
    x += v * step;
    v += (g - (k * x) / m) * step;
    peak = Math.max(peak, k * x);
    time += step;
  } while (x > 0);
  return { peak, time, leaving: -v };
}

describe("a drop on a flat face", () => {
  const device = { m: 42e-3, g, h: 1.2, k: 167e3 };

  it("agrees with a mass on a spring stepped through time", () => {
    for (const [m, h, k] of [
      [42e-3, 1.2, 167e3],
      [42e-3, 1.2, 500e3],
      [42e-3, 0.01, 2e3],
      [0.2, 0.0001, 500],
    ] as const) {
      const { peak, leaving } = landing(m, h, k);
      expect(value(enclosure.peakForce, { m, g, h, k }) / peak).toBeCloseTo(1, 5);
      expect(value(enclosure.peakDeceleration, { m, g, h, k }) / (peak / m)).toBeCloseTo(1, 5);
      expect(value(enclosure.impactSpeed, { g, h }) / leaving).toBeCloseTo(1, 2);
    }
    expect(value(enclosure.contactTime, device) / landing(42e-3, 1.2, 167e3).time).toBeCloseTo(1, 2);
  });

  it("by way of the travel is the same mass stepped through time, within the free height alone", () => {
    for (const [m, h, k] of [
      [42e-3, 1.2, 167e3],
      [42e-3, 1.2, 1500e3],
      [0.2, 0.01, 2e3],
    ] as const) {
      const { peak } = landing(m, h, k);
      const [x, a] = [peak / k, peak / m];
      expect(value(enclosure.landingDeceleration, { g, h, u: x / 0.02, c: 0.02 }) / a).toBeCloseTo(1, 4);
      expect(value(enclosure.neededTravel, { h, a, g }) / x).toBeCloseTo(1, 4);
    }
    expect(enclosure.landingDeceleration.valid).toContainEqual(expect.objectContaining({ symbol: "u", low: 0, high: 1 }));
  });

  it("keeps its energy: what falls, over the stopping distance too, is what the spring holds", () => {
    const F = value(enclosure.peakForce, device);
    const x = value(enclosure.stoppingDistance, { F, k: device.k });
    const falling = value(enclosure.dropEnergy, { m: device.m, g, h: device.h + x });
    expect(falling / ((F * x) / 2)).toBeCloseTo(1, 12);
    const v = value(enclosure.impactSpeed, device);
    expect((device.m * v * v) / 2).toBeCloseTo(value(enclosure.dropEnergy, device), 12);
  });

  // Rounded values: 0.49 J, 4.85 m/s, 406 N and 990 g at 167 N/mm; 1700 g at 500 N/mm.
  it("of 42 g from 1.2 m has the figures of a rough sum", () => {
    expect(value(enclosure.dropEnergy, device)).toBeCloseTo(0.494, 3);
    expect(value(enclosure.impactSpeed, device)).toBeCloseTo(4.85, 2);
    expect(Math.abs(value(enclosure.peakForceByEnergy, device) - 406)).toBeLessThan(1);
    expect(Math.abs(value(enclosure.peakDeceleration, device) / g - 990)).toBeLessThan(5);
    expect(Math.abs(value(enclosure.peakDeceleration, { ...device, k: 500e3 }) / g - 1700)).toBeLessThan(15);
    expect(value(enclosure.measuredStiffness, { F: 50, x: 0.3e-3 })).toBeCloseTo(166667, 0);
  });

  it("from no height is twice the weight, on a stiff spring the static term does not count", () => {
    expect(value(enclosure.peakForce, { ...device, h: 0 })).toBeCloseTo(2 * 42e-3 * g, 14);
    expect(value(enclosure.peakDeceleration, { ...device, h: 0 })).toBe(2 * g);
    expect(value(enclosure.peakForceByEnergy, { ...device, h: 0 })).toBe(0);
    expect(value(enclosure.peakForce, { ...device, k: 1e9 }) / value(enclosure.peakForceByEnergy, { ...device, k: 1e9 })).toBeCloseTo(1, 4);
  });

  it("allowedStiffness undoes peakDeceleration", () => {
    fc.assert(
      fc.property(fc.double({ min: 1e3, max: 1e6, noNaN: true }), (k) => {
        const a = value(enclosure.peakDeceleration, { ...device, k });
        expect(value(enclosure.allowedStiffness, { m: device.m, a, g, h: device.h }) / k).toBeCloseTo(1, 10);
      }),
      { seed: 9 },
    );
  });

  it("seriesStiffness is half for two alike, and that of the soft one beside a stiff one", () => {
    expect(value(enclosure.seriesStiffness, { k_1: 1e5, k_2: 1e5 })).toBe(5e4);
    expect(value(enclosure.seriesStiffness, { k_1: 1e5, k_2: 1e15 }) / 1e5).toBeCloseTo(1, 9);
  });
});

describe("pads", () => {
  const plain = { E: 5e6, A: 100e-6, t: 1e-3 };
  const stiff = (kappa: number, S: number): number => value(enclosure.padStiffness, { ...plain, kappa, S });

  it("whose faces slip, or that are far thicker than wide, are E·A/t", () => {
    expect(stiff(0, 1)).toBeCloseTo(5e5, 6);
    expect(stiff(1, 1e-4) / 5e5).toBeCloseTo(1, 6);
  });

  it("that are bonded discs carry E·ε and the pressure E·ε·(a² − r²)/t² that holds back their bulging, integrated", () => {
    const [a, E, eps, n] = [0.004, 5e6, 0.01, 4000];
    for (const t of [0.001, 0.002, 0.006]) {
      let F = 0;
      for (let i = 0; i < n; i++) {
        const r = (a * (i + 0.5)) / n;
        F += (E * eps + (E * eps * (a * a - r * r)) / (t * t)) * 2 * Math.PI * r * (a / n);
      }
      const A = Math.PI * a * a;
      const S = value(enclosure.padShapeFactor, { A, p: 2 * Math.PI * a, t });
      expect(S).toBeCloseTo(a / (2 * t), 12);
      expect(value(enclosure.padStiffness, { E, kappa: 1, S, A, t }) / (F / (eps * t))).toBeCloseTo(1, 6);
    }
  });

  it("give by Hooke's law, and never more than they are thick", () => {
    const { x_p, epsilon } = enclosure.padTravel.evaluate({ F: 100, k: 250e3, t: 2e-3 });
    expect(x_p).toBeCloseTo(value(enclosure.stoppingDistance, { F: 100, k: 250e3 }), 15);
    expect(epsilon).toBeCloseTo(0.2, 12);
    expect(enclosure.padTravel.evaluate({ F: 0, k: 250e3, t: 2e-3 }).x_p).toBe(0);
    expect(() => enclosure.padTravel.evaluate({ F: 500, k: 250e3, t: 2e-3 })).toThrow("a pad of 2 mm cannot give 2 mm");
  });
});

describe("bosses and temperature", () => {
  it("bossForce shares the board's inertia, bossStress spreads it over the ring", () => {
    const F_b = value(enclosure.bossForce, { m_b: 7e-3, a: 1000 * g, n: 4 });
    expect(F_b).toBeCloseTo((7e-3 * 1000 * g) / 4, 12);
    const ring = (Math.PI / 4) * (4e-3 ** 2 - 1.7e-3 ** 2);
    expect(value(enclosure.bossStress, { K_t: 1, F_b, d_o: 4e-3, d_i: 1.7e-3 }) / (F_b / ring)).toBeCloseTo(1, 12);
    expect(value(enclosure.bossStress, { K_t: 2, F_b, d_o: 4e-3, d_i: 0 }) / ((2 * F_b) / (Math.PI * 4e-6))).toBeCloseTo(1, 12);
  });

  it("bossBendingStress is moment times half the diameter over the second moment of area, integrated over the ring", () => {
    const [d_o, d_i, l, F_b, n] = [4e-3, 1.7e-3, 8e-3, 17, 2000];
    let I = 0;
    for (let i = 0; i < n; i++) {
      const r = d_i / 2 + ((d_o - d_i) / 2) * ((i + 0.5) / n);
      I += Math.PI * r ** 3 * ((d_o - d_i) / 2 / n);
    }
    expect(value(enclosure.bossBendingStress, { K_t: 1, F_b, l, d_o, d_i }) / ((F_b * l * d_o) / 2 / I)).toBeCloseTo(1, 6);
  });

  it("yieldShare is 1 at yield", () => {
    expect(value(enclosure.yieldShare, { sigma: 55e6, sigma_y: 55e6 })).toBe(1);
  });

  it("stiffness and yield are those stated at T_0, and rise in the cold", () => {
    const cold = { beta: -0.006, T: 263.15, T_0: 296.15 };
    expect(value(enclosure.stiffnessAtTemperature, { ...cold, k_0: 167e3, T: 296.15 })).toBe(167e3);
    expect(value(enclosure.stiffnessAtTemperature, { ...cold, k_0: 167e3 }) / 167e3).toBeCloseTo(1.198, 12);
    expect(value(enclosure.yieldAtTemperature, { ...cold, sigma_0: 55e6, T: 296.15 })).toBe(55e6);
    expect(value(enclosure.yieldAtTemperature, { ...cold, sigma_0: 55e6 }) / 55e6).toBeCloseTo(1.198, 12);
  });
});
