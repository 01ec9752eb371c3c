import { describe, expect, it } from "vitest";
import { battery, lifetime } from "../../../lib/physics";
import { boltzmann } from "../../../lib/physics/constants";
import { law, si } from "../check-rows";
import { randomFrom } from "../control/power-states";

const [hour, year] = [3600, si("1 year")];
const k_B = boltzmann;
const celsius = (t: number): number => t + 273.15;

describe("connectors", () => {
  it("rated for 5000 matings last nine years at two a day on three quarters of the days", () => {
    const use = { N: 5000, f: si("2 1/d"), u: 0.75 };
    const t = law(lifetime.matingYears, use);
    expect(t / year).toBeCloseTo(5000 / (1.5 * 365.25), 2);
    expect(law(lifetime.matings, { ...use, t })).toBeCloseTo(5000, 9);
    expect(law(lifetime.matingWear, { n: 1000, N: 5000 })).toBe(0.2);
  });

  it("go from their new to their worn resistance", () => {
    const contact = { R_0: 30e-3, R_e: 60e-3, N: 5000 };
    expect(law(lifetime.wornContact, { ...contact, n: 0 })).toBe(30e-3);
    expect(law(lifetime.wornContact, { ...contact, n: 5000 })).toBeCloseTo(60e-3, 15);
  });
});

describe("the ten-degree rule", () => {
  const part = { L_max: 15 * year, L_0: 2000 * hour, T_0: celsius(105), dT: 10 };

  it("halves the life with every ten degrees: 2000 h at 105 °C are 4000 h at 95 °C and 64 000 h at 55 °C", () => {
    expect(law(lifetime.electrolyticLife, { ...part, T: celsius(105) }) / hour).toBeCloseTo(2000, 6);
    expect(law(lifetime.electrolyticLife, { ...part, T: celsius(95) }) / hour).toBeCloseTo(4000, 6);
    expect(law(lifetime.electrolyticLife, { ...part, T: celsius(55) }) / hour).toBeCloseTo(64000, 5);
  });

  it("stops at the life of the seal", () => {
    expect(law(lifetime.electrolyticLife, { ...part, T: celsius(45) }) / hour).toBeCloseTo(128000, 5);
    expect(law(lifetime.electrolyticLife, { ...part, T: celsius(40) }) / year).toBe(15);
  });

  it("is Arrhenius's law at one temperature only, and stays within 15 % of it for ten degrees either way", () => {
    const E_a = law(lifetime.halvingEnergy, { k_B, T: celsius(85), dT: 10 });
    expect(E_a / 1.602176634e-19).toBeCloseTo((8.617333e-5 * Math.LN2 * 358.15 * 368.15) / 10, 5);
    const factor = (T: number): number => law(lifetime.accelerationFactor, { E_a, k_B, T: celsius(T), T_t: celsius(95) });
    expect(factor(85)).toBeCloseTo(2, 9);
    expect(factor(75) / 4).toBeGreaterThan(1);
    expect(Math.abs(factor(75) / 4 - 1)).toBeLessThan(0.15);
    expect(Math.abs(factor(105) * 2 - 1)).toBeLessThan(0.15);
    // Six steps of ten degrees below, the rule is on the safe side by a factor
    expect(factor(35) / 2 ** 6).toBeGreaterThan(1.5);
    const known = (T: number): number => law(lifetime.halvingEnergy, { k_B, T: celsius(T), dT: 10 }) / 1.602176634e-19;
    expect([known(35), known(110)].map((E) => E.toFixed(2))).toEqual(["0.59", "0.90"]);
  });

  it("counts the ripple's own heat: twice the rated current makes four times its rise", () => {
    const at = (I: number): number => law(lifetime.rippleHeating, { T_a: celsius(45), dT_r: 5, I, I_r: 0.1 });
    expect(at(0)).toBe(celsius(45));
    expect(at(0.2)).toBeCloseTo(celsius(65), 9);
  });
});

