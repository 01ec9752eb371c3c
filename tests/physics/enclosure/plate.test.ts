import { describe, expect, it } from "vitest";
import { evaluate } from "../../../lib/formula/evaluate";
import type { AnyFormula } from "../../../lib/formula/formula";
import { modelNamed } from "../../../lib/graph/model";
import { enclosure } from "../../../lib/physics";
import { centreDeflection, type Inside } from "./finite-difference-plate";

const value = (law: AnyFormula, symbols: Readonly<Record<string, number>>): number => evaluate(law.expression, symbols);
const supported = (a: number, b: number, u: number, v: number): number =>
  enclosure.supportedPatchDeflection.evaluate({ F: 1, D: 1, a, b, u, v }).w;
const clamped = (a: number, b: number, u: number, v: number): number =>
  enclosure.clampedPatchDeflection.evaluate({ F: 1, D: 1, a, b, u, v }).w;

// Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, 2nd edition (1959), Tables 8, 23, 35 and 37, for r = b/a; from memory.
const table8: readonly [number, number][] = [
  [1, 0.00406],
  [1.1, 0.00485],
  [1.2, 0.00564],
  [1.3, 0.00638],
  [1.4, 0.00705],
  [1.5, 0.00772],
  [1.6, 0.0083],
  [1.7, 0.00883],
  [1.8, 0.00931],
  [1.9, 0.00974],
  [2, 0.01013],
  [3, 0.01223],
  [4, 0.01282],
  [5, 0.01297],
];
const table23: readonly [number, number][] = [
  [1, 0.0116],
  [1.1, 0.01265],
  [1.2, 0.01353],
  [1.4, 0.01484],
  [1.6, 0.0157],
  [1.8, 0.0162],
  [2, 0.01651],
  [3, 0.0169],
];
const table35: readonly [number, number][] = [
  [1, 0.00126],
  [1.1, 0.0015],
  [1.2, 0.00172],
  [1.3, 0.00191],
  [1.4, 0.00207],
  [1.5, 0.0022],
  [1.6, 0.0023],
  [1.7, 0.00238],
  [1.8, 0.00245],
  [1.9, 0.00249],
  [2, 0.00254],
];
const table37: readonly [number, number][] = [
  [1, 0.0056],
  [1.2, 0.00647],
  [1.4, 0.00691],
  [1.6, 0.00712],
  [1.8, 0.0072],
  [2, 0.00722],
];

/** Half a unit of the last printed digit, and a share for the fit or the method and for slips of the old tables. */
const within = (got: number, printed: number, share: number): void => {
  expect(Math.abs(got - printed)).toBeLessThanOrEqual(0.5e-5 + share * printed);
};

describe("plates against the tabulated coefficients", () => {
  it.each(table8)("simply supported, uniform load, b/a = %f: %f (Table 8)", (r, printed) => {
    // Printed rows lie up to 0.5 % off the series that they were summed from (b/a = 1.1 and 1.4).
    within(value(enclosure.uniformSupportedCoefficient, { r }), printed, 5e-3);
    within(supported(1, r, 1, r) * r, printed, 5e-3);
  });

  it.each(table23)("simply supported, force at the centre, b/a = %f: %f (Table 23)", (r, printed) => {
    within(value(enclosure.pointSupportedCoefficient, { r }), printed, 2e-3);
    within(supported(1, r, 0, 0), printed, 2e-3);
  });

  it.each(table35)("clamped, uniform load, b/a = %f: %f (Table 35)", (r, printed) => {
    within(value(enclosure.uniformClampedCoefficient, { r }), printed, 5e-3);
    within(clamped(1, r, 1, r) * r, printed, 4e-3);
  });

  it.each(table37)("clamped, force at the centre, b/a = %f: %f (Table 37)", (r, printed) => {
    within(value(enclosure.pointClampedCoefficient, { r }), printed, 2e-3);
    // Polynomials meet the sharp tip of a concentrated force slowly, and from below.
    within(clamped(1, r, 0, 0), printed, 0.012);
    expect(clamped(1, r, 0, 0)).toBeLessThan(printed);
  });

  it("the supported coefficient is the exact sum of its series within 1e-5, the fitted ones are within 0.5 % of the exact", () => {
    for (const r of [1, 1.15, 1.3, 1.45, 1.6, 1.8, 2, 2.5, 3]) {
      expect(Math.abs(value(enclosure.uniformSupportedCoefficient, { r }) / (supported(1, r, 1, r) * r) - 1)).toBeLessThan(1e-5);
      expect(Math.abs(value(enclosure.pointSupportedCoefficient, { r }) / supported(1, r, 0, 0) - 1)).toBeLessThan(2e-4);
      expect(Math.abs(value(enclosure.uniformClampedCoefficient, { r }) / (clamped(1, r, 1, r) * r) - 1)).toBeLessThan(5e-3);
    }
  });

  it("long plates become strips: 5/384 and 1/384 under uniform load, 0.01695 and 0.00725 under a force", () => {
    expect(value(enclosure.uniformSupportedCoefficient, { r: 12 })).toBeCloseTo(5 / 384, 8);
    expect(value(enclosure.uniformClampedCoefficient, { r: 12 })).toBeCloseTo(1 / 384, 8);
    expect(value(enclosure.pointSupportedCoefficient, { r: 12 })).toBeCloseTo(0.01696, 5);
    expect(value(enclosure.pointClampedCoefficient, { r: 12 })).toBeCloseTo(0.00725, 8);
  });
});

