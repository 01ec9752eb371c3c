import { describe, expect, it } from "vitest";
import { evaluate } from "../../../lib/formula/evaluate";
import type { AnyFormula } from "../../../lib/formula/formula";
import { curveArgument } from "../../../lib/graph/model";
import { battery, rails } from "../../../lib/physics";

const boost = { V_in: 3.3, V_out: 5, eta: 1, f: 1e6, L: 4.7e-6 };
const inverting = { V_in: 3.7, V_out: 4.5, eta: 1, f: 1.5e6, L: 4.7e-6 };
const buck = { V_in: 4.2, V_out: 1.8, eta: 1, f: 2e6, L: 2.2e-6 };
const value = (law: AnyFormula, symbols: Readonly<Record<string, number>>): number => evaluate(law.expression, symbols);
const converters = [
  ["boost", rails.boostOperation, boost],
  ["inverting", rails.invertingOperation, inverting],
  ["buck", rails.buckOperation, buck],
] as const;

const ripples = [
  ["boost", rails.boostOperation, rails.boostRipple, boost],
  ["inverting", rails.invertingOperation, rails.invertingRipple, inverting],
  ["buck", rails.buckOperation, rails.buckRipple, buck],
] as const;

describe("the operation of converters", () => {
  it.each(converters)("a %s converter balances its power in both modes, at any efficiency", (name, model, given) => {
    for (const eta of [1, 0.85]) {
      for (const I_out of [1e-3, 0.02, 0.3]) {
        const { D, D_2, I_L } = model.evaluate({ ...given, eta, I_out });
        const drawn = name === "boost" ? I_L : name === "inverting" ? (I_L * D) / (D + D_2) : (I_L * D) / (D + D_2);
        expect((given.V_in * drawn * eta) / (given.V_out * I_out)).toBeCloseTo(1, 12);
      }
    }
  });

  it.each(converters)("a %s converter passes its border without a jump, and has no current without a load", (_name, model, given) => {
    const { I_b } = model.evaluate({ ...given, I_out: 1 });
    const [below, above] = [I_b * (1 - 1e-9), I_b * (1 + 1e-9)].map((I_out) => model.evaluate({ ...given, I_out }));
    for (const key of ["D", "D_2", "I_L", "I_pk", "I_rms", "dI"] as const) expect(below?.[key]).toBeCloseTo(above?.[key] ?? Number.NaN, 7);
    expect(below?.D).toBeLessThanOrEqual(above?.D ?? 0);
    expect(model.evaluate({ ...given, I_out: 0 })).toMatchObject({ D: 0, I_L: 0, I_pk: 0, I_rms: 0 });
  });

  it("agrees with the closed laws in continuous conduction", () => {
    const { D, dI, I_L, I_pk, I_rms, I_b } = rails.invertingOperation.evaluate({ ...inverting, I_out: 0.1 });
    expect(D).toBeCloseTo(value(rails.invertingDuty, inverting), 15);
    expect(dI).toBeCloseTo(value(rails.inductorRipple, { ...inverting, D }), 15);
    expect(I_L).toBeCloseTo(value(rails.inductorCurrent, { I_out: 0.1, D }), 15);
    expect(I_pk).toBeCloseTo(value(rails.peakInductorCurrent, { I_L, dI }), 15);
    expect(I_rms).toBeCloseTo(value(rails.inductorRms, { I_L, dI }), 15);
    expect(I_b).toBeCloseTo(value(rails.conductionBorder, { D, dI }), 15);
    expect(value(rails.buckConductionBorder, { dI: 0.2 })).toBe(0.1);
  });

  it("refuses what a converter cannot make", () => {
    expect(() => rails.boostOperation.evaluate({ ...boost, V_in: 5.5, I_out: 0.1 })).toThrow("a boost converter makes no 5 V of 5.5 V");
    expect(() => rails.buckOperation.evaluate({ ...buck, V_in: 1.5, I_out: 0.1 })).toThrow("take a boost one");
    expect(() => rails.buckOperation.evaluate({ ...buck, L: 0, I_out: 0.1 })).toThrow("f and L > 0");
    expect(() => rails.buckOperation.evaluate({ ...buck, I_out: -0.1 })).toThrow("must be 0 A or more");
  });
});