describe("Arrhenius's law", () => {
  it("in electronvolts and in joules per mole is one law", () => {
    const eV = 1.602176634e-19;
    const [N_A, R_m] = [6.02214076e23, 8.31446261815324];
    const A = law(lifetime.accelerationFactor, { E_a: 0.5 * eV, k_B, T: celsius(25), T_t: celsius(45) });
    const x = law(battery.ageingSpeed, { E_a: 0.5 * eV * N_A, R_m, T: celsius(45), T_0: celsius(25) });
    expect(A).toBeCloseTo(x, 9);
    expect(lifetime.ageingSpeed).toBe(battery.ageingSpeed);
  });

  it("is what a rate of jumps over a barrier makes of a population: counted molecule by molecule", () => {
    // Boltzmann's share above a barrier at two temperatures, drawn from exponential energies
    const random = randomFrom(3);
    const [barrier, n] = [3.5, 400000];
    const above = (kT: number): number => {
      let count = 0;
      for (let i = 0; i < n; i++) count += -Math.log(1 - random()) * kT > barrier ? 1 : 0;
      return count / n;
    };
    const factor = above(1.1) / above(1);
    // E_a = 3.5 k_B·T_0, T = 1.1·T_0
    const A = law(lifetime.accelerationFactor, { E_a: 3.5 * k_B * 300, k_B, T: 300, T_t: 330 });
    expect(factor / A).toBeCloseTo(1, 1);
    expect(A).toBeCloseTo(Math.exp(3.5 * (1 - 1 / 1.1)), 9);
  });

  it("keeps data twenty years at 55 °C for centuries at 25 °C, with 1.1 eV", () => {
    const memory = { t_0: 20 * year, E_a: 1.1 * 1.602176634e-19, k_B, T_0: celsius(55) };
    expect(law(lifetime.retentionTime, { ...memory, T: celsius(55) }) / year).toBeCloseTo(20, 9);
    const cool = law(lifetime.retentionTime, { ...memory, T: celsius(25) });
    expect(cool / year).toBeCloseTo(20 * Math.exp((1.1 / 8.617333262e-5) * (1 / 298.15 - 1 / 328.15)), 0);
    const hot = law(lifetime.retentionTime, { ...memory, T: celsius(70) });
    // A tenth of the time in a hot car: nearly ten times the life in the car
    const mixed = law(lifetime.lifeOfTwo, { d: 0.1, t_1: hot, t_2: cool });
    expect(mixed / (10 * hot)).toBeGreaterThan(0.9);
    expect(mixed / (10 * hot)).toBeLessThan(1);
    expect(law(lifetime.lifeOfTwo, { d: 0, t_1: hot, t_2: cool })).toBeCloseTo(cool, 0);
  });
});

describe("class-2 ceramic capacitors", () => {
  const type = { a: 0.025, t_0: 1 * hour };

  it("lose 2.5 % in each decade: 12.2 % from an hour to ten years", () => {
    expect(law(lifetime.ceramicAgeing, { ...type, t: 1 * hour })).toBe(1);
    expect(law(lifetime.ceramicAgeing, { ...type, t: 1000 * hour })).toBeCloseTo(0.925, 12);
    const aged = law(lifetime.ceramicAgeing, { ...type, t: 10 * year });
    expect(1 - aged).toBeCloseTo(0.1236, 4);
    expect(law(lifetime.ceramicAge, { ...type, k_a: aged }) / year).toBeCloseTo(10, 9);
    expect(law(lifetime.agedCapacitance, { C_0: 10e-6, ...type, t: 10 * year })).toBeCloseTo(10e-6 * aged, 15);
  });

  it("differ from decades taken one by one of what is left by less than the tolerance of the rate", () => {
    const linear = law(lifetime.ceramicAgeing, { ...type, t: 1e5 * hour });
    expect(Math.abs(linear - 0.975 ** 5)).toBeLessThan(0.01);
  });
});
