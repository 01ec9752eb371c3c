/** Second routes of an output stage: the stage sampled over a period, and the energy balance of the battery's laws. */
import { describe, expect, it } from "vitest";
import { evaluate } from "../../../lib/formula/evaluate";
import type { Expression } from "../../../lib/formula/expression";
import { audio, battery } from "../../../lib/physics";
import { meanRailCurrent } from "../../../lib/physics/audio/limits";

function law(formula: { readonly expression: Expression }, symbols: Readonly<Record<string, number>>): number {
  return evaluate(formula.expression, symbols);
}

/** Means over a period of a stage whose devices keep I_1·I_2 = I_q²: the current of one rail, and the heat of both devices before R_s. */
function sampled(V_s: number, I_q: number, V_p: number, R_L: number, R_s = 0): { readonly I: number; readonly P_h: number } {
  const steps = 20_000;
  let [I, P_h] = [0, 0];
  for (let n = 0; n < steps; n++) {
    const v = V_p * Math.sin((2 * Math.PI * (n + 0.5)) / steps);
    const i = v / R_L;
    const upper = i / 2 + Math.sqrt((i * i) / 4 + I_q * I_q);
    const lower = upper - i;
    I += upper / steps;
    const out = v + i * R_s;
    P_h += ((V_s - out) * upper + (V_s + out) * lower) / steps;
  }
  return { I, P_h };
}

const stage = { V_s: 4.5, I_q: 1e-3, R_s: 0, R_L: 38 };

describe("meanRailCurrent(I_q, I_p)", () => {
  it.each([1e-5, 1e-3, 0.1, 0.5, 1, 2, 5, 30, 1000])("agrees with the stage sampled over a period, at a peak of %d times I_q", (ratio) => {
    expect(meanRailCurrent(2e-3, ratio * 2e-3) / sampled(4.5, 2e-3, ratio * 2e-3 * 38, 38).I).toBeCloseTo(1, 6);
  });

  it("is the quiescent current without signal, and I_p/π without quiescent current", () => {
    expect(meanRailCurrent(3e-3, 0)).toBeCloseTo(3e-3, 15);
    expect(meanRailCurrent(0, 0.08)).toBe(0.08 / Math.PI);
    expect(meanRailCurrent(1e-12, 0.08) / (0.08 / Math.PI)).toBeCloseTo(1, 9);
  });

  it("ends at every ratio from 10⁻¹² to 10¹⁴, between the class-A and the class-B mean and their sum", () => {
    for (let decade = -12; decade <= 14; decade += 0.01) {
      const I_p = 1e-3 * 10 ** decade;
      const mean = meanRailCurrent(1e-3, I_p);
      expect(mean).toBeGreaterThan(Math.max(1e-3, I_p / Math.PI) * (1 - 1e-12));
      expect(mean).toBeLessThan((1e-3 + I_p / Math.PI) * (1 + 1e-12));
    }
  });

  it("refuses negative currents", () => {
    expect(() => meanRailCurrent(-1e-3, 0)).toThrow("currents of a stage are 0 A or more");
  });
});