/** Navier's double series term by term, Timoshenko Art. 28: nothing in common with the closed sum but the law. */
function navier(a: number, b: number, u: number, v: number): number {
  let sum = 0;
  for (let m = 1; m < 200; m += 2) {
    for (let n = 1; n < 400; n += 2) {
      const share = Math.sin((m * Math.PI * u) / (2 * a)) * Math.sin((n * Math.PI * v) / (2 * b));
      sum += share / (m * n * ((m / a) ** 2 + (n / b) ** 2) ** 2);
    }
  }
  return (16 * sum) / (Math.PI ** 6 * u * v);
}

/** Navier's double series for a disc: its transform 2·J_1(kR)/(kR) as the mean of cos(kR·sin t)·cos² t, doubled. */
function roundPatch(a: number, b: number, d: number): number {
  let sum = 0;
  for (let m = 1; m < 60; m += 2) {
    for (let n = 1; n < 90; n += 2) {
      const k = Math.PI * Math.hypot(m / a, n / b);
      sum += disc((k * d) / 2) / k ** 4;
    }
  }
  return (4 * sum) / (a * b);
}

function disc(z: number): number {
  let sum = 0;
  for (let i = 0; i < 100; i++) {
    const t = (Math.PI * (i + 0.5)) / 100;
    sum += Math.cos(z * Math.sin(t)) * Math.cos(t) ** 2;
  }
  return sum / 50;
}

describe("plates by a second route", () => {
  it.each([
    [1, 1, 0.3, 0.3],
    [0.032, 0.054, 0.0106, 0.0106],
    [0.054, 0.032, 0.0106, 0.004],
    [2, 5, 0.05, 0.4],
    [1, 2, 1, 2],
  ])("simply supported %f × %f with a patch %f × %f is Navier's double series", (a, b, u, v) => {
    expect(supported(a, b, u, v) / navier(a, b, u, v)).toBeCloseTo(1, 5);
  });

  const patch =
    (u: number, v: number): Inside =>
    (x, y) =>
      Math.abs(x) < u / 2 && Math.abs(y) < v / 2;
  /** Two meshes, extrapolated to none (Richardson). */
  const meshed = (a: number, b: number, mirror: 1 | -1, inside: Inside): number => {
    const [coarse, fine] = [1, 2].map((n) => centreDeflection({ a, b, nx: 16 * n - 1, ny: 24 * n - 1, mirror }, inside)) as [
      number,
      number,
    ];
    return fine + (fine - coarse) / 3;
  };

  it.each([
    [1, 1.5, 0.375, 0.375],
    [1, 1.5, 1, 1.5],
    [1, 1.8, 0.5, 0.3],
    [1, 1, 0.25, 0.25],
  ])("a plate %f × %f with a patch %f × %f agrees with finite differences, edges supported and clamped, within 0.5 %", (a, b, u, v) => {
    expect(Math.abs(supported(a, b, u, v) / meshed(a, b, -1, patch(u, v)) - 1)).toBeLessThan(5e-3);
    expect(Math.abs(clamped(a, b, u, v) / meshed(a, b, 1, patch(u, v)) - 1)).toBeLessThan(5e-3);
  });

  it("a round patch deflects a supported plate as the square one of roundPatchSide does, within 0.2 %", () => {
    for (const d of [0.05, 0.2, 0.375, 0.5]) {
      const u = value(enclosure.roundPatchSide, { d });
      expect(Math.abs(roundPatch(1, 1.5, d) / supported(1, 1.5, u, u) - 1)).toBeLessThan(2e-3);
    }
  });

  it("and a clamped one, by finite differences, within 0.3 %", () => {
    const u = value(enclosure.roundPatchSide, { d: 0.375 });
    const round = meshed(1, 1.5, 1, (x, y) => Math.hypot(x, y) < 0.375 / 2);
    expect(Math.abs(clamped(1, 1.5, u, u) / round - 1)).toBeLessThan(3e-3);
  });
});

