import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import type { CurveData } from "../../../lib/graph/curve";
import { curveAt } from "../../../lib/graph/interpolate";
import { curveArgument } from "../../../lib/graph/model";
import { light } from "../../../lib/physics";
import {
  bellEfficacy,
  currentForRelativeIntensity,
  efficacy,
  overlapIntegral,
  relativeIntensity,
  thermalFactor,
} from "../../../lib/physics/light/luminosity";

const curve = (x: readonly number[], y: readonly number[]): CurveData => ({ x: Float64Array.from(x), y: Float64Array.from(y) });

const luminosity: { table: { rows: [number, number][] } } = parse(
  readFileSync(new URL("../../../data/reference/luminosity.yaml", import.meta.url), "utf8"),
);
const V = curve(
  luminosity.table.rows.map(([nanometres]) => nanometres * 1e-9),
  luminosity.table.rows.map(([, y]) => y),
);

/** V(λ) by the two rows about λ. */
function eye(at: number): number {
  const rows = luminosity.table.rows.map(([nanometres, y]) => [nanometres * 1e-9, y] as const);
  const above = rows.findIndex(([x]) => x > at);
  const [[x0, y0], [x1, y1]] = [rows[above - 1] ?? [0, 0], rows[above] ?? [0, 0]];
  return y0 + ((y1 - y0) * (at - x0)) / (x1 - x0);
}

describe("overlapIntegral(f, g)", () => {
  it("is exact for the product of two straight lines with different points", () => {
    // ∫ x·(3 − x) dx from 0 to 2 = 6 − 8/3
    expect(overlapIntegral(curve([0, 1, 2], [0, 1, 2]), curve([0, 0.3, 3], [3, 2.7, 0]))).toBeCloseTo(6 - 8 / 3, 14);
  });

  it("does not depend on the order of its arguments", () => {
    const [f, g] = [curve([0, 1, 4], [1, 5, 2]), curve([-1, 2, 3], [0, 2, 7])];
    expect(overlapIntegral(f, g)).toBeCloseTo(overlapIntegral(g, f), 13);
  });

  it("is zero where the curves do not overlap", () => {
    expect(overlapIntegral(curve([0, 1], [1, 1]), curve([2, 3], [1, 1]))).toBe(0);
  });
});

describe("efficacy(spectrum, V)", () => {
  it("of a flat spectrum is the area under V(λ), 106.857 nm, over the spectrum's width", () => {
    const flat = curveArgument(curve([380e-9, 780e-9], [1, 1]));
    const { K } = light.spectralEfficacy.evaluate({ spectrum: flat, V: curveArgument(V), K_m: 683 });
    expect((K / 683) * 400).toBeCloseTo(106.857, 2);
  });

  it("of a line tends to V there", () => {
    expect(efficacy(curve([524.9e-9, 525e-9, 525.1e-9], [0, 1, 0]), V)).toBeCloseTo(0.7932, 4);
  });

  it("does not depend on the scale of the spectrum", () => {
    const [x, y] = [
      [500e-9, 520e-9, 560e-9],
      [0, 1, 0],
    ];
    expect(
      efficacy(
        curve(
          x,
          y.map((value) => 7 * value),
        ),
        V,
      ),
    ).toBeCloseTo(efficacy(curve(x, y), V), 14);
  });
});

describe("bellEfficacy(peak, width, V)", () => {
  it("of a very narrow bell is V at its peak", () => {
    expect(bellEfficacy(525e-9, 1e-12, V)).toBeCloseTo(0.7932, 6);
  });

  it("agrees with the integral of the same bell given as a fine table", () => {
    for (const [peak, width] of [
      [470e-9, 25e-9],
      [525e-9, 35e-9],
      [591e-9, 16e-9],
      [630e-9, 18e-9],
    ] as const) {
      const x = Array.from({ length: 4001 }, (_, i) => peak + (i / 2000 - 1) * 2.5 * width);
      const bell = curve(
        x,
        x.map((value) => Math.exp(-4 * Math.LN2 * ((value - peak) / width) ** 2)),
      );
      expect(Math.abs(bellEfficacy(peak, width, V) / efficacy(bell, V) - 1)).toBeLessThan(1e-4);
      // The sum written out, V read between its rows by hand
      const [seen, all] = x.reduce(([part, whole], at, i) => [part + (bell.y[i] as number) * eye(at), whole + (bell.y[i] as number)], [
        0, 0,
      ] as readonly [number, number]);
      const { K } = light.ledEfficacy.evaluate({ lambda: peak, width, V: curveArgument(V), K_m: 683 });
      expect(Math.abs(K / ((683 * seen) / all) - 1)).toBeLessThan(3e-4);
    }
  });

  it("of a blue LED is a tenth more than V at its peak, or above", () => {
    expect(bellEfficacy(470e-9, 25e-9, V) / curveAt(V, 470e-9)).toBeGreaterThan(1.1);
  });

  it("counts light outside the table as unseen", () => {
    expect(bellEfficacy(900e-9, 20e-9, V)).toBe(0);
  });
});

describe("relativeIntensity(I, table)", () => {
  const table = curve([1e-3, 2e-3, 5e-3, 20e-3], [0.2, 0.42, 1, 3.4]);

  it("gives the rows back, reads between them and goes to zero with the current", () => {
    expect(relativeIntensity(5e-3, table)).toBe(1);
    expect(relativeIntensity(3.5e-3, table)).toBeCloseTo(0.71, 14);
    expect(relativeIntensity(0.5e-3, table)).toBeCloseTo(0.1, 15);
    expect(relativeIntensity(0, table)).toBe(0);
  });

  it("refuses a current above the last row and a negative one", () => {
    expect(() => relativeIntensity(30e-3, table)).toThrow(/outside the table/);
    expect(() => relativeIntensity(-1e-3, table)).toThrow(/outside the table/);
  });

  it("is undone by currentForRelativeIntensity", () => {
    for (const I of [1e-6, 1e-3, 1.7e-3, 5e-3, 13e-3, 20e-3]) {
      expect(currentForRelativeIntensity(relativeIntensity(I, table), table) / I).toBeCloseTo(1, 12);
    }
    expect(() => currentForRelativeIntensity(3.5, table)).toThrow(/ends at 3.4/);
  });
});

describe("thermalFactor(alpha, T, T_0)", () => {
  it("is 1 at the reference temperature and 1.1735 for -0.8 %/K at 20 K below it", () => {
    expect(thermalFactor(-0.008, 298.15, 298.15)).toBe(1);
    expect(thermalFactor(-0.008, 278.15, 298.15)).toBeCloseTo(1.17351, 5);
  });
});