describe("audio.classABHeat", () => {
  const heat = (V_p: number, more: object = {}) => audio.classABHeat.evaluate({ ...stage, ...more, V_p });

  it.each([0, 0.02, 0.1, 0.5, 1, 2, 2.86, 3.5, 4.5])("agrees with the heat of both devices sampled over a period, at %d V peak", (V_p) => {
    expect(heat(V_p).P_h).toBeCloseTo(sampled(4.5, 1e-3, V_p, 38).P_h, 8);
  });

  it("lies between class B and the sum of class B and the quiescent power", () => {
    for (let V_p = 0.05; V_p <= 4.5; V_p += 0.05) {
      const sum = law(audio.sineHeat, { V_s: 4.5, I_q: 1e-3, V_p, R_L: 38 });
      const classB = law(audio.sineHeat, { V_s: 4.5, I_q: 0, V_p, R_L: 38 });
      expect(heat(V_p).P_h).toBeLessThan(sum);
      expect(heat(V_p).P_h).toBeGreaterThan(classB);
    }
  });

  it("rises with level, then falls: 2/π of the rail is the hottest, not full swing", () => {
    const { P_h, V_p } = audio.greatestHeat.evaluate({ ...stage, I_q: 0, V_m: 4.5 });
    expect(V_p).toBeCloseTo(law(audio.hottestPeak, { V_s: 4.5 }), 6);
    expect(P_h).toBeCloseTo(law(audio.greatestSineHeat, { V_s: 4.5, I_q: 0, R_L: 38 }), 12);
    expect(heat(4.5, { I_q: 0 }).P_h).toBeLessThan(0.7 * P_h);
    expect(heat(4.5, { I_q: 0 }).eta).toBeCloseTo(Math.PI / 4, 12);
  });

  it("is greatest without signal in a stage that stays in class A, and at the end of a level that stops short of 2/π", () => {
    const classA = audio.greatestHeat.evaluate({ ...stage, I_q: 0.2, V_m: 4.5 });
    expect(classA.V_p).toBe(0);
    expect(classA.P_h).toBeCloseTo(1.8, 12);
    const { P_h, V_p } = audio.greatestHeat.evaluate({ ...stage, V_m: 1 });
    expect(V_p).toBe(1);
    expect(P_h).toBe(heat(1).P_h);
  });

  it("over all levels is that of both devices sampled over a period, behind a series resistor too", () => {
    for (const { I_q, R_s } of [
      { I_q: 1e-3, R_s: 0 },
      { I_q: 30e-3, R_s: 5.1 },
    ]) {
      const { P_h } = audio.classABHeatCurve.evaluate({ V_s: 4.5, R_L: 38, I_q, R_s, V_m: 3.9 });
      expect(P_h.x.length).toBe(121);
      expect([P_h.x[0], P_h.x[120]]).toEqual([0, 3.9]);
      for (let i = 0; i < 121; i += 5) expect(P_h.y[i], `${P_h.x[i]} V`).toBeCloseTo(sampled(4.5, I_q, P_h.x[i] as number, 38, R_s).P_h, 8);
    }
  });

  it("over all levels is a parabola without quiescent current: 2·V_s·I_p/π − I_p²·(R_L + R_s)/2", () => {
    const { P_h } = audio.classABHeatCurve.evaluate({ V_s: 4.5, R_L: 38, I_q: 0, R_s: 2, V_m: 4 });
    Array.from(P_h.x).forEach((V, i) => {
      const I_p = V / 38;
      expect(P_h.y[i]).toBeCloseTo((9 * I_p) / Math.PI - 20 * I_p * I_p, 12);
    });
  });

  it("gives the same as a curve of levels", () => {
    const { P_h } = audio.classABHeatCurve.evaluate({ ...stage, V_m: 4.5 });
    expect(Array.from(P_h.x).map((V) => heat(V).P_h)).toEqual(Array.from(P_h.y));
  });
});

describe("audio.sineHeat and audio.signalHeat", () => {
  it("are the power from the rails less that in the load, as the battery's laws give them", () => {
    for (const V_p of [0, 0.5, 2, 3.5]) {
      const I_rms = V_p / Math.SQRT2 / 38;
      const k = (2 * Math.SQRT2) / Math.PI;
      const P_s = law(battery.railPower, { n: 1, V_r: 4.5, I_q: 1e-3, k, I_rms });
      const P_h = law(battery.amplifierHeat, { P_s, n: 1, I_rms, Z: 38 });
      expect(law(audio.sineHeat, { V_s: 4.5, I_q: 1e-3, V_p, R_L: 38 })).toBeCloseTo(P_h, 12);
      expect(law(audio.signalHeat, { V_s: 4.5, I_q: 1e-3, k, V_rms: V_p / Math.SQRT2, R_L: 38 })).toBeCloseTo(P_h, 12);
    }
  });

  it("of noise is greatest at k·V_s/2", () => {
    const k = battery.rectifiedMean.evaluate({ C: 4 }).k;
    const at = (V_rms: number): number => law(audio.signalHeat, { V_s: 4.5, I_q: 0, k, V_rms, R_L: 38 });
    expect(at((k * 4.5) / 2)).toBeGreaterThan(Math.max(at((k * 4.5) / 2 - 0.01), at((k * 4.5) / 2 + 0.01)));
  });
});

