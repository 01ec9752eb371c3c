/** Second routes of noise: closed forms of each source, the standard's table, and ngspice's .noise with and without A-weighting. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { readReferences } from "../../../lib/design/reference";
import { evaluate } from "../../../lib/formula/evaluate";
import type { Expression } from "../../../lib/formula/expression";
import type { TableNode } from "../../../lib/graph/node";
import { audio } from "../../../lib/physics";
import type { NoisyStage } from "../../../lib/physics/audio/noise";
import { weightedIntegral, weightingPoles } from "../../../lib/physics/audio/weighting";
import { boltzmann } from "../../../lib/physics/constants";
import { ngspicePresent, ngspiceRows, ngspiceValues } from "../ngspice";

const skip = !ngspicePresent && process.env["CI"] !== "true";
const T = 298.15;
const band = { f_1: 20, f_2: 20e3 };
const dB = (ratio: number): number => 20 * Math.log10(ratio);

function law(formula: { readonly expression: Expression }, symbols: Readonly<Record<string, number>>): number {
  return evaluate(formula.expression, symbols);
}

const silent: NoisyStage = { e_n: 0, f_e: 0, i_n: 0, f_i: 0, R_1: 0, C: 0, R_b: 47e3, R_f: 1e-9, R_g: 1e-9 / 4, T, f_b: 0 };
const fet: NoisyStage = { e_n: 2.7e-9, f_e: 80, i_n: 2e-15, f_i: 0, R_1: 250, C: 1e-6, R_b: 47e3, R_f: 1200, R_g: 300, T, f_b: 60e3 };
const bipolar: NoisyStage = { ...fet, e_n: 1.8e-9, f_e: 20, i_n: 1e-12, f_i: 200, R_1: 700 };

/** A noise cell of 1 Ω with 1/f noise from a bias of 1 A: density √(4·k·T·(1 + f_c/f)) V/√Hz at its node. */
function cell(name: string, f_c: number): string[] {
  return [`I_${name} 0 ${name} 1`, `R_${name} ${name} 0 m_${name} 1`, `.model m_${name} R(KF=${4 * boltzmann * T * f_c} AF=2)`];
}

/** Sections of a weighting from `out`, of 1 µΩ so that they add no noise, in order to the nodes w1, w2 and so on; gain at 1 kHz in dB. */
function weighted(name: string, highPasses: readonly number[], gain: number): string[] {
  const R = 1e-6;
  const C = (f: number): number => 1 / (2 * Math.PI * f * R);
  const f_4 = weightingPoles[3];
  return [...highPasses, f_4, f_4].flatMap((f, n) => {
    const [from, a, b, part] = [n === 0 ? "out" : `${name}${n}`, `${name}x${n}`, `${name}${n + 1}`, `${name}${n}`];
    const buffer = `E_${part} ${a} 0 ${from} 0 ${n === 0 ? 10 ** (gain / 20) : 1}`;
    return n < highPasses.length
      ? [buffer, `C_${part} ${a} ${b} ${C(f)}`, `R_${part} ${b} 0 ${R}`]
      : [buffer, `R_${part} ${a} ${b} ${R}`, `C_${part} ${b} 0 ${C(f)}`];
  });
}

/** Losses of A and C at 1 kHz, which the standard makes good: IEC 61672-1, annex E. */
const [lossA, lossC] = [1.9997, 0.0619];
const [f_1, f_2, f_3] = weightingPoles;

