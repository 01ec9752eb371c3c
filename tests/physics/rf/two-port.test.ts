/** Chain matrices against closed forms and the laws that every passive network keeps. */
import { describe, expect, it } from "vitest";
import { rf } from "../../../lib/physics";
import { magnitude, real, scale } from "../../../lib/physics/numerics/complex";
import { insertionRatio, through, voltageTransfer } from "../../../lib/physics/rf/two-port";

const none = { C_1: 0, ESR_1: 0, ESL_1: 0, C_2: 0, ESR_2: 0, ESL_2: 0, C_3: 0, ESR_3: 0, ESL_3: 0, L: 0, R_dc: 0, R_p: 1e12, C_p: 0 };
const fifty = { R_s: 50, L_s: 0, R_L: 50, C_L: 0 };
const w = (f: number): number => 2 * Math.PI * f;
const filter = {
  ...none,
  C_1: 15e-12,
  ESR_1: 0.2,
  ESL_1: 0.9e-9,
  L: 0.9e-6,
  R_dc: 0.35,
  R_p: 1100,
  C_p: 0.15e-12,
  C_2: 220e-12,
  ESR_2: 0.1,
  ESL_2: 0.4e-9,
};
const everywhere = [1e4, 1e6, 3e7, 2.4e8, 9e8, 2.48e9, 6e9];

describe("insertionLoss against closed forms", () => {
  it("is 0 dB for no filter between any impedances", () => {
    for (const f of everywhere) {
      expect(rf.insertionLoss.evaluate({ f, R_s: 150, L_s: 1e-7, R_L: 47e3, C_L: 8e-12, ...none }).IL).toBeCloseTo(1, 12);
    }
  });

  it("of a series resistor is (R_s + R + R_L)/(R_s + R_L)", () => {
    expect(rf.insertionLoss.evaluate({ f: 1e6, R_s: 10, L_s: 0, R_L: 38, C_L: 0, ...none, R_dc: 4.7 }).IL).toBeCloseTo(52.7 / 48, 12);
  });

  it("of a shunt capacitor is √(1 + (ωCR)²), R being source and load in parallel", () => {
    for (const f of everywhere) {
      const { IL } = rf.insertionLoss.evaluate({ f, ...fifty, ...none, C_2: 1e-9 });
      expect(IL / Math.sqrt(1 + (w(f) * 1e-9 * 25) ** 2)).toBeCloseTo(1, 10);
    }
  });

  it("of a third-order Butterworth filter is √(1 + (f/f_c)⁶)", () => {
    const f_c = 1e7;
    const g = [1, 2, 1];
    const C = (g[0] ?? 0) / (w(f_c) * 50);
    const ladder = { ...none, C_1: C, C_2: C, L: ((g[1] ?? 0) * 50) / w(f_c) };
    for (const f of [1e5, 5e6, 1e7, 3e7, 1e9]) {
      const { IL } = rf.insertionLoss.evaluate({ f, ...fifty, ...ladder });
      expect(IL / Math.sqrt(1 + (f / f_c) ** 6)).toBeCloseTo(1, 9);
    }
    expect(rf.filterCorner.evaluate({ f_1: 1e4, f_2: 1e9, ...fifty, ...ladder }).f_c / f_c).toBeCloseTo(1, 9);
  });

  it("may be a gain where an inductor and a capacitor step up to a high load", () => {
    const f_r = 1 / (2 * Math.PI * Math.sqrt(1e-6 * 220e-12));
    const { IL } = rf.insertionLoss.evaluate({ f: f_r, R_s: 5, L_s: 0, R_L: 47e3, C_L: 0, ...none, L: 1e-6, C_2: 220e-12 });
    expect(IL).toBeLessThan(0.1);
  });

  it("depends on the order of the parts off 50 Ω: the capacitor belongs to the high side", () => {
    const coil = { L: 1e-6 };
    const at = (parts: object): number =>
      rf.insertionLoss.evaluate({ f: 1e8, R_s: 3, L_s: 0, R_L: 600, C_L: 0, ...none, ...coil, ...parts }).IL;
    expect(at({ C_2: 1e-9 })).toBeGreaterThan(10 * at({ C_1: 1e-9 }));
  });
});

