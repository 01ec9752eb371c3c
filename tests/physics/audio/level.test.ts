/** Levels against the definitions of their units, sums against sampled signals, and leakage against ngspice. */
import { describe, expect, it } from "vitest";
import { evaluate } from "../../../lib/formula/evaluate";
import type { Expression } from "../../../lib/formula/expression";
import { audio } from "../../../lib/physics";
import { unitOf } from "../../../lib/units";
import { ngspicePresent, ngspiceRows } from "../ngspice";

const skip = !ngspicePresent && process.env["CI"] !== "true";
const dB = (ratio: number): number => 20 * Math.log10(ratio);

function law(formula: { readonly expression: Expression }, symbols: Readonly<Record<string, number>>): number {
  return evaluate(formula.expression, symbols);
}

describe("levels", () => {
  it("of one voltage in dBV and dBu differ by 2.2185 dB", () => {
    const V = unitOf("dBV").toSI(0);
    expect(unitOf("dBu").fromSI(V)).toBeCloseTo(2.2185, 4);
    expect(unitOf("dBV").fromSI(unitOf("dBu").toSI(4))).toBeCloseTo(1.7815, 4);
  });

  it("of signal over noise go both ways: 0.25 V over 2.5 µV is 100 dB", () => {
    const S = law(audio.signalToNoise, { V: 0.25, V_n: 2.5e-6 });
    expect(dB(S)).toBeCloseTo(100, 9);
    expect(law(audio.noiseOfRatio, { V: 0.25, S })).toBeCloseTo(2.5e-6, 15);
  });

  it("of distortion: 0.1 % is −60 dB, and goes to a voltage and back", () => {
    const V_d = law(audio.distortionVoltage, { d: 1e-3, V: 0.25 });
    expect(dB(law(audio.distortionLevel, { V_d, V: 0.25 }))).toBeCloseTo(-60, 9);
    expect(law(audio.distortionRatio, { V_d, V: 0.25 })).toBeCloseTo(1e-3, 15);
  });

  it("of bits go both ways", () => {
    expect(law(audio.effectiveBits, { S: law(audio.quantisationRatio, { N: 16 }) })).toBeCloseTo(16, 12);
    expect(dB(law(audio.quantisationRatio, { N: 17 })) - dB(law(audio.quantisationRatio, { N: 16 }))).toBeCloseTo(6.0206, 4);
  });

  it("of quantisation are those of a sine rounded to steps", () => {
    const [bits, steps] = [10, 100_003];
    let [signal, noise] = [0, 0];
    for (let n = 0; n < steps; n++) {
      const x = Math.sin((2 * Math.PI * 7 * n) / steps) * 2 ** (bits - 1);
      signal += x * x;
      noise += (Math.round(x) - x) ** 2;
    }
    expect(dB(law(audio.quantisationRatio, { N: bits }))).toBeCloseTo(10 * Math.log10(signal / noise), 0);
  });
});

describe("sums of what is not synchronous", () => {
  it("are the rms value of a sampled signal with its harmonics", () => {
    const h = [1, 0.003, 0.004, 0.0005, 0.0012];
    const steps = 1000;
    let [all, fundamental] = [0, 0];
    for (let n = 0; n < steps; n++) {
      const parts = h.map((a, i) => a * Math.sin((2 * Math.PI * (i + 1) * n) / steps + i));
      all += parts.reduce((sum, part) => sum + part, 0) ** 2;
      fundamental += (parts[0] ?? 0) ** 2;
    }
    const d = law(audio.harmonicDistortion, { h_2: 0.003, h_3: 0.004, h_4: 0.0005, h_5: 0.0012 });
    expect(d).toBeCloseTo(Math.sqrt(all / fundamental - 1), 9);
    expect(law(audio.overAll, { d_n: d })).toBeCloseTo(Math.sqrt(1 - fundamental / all), 9);
  });

  it("separate again: THD from THD+N and noise", () => {
    const noise = { V_n: 50e-6, V: 0.25 };
    const d_n = law(audio.distortionAndNoise, { d: 1e-4, ...noise });
    expect(d_n).toBeCloseTo(Math.hypot(1e-4, 2e-4), 12);
    expect(law(audio.distortionAlone, { d_n, ...noise })).toBeCloseTo(1e-4, 12);
  });

  it("make 3.01 dB more of two equal levels, 6.02 dB where they are in phase", () => {
    expect(dB(law(audio.ratioSum, { k_1: 1e-3, k_2: 1e-3 })) + 60).toBeCloseTo(3.0103, 4);
    expect(dB(law(audio.coherentSum, { k_1: 1e-3, k_2: 1e-3 })) + 60).toBeCloseTo(6.0206, 4);
    expect(law(audio.rmsSum, { V_1: 2e-6, V_2: 3e-6, V_3: 6e-6 })).toBeCloseTo(7e-6, 15);
  });
});

