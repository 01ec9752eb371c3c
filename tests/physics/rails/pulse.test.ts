/** What a converter's pulses leave at an output: ngspice on a netlist written here, closed forms, and sums that take each harmonic. */
import { describe, expect, it } from "vitest";
import { type CurveArgument, curveArgument } from "../../../lib/graph/model";
import { rails } from "../../../lib/physics";
import { ngspicePresent, ngspiceRows } from "../ngspice";

const skip = !ngspicePresent && process.env["CI"] !== "true";
const table = (x: readonly number[], y: readonly number[]): CurveArgument =>
  curveArgument({ x: Float64Array.from(x), y: Float64Array.from(y), interpolation: "log-log" });
const flat = table([1, 1e11], [1, 1]);
const typical = table(
  [10, 1e3, 20e3, 1e6, 1e7],
  [100, 100, 60, 25, 10].map((dB) => 10 ** (dB / 20)),
);
const bare = { C_1: 5.5e-6, n_1: 2, L_f: 0, R_f: 0, C_2: 0, n_2: 0, ESR: 0, ESL: 0, C_d: 0, R_d: 0 };
const filtered = { C_1: 5.5e-6, n_1: 2, L_f: 2.2e-6, R_f: 0.1, C_2: 5.5e-6, n_2: 2, ESR: 5e-3, ESL: 0.6e-9, C_d: 47e-6, R_d: 0.5 };
/** Single packets of a boost converter, runs of pulses, and continuous conduction. */
const trains = [
  ["single packets", { f: 142e3, t_p: 0.705e-6, I_1: 0.12, I_2: 0 }],
  ["runs of pulses", { f: 12.8e3, t_p: 4.6e-6, I_1: 0.1, I_2: 0.1 }],
  ["continuous conduction", { f: 1.5e6, t_p: 0.3e-6, I_1: 0.5, I_2: 0.25 }],
] as const;
type Train = (typeof trains)[number][1];

/** The train as a source of current from 0 to 1/f, with edges of 0.4 % of the period about their instants, into `rail` after `whole` periods. */
function netlist({ f, t_p, I_1, I_2 }: Train, rail: typeof filtered, whole: number): string {
  const T = 1 / f;
  const e = T * 4e-3;
  const mean = (f * t_p * (I_1 + I_2)) / 2;
  const [n_1, n_2] = [rail.n_1, rail.n_2];
  return [
    "* a rail fed by pulses",
    "Vp g 0 PWL(",
    ...Array.from({ length: whole + 1 }, (_, k) =>
      [
        [k * T - e / 2, 0],
        [k * T + e / 2, I_1],
        [k * T + t_p - e / 2, I_2],
        [k * T + t_p + e / 2, 0],
      ]
        .map(([t = 0, i]) => (t < 0 ? `0 ${I_1 / 2}` : `${t.toPrecision(12)} ${i}`))
        .join(" "),
    ).map((points) => `+ ${points}`),
    "+ )",
    `Rg g 0 1`,
    "Gp 0 a g 0 1",
    `Im a 0 ${mean}`,
    "Rdc a 0 2k",
    `C1 a a1 ${n_1 * rail.C_1}`,
    `R1 a1 a2 ${rail.ESR / n_1}`,
    `L1 a2 0 ${rail.ESL / n_1}`,
    `Lf a b ${rail.L_f}`,
    `Rf b out ${rail.R_f}`,
    `C2 out o1 ${n_2 * rail.C_2}`,
    `R2 o1 o2 ${rail.ESR / n_2}`,
    `L2 o2 0 ${rail.ESL / n_2}`,
    `Cd out d ${rail.C_d}`,
    `Rd d 0 ${rail.R_d}`,
    ".options RELTOL=1e-6 VNTOL=1e-10 ABSTOL=1e-9 METHOD=GEAR",
    `.tran ${T / 4000} ${(whole + 0.9) * T} ${(whole - 0.1) * T} ${T / 4000} UIC`,
    ".print tran v(out)",
    ".end",
    "",
  ].join("\n");
}

/** Rms value of the harmonic n of one period of printed rows, after a straight drift is taken away. */
function harmonic(rows: readonly (readonly number[])[], T: number, n: number): number {
  const [t_0 = 0, v_0 = 0] = rows[0] ?? [];
  const [t_1 = 0, v_1 = 0] = rows.at(-1) ?? [];
  const level = (t: number, v: number): number => v - v_0 - ((v_1 - v_0) * (t - t_0)) / (t_1 - t_0);
  let [re, im] = [0, 0];
  for (let k = 1; k < rows.length; k++) {
    const [[a = 0, va = 0], [b = 0, vb = 0]] = [rows[k - 1] ?? [], rows[k] ?? []];
    const w = (2 * Math.PI * n) / T;
    const [fa, fb] = [level(a, va), level(b, vb)];
    re += ((b - a) * (fa * Math.cos(w * a) + fb * Math.cos(w * b))) / 2;
    im += ((b - a) * (fa * Math.sin(w * a) + fb * Math.sin(w * b))) / 2;
  }
  return (Math.SQRT2 * Math.hypot(re, im)) / T;
}