describe("two-ports of passive parts", () => {
  const chain = rf.filterChain(filter);

  it("are reciprocal: A·D − B·C = 1", () => {
    for (const f of everywhere) {
      const { A, B, C, D } = rf.chainTwoPort(chain, f);
      const re = A.re * D.re - A.im * D.im - (B.re * C.re - B.im * C.im);
      const im = A.re * D.im + A.im * D.re - (B.re * C.im + B.im * C.re);
      expect(Math.hypot(re - 1, im)).toBeLessThan(1e-9 * (1 + magnitude(A) * magnitude(D)));
    }
  });

  it("keep power without loss: |S11|² + |S21|² = 1, for complex ports too", () => {
    const lossless = rf.filterChain({ ...none, C_1: 2e-11, L: 1e-7, C_p: 3e-13, C_2: 5e-11, ESL_2: 5e-10 });
    for (const [Z_1, Z_2] of [
      [real(50), real(50)],
      [real(3), real(600)],
      [
        { re: 30, im: 40 },
        { re: 75, im: -20 },
      ],
    ] as const) {
      for (const f of everywhere) {
        const { S11, S12, S21, S22 } = rf.scattering(rf.chainTwoPort(lossless, f), Z_1, Z_2);
        expect(magnitude(S11) ** 2 + magnitude(S21) ** 2).toBeCloseTo(1, 8);
        expect(magnitude(S22) ** 2 + magnitude(S12) ** 2).toBeCloseTo(1, 8);
        expect(magnitude(S12)).toBeCloseTo(magnitude(S21), 12);
      }
    }
  });

  it("keep power as S-parameters of a filter: 1 without loss between any ends, less with it", () => {
    const ends = [fifty, { R_s: 3, L_s: 0, R_L: 600, C_L: 0 }, { R_s: 30, L_s: 5e-9, R_L: 75, C_L: 2e-12 }];
    const lossless = { ...none, C_1: 2e-11, L: 1e-7, C_p: 3e-13, C_2: 5e-11, ESL_2: 5e-10 };
    for (const each of ends) {
      for (const f of everywhere) {
        const { S11, S12, S21, S22 } = rf.scatteringParameters.evaluate({ f, ...each, ...lossless });
        expect(S11 ** 2 + S21 ** 2, `${f} Hz`).toBeCloseTo(1, 7);
        expect(S22 ** 2 + S12 ** 2, `${f} Hz`).toBeCloseTo(1, 7);
        const lossy = rf.scatteringParameters.evaluate({ f, ...each, ...filter });
        expect(lossy.S11 ** 2 + lossy.S21 ** 2).toBeLessThan(1);
      }
    }
  });

  it("reflect nothing at a conjugate match, and pass all of the power", () => {
    const Z = { re: 30, im: 40 };
    const { S11, S21 } = rf.scattering(through, Z, { re: 30, im: -40 });
    expect(magnitude(S11)).toBeCloseTo(0, 12);
    expect(magnitude(S21)).toBeCloseTo(1, 12);
  });

  it("have |S21| = 1/insertion loss between equal resistances, and the voltage transfer between any", () => {
    for (const f of everywhere) {
      const two = rf.chainTwoPort(chain, f);
      const { S21 } = rf.scatteringParameters.evaluate({ f, ...fifty, ...filter });
      expect(S21 * rf.insertionLoss.evaluate({ f, ...fifty, ...filter }).IL).toBeCloseTo(1, 10);
      const straight = magnitude(voltageTransfer(through, real(3), real(38)));
      expect(straight / magnitude(voltageTransfer(two, real(3), real(38))) / insertionRatio(two, real(3), real(38))).toBeCloseTo(1, 10);
    }
  });

  it("cascade in order, and a series and a shunt part are their own matrices", () => {
    const two = rf.cascade(rf.seriesTwoPort(real(3)), rf.shuntTwoPort(real(0.5)));
    expect([two.A.re, two.B.re, two.C.re, two.D.re]).toEqual([2.5, 3, 0.5, 1]);
    expect(rf.cascade(through, two)).toEqual(two);
    expect(scale(two.C, 2).re).toBe(1);
  });
});

describe("a common-mode choke", () => {
  const bare = { R_dc: 0, R_p: 1e12, C_p: 0, C_x: 0, C_y: 0, ESR: 0, ESL: 0, R_cs: 50, R_cL: 50, R_ds: 50, R_dL: 50 };

  it("fully coupled is invisible to the differential mode and shows L in common mode", () => {
    const { IL_c, IL_d } = rf.chokeLoss.evaluate({ f: 1e6, L: 1e-3, k: 1, ...bare });
    expect(IL_d).toBeCloseTo(1, 12);
    expect(IL_c).toBeCloseTo(Math.hypot(1, (w(1e6) * 1e-3) / 100), 6);
  });

  it("without coupling is L/2 to the one mode and 2·L to the other", () => {
    const { IL_c, IL_d } = rf.chokeLoss.evaluate({ f: 1e6, L: 1e-5, k: 0, ...bare });
    expect(IL_c).toBeCloseTo(Math.hypot(1, (w(1e6) * 0.5e-5) / 100), 9);
    expect(IL_d).toBeCloseTo(Math.hypot(1, (w(1e6) * 2e-5) / 100), 9);
  });
});
