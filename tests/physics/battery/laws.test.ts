import { describe, expect, it } from "vitest";
import { evaluate } from "../../../lib/formula/evaluate";
import type { AnyFormula } from "../../../lib/formula/formula";
import { battery } from "../../../lib/physics";
import { dB_per_mW, dB_SPL } from "../../../lib/units";

const laws: readonly [string, AnyFormula][] = Object.entries(battery).flatMap(([name, law]) => ("expression" in law ? [[name, law]] : []));
const value = (law: AnyFormula, symbols: Readonly<Record<string, number>>): number => evaluate(law.expression, symbols);

describe("laws of cells", () => {
  it.each(laws)("%s parses, fits its dimensions and states meaning, source and limits", (_name, law) => {
    expect(law.expression).toBeTypeOf("object");
    expect(law.meaning.length).toBeGreaterThan(20);
    expect(law.source).not.toBe("");
    expect(law.valid.every(({ low, high }) => low < high)).toBe(true);
  });

  it("currentAtRate undoes cRate", () => {
    const x = value(battery.cRate, { I: 0.3, Q: 1440 });
    expect(value(battery.currentAtRate, { x, Q: 1440 })).toBeCloseTo(0.3, 15);
  });

  it("runtimeByEnergy of a capacity at its voltage is capacity over current", () => {
    const E = value(battery.storedEnergy, { Q: 1440, V: 3.7 });
    expect(value(battery.runtimeByEnergy, { E, k: 1, eta: 1, P: 0.2 * 3.7 })).toBeCloseTo(7200, 9);
  });

  it("maximumPower is drawn at half the open-circuit voltage", () => {
    const P = value(battery.maximumPower, { V_oc: 4, R: 0.5 });
    expect(battery.constantPowerLoad.evaluate({ V_oc: 4, R: 0.5, P }).V_t).toBe(2);
    expect(value(battery.terminalVoltage, { V_oc: 4, I: 4, R: 0.5 })).toBe(2);
  });

  it("brownOutMargin is what terminalVoltage leaves above the lowest supply, and the voltage less sag without a limit", () => {
    const load = { V_oc: 3.5, R: 0.5 };
    const V_t = value(battery.terminalVoltage, { ...load, I: 0.4 });
    expect(value(battery.brownOutMargin, { ...load, I_p: 0.4, V_min: 3.1 })).toBeCloseTo(V_t - 3.1, 15);
    expect(value(battery.brownOutMargin, { ...load, I_p: 0.4, V_min: 0 })).toBe(3.5 - value(battery.sag, { I: 0.4, R: 0.5 }));
    expect(value(battery.brownOutMargin, { ...load, R: 0, I_p: 0.4, V_min: 3.5 })).toBe(0);
  });

  it("arrheniusResistance is R_0 at T_0, and doubles from 25 °C to 5 °C with 23.9 kJ/mol", () => {
    const cell = { R_0: 0.25, R_m: 8.31446261815324, T_0: 298.15 };
    expect(value(battery.arrheniusResistance, { ...cell, E_a: 3e4, T: 298.15 })).toBe(0.25);
    expect(value(battery.arrheniusResistance, { ...cell, E_a: 0, T: 278.15 })).toBe(0.25);
    // E_a = R·ln 2/(1/278.15 K − 1/298.15 K)
    const E_a = (8.31446261815324 * Math.log(2)) / (1 / 278.15 - 1 / 298.15);
    expect(E_a).toBeCloseTo(23.9e3, -2);
    expect(value(battery.arrheniusResistance, { ...cell, E_a, T: 278.15 })).toBeCloseTo(0.5, 12);
  });

  it("effectiveResistance begins with the ohmic part, ends with both, and rises as first-order steps do", () => {
    const cell = { R: 0.4, R_d: 0.5, tau: 60 };
    expect(value(battery.effectiveResistance, { ...cell, t: 0 })).toBe(0.4);
    expect(value(battery.effectiveResistance, { ...cell, t: 1e5 })).toBeCloseTo(0.9, 15);
    let drop = 0;
    for (let i = 0; i < 60_000; i++) drop += ((0.5 - drop) / 60) * 1e-3;
    expect(value(battery.effectiveResistance, { ...cell, t: 60 })).toBeCloseTo(0.4 + drop, 5);
  });

  it("pulseAverage and pulseRms are those of a steady current at a duty of 0 and 1, and agree with sums over a period", () => {
    for (const D of [0, 1]) {
      const pulse = { D, I_1: 2, I_0: 0.05 };
      expect(value(battery.pulseAverage, pulse)).toBe(D === 1 ? 2 : 0.05);
      expect(value(battery.pulseRms, pulse)).toBeCloseTo(D === 1 ? 2 : 0.05, 15);
    }
    const samples = Array.from({ length: 1000 }, (_, i) => (i < 120 ? 2 : 0.05));
    const mean = (f: (x: number) => number): number => samples.reduce((sum, x) => sum + f(x), 0) / samples.length;
    const pulse = { D: 0.12, I_1: 2, I_0: 0.05 };
    expect(value(battery.pulseAverage, pulse)).toBeCloseTo(
      mean((x) => x),
      12,
    );
    expect(value(battery.pulseRms, pulse) ** 2).toBeCloseTo(
      mean((x) => x * x),
      12,
    );
  });

  it("switchingChargeCurrent without loss passes on the power, linearChargerLoss is none at equal voltages", () => {
    const I_c = value(battery.switchingChargeCurrent, { eta: 1, V_bus: 5, I_bus: 0.5, V_cell: 4 });
    expect(I_c * 4).toBe(2.5);
    expect(value(battery.linearChargerLoss, { V_bus: 4, V_cell: 4, I: 0.5 })).toBe(0);
  });
});

