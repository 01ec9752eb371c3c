import { describe, expect, it } from "vitest";
import { evaluate } from "../../../lib/formula/evaluate";
import type { AnyFormula } from "../../../lib/formula/formula";
import { rf } from "../../../lib/physics";
import { dB_power, dBm } from "../../../lib/units";

const value = (law: AnyFormula, symbols: Readonly<Record<string, number>>): number => evaluate(law.expression, symbols);
const c = 299792458;

describe("laws of parts", () => {
  it("put the corner of 220 pF behind 150 Ω at 4.82 MHz, far above the audio band", () => {
    expect(value(rf.capacitiveCorner, { R: 150, C: 220e-12 })).toBeCloseTo(4.8229e6, -3);
  });

  it("put a capacitor's least impedance, its ESR, at its self-resonance", () => {
    const f = value(rf.selfResonance, { L: 0.7e-9, C: 220e-12 });
    const { Z, X } = rf.capacitorImpedance.evaluate({ f, C: 220e-12, ESR: 0.1, ESL: 0.7e-9 });
    expect(Z).toBeCloseTo(0.1, 9);
    expect(X).toBeCloseTo(0, 9);
  });

  it("put the weakest place of two capacitors in parallel at their anti-resonance, near 1.2 GHz", () => {
    const pair = { C_1: 15e-12, ESR_1: 0.1, ESL_1: 0.9e-9, C_2: 220e-12, ESR_2: 0.1, ESL_2: 0.4e-9 };
    const f_a = value(rf.antiResonance, { L_1: 0.9e-9, L_2: 0.4e-9, C_1: 15e-12, C_2: 220e-12 });
    const ends = { R_s: 50, L_s: 0, R_L: 50, C_L: 0, L: 0, R_dc: 0, R_p: 1, C_p: 0, C_3: 0, ESR_3: 0, ESL_3: 0 };
    const { f, IL } = rf.leastInsertionLoss.evaluate({ f_1: 0.6e9, f_2: 2e9, ...ends, ...pair });
    expect(f / f_a).toBeCloseTo(1, 2);
    const beside = { C_1: 0, ESR_1: 0, ESL_1: 0, C_3: pair.C_1, ESR_3: pair.ESR_1, ESL_3: pair.ESL_1 };
    const same = rf.leastInsertionLoss.evaluate({ f_1: 0.6e9, f_2: 2e9, ...ends, ...pair, ...beside });
    expect(same.IL / IL).toBeCloseTo(1, 9);
    expect(f_a).toBeCloseTo(1.177e9, -7);
  });

  it("give a common-mode choke L and nothing at full coupling, L/2 and 2·L at none", () => {
    for (const [k, common, differential] of [
      [1, 1, 0],
      [0, 0.5, 2],
    ] as const) {
      expect(value(rf.commonInductance, { L: 1, k })).toBe(common);
      expect(value(rf.differentialInductance, { L: 1, k })).toBe(differential);
    }
  });
});

describe("laws of fields", () => {
  it("turn round: the current that makes a field makes it", () => {
    const at = { mu_0: 1.25663706127e-6, f: 1e8, L: 0.5, d: 3 };
    const E = value(rf.cableField, { ...at, I: 3e-6 });
    expect(value(rf.cableCurrent, { ...at, E })).toBeCloseTo(3e-6, 15);
  });

  it("put a 2 W telephone at 1 m at about 10 V/m, and a few hundred millivolts on a lead", () => {
    const P = dBm.toSI(33);
    const E = value(rf.transmitterField, { Z_0: 376.73, P, G: dB_power.toSI(2.15), d: 1 });
    expect(E).toBeCloseTo(Math.sqrt(30 * P * 1.64), 1);
    const V = value(rf.leadVoltage, { E, lambda: c / 900e6 });
    expect(V).toBeGreaterThan(0.5);
    expect(V).toBeLessThan(2);
  });

  it("halve a matched carrier and divide it by the insertion loss", () => {
    expect(value(rf.filteredVoltage, { V: 1, R_s: 50, R_L: 50, IL: 1 })).toBeCloseTo(Math.SQRT1_2, 12);
    expect(value(rf.filteredVoltage, { V: 1, R_s: 50, R_L: 50, IL: 100 })).toBeCloseTo(Math.SQRT1_2 / 100, 12);
  });
});

describe("the rectified burst", () => {
  it("repeats at 216.7 Hz", () => {
    expect(value(rf.frameRate, { T_b: 60e-3 / 13 })).toBeCloseTo(216.67, 2);
  });

  it("has the square law of an exponential junction within 6 % up to V_T: ln of the mean of exp(V_a·cos/V_T)", () => {
    for (const V_a of [1e-4, 1e-3, 1e-2, 0.0257]) {
      const V_T = 0.0257;
      const mean =
        Array.from({ length: 256 }, (_, i) => Math.exp((V_a / V_T) * Math.cos((2 * Math.PI * i) / 256))).reduce((a, b) => a + b) / 256;
      const exact = V_T * Math.log(mean);
      expect(Math.abs(value(rf.squareLawOffset, { V_a, V_x: V_T }) / exact - 1)).toBeLessThan(0.065);
    }
  });

  it("of 40 mV at a rejection of 45 dB shifts the offset by 90 µV, as data sheets work it", () => {
    expect(value(rf.rejectedOffset, { V_a: 0.04, V_0: 0.1, EMIRR: 10 ** (45 / 20) })).toBeCloseTo(90e-6, 6);
  });

  it("has the tone and the residue of a sampled rectangular wave", () => {
    const [n, on, dV, G] = [8000, 1000, 50e-6, 5];
    const wave = Array.from({ length: n }, (_, i) => (i < on ? dV * G : 0));
    const part = (f: (x: number) => number): number => wave.reduce((sum, v, i) => sum + v * f((2 * Math.PI * i) / n), 0) / n;
    const [a, b, mean] = [part(Math.cos), part(Math.sin), part(() => 1)];
    const square = wave.reduce((sum, v) => sum + v * v, 0) / n;
    expect(value(rf.burstTone, { dV, G, D: 1 / 8 })).toBeCloseTo(Math.SQRT2 * Math.hypot(a, b), 9);
    expect(value(rf.burstResidue, { dV, G, D: 1 / 8 })).toBeCloseTo(Math.sqrt(square - mean * mean), 12);
  });

  it("is nothing for a carrier that never stops", () => {
    expect(value(rf.burstTone, { dV: 1e-3, G: 5, D: 1 })).toBeCloseTo(0, 15);
    expect(value(rf.burstResidue, { dV: 1e-3, G: 5, D: 1 })).toBe(0);
  });

  it("falls by 2 dB for each dB of the filter", () => {
    const offset = (IL: number): number => {
      const V_a = value(rf.filteredVoltage, { V: 0.1, R_s: 73, R_L: 73, IL });
      return value(rf.squareLawOffset, { V_a, V_x: 0.026 });
    };
    expect(offset(1) / offset(10)).toBeCloseTo(100, 9);
  });
});
