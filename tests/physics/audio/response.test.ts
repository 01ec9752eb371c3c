/** The second route of a chain: ngspice on RC, RLC and controlled sources; differences for group delay; closed forms for corners. */
import { describe, expect, it } from "vitest";
import { type CurveResult, curveArgument } from "../../../lib/graph/model";
import { audio } from "../../../lib/physics";
import { type ChainParts, chainDelay, chainGain, chainPhase, chainSections } from "../../../lib/physics/audio/response";
import { ngspicePresent, ngspiceRows } from "../ngspice";

const skip = !ngspicePresent && process.env["CI"] !== "true";
const none: ChainParts = { f_h1: 0, f_h2: 0, f_h3: 0, f_l1: 0, f_l2: 0, f_l3: 0, f_h0: 0, Q_h: 1, f_l0: 0, Q_l: 1, f_p: 0, f_z: 0 };
const whole: ChainParts = {
  f_h1: 3.4,
  f_h2: 0.5,
  f_h3: 12,
  f_l1: 80e3,
  f_l2: 250e3,
  f_l3: 1.2e6,
  f_h0: 7,
  Q_h: 0.9,
  f_l0: 120e3,
  Q_l: 2.5,
  f_p: 60e3,
  f_z: 300e3,
};
const dB = (ratio: number): number => 20 * Math.log10(ratio);
const pi2 = 2 * Math.PI;

type Readable = ReturnType<typeof curveArgument>;
function readable({ x, y, interpolation = "linear" }: CurveResult): Readable {
  return curveArgument({ x: Float64Array.from(x), y: Float64Array.from(y), interpolation });
}

/** Each section from node `in` to node `out`, behind a buffer of its own. */
function sections(parts: ChainParts): readonly ((a: string, b: string, n: number) => string[])[] {
  const first = (high: boolean, f: number) => (a: string, b: string, n: number) =>
    high ? [`C${n} ${a} ${b} ${1 / (pi2 * f)}`, `R${n} ${b} 0 1`] : [`R${n} ${a} ${b} 1`, `C${n} ${b} 0 ${1 / (pi2 * f)}`];
  // R across the shunt part: Q = R·√(C/L), with √(L/C) = 1 Ω
  const second = (high: boolean, f: number, Q: number) => (a: string, b: string, n: number) => {
    const [C, L] = [`C${n} ${high ? `${a} ${b}` : `${b} 0`} ${1 / (pi2 * f)}`, `L${n} ${high ? `${b} 0` : `${a} ${b}`} ${1 / (pi2 * f)}`];
    return [C, L, `R${n} ${b} 0 ${Q}`];
  };
  // R_1 from a to b, R_2 + C to ground: zero 1/(2π·R_2·C), pole 1/(2π·(R_1 + R_2)·C)
  const shelf = (f_p: number, f_z: number) => (a: string, b: string, n: number) => [
    `R${n} ${a} ${b} ${f_z / f_p - 1}`,
    `R${n}s ${b} s${n} 1`,
    `C${n} s${n} 0 ${1 / (pi2 * f_z)}`,
  ];
  return [
    ...[parts.f_h1, parts.f_h2, parts.f_h3].map((f) => first(true, f)),
    ...[parts.f_l1, parts.f_l2, parts.f_l3].map((f) => first(false, f)),
    second(true, parts.f_h0, parts.Q_h),
    second(false, parts.f_l0, parts.Q_l),
    shelf(parts.f_p, parts.f_z),
  ];
}

function netlist(parts: ChainParts, perDecade = 20): string {
  const cards = sections(parts).flatMap((section, n) => [
    `E${n} a${n} 0 ${n === 0 ? "in" : `b${n - 1}`} 0 1`,
    ...section(`a${n}`, `b${n}`, n),
  ]);
  return ["* chain", "V_in in 0 AC 1", ...cards, `.ac dec ${perDecade} 1 1meg`, ".print ac vr(b8) vi(b8)", ".end", ""].join("\n");
}

