import { describe, expect, it } from "vitest";
import { evaluate } from "../../../lib/formula/evaluate";
import type { AnyFormula } from "../../../lib/formula/formula";
import { enclosure } from "../../../lib/physics";

const laws: readonly [string, AnyFormula][] = Object.entries(enclosure).flatMap(([name, law]) =>
  "expression" in law ? [[name, law]] : [],
);
const value = (law: AnyFormula, symbols: Readonly<Record<string, number>>): number => evaluate(law.expression, symbols);

describe("laws of enclosures", () => {
  it.each(laws)("%s parses, fits its dimensions and states meaning, source and limits", (_name, law) => {
    expect(law.expression).toBeTypeOf("object");
    expect(law.meaning.length).toBeGreaterThan(20);
    expect(law.source).not.toBe("");
    expect(law.valid.every(({ low, high }) => low < high)).toBe(true);
  });
});

describe("volumes and heights", () => {
  it("innerRadius is never negative", () => {
    expect(value(enclosure.innerRadius, { r: 3e-3, t: 2e-3 })).toBeCloseTo(1e-3, 15);
    expect(value(enclosure.innerRadius, { r: 1e-3, t: 2e-3 })).toBe(0);
  });

  it("bossVolume of no bosses, or of no wall, is nothing; solid ones are cylinders", () => {
    const boss = { d_o: 4e-3, d_i: 1.7e-3, h: 8e-3 };
    expect(value(enclosure.bossVolume, { ...boss, n: 0 })).toBe(0);
    expect(value(enclosure.bossVolume, { ...boss, n: 4, d_i: 4e-3 })).toBe(0);
    expect(value(enclosure.bossVolume, { ...boss, n: 4, d_i: 0 }) / (4 * Math.PI * 4e-6 * 8e-3)).toBeCloseTo(1, 12);
  });

  it("clipVolume without thickness in the bend is two legs and half a turn", () => {
    const clip = { w: 10e-3, l_1: 30e-3, l_2: 40e-3 };
    expect(value(enclosure.clipVolume, { ...clip, t: 1e-3, r: 0 }) / (10e-6 * (0.07 + (Math.PI * 1e-3) / 2))).toBeCloseTo(1, 12);
    // The bend by area: half of the ring between r and r + t.
    const bend = (10e-3 * Math.PI * (3e-3 ** 2 - 2e-3 ** 2)) / 2;
    expect(value(enclosure.clipVolume, { w: 10e-3, l_1: 0, l_2: 0, t: 1e-3, r: 2e-3 }) / bend).toBeCloseTo(1, 12);
  });

  it("stackHeight of a pocket device leaves what clearance says", () => {
    // Cell 5.0 mm swollen by 10 %, board 1.0 mm, low parts 2.2 mm, deflection 0.5 mm: 9.2 mm of 10.0 mm.
    const stack = { h_c: 5e-3, s: 0.1, h_b: 1e-3, h_p: 2.2e-3, w: 0.5e-3 };
    const h = value(enclosure.stackHeight, stack);
    expect(h).toBeCloseTo(9.2e-3, 12);
    expect(value(enclosure.innerHeight, { H: 14e-3, t: 2e-3 })).toBeCloseTo(10e-3, 12);
    expect(value(enclosure.clearance, { H: 14e-3, t: 2e-3, h })).toBeCloseTo(0.8e-3, 12);
    expect(value(enclosure.stackHeight, { ...stack, s: 0, h_b: 0, h_p: 0, w: 0 })).toBe(5e-3);
    expect(value(enclosure.swollenThickness, { h_c: 5e-3, s: 0.1 })).toBeCloseTo(5.5e-3, 12);
  });
});

