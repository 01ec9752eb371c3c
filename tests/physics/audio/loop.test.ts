/** The second route of an amplifier's loop: ngspice with controlled sources and RC poles, broken for loop gain, closed for impedance. */
import { describe, expect, it } from "vitest";
import { evaluate } from "../../../lib/formula/evaluate";
import { audio } from "../../../lib/physics";
import { ngspicePresent, ngspiceRows } from "../ngspice";

const skip = !ngspicePresent && process.env["CI"] !== "true";
const loop = { A_0: 1e6, f_t: 10e6, f_p2: 25e6, R_o: 34.7, G: 5 };

type Loop = typeof loop;
interface Load {
  readonly R_i: number;
  readonly R_L: number;
  readonly C_L: number;
}

/** The amplifier from the difference of p and m to `amp`, behind its output resistance. */
function amplifier({ A_0, f_t, f_p2, R_o }: Loop): string[] {
  const pole = (f: number): string => `${1 / (2 * Math.PI * f)}`;
  return [
    `E_a a 0 p m ${A_0}`,
    "R_a a b 1",
    `C_a b 0 ${pole(f_t / A_0)}`,
    "E_b c 0 b 0 1",
    "R_b c d 1",
    `C_b d 0 ${pole(f_p2)}`,
    "E_o e 0 d 0 1",
    `R_o e amp ${R_o}`,
  ];
}

function broken(given: Loop, { R_i, R_L, C_L }: Load, from: number, to: number): string {
  return [
    "* loop gain",
    "V_in p 0 AC 1",
    "V_m m 0 0",
    ...amplifier(given),
    `R_i amp out ${R_i}`,
    `R_L out 0 ${R_L}`,
    `C_L out 0 ${C_L}`,
    `E_t t 0 amp 0 ${1 / given.G}`,
    `.ac dec 400 ${from} ${to}`,
    ".print ac vr(t) vi(t)",
    ".end",
    "",
  ].join("\n");
}

/** The closed loop driven by 1 A from the load's end of L_f and R_s. */
function damped(given: Loop, L_f: number, R_s: number): string {
  return [
    "* what a load sees",
    "V_in p 0 0",
    ...amplifier(given),
    `E_f m 0 amp 0 ${1 / given.G}`,
    `L_f amp x ${L_f}`,
    `R_s x load ${R_s}`,
    "I_x 0 load AC 1",
    ".ac dec 40 20 20k",
    ".print ac vr(load) vi(load)",
    ".end",
    "",
  ].join("\n");
}

function closed(given: Loop): string {
  return [
    "* output impedance",
    "V_in p 0 0",
    ...amplifier(given),
    `E_f m 0 amp 0 ${1 / given.G}`,
    "I_x 0 amp AC 1",
    ".ac dec 20 10 100k",
    ".print ac vr(amp) vi(amp)",
    ".end",
    "",
  ].join("\n");
}

/** Crossover and phase margin of printed rows, by straight lines in ln f. */
function crossing(rows: readonly (readonly number[])[]): { readonly f: number; readonly margin: number } {
  const points = rows.map(([f = 0, re = 0, im = 0]) => ({ f, gain: Math.log(Math.hypot(re, im)), phase: Math.atan2(im, re) }));
  const i = points.findIndex(({ gain }) => gain < 0);
  const [a, b] = [points[i - 1], points[i]];
  if (a === undefined || b === undefined) throw new Error("no crossing");
  const share = a.gain / (a.gain - b.gain);
  return { f: a.f * (b.f / a.f) ** share, margin: Math.PI + a.phase + share * (b.phase - a.phase) };
}

const loads: readonly (readonly [string, Load])[] = [
  ["1 nF", { R_i: 0.001, R_L: 38, C_L: 1e-9 }],
  ["1 nF without a headphone", { R_i: 0.001, R_L: 600, C_L: 1e-9 }],
  ["10 nF without a headphone", { R_i: 0.001, R_L: 600, C_L: 10e-9 }],
  ["100 nF behind 10 Ω", { R_i: 10, R_L: 600, C_L: 100e-9 }],
  ["10 nF behind 47 Ω", { R_i: 47, R_L: 600, C_L: 10e-9 }],
];

