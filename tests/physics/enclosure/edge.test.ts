/** Moments and elastic edges of plates: Timoshenko's tables, finite differences, the strip in closed form. */
import { describe, expect, it } from "vitest";
import { enclosure } from "../../../lib/physics";
import { law } from "../check-rows";
import { centreDeflection, type Inside, type Mesh, moments } from "./finite-difference-plate";

// Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, 2nd edition (1959), Tables 8, 35 and 37, nu = 0.3; from memory
const table8 = [0.0479, 0.0554, 0.0627, 0.0694, 0.0755, 0.0812, 0.0862, 0.0908, 0.0948, 0.0985, 0.1017];
const edge35 = [0.0513, 0.0581, 0.0639, 0.0687, 0.0726, 0.0757, 0.078, 0.0799, 0.0812, 0.0822, 0.0829];
const centre35 = [0.0231, 0.0264, 0.0299, 0.0327, 0.0349, 0.0368, 0.0381, 0.0392, 0.0401, 0.0407, 0.0412];
const edge37 = [0.1257, 0.149, 0.1604, 0.1651, 0.1667, 0.1674];

describe("moments of plates", () => {
  it("are those of the tables: supported and clamped under uniform load", () => {
    for (let i = 0; i <= 10; i++) {
      const r = 1 + i / 10;
      expect(Math.abs(law(enclosure.uniformSupportedMoment, { r, nu: 0.3 }) / (table8[i] as number) - 1), `supported ${r}`).toBeLessThan(
        2e-3,
      );
      expect(Math.abs(law(enclosure.uniformClampedEdgeMoment, { r }) / (edge35[i] as number) - 1), `edge ${r}`).toBeLessThan(2e-3);
      expect(Math.abs(law(enclosure.uniformClampedCentreMoment, { r }) / (centre35[i] as number) - 1), `centre ${r}`).toBeLessThan(0.012);
    }
    expect(law(enclosure.uniformSupportedMoment, { r: 4, nu: 0.3 })).toBeCloseTo(0.1235, 4);
  });

  it("are those of the table at the edge under a force at the centre", () => {
    edge37.forEach((beta, i) => {
      expect(Math.abs(law(enclosure.pointClampedEdgeMoment, { r: 1 + i / 5 }) / beta - 1)).toBeLessThan(2e-3);
    });
  });

  it("of long plates are those of a strip: q·a²/8, q·a²/12 and q·a²/24", () => {
    expect(law(enclosure.uniformSupportedMoment, { r: 20, nu: 0.3 })).toBeCloseTo(1 / 8, 9);
    expect(law(enclosure.uniformClampedEdgeMoment, { r: 20 })).toBeCloseTo(1 / 12, 9);
    expect(law(enclosure.uniformClampedCentreMoment, { r: 20 })).toBeCloseTo(1 / 24, 9);
  });

  it("make stresses at the surface of 6·M/t²", () => {
    const M = law(enclosure.uniformMoment, { beta: 0.0479, q: 1e3, a: 0.04 });
    expect(M).toBeCloseTo(0.0479 * 1.6, 12);
    expect(law(enclosure.bendingStress, { M, t: 2e-3 })).toBeCloseTo((6 * M) / 4e-6, 3);
    expect(law(enclosure.pointMoment, { beta: 0.1257, F: 20 })).toBeCloseTo(2.514, 12);
  });
});

