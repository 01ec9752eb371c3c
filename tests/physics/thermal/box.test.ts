/** The second routes of warm surfaces: tables of air, other handbooks' correlations, radiation alone in closed form, the balance of heat. */
import { describe, expect, it } from "vitest";
import { enclosure, thermal } from "../../../lib/physics";
import { increasingRoot } from "../../../lib/physics/numerics/bracket";
import { airAt } from "../../../lib/physics/thermal/air";
import { law } from "../check-rows";

const sigma = 5.670374419e-8;
const case_ = { a: 0.036, b: 0.014, H: 0.058, r: 0, k: 1, h_c: 0, P: 0.75, T_a: 303.15, epsilon: 0.9 };
const area = 2 * (0.036 * 0.014 + 0.036 * 0.058 + 0.014 * 0.058);

describe("air", () => {
  // Dry air at 1 atm as common tables give it (J. P. Holman, table A-5): ν in 1e-6 m²/s, k in W/(m·K), Pr; from memory
  it.each([
    [250, 11.31, 0.02227, 0.722],
    [300, 15.69, 0.02624, 0.708],
    [350, 20.76, 0.03003, 0.697],
    [400, 25.9, 0.03365, 0.689],
  ])("at %d K has the tabled viscosity, conductivity and Prandtl number within two per cent", (T, nu, k, Pr) => {
    const air = airAt(T);
    expect(Math.abs((air.nu * 1e6) / nu - 1)).toBeLessThan(0.02);
    expect(Math.abs(air.k / k - 1)).toBeLessThan(0.02);
    expect(Math.abs(air.Pr / Pr - 1)).toBeLessThan(0.03);
  });
});

describe("thermal.naturalConvection", () => {
  const at = (H: number, L: number, rise: number) => thermal.naturalConvection.evaluate({ H, L, T_s: 298.15 + rise, T_a: 298.15 });
  const nusselt = (h: number, length: number, rise: number): number => (h * length) / airAt(298.15 + rise / 2).k;

  it.each([0.02, 0.05, 0.1, 0.3])("of a side of %d m is S. W. Churchill and H. H. S. Chu's within six per cent", (H) => {
    for (const rise of [3, 10, 30]) {
      const { h_s, Ra_s } = at(H, 0.02, rise);
      const { Pr } = airAt(298.15 + rise / 2);
      const chu = 0.68 + (0.67 * Ra_s ** 0.25) / (1 + (0.492 / Pr) ** (9 / 16)) ** (4 / 9);
      expect(Math.abs(nusselt(h_s, H, rise) / chu - 1), `${rise} K`).toBeLessThan(0.06);
    }
  });

  it("of level faces is W. H. McAdams's within 25 % where that holds, 1e5 to 1e7", () => {
    for (const [L, rise] of [
      [0.05, 10],
      [0.05, 30],
      [0.1, 10],
      [0.1, 40],
    ] as const) {
      const { h_t, h_b, Ra_l } = at(0.1, L, rise);
      expect(Ra_l).toBeGreaterThan(1e5);
      expect(Ra_l).toBeLessThan(1e7);
      expect(Math.abs(nusselt(h_t, L, rise) / (0.54 * Ra_l ** 0.25) - 1)).toBeLessThan(0.15);
      expect(Math.abs(nusselt(h_b, L, rise) / (0.27 * Ra_l ** 0.25) - 1)).toBeLessThan(0.25);
    }
  });

  it("is more on top than below, and turns over for a colder body", () => {
    const { h_t, h_b } = at(0.05, 0.02, 10);
    expect(h_t).toBeGreaterThan(h_b);
    const cold = thermal.naturalConvection.evaluate({ H: 0.05, L: 0.02, T_s: 288.15, T_a: 298.15 });
    expect(cold.h_b).toBeGreaterThan(cold.h_t);
  });

  it("comes near the simple laws for air on large faces, and above them on small ones", () => {
    const simple = (face: typeof thermal.sideCoefficient, H: number): number => law(face, { dT: 10, H });
    expect(Math.abs(at(0.3, 0.1, 10).h_s / simple(thermal.sideCoefficient, 0.3) - 1)).toBeLessThan(0.05);
    expect(at(0.014, 0.1, 10).h_s / simple(thermal.sideCoefficient, 0.014)).toBeGreaterThan(1.05);
  });
});

