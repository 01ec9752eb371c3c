import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { evaluate } from "../../../lib/formula/evaluate";
import type { AnyFormula } from "../../../lib/formula/formula";
import { light } from "../../../lib/physics";

const laws: readonly [string, AnyFormula][] = Object.entries(light).flatMap(([name, law]) => ("expression" in law ? [[name, law]] : []));
const value = (law: AnyFormula, symbols: Readonly<Record<string, number>>): number => evaluate(law.expression, symbols);
const positive = (min: number, max: number) => fc.double({ min, max, noNaN: true });

describe("laws of light", () => {
  it.each(laws)("%s parses, fits its dimensions and states meaning, source and limits", (_name, law) => {
    expect(law.expression).toBeTypeOf("object");
    expect(law.meaning.length).toBeGreaterThan(20);
    expect(law.source).not.toBe("");
    expect(law.valid.every(({ low, high }) => low < high)).toBe(true);
  });

  it("coneSolidAngle of the whole sphere is 4·pi, of nothing 0, of a narrow cone pi·(theta/2)²", () => {
    expect(value(light.coneSolidAngle, { theta: 2 * Math.PI })).toBeCloseTo(4 * Math.PI, 12);
    expect(value(light.coneSolidAngle, { theta: 0 })).toBe(0);
    expect(value(light.coneSolidAngle, { theta: 0.01 }) / (Math.PI * 0.005 ** 2)).toBeCloseTo(1, 4);
  });

  it("coneIntensity undoes coneFlux", () => {
    const theta = Math.PI / 3;
    const Phi_v = value(light.coneFlux, { I_v: 0.028, theta });
    expect(value(light.coneIntensity, { Phi_v, theta })).toBeCloseTo(0.028, 15);
  });

  it("lambertianFlux is half of the flux of the same intensity over a hemisphere", () => {
    expect(value(light.lambertianFlux, { I_v0: 1 })).toBeCloseTo(value(light.coneFlux, { I_v: 1, theta: Math.PI }) / 2, 14);
  });

  it("acceptedShare is the squared sine of half the acceptance angle, half at d = 2·g, all of it with no gap", () => {
    fc.assert(
      fc.property(positive(1e-4, 1e-2), positive(1e-5, 1e-2), (d, g) => {
        const theta = value(light.acceptanceAngle, { d, g });
        expect(value(light.acceptedShare, { d, g })).toBeCloseTo(Math.sin(theta / 2) ** 2, 12);
      }),
      { seed: 7 },
    );
    expect(value(light.acceptedShare, { d: 2e-3, g: 1e-3 })).toBeCloseTo(0.5, 15);
    expect(value(light.acceptedShare, { d: 2e-3, g: 1e-12 })).toBeCloseTo(1, 12);
  });

  it("acceptedShare agrees with a Lambertian emitter integrated over the cone", () => {
    const [d, g, steps] = [2e-3, 1.3e-3, 20_000];
    const half = Math.atan(d / (2 * g));
    let sum = 0;
    for (let i = 0; i < steps; i++) {
      const angle = (half * (i + 0.5)) / steps;
      sum += 2 * Math.sin(angle) * Math.cos(angle) * (half / steps);
    }
    expect(value(light.acceptedShare, { d, g })).toBeCloseTo(sum, 8);
  });

  it("illuminance falls to a quarter at twice the distance", () => {
    expect(value(light.illuminance, { I_v: 1, d: 2 }) * 4).toBe(value(light.illuminance, { I_v: 1, d: 1 }));
  });

  it("pulsed laws meet at a duty of one, and heat follows the rms current", () => {
    expect(value(light.pulsedAverage, { D: 1, I_p: 0.02 })).toBe(0.02);
    expect(value(light.pulsedRms, { D: 1, I_p: 0.02 })).toBe(0.02);
    const rms = value(light.pulsedRms, { D: 0.2, I_p: 0.02 });
    expect(value(light.pulsedPower, { D: 0.2, I_p: 0.02, R: 68 })).toBeCloseTo(rms * rms * 68, 15);
  });

  it("resistorPower is the drop times resistorCurrent", () => {
    const part = { V_s: 4.5, V_f: 2.8, R: 680 };
    expect(value(light.resistorPower, part)).toBeCloseTo((4.5 - 2.8) * value(light.resistorCurrent, part), 15);
  });

  it("resistorCurrent through seriesResistor is the current asked for", () => {
    const R = value(light.seriesResistor, { V_s: 4.5, V_f: 2.85, I: 2e-3 });
    expect(value(light.resistorCurrent, { V_s: 4.5, V_f: 2.85, R })).toBeCloseTo(2e-3, 15);
  });

  it("currentByPowerLaw undoes intensityByPowerLaw", () => {
    const led = { I_v0: 0.056, I_0: 2e-3, k: 0.85, alpha: -0.002, T: 278.15, T_0: 298.15 };
    fc.assert(
      fc.property(positive(1e-4, 2e-2), (I) => {
        const I_v = value(light.intensityByPowerLaw, { ...led, I });
        expect(value(light.currentByPowerLaw, { ...led, I_v }) / I).toBeCloseTo(1, 12);
      }),
      { seed: 8 },
    );
    expect(value(light.intensityByPowerLaw, { ...led, I: 2e-3, T: 298.15 })).toBe(0.056);
  });
});