function circuit(stage: NoisyStage, control: readonly string[]): string {
  const unit = Math.sqrt(4 * boltzmann * T);
  return [
    "* noise of a stage",
    ".options TEMP=25 TNOM=25",
    "V_s s 0 DC 0 AC 1",
    `R_1 s r ${stage.R_1}`,
    `C_c r p ${stage.C}`,
    `R_b p 0 ${stage.R_b}`,
    ...cell("nv", stage.f_e),
    ...cell("np", stage.f_i),
    ...cell("nm", stage.f_i),
    `E_n q p nv 0 ${stage.e_n / unit}`,
    `G_p 0 p np 0 ${stage.i_n / unit}`,
    `G_m 0 m nm 0 ${stage.i_n / unit}`,
    "E_a o 0 q m 1e9",
    `R_f o m ${stage.R_f}`,
    `R_g m 0 ${stage.R_g}`,
    "E_b y 0 o 0 1",
    "R_p y out 1u",
    `C_p out 0 ${stage.f_b > 0 ? 1 / (2 * Math.PI * stage.f_b * 1e-6) : 1e-12}`,
    ...weighted("w", [f_1, f_1, f_2, f_3], lossA),
    ...weighted("c", [f_1, f_1], lossC),
    ".control",
    "set numdgt=12",
    ...control,
    "quit",
    ".endc",
    ".end",
    "",
  ].join("\n");
}

const total = (node: string): string[] => [`noise v(${node}) V_s dec 200 20 20k`, "setplot noise2", "print onoise_total"];

describe("audio.outputNoise and audio.outputNoiseA", () => {
  it.skipIf(skip).each([
    ["field-effect", fet],
    ["bipolar", bipolar],
    ["bipolar with a small coupling capacitor", { ...bipolar, C: 0.1e-6 }],
  ])("of a %s stage agree with ngspice within 0.1 %, unweighted and A-weighted", (_, stage) => {
    const plain = ngspiceValues(circuit(stage, total("out")))["onoise_total"] ?? Number.NaN;
    const heard = ngspiceValues(circuit(stage, total("w6")))["onoise_total"] ?? Number.NaN;
    const [ours, oursA] = [audio.outputNoise.evaluate({ ...band, ...stage }).V_n, audio.outputNoiseA.evaluate({ ...band, ...stage }).V_n];
    expect(Math.abs(ours / plain - 1), `${ours} V, ngspice ${plain} V`).toBeLessThan(1e-3);
    expect(Math.abs(oursA / heard - 1), `A: ${oursA} V, ngspice ${heard} V`).toBeLessThan(1e-3);
  });

  it.skipIf(skip).each([
    ["field-effect", fet],
    ["bipolar", bipolar],
    ["bipolar with a small coupling capacitor", { ...bipolar, C: 0.1e-6 }],
  ])("of a %s stage agree with ngspice within 0.1 %, C-weighted", (_, stage) => {
    const theirs = ngspiceValues(circuit(stage, total("c4")))["onoise_total"] ?? Number.NaN;
    const { V_n } = audio.outputNoiseC.evaluate({ ...band, ...stage });
    expect(Math.abs(V_n / theirs - 1), `${V_n} V, ngspice ${theirs} V`).toBeLessThan(1e-3);
    expect(V_n).toBeLessThan(audio.outputNoise.evaluate({ ...band, ...stage }).V_n);
  });

  it.skipIf(skip)("have the density of ngspice within 0.1 % from 20 Hz to 20 kHz", () => {
    const rows = ngspiceRows(circuit(bipolar, ["noise v(out) V_s dec 60 20 20k", "setplot noise1", "print onoise_spectrum"]));
    const { e_o } = audio.noiseDensityCurve.evaluate({ ...band, ...bipolar });
    expect([rows.length, e_o.x.length]).toEqual([181, 181]);
    rows.forEach(([f = 0, density = 0], i) => {
      expect((e_o.x[i] as number) / f).toBeCloseTo(1, 5);
      for (const ours of [audio.noiseDensity.evaluate({ f, ...bipolar }).e_o, e_o.y[i] as number])
        expect(Math.abs(ours / density - 1), `${f} Hz`).toBeLessThan(1e-3);
    });
  });

  it("are 2.2 µV A-weighted for 2.7 nV/√Hz, 300 Ω under 1.2 kΩ and a source of 150 Ω behind 100 Ω", () => {
    const { V_n } = audio.outputNoiseA.evaluate({ ...band, ...fet });
    expect(V_n * 1e6).toBeGreaterThan(2);
    expect(V_n * 1e6).toBeLessThan(2.4);
  });

  it("add up from their parts", () => {
    for (const model of [audio.outputNoise, audio.outputNoiseA, audio.outputNoiseC]) {
      const { V_n, V_e, V_i, V_s, V_f } = model.evaluate({ ...band, ...bipolar });
      expect(V_n).toBeCloseTo(Math.hypot(V_e, V_i, V_s, V_f), 15);
    }
  });
});