describe("thermal.boxSurface", () => {
  it("sheds what it is given, part by part", () => {
    for (const k of [1, 0.65, 0.2])
      for (const h_c of [0, 3]) {
        const { T_s, P_c, P_r, P_k, R } = thermal.boxSurface.evaluate({ ...case_, k, h_c });
        expect(P_c + P_r + P_k).toBeCloseTo(0.75, 12);
        expect(P_r).toBeCloseTo(0.9 * sigma * k * area * (T_s ** 4 - 303.15 ** 4), 9);
        expect(P_k).toBeCloseTo((1 - k) * area * h_c * (T_s - 303.15), 12);
        expect(R).toBeCloseTo((T_s - 303.15) / 0.75, 9);
      }
  });

  /** Convective Nusselt number over √A, and Rayleigh and Prandtl number, of a box found at its temperature. */
  function nusselt(box: Partial<typeof case_>, A: number) {
    const { T_s, P_c } = thermal.boxSurface.evaluate({ ...case_, epsilon: 0, ...box });
    const film = (T_s + case_.T_a) / 2;
    const { k, nu, Pr } = airAt(film);
    const Ra = ((9.80665 * (T_s - case_.T_a)) / film / nu ** 2) * Pr * A ** 1.5;
    return { Nu: (P_c / (A * (T_s - case_.T_a)) / k) * Math.sqrt(A), Ra, Pr, T_s };
  }

  it.each([0.02, 0.05, 0.2])("with edges rounded to a ball convects as S. W. Churchill's ball does, within five per cent", (d) => {
    // Heat Exchanger Design Handbook (1983), 2.5.7: Nu = 2 + 0.589·Ra^¼/(1 + (0.469/Pr)^(9/16))^(4/9) over the diameter; from memory
    const A = Math.PI * d * d;
    for (const flux of [5, 50, 300]) {
      const { Nu, Ra, Pr } = nusselt({ a: d, b: d, H: d, r: d / 2, P: flux * A }, A);
      const over = Ra / Math.PI ** 1.5;
      const ball = (2 + (0.589 * over ** 0.25) / (1 + (0.469 / Pr) ** (9 / 16)) ** (4 / 9)) * Math.sqrt(Math.PI);
      expect(Math.abs(Nu / ball - 1), `${flux} W/m², Ra ${Ra}`).toBeLessThan(0.05);
    }
  });

  it.each([0.01, 0.05, 0.2])("of a cube of %d m is the measured one's within four per cent: Nu = 3.388 + 0.951·0.513·Ra^¼", (d) => {
    // M. M. Yovanovich, AIAA 87-1643, after M. J. Chamberlain's cube in air, Ra 10 to 1e8; from memory
    const A = 6 * d * d;
    const { Nu, Ra } = nusselt({ a: d, b: d, H: d, P: 40 * A }, A);
    expect(Math.abs(Nu / (3.388 + 0.951 * 0.513 * Ra ** 0.25) - 1), `Ra ${Ra}`).toBeLessThan(0.04);
  });

  it("is warmer than its faces by themselves would leave it, which shed 5 % to 45 % more than the box", () => {
    for (const box of [
      { a: 0.036, b: 0.014, H: 0.058 },
      { a: 0.12, b: 0.07, H: 0.025 },
      { a: 0.1, b: 0.06, H: 0.02 },
      { a: 0.08, b: 0.03, H: 0.15 },
    ]) {
      const { a, b, H } = box;
      const { T_s } = thermal.boxSurface.evaluate({ ...case_, ...box, epsilon: 0 });
      const { h_s, h_t, h_b } = thermal.naturalConvection.evaluate({ H, L: law(thermal.faceLength, { a, b }), T_s, T_a: 303.15 });
      const alone = (2 * (a + b) * H * h_s + a * b * (h_t + h_b)) * (T_s - 303.15);
      expect(alone / 0.75, JSON.stringify(box)).toBeGreaterThan(1.05);
      expect(alone / 0.75, JSON.stringify(box)).toBeLessThan(1.45);
    }
  });

  it("is the same whichever level side is named first, and warmer with rounded edges, by the surface that they take away", () => {
    const T = (box: Partial<typeof case_>): number => thermal.boxSurface.evaluate({ ...case_, ...box }).T_s - 303.15;
    expect(T({ a: 0.014, b: 0.036 })).toBe(T({}));
    const lost = law(enclosure.roundedBoxArea, { L: 0.036, W: 0.014, H: 0.058, r: 0.006 }) / area;
    expect(T({ r: 0.006 }) / T({})).toBeGreaterThan(1.03);
    expect(T({ r: 0.006 }) / T({})).toBeLessThan(1 / lost);
    expect(() => T({ r: 0.0071 })).toThrow(/at most half the shortest side/);
    expect(law(thermal.boxArea, case_)).toBeCloseTo(area, 12);
  });

  it("is at the ambient without heat, with the resistance that little heat would see", () => {
    const { T_s, R } = thermal.boxSurface.evaluate({ ...case_, P: 0 });
    expect(T_s).toBe(303.15);
    const little = thermal.boxSurface.evaluate({ ...case_, P: 1e-4 });
    expect(R / little.R).toBeGreaterThan(0.9);
    expect(R / little.R).toBeLessThan(1.2);
  });

  it("is warmer the more is covered, bare metal by a third, and says so when it is covered all round", () => {
    const rise = (more: Partial<typeof case_>): number => thermal.boxSurface.evaluate({ ...case_, ...more }).T_s - 303.15;
    expect(rise({ k: 0.65 }) / rise({})).toBeGreaterThan(1.3);
    expect(rise({ k: 0.65 }) / rise({})).toBeLessThan(1 / 0.65);
    expect(rise({ epsilon: 0.1 }) / rise({})).toBeGreaterThan(1.3);
    expect(rise({ epsilon: 0.1 }) / rise({})).toBeLessThan(2);
    expect(() => rise({ k: 0 })).toThrow(/covered all round/);
    expect(() => rise({ P: -1 })).toThrow(/P ≥ 0/);
  });

  it("makes a pocket case 10 K warm at 0.75 W in free air, and 14 K to 15 K clipped with 65 % free: practice's 10 to 12 W/(m²·K)", () => {
    const rise = (k: number): number => thermal.boxSurface.evaluate({ ...case_, k }).T_s - 303.15;
    expect(rise(1)).toBeGreaterThan(9);
    expect(rise(1)).toBeLessThan(11);
    expect(rise(0.65)).toBeGreaterThan(13);
    expect(rise(0.65)).toBeLessThan(16);
    expect(0.75 / (area * rise(1))).toBeGreaterThan(10);
    expect(0.75 / (area * rise(1))).toBeLessThan(12.5);
  });
});