describe("audio.capacitiveLoad", () => {
  it.skipIf(skip).each(loads)("agrees with ngspice on %s: crossover within 0.1 %, phase margin within 0.1°", (_, load) => {
    const theirs = crossing(ngspiceRows(broken(loop, load, 1e4, 2e7)));
    const { f_x, phi } = audio.capacitiveLoad.evaluate({ ...loop, ...load });
    expect(Math.abs(f_x / theirs.f - 1), `${f_x} Hz, ngspice ${theirs.f} Hz`).toBeLessThan(1e-3);
    expect(Math.abs(phi - theirs.margin) * (180 / Math.PI)).toBeLessThan(0.1);
  });

  it.skipIf(skip)("gives the loop gain and its phase over a band within 0.01 dB and 0.1°", () => {
    const load = { R_i: 10, R_L: 600, C_L: 100e-9 };
    for (const [f = 0, re = 0, im = 0] of ngspiceRows(broken(loop, load, 1e4, 2e7)).filter((_, i) => i % 20 === 0)) {
      const { T, phi } = audio.loopGainCurve.evaluate({ ...loop, ...load, f_1: f / 2, f_2: f * 2 });
      expect(Math.abs(20 * Math.log10((T.y[60] as number) / Math.hypot(re, im)))).toBeLessThan(0.01);
      const turn = (phi.y[60] as number) - Math.atan2(im, re);
      expect(Math.abs(turn - 2 * Math.PI * Math.round(turn / (2 * Math.PI)))).toBeLessThan(2e-3);
    }
  });

  it("leaves 90° without capacitance and second pole, at the gain-bandwidth product over the noise gain", () => {
    const { f_x, phi } = audio.capacitiveLoad.evaluate({ A_0: 1e6, f_t: 10e6, f_p2: 0, R_o: 0, G: 5, R_i: 0, R_L: 600, C_L: 1e-15 });
    expect(f_x).toBeCloseTo(2e6, 2);
    expect(phi).toBeCloseTo(Math.PI / 2, 4);
  });

  it("has the margin of two poles in closed form: tan φ = p/ω_x with ω_x² = p²/2·(√(1 + 4·K²/p²) − 1)", () => {
    const [f_t, R_o, C_L] = [10e6, 30, 10e-9];
    const { f_x, phi } = audio.capacitiveLoad.evaluate({ A_0: 1e9, f_t, f_p2: 0, R_o, G: 5, R_i: 0, R_L: 1e12, C_L });
    const [K, p] = [f_t / 5, 1 / (2 * Math.PI * R_o * C_L)];
    const square = ((p * p) / 2) * (Math.sqrt(1 + (4 * K * K) / (p * p)) - 1);
    expect(f_x / Math.sqrt(square)).toBeCloseTo(1, 6);
    expect(phi).toBeCloseTo(Math.atan(p / Math.sqrt(square)), 5);
  });

  it("loses margin with capacitance, and gains it back with the isolating resistor", () => {
    const margin = (C_L: number, R_i: number): number => audio.capacitiveLoad.evaluate({ ...loop, R_L: 600, C_L, R_i }).phi;
    const grown = [0.1e-9, 1e-9, 10e-9].map((C_L) => margin(C_L, 0));
    expect(grown).toEqual([...grown].sort((a, b) => b - a));
    expect(margin(10e-9, 22)).toBeGreaterThan(margin(10e-9, 0) + 0.5);
    expect(evaluate(audio.isolationZero.expression, { R_i: 22, C_L: 10e-9 })).toBeCloseTo(723431.6, 0);
  });

  it("refuses a loop whose gain never reaches 1", () => {
    const dead = { ...loop, A_0: 2, R_i: 0, R_L: 8, C_L: 1e-9 };
    expect(() => audio.capacitiveLoad.evaluate(dead)).toThrow(expect.objectContaining({ code: "curve-crossing" }));
  });
});