describe("each source of noise alone", () => {
  const noise = (parts: Partial<NoisyStage>) => audio.outputNoise.evaluate({ ...band, ...silent, ...parts });

  it("is the closed form of its band: voltage noise with 1/f, current noise, thermal noise", () => {
    const V_e = 5 * law(audio.flickerNoise, { e: 3e-9, f_c: 150, ...band });
    expect(noise({ e_n: 3e-9, f_e: 150 }).V_e / V_e).toBeCloseTo(1, 6);
    const e_s = law(audio.thermalNoise, { k_B: boltzmann, T, R: (1e3 * 47e3) / 48e3 });
    expect(noise({ R_1: 1e3 }).V_s / law(audio.outputNoiseVoltage, { e: e_s, G: 5, B: 19980 })).toBeCloseTo(1, 6);
    const e_p = law(audio.thermalNoise, { k_B: boltzmann, T, R: 240 });
    expect(noise({ R_f: 1200, R_g: 300 }).V_f / law(audio.outputNoiseVoltage, { e: e_p, G: 5, B: 19980 })).toBeCloseTo(1, 6);
    const Z = (1e3 * 47e3) / 48e3;
    expect(noise({ i_n: 1e-12, R_1: 1e3, R_f: 1200, R_g: 300 }).V_i / (1e-12 * Math.hypot(5 * Z, 1200) * Math.sqrt(19980))).toBeCloseTo(
      1,
      6,
    );
  });

  it("together are the density that a formula gives at the input", () => {
    const parts = { e_n: 5e-9, i_n: 0.6e-12, R_1: 1e3, R_b: 1e15, R_f: 4700, R_g: 1000 };
    const e = law(audio.inputNoise, { e_n: 5e-9, i_n: 0.6e-12, R_s: 1e3, R_p: 4.7e6 / 5.7e3, k_B: boltzmann, T });
    expect(audio.noiseDensity.evaluate({ f: 1e3, ...silent, ...parts }).e_i / e).toBeCloseTo(1, 9);
    expect(law(audio.densityForNoise, { V: noise(parts).V_n, G: 5.7, B: 19980 }) / e).toBeCloseTo(1, 6);
  });

  it("is that of R_b alone behind an open source, and √(k·T/C) over all frequencies behind a shorted one", () => {
    const open = audio.outputNoise.evaluate({ ...silent, R_1: 1e15, C: 1e-6, R_b: 1e3, ...band }).V_s;
    expect(open / (5 * law(audio.thermalNoise, { k_B: boltzmann, T, R: 1e3 }) * Math.sqrt(19980))).toBeCloseTo(1, 6);
    const shorted = audio.outputNoise.evaluate({ ...silent, R_1: 0, C: 1e-6, R_b: 1e3, f_1: 1e-3, f_2: 1e8 }).V_s;
    expect(shorted / (5 * Math.sqrt((boltzmann * T) / 1e-6))).toBeCloseTo(1, 4);
  });

  it("behind a corner of first order has π/2 times that corner for its bandwidth", () => {
    const { V_e } = audio.outputNoise.evaluate({ ...silent, e_n: 1e-9, f_b: 1e3, f_1: 1e-2, f_2: 1e8 });
    expect(V_e / (5 * law(audio.noiseVoltage, { e: 1e-9, B: law(audio.noiseBandwidth, { f_c: 1e3 }) }))).toBeCloseTo(1, 3);
  });
});

