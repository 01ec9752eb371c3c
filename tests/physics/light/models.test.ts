import { describe, expect, it } from "vitest";
import type { CurveData, Interpolation } from "../../../lib/graph/curve";
import { curveArgument, modelNamed } from "../../../lib/graph/model";
import { light } from "../../../lib/physics";

const table = (x: readonly number[], y: readonly number[], interpolation: Interpolation) =>
  curveArgument({ x: Float64Array.from(x), y: Float64Array.from(y), interpolation } satisfies CurveData);

const green = table(
  [2.618, 2.658, 2.698, 2.754, 2.799, 2.85, 2.885, 2.938, 3.037, 3.196],
  [5e-5, 1e-4, 2e-4, 5e-4, 1e-3, 2e-3, 3e-3, 5e-3, 1e-2, 2e-2],
  "log-y",
);
const relative = table([5e-5, 5e-4, 1e-3, 2e-3, 5e-3, 2e-2], [0.034, 0.298, 0.555, 1, 2.12, 6.3], "linear");

describe("models of light", () => {
  it("are registered under the name of their subject", () => {
    const models = Object.entries(light).filter(([, law]) => "evaluate" in law);
    expect(models.length).toBe(10);
    for (const [name] of models) expect(modelNamed(`light.${name}`).name).toBe(`light.${name}`);
  });

  it("operatingPoint and forwardVoltage agree on the current", () => {
    const { I, V_f } = light.operatingPoint.evaluate({ V_s: 4.5, R: 820, dV: 0.05, diode: green });
    expect(light.forwardVoltage.evaluate({ I, dV: 0.05, diode: green }).V_f).toBeCloseTo(V_f, 12);
    expect((4.5 - V_f) / 820).toBeCloseTo(I, 15);
  });

  it("forwardOffset makes the table pass through the stated forward voltage", () => {
    const { dV } = light.forwardOffset.evaluate({ V_f: 2.95, I: 2e-3, diode: green });
    expect(dV).toBeCloseTo(0.1, 12);
    expect(light.forwardVoltage.evaluate({ I: 2e-3, dV, diode: green }).V_f).toBeCloseTo(2.95, 12);
  });

  it("operatingPoint stays finite for a supply below the forward voltage of the worst diode", () => {
    const typical = light.operatingPoint.evaluate({ V_s: 3, R: 75, dV: 0, diode: green }).I;
    const worst = light.operatingPoint.evaluate({ V_s: 2.94, R: 75, dV: 0.12, diode: green }).I;
    const dark = light.operatingPoint.evaluate({ V_s: 2.5, R: 75, dV: 0.12, diode: green }).I;
    expect(typical / worst).toBeGreaterThan(2);
    expect(worst).toBeGreaterThan(dark);
    expect(dark).toBeGreaterThan(0);
    expect(dark).toBeLessThan(1e-6);
  });

  it("currentForIntensity undoes intensity, at any temperature", () => {
    const led = { I_v0: 0.056, relative, alpha: -0.002, T_0: 298.15 };
    for (const T of [278.15, 298.15, 308.15]) {
      for (const I of [1e-5, 7e-4, 2e-3, 8e-3]) {
        const { I_v } = light.intensity.evaluate({ ...led, T, I });
        expect(light.currentForIntensity.evaluate({ ...led, T, I_v }).I / I).toBeCloseTo(1, 12);
      }
    }
    expect(light.intensity.evaluate({ ...led, T: 298.15, I: 2e-3 }).I_v).toBe(0.056);
  });

  it("intensity and currentForIntensity are a law of powers where the table is rows of one: I_v0·(I/I_0)^0.9·e^(α·ΔT)", () => {
    const law = (I: number, T: number): number => 0.056 * (I / 2e-3) ** 0.9 * Math.exp(-0.006 * (T - 298.15));
    const rows = Array.from({ length: 13 }, (_, i) => 1e-4 * 2 ** (i / 1.5));
    const powers = table(
      rows,
      rows.map((I) => (I / 2e-3) ** 0.9),
      "log-log",
    );
    const led = { I_v0: 0.056, relative: powers, alpha: -0.006, T_0: 298.15 };
    for (const T of [253.15, 298.15, 333.15]) {
      for (const I of [1.1e-4, 3e-4, 2e-3, 7.7e-3, 2.4e-2]) {
        expect(light.intensity.evaluate({ ...led, T, I }).I_v / law(I, T)).toBeCloseTo(1, 12);
        expect(light.currentForIntensity.evaluate({ ...led, T, I_v: law(I, T) }).I / I).toBeCloseTo(1, 11);
      }
      // Below the first row in proportion to the current
      expect(light.intensity.evaluate({ ...led, T, I: 2e-5 }).I_v / (law(1e-4, T) / 5)).toBeCloseTo(1, 12);
      expect(light.currentForIntensity.evaluate({ ...led, T, I_v: law(1e-4, T) / 5 }).I / 2e-5).toBeCloseTo(1, 12);
    }
    expect(() => light.currentForIntensity.evaluate({ ...led, T: 298.15, I_v: 1 })).toThrow(
      expect.objectContaining({ code: "table-range" }),
    );
  });

  it("forwardVoltage is Shockley's, n·V_T·ln(I/I_s + 1) + I·R_s, of fine rows of it, and forwardOffset what a stated one is above that", () => {
    const V_T = (1.380649e-23 * 298.15) / 1.602176634e-19;
    const junction = (I: number): number => 2 * V_T * Math.log1p(I / 1e-25) + 12 * I;
    const currents = Array.from({ length: 1000 }, (_, i) => 1e-5 * 2000 ** (i / 999));
    const diode = table(currents.map(junction), currents, "log-y");
    for (const [V_f, I] of [
      [2.85, 2e-3],
      [3.1, 5e-3],
      [2.6, 1e-4],
    ] as const) {
      expect(light.forwardVoltage.evaluate({ I, dV: 0.03, diode }).V_f).toBeCloseTo(junction(I) + 0.03, 6);
      expect(light.forwardOffset.evaluate({ V_f, I, diode }).dV).toBeCloseTo(V_f - junction(I), 6);
    }
    // Below the first row as a junction goes on, n·V_T for each e of current
    expect(light.forwardOffset.evaluate({ V_f: 2.5, I: 1e-6, diode }).dV).toBeCloseTo(2.5 - junction(1e-5) + 2 * V_T * Math.log(10), 3);
  });

  it("spectralEfficacy and ledEfficacy scale with K_m", () => {
    const V = table([400e-9, 555e-9, 700e-9], [0, 1, 0], "linear");
    const spectrum = table([540e-9, 555e-9, 570e-9], [0, 1, 0], "linear");
    const { K } = light.spectralEfficacy.evaluate({ spectrum, V, K_m: 683 });
    expect(K).toBeLessThan(683);
    expect(light.spectralEfficacy.evaluate({ spectrum, V, K_m: 1366 }).K).toBeCloseTo(2 * K, 9);
    expect(light.ledEfficacy.evaluate({ lambda: 555e-9, width: 1e-13, V, K_m: 683 }).K).toBeCloseTo(683, 2);
  });
});