describe("thermal.simpleBoxSurface", () => {
  // J. P. Holman, Heat Transfer, table 7-2: h = c·(ΔT/L)^¼ in W/(m²·K), 1.42 upright, 1.32 looking up, 0.59 looking down; from memory
  const { a, b, H } = case_;
  const L = (a * b) / (2 * (a + b));
  const c = (1.42 * 2 * (a + b) * H) / H ** 0.25 + ((1.32 + 0.59) * a * b) / L ** 0.25;

  it.each([0.05, 0.4, 1, 3])("of %d W without radiation is Holman's laws turned round: ΔT = (P/(k·c))^(4/5)", (P) => {
    for (const k of [1, 0.6]) {
      const { T_s, P_c, P_k, R } = thermal.simpleBoxSurface.evaluate({ ...case_, P, k, epsilon: 0 });
      const rise = (P / (k * c)) ** 0.8;
      expect((T_s - case_.T_a) / rise).toBeCloseTo(1, 9);
      expect([P_c / P, (R * P) / rise]).toEqual([expect.closeTo(1, 9), expect.closeTo(1, 9)]);
      expect(P_k).toBe(0);
    }
  });

  it.each([
    [1, 0.9, 0],
    [0.5, 0.9, 4],
    [0.7, 0.3, 12],
  ])(
    "free on the share %d, with the emissivity %d and %d W/(m²·K) through its cover, sheds by three ways what it is given",
    (k, epsilon, h_c) => {
      for (const T of [304, 315, 340]) {
        const rise = T - case_.T_a;
        const [P_c, P_r, P_k] = [k * c * rise ** 1.25, k * epsilon * sigma * area * (T ** 4 - case_.T_a ** 4), (1 - k) * area * h_c * rise];
        const found = thermal.simpleBoxSurface.evaluate({ ...case_, k, epsilon, h_c, P: P_c + P_r + P_k });
        expect(found.T_s).toBeCloseTo(T, 8);
        expect(found.P_c / P_c).toBeCloseTo(1, 6);
        expect(found.P_r / P_r).toBeCloseTo(1, 6);
        expect(found.P_k).toBeCloseTo(P_k, 6);
      }
    },
  );
});