describe("walls", () => {
  it("flexuralRigidity per width of a plate without Poisson's ratio is E·I of a beam", () => {
    expect(value(enclosure.flexuralRigidity, { E: 2.4e9, t: 2e-3, nu: 0 })).toBeCloseTo(2.4e9 * (8e-9 / 12), 12);
    expect(value(enclosure.flexuralRigidity, { E: 2.4e9, t: 4e-3, nu: 0.3 })).toBeCloseTo(
      8 * value(enclosure.flexuralRigidity, { E: 2.4e9, t: 2e-3, nu: 0.3 }),
      9,
    );
  });

  it("sideRatio does not mind the order", () => {
    expect(value(enclosure.sideRatio, { a: 60e-3, b: 90e-3 })).toBe(1.5);
    expect(value(enclosure.sideRatio, { a: 90e-3, b: 60e-3 })).toBe(1.5);
  });

  it("centreStiffness is the force over pointDeflection", () => {
    const plate = { alpha: 0.0159, a: 32e-3, D: 1.87 };
    expect(value(enclosure.measuredStiffness, { F: 50, x: value(enclosure.pointDeflection, { ...plate, F: 50 }) })).toBeCloseTo(
      value(enclosure.centreStiffness, plate),
      6,
    );
  });

  it("equalRigidityWall keeps D, and is equalStiffnessWall at equal Poisson's ratios", () => {
    const walls = { t_1: 2e-3, E_1: 2.4e9, nu_1: 0.38, E_2: 69e9, nu_2: 0.33 };
    const t = value(enclosure.equalRigidityWall, walls);
    const D = value(enclosure.flexuralRigidity, { E: 2.4e9, t: 2e-3, nu: 0.38 });
    expect(value(enclosure.flexuralRigidity, { E: 69e9, t, nu: 0.33 }) / D).toBeCloseTo(1, 12);
    const equal = { t_1: 2e-3, E_1: 2.4e9, E_2: 69e9 };
    expect(value(enclosure.equalStiffnessWall, equal)).toBeCloseTo(value(enclosure.equalRigidityWall, { ...walls, nu_2: 0.38 }), 15);
    expect(value(enclosure.equalStiffnessWall, { ...equal, E_2: 2.4e9 })).toBeCloseTo(2e-3, 15);
  });

  it("equalStiffnessMass is the ratio of walls times that of densities", () => {
    const t = value(enclosure.equalStiffnessWall, { t_1: 1, E_1: 2.4e9, E_2: 45e9 });
    const mu = value(enclosure.equalStiffnessMass, { E_1: 2.4e9, E_2: 45e9, rho_1: 1140, rho_2: 1800 });
    expect(mu).toBeCloseTo((t * 1800) / 1140, 14);
  });

  it("stiffnessPerMass is D over the mass of the wall", () => {
    const wall = { E: 2.4e9, nu: 0.38, t: 2e-3 };
    const mass = 1140 * 2e-3 * 54e-3 * 32e-3;
    expect(value(enclosure.stiffnessPerMass, { ...wall, rho: 1140, a: 54e-3, b: 32e-3 }) * mass).toBeCloseTo(
      value(enclosure.flexuralRigidity, wall),
      12,
    );
  });
});

describe("natural frequencies", () => {
  const plate = { D: 1.87, rho: 1140, t: 2e-3 };

  // Leissa, NASA SP-160 (1969), ω·a²·√(ρt/D): 19.739 simply supported, 35.99 clamped, square; 22.373 a clamped strip. From memory.
  it("of square plates are 19.74 and 35.99 in Leissa's measure", () => {
    const measure = (f: number, a: number): number => (2 * Math.PI * f * a * a) / Math.sqrt(1.87 / (1140 * 2e-3));
    const square = { ...plate, a: 0.05, b: 0.05 };
    expect(measure(value(enclosure.supportedPlateFrequency, square), 0.05)).toBeCloseTo(19.739, 3);
    expect(Math.abs(measure(value(enclosure.clampedPlateFrequency, square), 0.05) / 35.99 - 1)).toBeLessThan(1e-3);
    const strip = { ...plate, a: 0.05, b: 50 };
    expect(measure(value(enclosure.supportedPlateFrequency, strip), 0.05)).toBeCloseTo(9.8696, 3);
    expect(Math.abs(measure(value(enclosure.clampedPlateFrequency, strip), 0.05) / 22.373 - 1)).toBeLessThan(4e-3);
  });

  it("rise with the thickness in proportion, since D goes with its cube", () => {
    const at = (t: number): number =>
      value(enclosure.supportedPlateFrequency, {
        D: value(enclosure.flexuralRigidity, { E: 2.4e9, nu: 0.38, t }),
        rho: 1140,
        t,
        a: 0.054,
        b: 0.032,
      });
    expect(at(2e-3) / at(1e-3)).toBeCloseTo(2, 12);
  });
});
