import { describe, expect, it } from "vitest";
import type { Curve, Interpolation } from "../../lib/graph/curve";
import { curveArgument, modelNamed } from "../../lib/graph/model";
import { light } from "../../lib/physics";

const table = (x: readonly number[], y: readonly number[], interpolation: Interpolation) =>
  curveArgument({ x: Float64Array.from(x), y: Float64Array.from(y), interpolation } satisfies Curve);

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

  it("spectralEfficacy and ledEfficacy scale with K_m", () => {
    const V = table([400e-9, 555e-9, 700e-9], [0, 1, 0], "linear");
    const spectrum = table([540e-9, 555e-9, 570e-9], [0, 1, 0], "linear");
    const { K } = light.spectralEfficacy.evaluate({ spectrum, V, K_m: 683 });
    expect(K).toBeLessThan(683);
    expect(light.spectralEfficacy.evaluate({ spectrum, V, K_m: 1366 }).K).toBeCloseTo(2 * K, 9);
    expect(light.ledEfficacy.evaluate({ lambda: 555e-9, width: 1e-13, V, K_m: 683 }).K).toBeCloseTo(683, 2);
  });

  it("take a few microseconds a call at most", () => {
    const calls: readonly (() => number)[] = [
      () => light.operatingPoint.evaluate({ V_s: 3.0, R: 75, dV: 0.05, diode: green }).I,
      () => light.shockleyOperatingPoint.evaluate({ V_s: 3.3, R: 220, I_s: 1e-17, n: 2, R_s: 8, T: 298.15 }).I,
      () => light.intensity.evaluate({ I: 1.7e-3, I_v0: 0.056, relative, alpha: -0.002, T: 300, T_0: 298.15 }).I_v,
      () => light.currentForIntensity.evaluate({ I_v: 0.04, I_v0: 0.056, relative, alpha: -0.002, T: 300, T_0: 298.15 }).I,
    ];
    for (const call of calls) expect(microseconds(call)).toBeLessThan(10); // 0.1 to 0.5 on an idle machine
  });
});

/** Best of five runs, so that a busy machine does not decide. */
function microseconds(call: () => number): number {
  const runs = Array.from({ length: 5 }, () => {
    const start = performance.now();
    let sum = 0;
    for (let i = 0; i < 10_000; i++) sum += call();
    return sum > 0 ? (performance.now() - start) / 10 : Number.NaN;
  });
  return Math.min(...runs);
}