describe("laws of ageing", () => {
  it("cycleLoss is the stated loss at its cycles, none at none, and even for z = 1", () => {
    const fade = { L_N: 0.16, N_0: 300 };
    expect(value(battery.cycleLoss, { ...fade, N: 300, z: 0.7 })).toBeCloseTo(0.16, 15);
    expect(value(battery.cycleLoss, { ...fade, N: 0, z: 0.7 })).toBe(0);
    expect(value(battery.cycleLoss, { ...fade, N: 150, z: 1 })).toBeCloseTo(0.08, 15);
    expect(value(battery.cycleLoss, { ...fade, N: 75, z: 0.5 })).toBeCloseTo(0.08, 15);
  });

  it("calendarLoss doubles in four times the time, and follows ageingSpeed", () => {
    const fade = { L_t: 0.04, t_0: 1 };
    expect(value(battery.calendarLoss, { ...fade, x: 1, t: 4 })).toBeCloseTo(0.08, 15);
    expect(value(battery.calendarLoss, { ...fade, x: 2, t: 1 })).toBeCloseTo(0.08, 15);
    expect(value(battery.calendarLoss, { ...fade, x: 2, t: 0 })).toBe(0);
  });

  it("ageingSpeed is 1 at T_0, about doubles for 10 K more at 53 kJ/mol, and is the inverse of the resistance's factor", () => {
    const at = { E_a: 53e3, R_m: 8.31446261815324, T_0: 298.15 };
    expect(value(battery.ageingSpeed, { ...at, T: 298.15 })).toBe(1);
    const x = value(battery.ageingSpeed, { ...at, T: 308.15 });
    expect(x).toBeCloseTo(2, 1);
    expect(value(battery.arrheniusResistance, { ...at, R_0: 1, T: 308.15 }) * x).toBeCloseTo(1, 14);
  });

  it("a cell without losses keeps its capacity to the end of the warranty, and one with them 84 % less 5 % less 3 %", () => {
    expect(value(battery.retention, { L_cyc: 0, L_cal: 0 })).toBe(1);
    expect(value(battery.usableCapacity, { Q: 1440, k_T: 1, k_age: 1, u: 0 })).toBe(1440);
    const N = value(battery.cyclesInUse, { f: 150 / 365.25 / 86_400, t: 2 * 365.25 * 86_400 });
    expect(N).toBeCloseTo(300, 10);
    const k_age = value(battery.retention, { L_cyc: value(battery.cycleLoss, { L_N: 0.16, N, N_0: 300, z: 1 }), L_cal: 0.05 });
    expect(value(battery.usableCapacity, { Q: 400, k_T: 0.86, k_age, u: 0.03 })).toBeCloseTo(400 * 0.86 * 0.79 * 0.97, 10);
  });

  it("agedResistance grows evenly with cycles", () => {
    expect(value(battery.agedResistance, { R_0: 0.25, g: 0.4, N: 0, N_0: 300 })).toBe(0.25);
    expect(value(battery.agedResistance, { R_0: 0.25, g: 0.4, N: 150, N_0: 300 })).toBeCloseTo(0.3, 15);
  });
});

