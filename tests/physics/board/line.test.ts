/** The second routes of lines: the method of moments, elliptic integrals, exact fringes, limiting cases. */
import { describe, expect, it } from "vitest";
import { board } from "../../../lib/physics";
import { law } from "../check-rows";
import { stripByMoments } from "../enclosure/strip-moments";

const eta = 376.730313412;
const c = 299792458;
const h = 0.2e-3;
const strip = (u: number, eps_r: number, t = 0) => board.microstrip.evaluate({ w: u * h, h, t, eps_r });
const symmetric = (w: number, eps_r: number, t = 0) => board.stripline.evaluate({ w: w * 1e-3, b: 1e-3, t: t * 1e-3, eps_r });

describe("board.microstrip", () => {
  it.each([0.3, 0.7, 1, 1.5, 2, 4, 8])(
    "agrees with the method of moments within half a per cent at w = %d·h, in air and on laminates",
    (u) => {
      for (const eps_r of [1, 2.2, 4.3, 9.8]) {
        const [ours, moments] = [strip(u, eps_r), stripByMoments(u * h, h, eps_r)];
        expect(Math.abs(ours.Z / moments.Z - 1), `Z on ${eps_r}`).toBeLessThan(0.005);
        expect(Math.abs(ours.eps_e / moments.eps_e - 1), `permittivity on ${eps_r}`).toBeLessThan(0.005);
      }
    },
  );

  it("tends to a wire over its plane when narrow, and to parallel plates when wide", () => {
    const narrow = strip(0.02, 1);
    expect(narrow.Z / ((eta / (2 * Math.PI)) * Math.log(8 / 0.02))).toBeCloseTo(1, 3);
    const wide = strip(100, 4.3);
    expect(wide.Z / (eta / (Math.sqrt(4.3) * 100))).toBeGreaterThan(0.94);
    expect(wide.Z / (eta / (Math.sqrt(4.3) * 100))).toBeLessThan(1);
    expect(wide.eps_e).toBeGreaterThan(4.1);
  });

  it("has no permittivity but 1 in air, whatever its thickness", () => {
    expect(strip(1.5, 1).eps_e).toBeCloseTo(1, 12);
    expect(strip(1.5, 1, 35e-6).eps_e).toBeCloseTo(1, 12);
  });

  it("loses impedance by its thickness, the more the narrower", () => {
    const loss = (u: number): number => 1 - strip(u, 4.3, 35e-6).Z / strip(u, 4.3).Z;
    expect(loss(1)).toBeGreaterThan(loss(4));
    expect(loss(4)).toBeGreaterThan(0);
    expect(loss(1)).toBeLessThan(0.1);
    expect(strip(1, 4.3, 1e-12).Z / strip(1, 4.3).Z).toBeCloseTo(1, 6);
  });

  it("has an inductance and capacitance whose product is the square of the slowness", () => {
    const { Z, eps_e, L, C } = strip(1.7, 4.3, 35e-6);
    expect(L * C).toBeCloseTo(eps_e / c ** 2, 28);
    expect(Math.sqrt(L / C)).toBeCloseTo(Z, 9);
    const l = 0.04;
    expect(law(board.lineInductance, { Z, l, eps_e, c })).toBeCloseTo(L * l, 15);
    expect(law(board.lineCapacitance, { Z, l, eps_e, c })).toBeCloseTo(C * l, 18);
    expect(law(board.lineDelay, { l, eps_e, c })).toBeCloseTo(Math.sqrt(L * C) * l, 18);
  });

  it("is turned round by microstripWidth, and met by the textbook's synthesis within 1 %", () => {
    for (const Z of [30, 50, 75, 100]) {
      const { w, eps_e } = board.microstripWidth.evaluate({ Z, h, t: 35e-6, eps_r: 4.3 });
      const back = board.microstrip.evaluate({ w, h, t: 35e-6, eps_r: 4.3 });
      expect(back.Z).toBeCloseTo(Z, 9);
      expect(back.eps_e).toBe(eps_e);
      const thin = board.microstripWidth.evaluate({ Z, h, t: 0, eps_r: 4.3 }).w;
      expect(Math.abs(board.textbookMicrostripWidth.evaluate({ Z, h, eps_r: 4.3 }).w / thin - 1)).toBeLessThan(0.012);
    }
  });

  it("refuses an impedance that no strip has", () => {
    expect(() => board.microstripWidth.evaluate({ Z: 500, h, t: 0, eps_r: 4.3 })).toThrow(/there is no microstrip of 500 Ω/);
  });

  it("shows how far the rule of thumb may be trusted", () => {
    const off = (u: number): number =>
      law(board.ruleMicrostripImpedance, { eps_r: 4.3, h, w: u * h, t: 35e-6 }) / strip(u, 4.3, 35e-6).Z - 1;
    for (const u of [0.3, 0.7, 1, 1.5]) expect(Math.abs(off(u)), `w = ${u}·h`).toBeLessThan(0.05);
    expect(off(3)).toBeLessThan(-0.1);
  });
});

/** Complete elliptic integrals K(k)/K(k'), by the arithmetic-geometric mean. */
function ellipticRatio(k: number, k1: number): number {
  const mean = (x: number): number => {
    let [a, b] = [1, x];
    while (Math.abs(a - b) > 1e-15 * a) [a, b] = [(a + b) / 2, Math.sqrt(a * b)];
    return a;
  };
  return mean(k) / mean(k1);
}

describe("board.stripline", () => {
  it.each([0.1, 0.3, 0.6, 1, 2, 5])("without thickness has S. B. Cohn's exact impedance within half a per cent at w = %d·b", (w) => {
    const x = (Math.PI * w) / 2;
    const exact = (eta / (4 * Math.sqrt(4.3))) * ellipticRatio(1 / Math.cosh(x), Math.tanh(x));
    expect(Math.abs(symmetric(w, 4.3).Z / exact - 1)).toBeLessThan(0.005);
  });

  it.each([0.02, 0.05, 0.1, 0.2])("of the thickness %d·b has the exact fringe of a thick edge within one per cent when wide", (t) => {
    const inner = 1 / (1 - t);
    const fringe = (2 * inner * Math.log(inner + 1) - (inner - 1) * Math.log(inner * inner - 1)) / Math.PI;
    for (const w of [0.5, 1, 2, 4]) {
      const exact = eta / 4 / Math.sqrt(4.3) / (w * inner + fringe);
      expect(Math.abs(symmetric(w, 4.3, t).Z / exact - 1), `w = ${w}·b`).toBeLessThan(0.01);
    }
  });

  it("is met by the rule of thumb within 3 % in its range", () => {
    for (const w of [0.1, 0.2, 0.34]) {
      const rule = law(board.ruleStriplineImpedance, { eps_r: 4.3, b: 1e-3, w: w * 1e-3, t: 0.035e-3 });
      expect(Math.abs(rule / symmetric(w, 4.3, 0.035).Z - 1), `w = ${w}·b`).toBeLessThan(0.03);
    }
  });
});

describe("board.criticalLength", () => {
  it("of a 1 ns edge on an inner layer is 24 mm at a sixth", () => {
    expect(law(board.criticalLength, { c, t_r: 1e-9, n: 6, eps_e: 4.3 })).toBeCloseTo(0.0241, 4);
  });
});