describe("the output ripple of converters", () => {
  it("is that of the closed laws on a pure capacitance", () => {
    const pure = { I_out: 0.3, t_e: 0, C: 10e-6, ESR: 0, ESL: 0 };
    const { dV, dV_C, dV_R, I_C } = rails.boostRipple.evaluate({ ...boost, ...pure });
    expect([dV, dV_C, dV_R]).toEqual([expect.closeTo(0.0102, 12), expect.closeTo(0.0102, 12), 0]);
    expect(I_C).toBeCloseTo(0.2224815, 7);
    const dI = rails.buckOperation.evaluate({ ...buck, I_out: 0.3 }).dI;
    const ripple = rails.buckRipple.evaluate({ ...buck, ...pure });
    expect(ripple.dV).toBeCloseTo(value(rails.buckOutputRipple, { ...buck, dI, C: 10e-6 }), 12);
    expect(ripple.I_C).toBeCloseTo(dI / Math.sqrt(12), 12);
  });

  it("is the step at the resistance alone for a large capacitance, and the spike of the edge for an inductance alone", () => {
    const large = { I_out: 0.3, C: 1, t_e: 0, ESR: 0.05, ESL: 0 };
    const { I_pk } = rails.boostOperation.evaluate({ ...boost, I_out: 0.3 });
    expect(rails.boostRipple.evaluate({ ...boost, ...large }).dV).toBeCloseTo(value(rails.resistanceRipple, { I_pk, ESR: 0.05 }), 7);
    const { dV } = rails.boostRipple.evaluate({ ...boost, ...large, ESR: 0, t_e: 5e-9, ESL: 0.6e-9 });
    const { dI } = rails.boostOperation.evaluate({ ...boost, I_out: 0.3 });
    const spikes = [I_pk, I_pk - dI].map((step) => value(rails.edgeSpike, { ESL: 0.6e-9, dI: step, t_e: 5e-9 }));
    expect(dV).toBeCloseTo((spikes[0] ?? 0) + (spikes[1] ?? 0), 5);
  });

  it.each(ripples)(
    "of a %s converter agrees with a sum over a finely cut period, discontinuous conduction included",
    (name, operation, ripple, given) => {
      for (const I_out of [0.3, 0.02]) {
        const parts = { C: 10e-6, ESR: 0.01, ESL: 0 };
        const { D, D_2, dI, I_pk } = operation.evaluate({ ...given, I_out });
        const N = 200_000;
        let [v, low, high, square] = [0, Infinity, -Infinity, 0];
        for (let k = 0; k < N; k++) {
          const x = (k + 0.5) / N;
          const rising = I_pk - dI + (dI * x) / D;
          const coil = x < D ? rising : x > D + D_2 ? 0 : I_pk - (dI * (x - D)) / D_2;
          // A buck's coil always feeds its output, the others' only through the rectifier
          const i = (name === "buck" || x >= D ? coil : 0) - I_out;
          v += i / (N * given.f * parts.C);
          square += (i * i) / N;
          low = Math.min(low, v + parts.ESR * i);
          high = Math.max(high, v + parts.ESR * i);
        }
        const { dV, I_C } = ripple.evaluate({ ...given, I_out, t_e: 0, ...parts });
        expect(dV / (high - low)).toBeCloseTo(1, 3);
        expect(I_C / Math.sqrt(square)).toBeCloseTo(1, 3);
      }
    },
  );

  it("asks for the length of the edges where an inductance would see a jump, and refuses edges longer than the pulse", () => {
    const parts = { I_out: 0.3, C: 10e-6, ESR: 0.01, ESL: 0.6e-9 };
    expect(() => rails.boostRipple.evaluate({ ...boost, ...parts, t_e: 0 })).toThrow("state the time t_e of its edges");
    expect(() => rails.boostRipple.evaluate({ ...boost, ...parts, t_e: 1e-6 })).toThrow("edges of 0.000001 s are longer");
    expect(rails.buckRipple.evaluate({ ...buck, ...parts, t_e: 0 }).dV).toBeGreaterThan(0);
  });
});

