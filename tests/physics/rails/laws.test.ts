import { describe, expect, it } from "vitest";
import { evaluate } from "../../../lib/formula/evaluate";
import type { AnyFormula } from "../../../lib/formula/formula";
import { modelNamed } from "../../../lib/graph/model";
import { rails } from "../../../lib/physics";

const laws: readonly [string, AnyFormula][] = Object.entries(rails).flatMap(([name, law]) => ("expression" in law ? [[name, law]] : []));
const value = (law: AnyFormula, symbols: Readonly<Record<string, number>>): number => evaluate(law.expression, symbols);

describe("laws of rails", () => {
  it.each(laws)("%s parses, fits its dimensions and states meaning, source and limits", (_name, law) => {
    expect(law.expression).toBeTypeOf("object");
    expect(law.meaning.length).toBeGreaterThan(20);
    expect(law.source).not.toBe("");
    expect(law.valid.every(({ low, high }) => low < high)).toBe(true);
  });

  it("are joined by models that are registered under the name of their subject", () => {
    const models = Object.entries(rails).filter(([, law]) => "evaluate" in law);
    expect(models.length).toBe(26);
    for (const [name] of models) expect(modelNamed(`rails.${name}`).name).toBe(`rails.${name}`);
  });

  it("duties are those of the three converters at known ratios", () => {
    expect(value(rails.boostDuty, { V_in: 2.5, V_out: 5 })).toBe(0.5);
    expect(value(rails.invertingDuty, { V_in: 4.5, V_out: 4.5 })).toBe(0.5);
    expect(value(rails.buckDuty, { V_in: 5, V_out: 2.5 })).toBe(0.5);
  });

  it("a packet of each converter carries what its energy says", () => {
    const E = (4.7e-6 * 0.3 ** 2) / 2;
    const packet = { L: 4.7e-6, I_p: 0.3 };
    // The input delivers V_in·(charge through it): E and, while the rectifier is on, V_in·q more in a boost
    const boost = value(rails.boostPacket, { ...packet, V_in: 3.7, V_out: 4.5 });
    expect(boost * 4.5).toBeCloseTo(E + 3.7 * boost, 18);
    expect(value(rails.invertingPacket, { ...packet, V_out: 4.5 }) * 4.5).toBeCloseTo(E, 18);
    // A buck's pulse takes L·I_p/(V_in − V_out)·I_p/2 from V_in
    const buck = value(rails.buckPacket, { ...packet, V_in: 4.2, V_out: 1.8 });
    expect(buck * 1.8).toBeCloseTo(4.2 * ((4.7e-6 * 0.3 * 0.3) / 2 / 2.4), 18);
  });

  it("skipFrequency and loadAtSkipFrequency undo one another, and halve with the load", () => {
    const f_b = value(rails.skipFrequency, { I_out: 8e-3, q: 2.6e-7 });
    expect(value(rails.loadAtSkipFrequency, { f_b, q: 2.6e-7 })).toBeCloseTo(8e-3, 15);
    expect(value(rails.skipFrequency, { I_out: 4e-3, q: 2.6e-7 })).toBeCloseTo(f_b / 2, 9);
  });

  it("burstFrequency is none at no load and at the most, and agrees with a walk between two thresholds", () => {
    const burst = { I_b: 0.1, C: 20e-6, dV: 0.02 };
    expect(value(rails.burstFrequency, { ...burst, I_out: 0 })).toBe(0);
    expect(value(rails.burstFrequency, { ...burst, I_out: 0.1 })).toBe(0);
    const dt = 1e-9;
    let [v, on, runs, t] = [0, true, 0, 0];
    for (; runs < 3; t += dt) {
      v += ((on ? 0.08 : -0.02) / 20e-6) * dt;
      if (on && v >= 0.02) on = false;
      if (!on && v <= 0) [on, runs] = [true, runs + 1];
    }
    expect(value(rails.burstFrequency, { ...burst, I_out: 0.02 }) / (runs / t)).toBeCloseTo(1, 3);
  });

  it("pumpResistance is 1/(f·C) when slow and 8·R_on when fast", () => {
    const pump = { C: 1e-6, R_on: 1 };
    expect(value(rails.pumpResistance, { ...pump, f: 1e3 })).toBeCloseTo(1000, 9);
    expect(value(rails.pumpResistance, { ...pump, f: 1e8 })).toBeCloseTo(8, 5);
  });

  it("pumpResistance agrees with a charge pump switched step by step", () => {
    const [f, C, R_on, I] = [3e5, 1e-6, 0.6, 0.01];
    const dt = 1 / f / 4000;
    // Two stiff ends: the flying capacitor takes from V_in, then gives to V_out, each through two switches
    const V_out = 3 - I * value(rails.pumpResistance, { f, C, R_on });
    let [v, out] = [3, 0];
    for (let period = 0; period < 40; period++) {
      out = 0;
      for (let k = 0; k < 4000; k++) {
        const i = k < 2000 ? (3 - v) / (2 * R_on) : (V_out - v) / (2 * R_on);
        v += (i * dt) / C;
        if (k >= 2000) out -= i * dt;
      }
    }
    expect((out * f) / I).toBeCloseTo(1, 2);
  });

  it("pumpEfficiency without resistance and quiescent current is 1", () => {
    expect(value(rails.pumpEfficiency, { I_out: 0.01, n: 2, V_in: 3, R_o: 0, I_q: 0 })).toBe(1);
    expect(value(rails.pumpVoltage, { n: 2, V_in: 3, I_out: 0.01, R_o: 10 })).toBeCloseTo(5.9, 12);
  });

  it("biasShare leaves half at V_h and all at a small bias", () => {
    expect(rails.biasShare.numerical?.result).toBe("1");
    expect(value(rails.biasShare, { V: 5, V_h: 5, n: 1.7 })).toBe(0.5);
    expect(value(rails.biasShare, { V: 1e-6, V_h: 5, n: 1.7 })).toBeCloseTo(1, 9);
  });

  it("straightRejection is flat, then falls by 20 dB a decade; noiseGain counts in full", () => {
    const straight = { A_0: 1e5, f_c: 100 };
    expect(value(rails.straightRejection, { ...straight, f: 50 })).toBe(1e5);
    expect(value(rails.straightRejection, { ...straight, f: 1000 })).toBe(1e4);
    const G = value(rails.noiseGain, { R_f: 1200, R_g: 300 });
    expect(value(rails.rejectedRipple, { V_r: 0.01, G, A: 1e4 })).toBeCloseTo(5e-6, 18);
  });

  it("sawtoothHarmonic sums to the rms value of the sawtooth", () => {
    let square = 0;
    for (let n = 1; n <= 20_000; n++) square += value(rails.sawtoothHarmonic, { dV: 1, n }) ** 2;
    expect(square).toBeCloseTo(1 / 12, 5);
  });
});
