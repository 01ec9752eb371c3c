/** Creep and clips against the integral of the history, ribs against slices of their section. */
import { describe, expect, it } from "vitest";
import { Evaluation } from "../../../lib/analysis/evaluation";
import { Graph } from "../../../lib/graph/graph";
import { enclosure } from "../../../lib/physics";
import { exact, formula, given, within } from "../../graph/nodes";
import { law, reference, si } from "../check-rows";

const hour = 3600;
const plastic = { E_0: 2.4e9, t_0: hour, n: 0.15, E_t: 12e9 };

describe("the creep modulus", () => {
  it("begins at the modulus, falls for ever, and is what stepwise loading adds up to", () => {
    expect(law(enclosure.creepModulus, { ...plastic, t: 0 })).toBe(2.4e9);
    const [short, long] = [1, 1000].map((t) => law(enclosure.creepModulus, { ...plastic, t: t * hour }));
    expect(short).toBeCloseTo(2e9, 0);
    expect(1 / (long ?? 0)).toBeCloseTo(1 / 2.4e9 + 1000 ** 0.15 / 12e9, 20);
    expect(law(enclosure.creptDeflection, { w_0: 0.4e-3, E_0: 2.4e9, E_c: short ?? 0 })).toBeCloseTo(0.48e-3, 12);
  });

  it("between two times of a data sheet goes through both, and is a pure power of time", () => {
    const sheet = { E_1: 2.1e9, E_2: 1.6e9, t_1: hour, t_2: 1000 * hour };
    const at = (t: number): number => law(enclosure.creepModulusBetween, { ...sheet, t: t * hour });
    expect(at(1)).toBeCloseTo(2.1e9, 0);
    expect(at(1000)).toBeCloseTo(1.6e9, 0);
    expect(at(10) / at(1)).toBeCloseTo(at(100) / at(10), 12);
    // With no modulus at once, Findley's law is the same straight line
    const n = Math.log(2.1 / 1.6) / Math.log(1000);
    expect(law(enclosure.creepModulus, { E_0: 1e30, t: 50 * hour, t_0: hour, n, E_t: 2.1e9 }) / at(50)).toBeCloseTo(1, 9);
  });

  it("has rows that fall with time, below the moduli of the table of materials", () => {
    const [creep, materials] = [reference("creep"), reference("materials")];
    for (const name of ["abs", "pc", "pc-abs", "pc-gf20", "pa-gf30", "pbt-gf30"]) {
      const [E, E_1, E_2] = [materials.value(`${name}-modulus`), creep.value(`${name}-1h`), creep.value(`${name}-1000h`)];
      expect(E_1).toBeLessThan(E);
      expect(E_2).toBeLessThan(E_1);
      expect(E_2 / E).toBeGreaterThan(0.5);
    }
    expect(creep.value("pa6-gf30-conditioned")).toBe(materials.value("pa-gf30-modulus"));
  });
});

/** Stress that a held strain leaves, by Boltzmann's superposition: ε = ∫ J(t − s)·dσ(s) on a grid even in log t. */
function relaxation(J: (t: number) => number, end: number, points: number): number {
  const t = [0, ...Array.from({ length: points }, (_, i) => end * 10 ** ((8 * (i + 1 - points)) / points))];
  const stress = [1 / J(0)];
  const steps: number[] = [];
  for (let i = 1; i < t.length; i++) {
    let strain = (stress[0] as number) * J(t[i] as number);
    for (let j = 1; j < i; j++) strain += (steps[j] as number) * J((t[i] as number) - 0.5 * ((t[j] as number) + (t[j - 1] as number)));
    steps[i] = (1 - strain) / J(0.5 * ((t[i] as number) - (t[i - 1] as number)));
    stress[i] = (stress[i - 1] as number) + (steps[i] as number);
  }
  return stress.at(-1) as number;
}

describe("a clip", () => {
  it("keeps the force that the history of its stress leaves, within what the law says it leaves out", () => {
    for (const n of [0.1, 0.2]) {
      const J = (t: number): number => 1 / plastic.E_0 + (t / hour) ** n / plastic.E_t;
      const left = relaxation(J, 1000 * hour, 500);
      const E_c = law(enclosure.creepModulus, { ...plastic, n, t: 1000 * hour });
      const F = law(enclosure.relaxedForce, { F_0: 10, E_c, E_0: plastic.E_0 });
      const over = F / ((10 * left) / plastic.E_0);
      expect(over).toBeGreaterThan(1);
      expect(over).toBeLessThan((Math.PI * n) / Math.sin(Math.PI * n));
    }
  });

  it("gives the force and strain of an integrated beam", () => {
    const clip = { E: 2.4e9, w: 8e-3, t: 1.5e-3, l: 20e-3, s: 1.2e-3 };
    const F = law(enclosure.clipForce, clip);
    // Deflection at the end under F: curvature summed twice along the tongue
    const I = (clip.w * clip.t ** 3) / 12;
    let [slope, deflection] = [0, 0];
    const steps = 4000;
    for (let i = 0; i < steps; i++) {
      const dx = clip.l / steps;
      const x = (i + 0.5) * dx;
      const turn = (F * (clip.l - x) * dx) / (clip.E * I);
      deflection += (slope + turn / 2) * dx;
      slope += turn;
    }
    expect(deflection).toBeCloseTo(clip.s, 9);
    expect(law(enclosure.clipStrain, clip)).toBeCloseTo((F * clip.l * clip.t) / (2 * clip.E * I), 12);
    expect(F).toBeGreaterThan(1);
    expect(F).toBeLessThan(10);
  });
});

