/** Second routes of gain and offset: every corner of the tolerances, and ngspice on the amplifier with its bias currents. */
import { describe, expect, it } from "vitest";
import { evaluate } from "../../../lib/formula/evaluate";
import type { Expression } from "../../../lib/formula/expression";
import { audio } from "../../../lib/physics";
import { ngspicePresent, ngspiceValues } from "../ngspice";

const skip = !ngspicePresent && process.env["CI"] !== "true";
const dB = (ratio: number): number => 20 * Math.log10(ratio);

function law(formula: { readonly expression: Expression }, symbols: Readonly<Record<string, number>>): number {
  return evaluate(formula.expression, symbols);
}

interface Bias {
  readonly V_os: number;
  readonly I_b: number;
  readonly I_os: number;
  readonly R_s: number;
  readonly R_f: number;
  readonly R_g: number;
}

/** Direct voltage at the output of an amplifier into whose inputs the bias currents flow: sources that draw them from the nodes, to ground. */
function solved({ V_os, I_b, I_os, R_s, R_f, R_g }: Bias): number {
  const netlist = [
    "* offset",
    `R_s p 0 ${R_s}`,
    `I_p p 0 ${I_b + I_os / 2}`,
    `V_os q p ${V_os}`,
    "E_a out 0 q m 1e9",
    `R_f out m ${R_f}`,
    `R_g m 0 ${R_g}`,
    `I_m m 0 ${I_b - I_os / 2}`,
    ".control",
    "set numdgt=12",
    "op",
    "print v(out)",
    "quit",
    ".endc",
    ".end",
    "",
  ].join("\n");
  return ngspiceValues(netlist)["v(out)"] ?? Number.NaN;
}

describe("audio.outputOffset", () => {
  const fet: Bias = { V_os: 0.2e-3, I_b: 200e-12, I_os: 100e-12, R_s: 47e3, R_f: 1200, R_g: 300 };
  const bipolar: Bias = { V_os: -0.1e-3, I_b: 300e-9, I_os: -30e-9, R_s: 47e3, R_f: 1200, R_g: 300 };
  const balanced: Bias = { V_os: 0, I_b: 300e-9, I_os: 0, R_s: 240, R_f: 1200, R_g: 300 };
  const G = law(audio.nonInvertingGain, { R_f: 1200, R_g: 300 });
  const ours = ({ R_g: _, ...bias }: Bias): number => law(audio.outputOffset, { ...bias, G });

  it.skipIf(skip).each([
    ["field-effect", fet],
    ["bipolar", bipolar],
    ["balanced", balanced],
  ])("agrees with ngspice on a %s input within 1 nV", (_, bias) => {
    expect(Math.abs(ours(bias) - solved(bias))).toBeLessThan(1e-9 + 1e-8 * Math.abs(ours(bias)));
  });

  it("makes −70 mV of 300 nA through 47 kΩ and a gain of 5, and 0.95 mV of 0.2 mV and 200 pA", () => {
    expect(ours({ ...bipolar, V_os: 0, I_os: 0 })).toBeCloseTo(-0.0701, 3);
    expect(ours({ ...fet, I_os: 0 })).toBeCloseTo(0.9532e-3, 6);
  });

  it("is below zero where current flows into the non-inverting input alone, above where into the inverting one alone", () => {
    // I_os = ±2·I_b leaves one input with 2·I_b and the other with none
    const one = { ...bipolar, V_os: 0, I_b: 1e-7 };
    expect(ours({ ...one, I_os: 2e-7 })).toBeCloseTo(-2e-7 * 47e3 * G, 12);
    expect(ours({ ...one, I_os: -2e-7 })).toBeCloseTo(2e-7 * 1200, 12);
  });

  it("has no part of the bias current where both inputs see the same resistance", () => {
    expect(law(audio.balancingResistance, { R_f: 1200, G })).toBeCloseTo(240, 12);
    expect(ours(balanced)).toBeCloseTo(0, 15);
  });

  it("is never above audio.greatestOffset, which one choice of signs reaches", () => {
    for (const { R_g: _, ...bias } of [fet, bipolar, balanced]) {
      const size = { V_os: Math.abs(bias.V_os), I_b: bias.I_b, I_os: Math.abs(bias.I_os) };
      const all = [-1, 1].flatMap((a) => [-1, 1].flatMap((b) => [-1, 1].map((c) => [a, b, c] as const)));
      const each = all.map(([a, b, c]) =>
        Math.abs(law(audio.outputOffset, { ...bias, G, V_os: a * size.V_os, I_b: b * size.I_b, I_os: c * size.I_os })),
      );
      expect(law(audio.greatestOffset, { ...bias, ...size, G })).toBeCloseTo(Math.max(...each), 12);
    }
  });

  it("drifts with temperature", () => {
    expect(law(audio.offsetAtTemperature, { V_os: 150e-6, a: 1e-6, dT: 20 })).toBeCloseTo(170e-6, 12);
  });
});