describe("audio.outputLimits", () => {
  const given = { V_s: 4.5, V_h: 0.9, R_s: 5.1, I_max: 0.12, I_q: 1e-3, P_max: 0.45 };
  const at = (R_L: number, more: object = {}) => audio.outputLimits.evaluate({ ...given, ...more, R_L });
  const heatAt = (V_p: number, R_L: number): number => {
    const I = V_p / R_L;
    return 2 * 4.5 * (1e-3 + I / Math.PI) - (I * I * (R_L + 5.1)) / 2;
  };

  it("names current for 8 Ω, heat where that is tight, voltage for 38 Ω and 600 Ω", () => {
    expect([at(8, { I_max: 0.06 }).limit, at(8, { P_max: 0.2 }).limit, at(38).limit, at(600).limit]).toEqual([2, 3, 1, 1]);
    expect([1, 2, 3].map((limit) => audio.outputLimitNames[limit - 1])).toEqual(["voltage", "current", "heat"]);
  });

  it("leaves headroom and series resistance their share of the rail, so that a rail for a power is that rail", () => {
    const { V_p, I_p, P } = at(38);
    expect(V_p + I_p * 5.1 + 0.9).toBeCloseTo(4.5, 12);
    expect(law(audio.railForPower, { V_h: 0.9, P, R_L: 38, R_s: 5.1 })).toBeCloseTo(4.5, 12);
    expect(law(audio.sinePower, { V_p, R_L: 38 })).toBeCloseTo(P, 15);
    expect(law(audio.peakOfPower, { P, R_L: 38 })).toBeCloseTo(V_p, 12);
    expect(law(audio.peakCurrentOfPower, { P, R_L: 38 })).toBeCloseTo(I_p, 12);
    expect(P).toBeGreaterThan(0.12);
  });

  it("stops at the first level whose heat reaches the limit, though louder ones would heat less", () => {
    for (const R_L of [8, 12, 16]) {
      const { V_t } = at(R_L, { P_max: 0.15 });
      expect(heatAt(V_t, R_L)).toBeCloseTo(0.15, 10);
      for (let share = 0.02; share < 1; share += 0.02) expect(heatAt(share * V_t, R_L)).toBeLessThan(0.15);
    }
  });

  it("is not bound by heat above the greatest heat, and gives nothing where the quiescent power exceeds the limit", () => {
    const greatest = law(audio.greatestSineHeat, { V_s: 4.5, I_q: 1e-3, R_L: 38 + 5.1 });
    expect(at(38, { P_max: 1.001 * greatest }).V_t).toBeCloseTo((4.5 * 38) / 43.1, 12);
    expect(at(38, { P_max: 0.999 * greatest }).V_t).toBeLessThan((0.7 * 4.5 * 38) / 43.1);
    expect(at(38, { P_max: 8e-3 })).toMatchObject({ V_p: 0, P: 0, limit: 3 });
  });

  it("refuses a load of nothing", () => {
    expect(() => at(0)).toThrow("a load needs R_L > 0 Ω");
  });
});

describe("audio.dampingFactor", () => {
  it("counts every resistance on the way: 38 Ω on 0.41 Ω is 93", () => {
    const way = { R_a: 0.02, R_f: 0.3, R_t: 0.03, R_k: 0.06, R_c: 0 };
    expect(law(audio.dampingFactor, { Z_L: 38, ...way })).toBeCloseTo(38 / 0.41, 9);
    expect(law(audio.dampingFactor, { Z_L: 38, ...way, R_f: 0, R_t: 0, R_k: 0 })).toBeCloseTo(1900, 9);
  });

  it("changes no level of a load that does not vary, nor of any on an ideal source", () => {
    expect(law(audio.levelChange, { Z_1: 32, Z_2: 32, R_o: 10 })).toBe(1);
    expect(law(audio.levelChange, { Z_1: 20, Z_2: 60, R_o: 0 })).toBe(1);
  });

  it("hurts: 4.5 V through 0.4 Ω into 38 Ω is half a watt", () => {
    expect(law(audio.faultPower, { V: 4.5, R_L: 38, R_s: 0.4 })).toBeCloseTo(0.5219, 3);
  });
});