function weightingTable(name: "a" | "c"): TableNode {
  const file = `${name}-weighting.yaml`;
  const read = readReferences({ [file]: readFileSync(new URL(`../../../data/reference/${file}`, import.meta.url), "utf8") });
  return read.nodes.get(`reference.${name}-weighting`) as TableNode;
}

describe("audio.weighting", () => {
  it.each(["a", "c"] as const)("gives the values of the standard's table of %s within its rounding, at the exact frequencies", (name) => {
    const table = weightingTable(name);
    expect(table.x.length).toBe(34);
    table.x.forEach((f, i) => {
      expect(f / 10 ** (1 + i / 10)).toBeCloseTo(1, 4);
      const { A, C } = audio.weighting.evaluate({ f });
      expect(Math.abs(dB(name === "a" ? A : C) - dB(table.y[i] as number)), `${f} Hz`).toBeLessThan(0.0502);
    });
  });

  it.each(["a", "c"] as const)("over a band has the rows of the standard's table of %s at every fifth point", (name) => {
    const { x, y } = weightingTable(name);
    // Five points to a third of an octave
    const curves = audio.weightingCurve.evaluate({ f_1: 10, f_2: 10 ** 4.6 });
    const curve = name === "a" ? curves.A : curves.C;
    x.forEach((f, i) => {
      expect((curve.x[5 * i] as number) / f).toBeCloseTo(1, 4);
      expect(Math.abs(dB(curve.y[5 * i] as number) - dB(y[i] as number)), `${f} Hz`).toBeLessThan(0.0502);
    });
  });

  it("has the poles that the standard derives", () => {
    const [f_R, f_L, f_H, f_A, D] = [1000, 10 ** 1.5, 10 ** 3.9, 10 ** 2.45, Math.SQRT1_2];
    const c = f_L ** 2 * f_H ** 2;
    const b = (f_R ** 2 + c / f_R ** 2 - D * (f_L ** 2 + f_H ** 2)) / (1 - D);
    const root = Math.sqrt(b * b - 4 * c);
    const derived = [
      Math.sqrt((-b - root) / 2),
      ((3 - Math.sqrt(5)) / 2) * f_A,
      ((3 + Math.sqrt(5)) / 2) * f_A,
      Math.sqrt((-b + root) / 2),
    ];
    weightingPoles.forEach((pole, i) => {
      expect(pole / (derived[i] as number)).toBeCloseTo(1, 6);
    });
  });

  it("is 0 dB at 1 kHz, always in Z, and the same on its curve", () => {
    for (const weight of Object.values(audio.weighting.evaluate({ f: 1e3 }))) expect(weight).toBeCloseTo(1, 12);
    expect(audio.weighting.evaluate({ f: 31.5 }).Z).toBe(1);
    const { A, C } = audio.weightingCurve.evaluate(band);
    expect([A.y[180], C.y[180]]).toEqual([audio.weighting.evaluate({ f: 20e3 }).A, audio.weighting.evaluate({ f: 20e3 }).C]);
  });

  it("leaves a band of 12.47 kHz of white noise under A, by a sum over every hertz", () => {
    let [sum, sumC] = [0, 0];
    for (let f = 20.5; f < 20e3; f++) {
      const { A, C } = audio.weighting.evaluate({ f });
      sum += A * A;
      sumC += C * C;
    }
    const { B_A, B_C, L_C } = audio.weightedBandwidth.evaluate(band);
    expect(B_A / sum).toBeCloseTo(1, 6);
    expect(B_C / sumC).toBeCloseTo(1, 5);
    expect(L_C).toBeCloseTo(Math.sqrt(sumC / 19980), 5);
  });

  it("integrates powers of f exactly enough", () => {
    expect(weightedIntegral((f) => f, "Z", 20, 20e3) / ((4e8 - 400) / 2)).toBeCloseTo(1, 6);
    expect(weightedIntegral((f) => 1 / f, "Z", 20, 20e3)).toBeCloseTo(Math.log(1000), 9);
  });
});