describe("a polyamide", () => {
  it("takes up what was stated at 50 % and in water, and its modulus goes from dry to conditioned", () => {
    const creep = reference("creep");
    const [c_s, c_50] = [creep.value("pa6-saturated-water"), creep.value("pa6-conditioned-water")];
    const m = Math.log(c_s / c_50) / Math.log(2);
    expect(m).toBeCloseTo(1.8, 1);
    const c = (phi: number): number => law(enclosure.moistureContent, { c_s, phi, m });
    expect(c(0.5)).toBeCloseTo(c_50, 12);
    expect(c(1)).toBeCloseTo(c_s, 12);
    const [E_d, E_50] = [creep.value("pa6-dry"), creep.value("pa6-conditioned")];
    const E = (phi: number): number => law(enclosure.conditionedModulus, { E_d, E_50, c: c(phi), c_50 });
    expect(E(0)).toBe(E_d);
    expect(E(0.5)).toBeCloseTo(E_50, 0);
    expect(E(0.3)).toBeGreaterThan(E_50);
    expect(E(0.6) / E_50).toBeGreaterThan(0.5);
  });
});

describe("a ribbed wall", () => {
  const wall = { t: 1.6e-3, p: 12e-3, b: 0.9e-3, h: 3e-3 };
  const bent = (shape: typeof wall) => {
    const y = law(enclosure.ribbedCentroid, shape);
    const J = law(enclosure.ribbedSecondMoment, { ...shape, y });
    return { y, J, t_e: law(enclosure.ribbedThickness, { J, p: shape.p }) };
  };

  it("has the centroid and second moment of its slices", () => {
    const slices = 40000;
    const height = wall.t + wall.h;
    const [dz, width] = [height / slices, (z: number): number => (z < wall.t ? wall.p : wall.b)];
    let [A, S, I] = [0, 0, 0];
    for (let i = 0; i < slices; i++) {
      const z = (i + 0.5) * dz;
      A += width(z) * dz;
      S += width(z) * z * dz;
      I += width(z) * z * z * dz;
    }
    const { y, J } = bent(wall);
    expect(y).toBeCloseTo(S / A, 7);
    expect(J / (I - (S * S) / A)).toBeCloseTo(1, 3);
    expect(law(enclosure.ribbedMassThickness, wall) / (A / wall.p)).toBeCloseTo(1, 3);
  });

  it("without ribs, and with ribs that fill the pitch, is a smooth wall", () => {
    expect(bent({ ...wall, h: 0 }).t_e).toBeCloseTo(wall.t, 12);
    expect(bent({ ...wall, b: wall.p }).t_e).toBeCloseTo(wall.t + wall.h, 12);
  });

  it("is as stiff as a wall of 2.65 mm for the mass of 1.83 mm", () => {
    const { t_e, y, J } = bent(wall);
    expect(t_e * 1e3).toBeCloseTo(2.652, 3);
    expect(law(enclosure.ribbedMassThickness, wall) * 1e3).toBeCloseTo(1.825, 9);
    const tip = law(enclosure.ribStress, { ...wall, M: 0.1, y, J });
    expect(tip).toBeCloseTo((0.1 * (4.6e-3 - y)) / J, 6);
    expect(tip).toBeGreaterThan((0.1 * y) / J);
  });
});

describe("creep in the graph", () => {
  it("has the clip's least force at the softest plastic, largest creep", () => {
    const nodes = [
      given("E_1", 2.1e9, within(1.8e9, 2.4e9)),
      given("E_2", 1.6e9, within(1.4e9, 1.8e9)),
      given("t", 1e4, exact),
      given("F_1", 5, within(4.5, 5.5)),
      formula("F", "F_1*(E_2/E_1)^(ln(t)/ln(1000))"),
    ];
    const { worst, nominal } = new Evaluation(Graph.from(nodes), { samples: 2000 }).analysis("F");
    const at = (E_1: number, E_2: number): number =>
      law(enclosure.creepModulusBetween, { E_1, E_2, t: 1e4 * hour, t_1: hour, t_2: 1000 * hour }) / E_1;
    expect(nominal).toBeCloseTo(5 * at(2.1e9, 1.6e9), 9);
    expect(worst?.low).toBeCloseTo(4.5 * at(2.4e9, 1.4e9), 9);
    expect(si("1e4 h")).toBe(1e4 * hour);
  });
});