describe("the losses of converters", () => {
  const parts = { R_1: 0.3, R_2: 0.4, R_L: 0.25, V_f: 0, t_e: 5e-9, E_c: 2e-9, I_q: 30e-6 };
  const ends = { V_in: 3.7, V_out: 4.5, f: 1.5e6, L: 4.7e-6 };
  const none = { R_1: 0, R_2: 0, R_L: 0, V_f: 0, t_e: 0, E_c: 0, I_q: 0 };

  it("are none without parasitics, and nothing but the quiescent power towards no load in bursts", () => {
    expect(rails.boostLoss.evaluate({ ...ends, ...none, I_out: 0.05, I_p: 0.25 }).eta).toBe(1);
    const { P_in, P_q } = rails.invertingLoss.evaluate({ ...ends, ...parts, I_out: 1e-9, I_p: 0.25 });
    expect(P_q).toBeCloseTo(3.7 * 30e-6, 12);
    expect(P_in / P_q).toBeCloseTo(1, 4);
  });

  it("are in bursts shares of the load, so that the efficiency is flat; forced switching loses a fixed power", () => {
    const eta = (I_out: number, I_p: number): number => rails.boostLoss.evaluate({ ...ends, ...parts, I_q: 0, I_out, I_p }).eta;
    expect(eta(1e-3, 0.25)).toBeCloseTo(eta(20e-3, 0.25), 12);
    expect(eta(1e-3, 0)).toBeLessThan(0.6);
    expect(eta(20e-3, 0)).toBeGreaterThan(0.85);
    expect(eta(0.2, 0)).toBeCloseTo(eta(0.2, 0.25), 12);
  });

  it("come in packets at the rate of the skip frequency, until the pulses would be as frequent as f", () => {
    const { f_s } = rails.boostLoss.evaluate({ ...ends, ...parts, I_out: 5e-3, I_p: 0.25 });
    const q = value(rails.boostPacket, { ...ends, I_p: 0.25 });
    expect(f_s).toBeCloseTo(value(rails.skipFrequency, { I_out: 5e-3, q }), 6);
    expect(rails.boostLoss.evaluate({ ...ends, ...parts, I_out: 0.3, I_p: 0.25 }).f_s).toBe(1.5e6);
  });

  it("of conduction are the sum over a finely cut period", () => {
    const I_out = 0.2;
    const { D, I_L, dI } = rails.buckOperation.evaluate({ ...buck, I_out });
    const N = 100_000;
    let sum = 0;
    for (let k = 0; k < N; k++) {
      const x = (k + 0.5) / N;
      const i = x < D ? I_L - dI / 2 + (dI * x) / D : I_L + dI / 2 - (dI * (x - D)) / (1 - D);
      sum += (i * i * (0.25 + (x < D ? 0.3 : 0.4)) + (x < D ? 0 : i * 0.2)) / N;
    }
    const { eta: _eta, ...plain } = buck;
    const loss = rails.buckLoss.evaluate({ ...plain, ...parts, V_f: 0.2, I_out, I_p: 0 });
    expect(loss.P_cond / sum).toBeCloseTo(1, 5);
    expect(loss.P_in).toBeCloseTo(1.8 * I_out + loss.P_cond + loss.P_sw + loss.P_q, 15);
  });

  // Continuous conduction with small ripple: R. W. Erickson and D. Maksimović, chapters 2 and 3
  it.each([
    ["boost", rails.boostLoss, rails.boostEfficiency, boost, (a: number, b: number) => 1 - a / b, false],
    ["inverting", rails.invertingLoss, rails.invertingEfficiency, inverting, (a: number, b: number) => b / (a + b), false],
    ["buck", rails.buckLoss, rails.buckEfficiency, buck, (a: number, b: number) => b / a, true],
  ] as const)(
    "of a %s converter under forced switching are the textbook's closed forms, one by one and as a curve",
    (_, loss, curve, given, duty, direct) => {
      const { eta: _eta, ...plain } = given;
      const { V_in, V_out, f, L } = plain;
      const stray = { ...parts, V_f: 0.2, t_e: 0 };
      const D = duty(V_in, V_out);
      const dI = ((V_in - (direct ? V_out : 0)) * D) / (f * L);
      const expected = (P: number) => {
        const I_L = P / V_out / (direct ? 1 : 1 - D);
        const square = I_L * I_L + (dI * dI) / 12;
        const P_cond = square * (D * stray.R_1 + (1 - D) * stray.R_2 + stray.R_L) + I_L * (1 - D) * stray.V_f;
        const P_in = P + P_cond + f * stray.E_c + V_in * stray.I_q;
        return { P_in, eta: P / P_in, P_cond, P_sw: f * stray.E_c, P_q: V_in * stray.I_q, f_s: f };
      };
      const { eta } = curve.evaluate({ P_1: 1e-3, P_2: 0.6, ...plain, ...stray, I_p: 0 });
      expect(eta.x.length).toBe(61);
      Array.from(eta.x).forEach((P, i) => {
        const wanted = expected(P);
        expect(eta.y[i], `${P} W`).toBeCloseTo(wanted.eta, 9);
        const got = loss.evaluate({ ...plain, ...stray, I_out: P / V_out, I_p: 0 });
        for (const key of ["P_in", "eta", "P_cond", "P_sw", "P_q"] as const)
          expect(got[key], `${key} at ${P} W`).toBeCloseTo(wanted[key], 9);
        expect(got.f_s).toBe(f);
      });
    },
  );

  it("of switching are half of voltage times current times the length of each edge, and the fixed energy, each cycle", () => {
    const { I_pk, dI } = rails.boostOperation.evaluate({ ...boost, I_out: 0.3 });
    const edges = { ...none, t_e: 5e-9, E_c: 3e-9 };
    const { eta: _eta, ...plain } = boost;
    const { P_sw, P_cond } = rails.boostLoss.evaluate({ ...plain, ...edges, I_out: 0.3, I_p: 0 });
    expect(P_cond).toBe(0);
    expect(P_sw).toBeCloseTo(1e6 * ((5 * I_pk * 5e-9) / 2 + (5 * (I_pk - dI) * 5e-9) / 2 + 3e-9), 12);
    // A pulse from zero is switched on without current
    const skipping = rails.boostLoss.evaluate({ ...plain, ...edges, E_c: 0, I_out: 5e-3, I_p: 0.25 });
    expect(skipping.P_sw).toBeCloseTo((skipping.f_s * (5 * 0.25 * 5e-9)) / 2, 12);
  });

  it("come at f once the pulses would touch, though fewer of them would carry the load", () => {
    const large = { ...ends, ...parts, f: 1e6, L: 47e-6, I_p: 0.25 };
    // Half of 0.25 A flows at most in touching pulses, of which a boost passes on V_in/V_out
    const most = (0.125 * 3.7) / 4.5;
    expect(rails.boostLoss.evaluate({ ...large, I_out: 0.99 * most }).f_s).toBeLessThan(1e5);
    expect(rails.boostLoss.evaluate({ ...large, I_out: 1.01 * most }).f_s).toBe(1e6);
  });

  it("make the table of efficiency that battery.converterInput reads", () => {
    const { eta } = rails.boostEfficiency.evaluate({ P_1: 1e-3, P_2: 0.5, ...ends, ...parts, I_p: 0.25 });
    const efficiency = curveArgument({ x: Float64Array.from(eta.x), y: Float64Array.from(eta.y) });
    const { P_in } = battery.converterInput.evaluate({ P_out: 0.07, k: 1, efficiency });
    expect(P_in).toBeCloseTo(rails.boostLoss.evaluate({ ...ends, ...parts, I_out: 0.07 / 4.5, I_p: 0.25 }).P_in, 5);
  });
});