describe("thermal.evenCoefficientSurface", () => {
  it("without convection is the fourth root of radiation, without radiation Newton's line", () => {
    const radiating = { A: 0.01, h: 0, P: 3, T_a: 290, epsilon: 0.8 };
    const closed = (290 ** 4 + 3 / (0.8 * sigma * 0.01)) ** 0.25;
    expect(thermal.evenCoefficientSurface.evaluate(radiating).T_s).toBeCloseTo(closed, 9);
    const cooled = thermal.evenCoefficientSurface.evaluate({ ...radiating, h: 6, epsilon: 0 });
    expect(cooled.T_s).toBeCloseTo(290 + 3 / 0.06, 9);
    expect(cooled.R).toBeCloseTo(law(thermal.filmResistance, { h: 6, A: 0.01 }), 9);
  });

  it("has the radiation coefficient as the quotient of heat and difference", () => {
    const { T_s, P_r } = thermal.evenCoefficientSurface.evaluate({ A: 0.01, h: 6, P: 3, T_a: 290, epsilon: 0.8 });
    const h_r = law(thermal.radiationCoefficient, { epsilon: 0.8, sigma, T_1: T_s, T_2: 290 });
    expect(h_r * 0.01 * (T_s - 290)).toBeCloseTo(P_r, 12);
    expect(law(thermal.radiatedPower, { epsilon: 0.8, sigma, A: 0.01, T_s, T_a: 290 })).toBeCloseTo(P_r, 12);
  });
});

describe("increasingRoot", () => {
  it("finds the root of a straight, a steep and a flat function to rounding", () => {
    expect(increasingRoot((x) => 3 * x - 1, 0, 1, "root")).toBeCloseTo(1 / 3, 15);
    expect(increasingRoot((x) => Math.exp(40 * x) - 1e6, 0, 1, "root")).toBeCloseTo(Math.log(1e6) / 40, 14);
    expect(increasingRoot((x) => (x - 0.3) ** 3, -1, 1, "root")).toBeCloseTo(0.3, 14);
    expect(increasingRoot((x) => Math.exp(500 * x) - 2, 0, 1, "root")).toBeCloseTo(Math.LN2 / 500, 14);
    expect(increasingRoot((x) => x, 0, 1, "root")).toBe(0);
  });

  it("says what it looked for where there is none", () => {
    expect(() => increasingRoot((x) => x + 2, 0, 1, "crossing")).toThrow(/there is no crossing between 0 and 1/);
  });
});