describe("elastic edges", () => {
  const all: Inside = () => true;
  const patch: Inside = (x, y) => Math.abs(x) <= 0.125 && Math.abs(y) <= 0.125;
  const mesh = (b: number, mirror: Mesh["mirror"]): Mesh => ({ a: 1, b, nx: 23, ny: 2 * Math.round(12 * b) - 1, mirror });

  it.each([1, 1.5, 2, 3])(
    "of a plate 1 × %d deflect as finite differences within 2 %, and the moments at their edges are hardly below theirs",
    (b) => {
      for (const [load, number, edgeHigh] of [
        [all, enclosure.uniformEdgeNumber, 1.1],
        [patch, enclosure.patchEdgeNumber, 1.25],
      ] as const) {
        const [w_s, w_c] = ([-1, 1] as const).map((mirror) => centreDeflection(mesh(b, mirror), load)) as [number, number];
        const [m_s, m_c] = ([-1, 1] as const).map((mirror) => moments(mesh(b, mirror), load, 0.3));
        for (const k_r of [1, 5, 20, 80]) {
          const springs = mesh(b, { spring: k_r });
          const f = law(enclosure.edgeFixity, { k_r, a: 1, c: law(number, { r: b }), D: 1 });
          const w = law(enclosure.elasticEdgeCoefficient, { alpha_s: w_s, f, alpha_c: w_c });
          expect(Math.abs(w / centreDeflection(springs, load) - 1), `w at ${k_r}`).toBeLessThan(0.02);
          const found = moments(springs, load, 0.3);
          const edge = law(enclosure.elasticEdgeMoment, { f, beta_c: m_c?.edge ?? Number.NaN }) / found.edge;
          expect(edge, `edge at ${k_r}`).toBeGreaterThan(0.96);
          expect(edge, `edge at ${k_r}`).toBeLessThan(edgeHigh);
          const centre = law(enclosure.elasticEdgeCoefficient, { alpha_s: m_s?.centre ?? 0, f, alpha_c: m_c?.centre ?? 0 });
          expect(Math.abs(centre / found.centre - 1), `centre at ${k_r}`).toBeLessThan(0.02);
        }
      }
    },
  );

  it("of a long strip are exact: w = 5·q·a⁴/(384·D) − M·a²/(8·D) with M = q·a²/12/(1 + 2·D/(k_r·a))", () => {
    const [k_r, a, D, q] = [7, 0.03, 0.4, 1000];
    const M = (q * a * a) / 12 / (1 + (2 * D) / (k_r * a));
    const f = law(enclosure.edgeFixity, { k_r, a, c: law(enclosure.uniformEdgeNumber, { r: 40 }), D });
    const alpha = law(enclosure.elasticEdgeCoefficient, { alpha_s: 5 / 384, f, alpha_c: 1 / 384 });
    expect((alpha * q * a ** 4) / D).toBeCloseTo((5 * q * a ** 4) / (384 * D) - (M * a * a) / (8 * D), 12);
    expect(law(enclosure.elasticEdgeMoment, { f, beta_c: 1 / 12 }) * q * a * a).toBeCloseTo(M, 12);
  });

  it("are supported without a wall and clamped by a rigid one; a wall turns by its moment over n·D/H", () => {
    const f = (k_r: number): number => law(enclosure.edgeFixity, { k_r, a: 0.03, c: 3, D: 0.4 });
    expect(f(0)).toBe(0);
    expect(f(1e12)).toBeCloseTo(1, 9);
    // A beam of unit stiffness and length 1, moment m at one end: slope m/4 clamped, m/3 pinned, m/2 bent evenly
    for (const [n, slope] of [
      [4, 1 / 4],
      [3, 1 / 3],
      [2, 1 / 2],
    ] as const) {
      expect(1 / law(enclosure.wallEdgeStiffness, { n, D: 1, H: 1 })).toBeCloseTo(slope, 12);
    }
  });
});

describe("a boss under pressure", () => {
  /** (E, ν, radii): equilibrium and compatibility of a tube in small rings, u'' + u'/r − u/r² = 0, pin of interference d. */
  function ringed(E: number, nu: number, d_i: number, d_o: number, d: number) {
    const [a, b, n] = [d_i / 2, d_o / 2, 4000];
    const h = (b - a) / n;
    // u(a) = d/2; σ_r(b) = 0, plane stress: u' + ν·u/r = 0. By shooting, as it is linear
    const outside = (slope: number) => {
      let [u, v] = [d / 2, slope];
      for (let i = 0; i < n; i++) {
        const r = a + i * h;
        const at = (r: number, u: number, v: number): number => u / r ** 2 - v / r;
        const [u1, v1] = [v, at(r, u, v)];
        const [u2, v2] = [v + (h / 2) * v1, at(r + h / 2, u + (h / 2) * u1, v + (h / 2) * v1)];
        [u, v] = [u + h * u2, v + h * v2];
      }
      return v + (nu * u) / b;
    };
    const [at0, at1] = [outside(0), outside(1e-3)];
    const slope = (-at0 / (at1 - at0)) * 1e-3;
    const factor = E / (1 - nu * nu);
    return { p: -factor * (slope + (nu * d) / 2 / a), sigma: factor * (d / 2 / a + nu * slope) };
  }

  it("is Lamé's tube: pressure and hoop stress as of its differential equation", () => {
    for (const [d_i, d_o] of [
      [1.7e-3, 4e-3],
      [3e-3, 5e-3],
      [3e-3, 30e-3],
    ] as const) {
      const [E, nu, d] = [2.2e9, 0.37, 30e-6];
      const { p, sigma } = ringed(E, nu, d_i, d_o, d);
      const ours = law(enclosure.pressFitPressure, { E, d, d_i, d_o, nu });
      expect(Math.abs(ours / p - 1)).toBeLessThan(1e-4);
      const hoop = law(enclosure.boreHoopStress, { p: ours, d_o, d_i });
      expect(Math.abs(hoop / sigma - 1)).toBeLessThan(1e-4);
      expect(law(enclosure.pressFitInterference, { sigma: hoop, E, d_i, d_o, nu }) / d).toBeCloseTo(1, 9);
      expect(hoop - law(enclosure.outerHoopStress, { p: ours, d_o, d_i })).toBeCloseTo(ours, 3);
    }
  });

  it("of a thin wall is p·d/(2·t), of a thick one p itself", () => {
    expect(law(enclosure.boreHoopStress, { p: 1e6, d_i: 0.1, d_o: 0.1002 }) / ((1e6 * 0.1) / 2e-4)).toBeCloseTo(1, 2);
    expect(law(enclosure.boreHoopStress, { p: 1e6, d_i: 1e-3, d_o: 1 }) / 1e6).toBeCloseTo(1, 5);
  });
});