describe("audio.outputImpedance", () => {
  it.skipIf(skip)("agrees with ngspice's closed loop within 0.1 %", () => {
    for (const [f = 0, re = 0, im = 0] of ngspiceRows(closed(loop))) {
      const { Z, R, X } = audio.outputImpedance.evaluate({ f, ...loop });
      expect(Math.abs(Z / Math.hypot(re, im) - 1)).toBeLessThan(1e-3);
      expect(Math.hypot(R - re, X - im) / Z).toBeLessThan(2e-3);
    }
  });

  it("is R_o/(1 + A_0/G) at low frequencies, and an inductance of R_o·G/(2π·f_t) in between", () => {
    const low = audio.outputImpedance.evaluate({ f: 0, ...loop });
    expect(low.Z).toBeCloseTo(evaluate(audio.closedLoopResistance.expression, { R_o: 34.7, A: 1e6, G: 5 }), 15);
    const { X } = audio.outputImpedance.evaluate({ f: 20e3, ...loop, f_p2: 0 });
    expect(X / (20e3 * ((34.7 * 5) / 10e6))).toBeCloseTo(1, 3);
  });

  it("leaves a third of an ohm at 20 kHz, and its damping factor falls with frequency", () => {
    const { Z } = audio.outputImpedance.evaluate({ f: 20e3, ...loop });
    expect(Z).toBeCloseTo(0.347, 2);
    const at = (f: number): number => audio.dampingAt.evaluate({ f, Z_L: 38, ...loop, L_f: 0.9e-6, R_s: 0.4 }).D;
    expect(at(1e3)).toBeGreaterThan(90);
    expect(at(20e3)).toBeLessThan(70);
    const { D } = audio.dampingCurve.evaluate({ f_1: 20, f_2: 20e3, Z_L: 38, ...loop, L_f: 0.9e-6, R_s: 0.4 });
    expect(D.y[120]).toBeCloseTo(at(20e3), 9);
    expect(D.y[0]).toBeCloseTo(at(20), 9);
  });
});

describe("audio.dampingAt and audio.dampingCurve", () => {
  const way = { L_f: 0.9e-6, R_s: 0.12 };

  it.skipIf(skip)("agree with a current forced into ngspice's closed loop within 0.1 %, at every point of the curve", () => {
    const rows = ngspiceRows(damped(loop, way.L_f, way.R_s));
    const curve = audio.dampingCurve.evaluate({ f_1: 20, f_2: 20e3, Z_L: 38, ...loop, ...way });
    expect(rows.length).toBe(121);
    rows.forEach(([f = 0, re = 0, im = 0], i) => {
      const theirs = Math.hypot(re, im);
      const { D, Z } = audio.dampingAt.evaluate({ f, Z_L: 38, ...loop, ...way });
      expect((curve.Z.x[i] as number) / f).toBeCloseTo(1, 5);
      for (const ours of [Z, curve.Z.y[i] as number]) expect(Math.abs(ours / theirs - 1), `${f} Hz`).toBeLessThan(1e-3);
      for (const ours of [D, curve.D.y[i] as number]) expect(Math.abs((ours * theirs) / 38 - 1), `${f} Hz`).toBeLessThan(1e-3);
    });
  });

  it("are set by the resistance behind an ideal amplifier, and by the inductor alone without it", () => {
    const ideal = { ...loop, R_o: 0, Z_L: 38 };
    expect(audio.dampingAt.evaluate({ f: 1e3, ...ideal, L_f: 0, R_s: 0.5 }).D).toBeCloseTo(76, 9);
    const { D } = audio.dampingCurve.evaluate({ f_1: 20, f_2: 20e3, ...ideal, L_f: 10e-6, R_s: 0 });
    Array.from(D.x).forEach((f, i) => {
      expect(((D.y[i] as number) * 2 * Math.PI * f * 10e-6) / 38).toBeCloseTo(1, 9);
    });
  });
});