describe("audio.response", () => {
  it.skipIf(skip)("agrees with ngspice on a chain of all sections within 0.01 dB and 0.01°, from 1 Hz to 1 MHz", () => {
    const rows = ngspiceRows(netlist(whole));
    expect(rows.length).toBeGreaterThanOrEqual(100);
    for (const [f = 0, re = 0, im = 0] of rows) {
      const { H, phi } = audio.response.evaluate({ f, ...whole });
      expect(Math.abs(dB(H) - dB(Math.hypot(re, im))), `${f} Hz`).toBeLessThan(0.01);
      const turns = (phi - Math.atan2(im, re)) / pi2;
      expect(Math.abs(turns - Math.round(turns)) * 360, `phase at ${f} Hz`).toBeLessThan(0.01);
    }
  });

  it.skipIf(skip)("over a band agrees with ngspice within 0.05 dB and 0.05°: gain, phase, and the delay by what the phase loses", () => {
    const rows = ngspiceRows(netlist(whole, 40));
    const curves = audio.responseCurve.evaluate({ f_1: 0.999, f_2: 1.001e6, ...whole });
    const [H, phi, tau] = [curves.H, curves.phi, curves.tau].map(readable) as [Readable, Readable, Readable];
    expect(rows.length).toBe(241);
    const turned = (i: number): number => Math.atan2(rows[i]?.[2] ?? 0, rows[i]?.[1] ?? 0);
    rows.forEach(([f = 0, re = 0, im = 0], i) => {
      expect(Math.abs(dB(H.at(f)) - dB(Math.hypot(re, im))), `${f} Hz`).toBeLessThan(0.05);
      const turns = (phi.at(f) - turned(i)) / pi2;
      expect(Math.abs(turns - Math.round(turns)) * 360, `phase at ${f} Hz`).toBeLessThan(0.05);
    });
    // Simpson's rule in ln f over two intervals
    for (let i = 0; i + 2 < rows.length; i += 2) {
      const way = (k: number): number => pi2 * (rows[k]?.[0] ?? 0) * tau.at(rows[k]?.[0] ?? 0);
      const lost = ((way(i) + 4 * way(i + 1) + way(i + 2)) * Math.log(1e6)) / 240 / 3;
      const turns = (lost - turned(i) + turned(i + 2)) / pi2;
      expect(Math.abs(turns - Math.round(turns)) * 360, `delay about ${rows[i + 1]?.[0]} Hz`).toBeLessThan(0.05);
    }
  });

  it.each([3, 10, 40])("over a band reaches the peak of a low-pass of Q = %d, Q/√(1 − 1/(4·Q²))", (Q_l) => {
    const { H } = audio.responseCurve.evaluate({ f_1: 1, f_2: 1.1e6, ...none, f_l0: 120e3, Q_l });
    expect(Math.max(...Array.from(H.y)) / (Q_l / Math.sqrt(1 - 1 / (4 * Q_l * Q_l)))).toBeCloseTo(1, 5);
  });

  it("has the group delay −dφ/dω of its phase, section by section", () => {
    const each: readonly Partial<ChainParts>[] = [
      { f_h1: 3.4 },
      { f_l1: 80e3 },
      { f_h0: 7, Q_h: 0.9 },
      { f_l0: 120e3, Q_l: 2.5 },
      { f_p: 60e3, f_z: 300e3 },
    ];
    for (const parts of [...each, whole]) {
      const chain = chainSections({ ...none, ...parts });
      for (const f of [2, 6.9, 40, 1e3, 20e3, 119e3, 500e3]) {
        const step = f * 1e-4;
        const slope = (chainPhase(chain, f - step) - chainPhase(chain, f + step)) / (pi2 * 2 * step);
        expect(Math.abs(chainDelay(chain, f) / slope - 1), `${JSON.stringify(parts)} at ${f} Hz`).toBeLessThan(1e-5);
      }
    }
  });

  it("does not break the phase at ±180°: it goes from +450° to −450° by steps below 60°", () => {
    const { phi } = audio.responseCurve.evaluate({ f_1: 1e-3, f_2: 1e9, ...whole });
    const values = Array.from(phi.y, (value) => (value * 180) / Math.PI);
    expect(values[0]).toBeCloseTo(450, 0);
    expect(values.at(-1)).toBeCloseTo(-450, 0);
    expect(Math.max(...values.slice(1).map((value, i) => Math.abs(value - (values[i] as number))))).toBeLessThan(60);
  });

  it("is 1 without any section, and the same on the curve as at a frequency", () => {
    expect(audio.response.evaluate({ f: 1e3, ...none })).toEqual({ H: 1, phi: 0, tau: 0 });
    const curve = audio.responseCurve.evaluate({ f_1: 20, f_2: 20e3, ...whole });
    const { H, phi, tau } = audio.response.evaluate({ f: 20e3, ...whole });
    expect([curve.H, curve.phi, curve.tau].map(({ y }) => Array.from(y).at(-1))).toEqual([H, phi, tau]);
  });

  it("refuses what is no section", () => {
    expect(() => chainSections({ ...none, f_h1: -1 })).toThrow("a corner is above 0 Hz");
    expect(() => chainSections({ ...none, f_l0: 1e3, Q_l: 0 })).toThrow("needs Q > 0");
    expect(() => chainSections({ ...none, f_p: 60e3 })).toThrow("a shelf needs both f_p and f_z");
  });
});

describe("audio.lowCorner and audio.highCorner", () => {
  const low = (parts: Partial<ChainParts>): number => audio.lowCorner.evaluate({ ...none, ...parts, f_r: 1e3 }).f_c;
  const high = (parts: Partial<ChainParts>): number => audio.highCorner.evaluate({ ...none, ...parts, f_r: 1e3 }).f_c;
  const narrowed = Math.sqrt(Math.SQRT2 - 1);

  it("are the corner of one section, and those of two equal ones narrowed by √(√2 − 1)", () => {
    // The gain at 1 kHz is itself a little below 1
    expect(low({ f_h1: 2 }) / 2).toBeCloseTo(1, 4);
    expect(high({ f_l1: 500e3 }) / 500e3).toBeCloseTo(1, 4);
    expect(low({ f_h1: 2, f_h2: 2 }) / (2 / narrowed)).toBeCloseTo(1, 4);
    expect(high({ f_l1: 500e3, f_l2: 500e3 }) / (500e3 * narrowed)).toBeCloseTo(1, 4);
    expect(high({ f_l0: 100e3, Q_l: Math.SQRT1_2 }) / 100e3).toBeCloseTo(1, 6);
    expect(low({ f_h0: 10, Q_h: Math.SQRT1_2 }) / 10).toBeCloseTo(1, 6);
  });

  it("have lost 3.01 dB from the reference", () => {
    const chain = chainSections(whole);
    const reference = dB(chainGain(chain, 1e3));
    expect(dB(chainGain(chain, low(whole))) - reference).toBeCloseTo(-3.0103, 4);
    expect(dB(chainGain(chain, high(whole))) - reference).toBeCloseTo(-3.0103, 4);
  });

  it("are an error where there is none", () => {
    expect(() => low({ f_l1: 80e3 })).toThrow("the chain has no high-pass, so it has no lower corner");
    expect(() => high({ f_h1: 2 })).toThrow(expect.objectContaining({ code: "curve-crossing" }));
  });
});