describe("laws of the amplifier's supply", () => {
  const S = dB_per_mW.toSI(102);

  it("levelPower and levelCurrent give 10 µW, 0.51 mA and 19.5 mV for 82 dB SPL from 102 dB/mW and 38 Ω", () => {
    const p = dB_SPL.toSI(82);
    expect(value(battery.levelPower, { p, S })).toBeCloseTo(10e-6, 15);
    const I_rms = value(battery.levelCurrent, { p, S, Z: 38 });
    expect(I_rms).toBeCloseTo(0.513e-3, 6);
    expect(I_rms * 38).toBeCloseTo(19.5e-3, 4);
    expect(I_rms ** 2 * 38).toBeCloseTo(value(battery.levelPower, { p, S }), 15);
  });

  it("railCurrent is the quiescent current in silence, and an ideal class-B sine is 78.5 % efficient at full swing", () => {
    expect(value(battery.railCurrent, { I_q: 2.8e-3, k: 0.8, I_rms: 0 })).toBe(2.8e-3);
    const [V, Z] = [4.5, 38];
    const I_rms = V / Z / Math.SQRT2;
    const supply = { n: 1, V_r: V, I_q: 0, k: (2 * Math.SQRT2) / Math.PI, I_rms };
    expect((I_rms ** 2 * Z) / value(battery.railPower, supply)).toBeCloseTo(Math.PI / 4, 14);
  });

  it("railPower agrees with half-waves of a sampled sine taken from each rail, and amplifierHeat with what they leave", () => {
    const [n, V_r, I_q, I_rms, Z] = [2, 4.5, 2.8e-3, 20e-3, 38];
    const steps = 100_000;
    let [power, load] = [0, 0];
    for (let i = 0; i < steps; i++) {
      const I = Math.SQRT2 * I_rms * Math.sin((2 * Math.PI * (i + 0.5)) / steps);
      power += (n * V_r * (Math.max(I, 0) + Math.max(-I, 0) + 2 * I_q)) / steps;
      load += (n * I * I * Z) / steps;
    }
    const P_s = value(battery.railPower, { n, V_r, I_q, k: (2 * Math.SQRT2) / Math.PI, I_rms });
    expect(P_s).toBeCloseTo(power, 9);
    expect(P_s).toBeCloseTo(2 * n * V_r * value(battery.railCurrent, { I_q, k: (2 * Math.SQRT2) / Math.PI, I_rms }), 15);
    expect(value(battery.amplifierHeat, { P_s, n, I_rms, Z })).toBeCloseTo(power - load, 9);
  });

  it("peakCurrent of a square wave is its rms value", () => {
    expect(value(battery.peakCurrent, { C: 1, I_rms: 0.02 })).toBe(0.02);
  });
});