describe("the gain of a stage", () => {
  const corners = [-1, 1].flatMap((f) => [-1, 1].map((g) => [f, g] as const));

  it.each([0.01, 0.005, 0.001])("has its extremes and its mismatch at corners of the tolerance %d", (t) => {
    const gains = corners.map(([f, g]) => 1 + (1200 * (1 + f * t)) / (300 * (1 + g * t)));
    const [least, greatest] = [Math.min(...gains), Math.max(...gains)];
    const parts = { R_f: 1200, R_g: 300, t };
    expect(law(audio.greatestGain, parts)).toBeCloseTo(greatest, 12);
    expect(law(audio.leastGain, parts)).toBeCloseTo(least, 12);
    expect(law(audio.greatestMismatch, parts)).toBeCloseTo(greatest / least, 12);
    expect(law(audio.channelMatch, { G_1: greatest, G_2: least })).toBeCloseTo(greatest / least, 12);
    const turned = corners.map(([f, g]) => (1 + f * t) / (1 + g * t));
    expect(law(audio.greatestInvertingMismatch, { t })).toBeCloseTo(Math.max(...turned) / Math.min(...turned), 12);
  });

  it("of 5 with resistors of 1 % spans 13.84 dB to 14.12 dB, and two channels differ by 0.28 dB at most", () => {
    const parts = { R_f: 1200, R_g: 300, t: 0.01 };
    expect(dB(law(audio.leastGain, parts))).toBeCloseTo(13.84, 2);
    expect(dB(law(audio.greatestGain, parts))).toBeCloseTo(14.12, 2);
    expect(dB(law(audio.greatestMismatch, parts))).toBeCloseTo(0.278, 3);
  });

  it("follows one resistor by the share 1 − 1/G", () => {
    const step = 1e-6;
    const slope = (law(audio.nonInvertingGain, { R_f: 1200 * (1 + step), R_g: 300 }) / 5 - 1) / step;
    expect(law(audio.toleranceShare, { G: 5 })).toBeCloseTo(slope, 6);
  });

  it("is less by what source, load and loop gain cost, and whole where they are ideal", () => {
    expect(dB(law(audio.inputLoading, { R_i: 47e3, R_s: 1e3 }))).toBeCloseTo(-0.183, 3);
    expect(dB(law(audio.outputLoading, { R_L: 38, R_o: 0.6 }))).toBeCloseTo(-0.136, 3);
    expect(dB(law(audio.chainGain, { G: 5, R_i: 47e3, R_s: 1e3, R_L: 38, R_o: 0.6 }))).toBeCloseTo(13.979 - 0.183 - 0.136, 2);
    expect(law(audio.chainGain, { G: 5, R_i: 1e15, R_s: 0, R_L: 38, R_o: 0 })).toBeCloseTo(5, 12);
    expect(law(audio.finiteLoopGain, { G: 5, A: 500 })).toBeCloseTo(1 / (1 / 5 + 1 / 500), 12);
    expect(law(audio.invertingGain, { R_f: 10e3, R_g: 2e3 })).toBe(5);
  });

  it("ends at the gain-bandwidth product over the noise gain, and at the slew rate", () => {
    expect(law(audio.closedLoopCorner, { f_t: 10e6, G: 5 })).toBe(2e6);
    const S = law(audio.slewRate, { f: 20e3, V_p: 3 });
    expect(law(audio.fullPowerBandwidth, { S, V_p: 3 })).toBeCloseTo(20e3, 8);
  });
});

describe("corners", () => {
  it("of a coupling capacitor and of cable capacitance have the impedances of their places", () => {
    const f_c = law(audio.highPassCorner, { R_s: 150, R_i: 47e3, C: 1e-6 });
    expect(f_c).toBeCloseTo(3.3755, 3);
    expect(law(audio.couplingCapacitor, { R_s: 150, R_i: 47e3, f_c })).toBeCloseTo(1e-6, 15);
    const low = law(audio.lowPassCorner, { R_s: 600, R_i: 47e3, C: 200e-12 });
    expect(2 * Math.PI * low * 200e-12 * (1 / (1 / 600 + 1 / 47e3))).toBeCloseTo(1, 12);
  });

  it("of a feedback capacitor: the gain falls from its corner to its zero, which is as many times higher as the gain", () => {
    const parts = { R_f: 1200, R_g: 300, C_f: 1e-9 };
    const f_p = law(audio.feedbackCorner, { R_f: 1200, C_f: 1e-9 });
    expect(law(audio.feedbackZero, parts) / f_p).toBeCloseTo(5, 12);
  });

  it("cost 3.01 dB and turn by 45°", () => {
    expect(dB(law(audio.highPassLevel, { f_c: 20, f: 20 }))).toBeCloseTo(-3.0103, 4);
    expect(dB(law(audio.lowPassLevel, { f_c: 20, f: 20 }))).toBeCloseTo(-3.0103, 4);
    expect(law(audio.highPassPhase, { f_c: 20, f: 20 })).toBeCloseTo(Math.PI / 4, 12);
    expect(law(audio.lowPassPhase, { f_c: 20, f: 20 })).toBeCloseTo(-Math.PI / 4, 12);
  });
});