/** The model's harmonic n: the band cut so that it holds this one alone. */
const ours = (train: Train, rail: typeof bare, n: number): number =>
  rails.pulseResidue.evaluate({
    ...train,
    ...rail,
    f_1: (n - 0.5) * train.f,
    f_t: (n + 0.5) * train.f,
    f_2: (n + 0.6) * train.f,
    G: 1,
    rejection: flat,
  }).V_a;

describe("pulses of a converter", () => {
  it.skipIf(skip).each(trains)("that feed a filtered rail leave what ngspice finds, harmonic by harmonic", (name, train) => {
    // 1.5 MHz through the whole filter is lost in what is left of the start
    const rail = train.f > 1e6 ? { ...filtered, L_f: 0.1e-6 } : filtered;
    const rows = ngspiceRows(netlist(train, rail, Math.ceil(1.2e-4 * train.f) + 3));
    expect(rows.length).toBeGreaterThan(1500);
    for (const n of [1, 2, 3, 5]) {
      expect(Math.abs(ours(train, rail, n) / harmonic(rows, 1 / train.f, n) - 1), `${name}, harmonic ${n}`).toBeLessThan(0.025);
    }
  });

  it("that are short leave the sawtooth of their charge on a pure capacitance", () => {
    const [q, f, C] = [50e-9, 10e3, 11e-6];
    const bands = { f_1: 20, f_t: 20e3, f_2: 2e6, G: 5, rejection: typical };
    const sawtooth = (f_1: number, f_2: number): number =>
      rails.sawtoothResidue.evaluate({ f, dV: (q / C) * 5, f_1, f_2, rejection: typical }).V_o;
    const { V_a, V_h } = rails.pulseResidue.evaluate({ f, t_p: 1e-9, I_1: 2 * (q / 1e-9), I_2: 0, ...bare, ...bands });
    expect(V_a / sawtooth(20, 20e3)).toBeCloseTo(1, 3);
    expect(V_h / sawtooth(20e3 + 1, 2e6)).toBeCloseTo(1, 2);
  });

  it.each(trains)("that are %s hold the rms current that their shape has: Parseval", (_, train) => {
    const { f, t_p, I_1, I_2 } = train;
    // on 1 F the harmonic n is I_n/(2πnf)
    let square = ((f * t_p * (I_1 + I_2)) / 2) ** 2;
    for (let n = 1; n < 3000; n++) square += (ours(train, { ...bare, C_1: 1, n_1: 1 }, n) * 2 * Math.PI * n * f) ** 2;
    expect(square / ((f * t_p * (I_1 * I_1 + I_1 * I_2 + I_2 * I_2)) / 3)).toBeCloseTo(1, 2);
  });

  it.each(trains)("that are %s leave alike in blocks and one by one", (_, train) => {
    const f_2 = 1e7;
    let [low, high] = [0, 0];
    for (let n = 1; n * train.f <= f_2; n++) {
      const V = (5 * ours(train, filtered, n)) / typical.at(n * train.f);
      if (n * train.f <= 20e3) low += V * V;
      else high += V * V;
    }
    const { V_a, V_h } = rails.pulseResidue.evaluate({ ...train, ...filtered, f_1: 20, f_t: 20e3, f_2, G: 5, rejection: typical });
    expect(V_a).toBeCloseTo(Math.sqrt(low), 9);
    expect(V_h / Math.sqrt(high)).toBeCloseTo(1, 2);
  });

  it("above the band leave nothing in it, and are refused where they do not fit into their period", () => {
    const [, [, run]] = trains;
    const bands = { f_1: 20, f_t: 20e3, f_2: 1e7, G: 5, rejection: typical };
    expect(rails.pulseResidue.evaluate({ ...run, f: 20.1e3, ...bare, ...bands }).V_a).toBe(0);
    expect(rails.pulseResidue.evaluate({ ...run, f: 19.9e3, ...bare, ...bands }).V_a).toBeGreaterThan(1e-6);
    expect(() => rails.pulseResidue.evaluate({ ...run, f: 300e3, ...bare, ...bands })).toThrow("must fit into their period");
  });
});