describe("crosstalk", () => {
  const parts = { R_g: 0.06, R_L: 38, R_o: 0.4, C_m: 2e-12, R_v: 10e3, C_v: 100e-12 };

  /** Two channels, the first driven; the coupled nodes are buffered into the outputs by sources of gain 1. */
  const netlist = [
    "* crosstalk",
    "V_1 in1 0 AC 1",
    "R_v in2 0 10k",
    "C_v in2 0 100p",
    "C_m in1 in2 2p",
    "E_1 e1 0 in1 0 1",
    "R_o1 e1 hot1 0.4",
    "R_L1 hot1 g 38",
    "E_2 e2 0 in2 0 1",
    "R_o2 e2 hot2 0.4",
    "R_L2 hot2 g 38",
    "R_g g 0 0.06",
    ".ac dec 20 20 200k",
    ".print ac vm(hot1,g) vm(hot2,g)",
    ".end",
    "",
  ].join("\n");

  it.skipIf(skip)("of a shared return and a capacitance agrees with ngspice within 0.05 dB from 20 Hz to 200 kHz", () => {
    const rows = ngspiceRows(netlist);
    expect(rows.length).toBeGreaterThan(50);
    for (const [f = 0, driven = 0, silent = 0] of rows) {
      const { X } = audio.crosstalkCurve.evaluate({ ...parts, f_1: f / 2, f_2: f * 2 });
      expect(Math.abs(dB(X.y[60] as number) - dB(silent / driven)), `${f} Hz`).toBeLessThan(0.05);
    }
  });

  it("of a shared return alone is the low end of the curve, of the capacitance alone its formula", () => {
    const { X, X_g, X_c } = audio.crosstalkCurve.evaluate({ ...parts, f_1: 20, f_2: 20e3 });
    const shared = law(audio.sharedReturnCrosstalk, { R_g: 0.06, R_L: 38, R_o: 0.4 });
    expect(X_g.y[0]).toBeCloseTo(shared, 12);
    expect(X.y[0]).toBeCloseTo(shared, 6);
    expect(X_c.y[120]).toBeCloseTo(law(audio.capacitiveCrosstalk, { f: 20e3, C_m: 2e-12, R: 10e3, C: 100e-12 }), 12);
  });

  it("rises by 20 dB a decade where it is capacitive, to the divider of the capacitances", () => {
    const at = (f: number): number => dB(law(audio.capacitiveCrosstalk, { f, C_m: 2e-12, R: 10e3, C: 100e-12 }));
    expect(at(1000) - at(100)).toBeCloseTo(20, 2);
    expect(at(1e9)).toBeCloseTo(dB(2 / 102), 3);
  });

  it("of 60 mΩ in 38 Ω is −56 dB, of 80 mΩ −53.6 dB, and the return for −55 dB lies between", () => {
    const at = (R_g: number): number => dB(law(audio.sharedReturnCrosstalk, { R_g, R_L: 38, R_o: 0 }));
    expect(at(0.06)).toBeCloseTo(-56.0, 1);
    expect(at(0.08)).toBeCloseTo(-53.55, 1);
    const R_g = law(audio.returnForCrosstalk, { X: 10 ** (-55 / 20), R_L: 38, R_o: 0 });
    expect(at(R_g)).toBeCloseTo(-55, 9);
  });
});

describe("a headphone of 102 dB/mW and 38 Ω", () => {
  it("gives 82 dB at 19.5 mV, and as many decibels per volt as its milliwatt asks for", () => {
    const S = unitOf("dB/mW").toSI(102);
    const V = law(audio.voltageForPressure, { p: unitOf("dB SPL").toSI(82), Z: 38, S });
    expect(V).toBeCloseTo(0.0195, 4);
    const perVolt = unitOf("dB/V").fromSI(law(audio.sensitivityPerVolt, { S, Z: 38 }));
    expect(perVolt).toBeCloseTo(102 + 10 * Math.log10(1000 / 38), 9);
    expect(unitOf("dB SPL").fromSI(law(audio.pressureAtPower, { P: 0.12, S }))).toBeCloseTo(122.8, 1);
  });
});