describe("a long clamped plate", () => {
  it.each([3, 5, 10, 30])("of sides 1 : %d deflects as the strip that it nearly is, under patches short and long", (b) => {
    expect(Math.abs(clamped(1, b, 0, 0) / value(enclosure.pointClampedCoefficient, { r: b }) - 1)).toBeLessThan(0.03);
    const square = clamped(1, 3, 0.2, 0.2);
    expect(Math.abs(clamped(1, b, 0.2, 0.2) / square - 1)).toBeLessThan(2e-3);
    expect(Math.abs((clamped(1, b, 1, b) * b) / value(enclosure.uniformClampedCoefficient, { r: b }) - 1)).toBeLessThan(5e-3);
    // Loaded over two thirds of its length it is at its middle a strip under uniform load, 1/384
    if (b >= 10) expect(clamped(1, b, 1, (2 * b) / 3) * ((2 * b) / 3) * 384).toBeCloseTo(1, 2);
  });
});

describe("plate models", () => {
  it("are registered under the name of their subject", () => {
    const models = Object.entries(enclosure).filter(([, law]) => "evaluate" in law);
    expect(models.map(([name]) => name).sort()).toEqual(["clampedPatchDeflection", "padTravel", "shell", "supportedPatchDeflection"]);
    for (const [name] of models) expect(modelNamed(`enclosure.${name}`).name).toBe(`enclosure.${name}`);
  });

  it("do not mind which side is given first", () => {
    for (const deflection of [supported, clamped]) {
      expect(deflection(0.054, 0.032, 0.012, 0.008)).toBe(deflection(0.032, 0.054, 0.008, 0.012));
    }
  });

  it("scale with force, with the square of the size, and with 1/D", () => {
    const plate = { F: 1, D: 1, a: 1, b: 1.5, u: 0.3, v: 0.3 };
    const small = { F: 1, D: 1, a: 0.1, b: 0.15, u: 0.03, v: 0.03 };
    for (const model of [enclosure.supportedPatchDeflection, enclosure.clampedPatchDeflection]) {
      const { w } = model.evaluate(plate);
      expect(model.evaluate({ ...plate, F: 3, D: 2 }).w / w).toBeCloseTo(1.5, 12);
      expect((model.evaluate(small).w / w) * 100).toBeCloseTo(1, 10);
    }
  });

  it("fall as the patch grows, and without a step where it becomes a point", () => {
    for (const deflection of [supported, clamped]) {
      const sides = [0, 1e-6, 1e-4, 1e-3, 0.01, 0.05, 0.2, 0.5, 1];
      const deflections = sides.map((u) => deflection(1, 1.5, u, u));
      for (let i = 1; i < sides.length; i++) expect((deflections[i] ?? 1) / (deflections[i - 1] ?? 0)).toBeLessThan(1 + 1e-6);
      expect((deflections[2] ?? 0) / (deflections[0] ?? 1)).toBeCloseTo(1, 5);
    }
  });

  it("clamping halves the deflection, or more", () => {
    for (const r of [1, 1.5, 2, 3]) {
      const ratio = clamped(1, r, 0.35, 0.35) / supported(1, r, 0.35, 0.35);
      expect(ratio).toBeGreaterThan(0.35);
      expect(ratio).toBeLessThan(0.5);
    }
  });

  it("refuse a patch outside the plate, in words", () => {
    expect(() => supported(1, 1.5, 1.1, 0.3)).toThrow("a patch of 1.1 m by 0.3 m does not fit a plate of 1 m by 1.5 m");
    expect(() => clamped(1, -1.5, 0.1, 0.3)).toThrow("does not fit");
    expect(() => clamped(1, Number.NaN, 0.1, 0.3)).toThrow("does not fit");
  });
});
