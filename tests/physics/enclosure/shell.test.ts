import { describe, expect, it } from "vitest";
import { evaluate } from "../../../lib/formula/evaluate";
import type { AnyFormula } from "../../../lib/formula/formula";
import { enclosure } from "../../../lib/physics";

const value = (law: AnyFormula, symbols: Readonly<Record<string, number>>): number => evaluate(law.expression, symbols);
const box = { L: 0.058, W: 0.036, H: 0.014 };

/** Volume by columns: the height of a rounded box over each of n × n points of a quarter, midpoint rule. */
function integrated({ L, W, H }: typeof box, r: number, n = 600): number {
  const beyond = (side: number, i: number): number => Math.max(((side / 2) * (i + 0.5)) / n - (side / 2 - r), 0);
  let sum = 0;
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      const rest = r * r - beyond(L, i) ** 2 - beyond(W, j) ** 2;
      if (rest >= 0) sum += H / 2 - r + Math.sqrt(rest);
    }
  }
  return (2 * sum * L * W) / n ** 2;
}

/** The shell as the difference of two such volumes. */
function integratedShell({ L, W, H }: typeof box, r: number, t: number): number {
  return integrated({ L, W, H }, r) - integrated({ L: L - 2 * t, W: W - 2 * t, H: H - 2 * t }, Math.max(r - t, 0));
}

describe("the shell of a rounded box", () => {
  it.each([
    ["radius above the wall", 3e-3, 2e-3],
    ["radius below the wall: sharp inside", 1e-3, 2e-3],
    ["sharp", 0, 1.5e-3],
    ["as round as it can be", 7e-3, 1e-3],
  ])("agrees with numerical integration: %s", (_title, r, t) => {
    const { V } = enclosure.shell.evaluate({ ...box, r, t });
    expect(Math.abs(integratedShell(box, r, t) / V - 1)).toBeLessThan(3e-4);
  });

  it("of a ball is that of a hollow sphere", () => {
    const side = 0.02;
    const { V, V_i, r_i } = enclosure.shell.evaluate({ L: side, W: side, H: side, r: side / 2, t: 1e-3 });
    expect(V / ((4 / 3) * Math.PI * (0.01 ** 3 - 0.009 ** 3))).toBeCloseTo(1, 12);
    expect(V_i / ((4 / 3) * Math.PI * 0.009 ** 3)).toBeCloseTo(1, 12);
    expect(r_i).toBeCloseTo(0.009, 15);
  });

  it("with sharp edges is sharpShellVolume, and areaTimesWall overstates it", () => {
    const { V } = enclosure.shell.evaluate({ ...box, r: 0, t: 2e-3 });
    expect(value(enclosure.sharpShellVolume, { ...box, t: 2e-3 }) / V).toBeCloseTo(1, 12);
    expect(value(enclosure.areaTimesWall, { ...box, t: 2e-3 }) / V).toBeGreaterThan(1.1);
    const thin = { ...box, t: 1e-7 };
    expect(value(enclosure.areaTimesWall, thin) / value(enclosure.sharpShellVolume, thin)).toBeCloseTo(1, 4);
  });

  it("is roundedBoxVolume outside less roundedBoxVolume inside", () => {
    for (const [r, t] of [
      [3e-3, 2e-3],
      [1e-3, 2e-3],
    ] as const) {
      const { V, V_i, r_i } = enclosure.shell.evaluate({ ...box, r, t });
      const inner = { L: box.L - 2 * t, W: box.W - 2 * t, H: box.H - 2 * t, r: value(enclosure.innerRadius, { r, t }) };
      expect(inner.r).toBeCloseTo(r_i, 15);
      expect(value(enclosure.roundedBoxVolume, inner) / V_i).toBeCloseTo(1, 12);
      expect((value(enclosure.roundedBoxVolume, { ...box, r }) - V_i) / V).toBeCloseTo(1, 12);
    }
  });

  // Rounded values, computed separately: 12.8, 12.4, 12.6, 16.0 and 10.7 g at these walls, outer radius 3 mm.
  it.each([
    ["PC/ABS", 2.0, 1140, 12.8],
    ["PC-GF20", 1.6, 1350, 12.4],
    ["PA-GF30", 1.6, 1370, 12.6],
    ["aluminium", 1.0, 2700, 16.0],
    ["magnesium", 1.0, 1800, 10.7],
  ])("of %s with a wall of %f mm and %f kg/m³ weighs %f g", (_name, t, rho, grams) => {
    const { V } = enclosure.shell.evaluate({ ...box, r: 3e-3, t: t * 1e-3 });
    expect(value(enclosure.mass, { rho, V }) * 1e3).toBeCloseTo(grams, 0);
    expect(Math.abs(value(enclosure.mass, { rho, V }) * 1e3 - grams)).toBeLessThan(0.06);
  });

  it("refuses a wall that leaves no cavity and a radius that does not fit, in words", () => {
    expect(() => enclosure.shell.evaluate({ ...box, r: 3e-3, t: 7e-3 })).toThrow("leaves no cavity");
    expect(() => enclosure.shell.evaluate({ ...box, r: 3e-3, t: 0 })).toThrow("leaves no cavity");
    expect(() => enclosure.shell.evaluate({ ...box, r: 8e-3, t: 1e-3 })).toThrow("does not fit a box");
    expect(() => enclosure.shell.evaluate({ ...box, r: Number.NaN, t: 1e-3 })).toThrow("does not fit a box");
  });
});
