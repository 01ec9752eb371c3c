/** Yields and their costs against draws, against sums of whole numbers, and against counting units through a line. */
import { describe, expect, it } from "vitest";
import { lifetime } from "../../../lib/physics";
import { binomialAtMost, logFactorial } from "../../../lib/physics/numerics/binomial";
import { law } from "../check-rows";
import { randomFrom } from "../control/power-states";

/** n!/(k!·(n−k)!) in whole numbers. */
function choose(n: number, k: number): bigint {
  let product = 1n;
  for (let i = 0; i < k; i++) product = (product * BigInt(n - i)) / BigInt(i + 1);
  return product;
}

describe("the binomial distribution", () => {
  it("is the sum of its terms in whole numbers, for p = 1/20 and any k of 60", () => {
    for (let k = 0; k <= 60; k++) {
      let sum = 0n;
      for (let i = 0; i <= k; i++) sum += choose(60, i) * 19n ** BigInt(60 - i);
      const exact = Number((sum * 10n ** 17n) / 20n ** 60n) / 1e17;
      expect(lifetime.faultyUnits.evaluate({ n: 60, p: 1 / 20, k }).P).toBeCloseTo(exact, 12);
    }
  });

  it("has its limits: nothing below 0, all at n, certain and impossible faults", () => {
    expect(binomialAtMost(-1, 10, 0.5)).toBe(0);
    expect(binomialAtMost(10, 10, 0.5)).toBe(1);
    expect(binomialAtMost(3, 10, 0)).toBe(1);
    expect(binomialAtMost(3, 10, 1)).toBe(0);
    expect(binomialAtMost(0, 0, 0.3)).toBe(1);
    expect(() => binomialAtMost(1, 2.5, 0.5)).toThrow("the number must be whole");
    expect(() => binomialAtMost(1, 2, 1.5)).toThrow("between 0 and 1");
  });

  it("becomes Poisson's for many small chances, and normal in the middle of many", () => {
    let poisson = 0;
    for (let i = 0, term = Math.exp(-3); i <= 4; term *= 3 / ++i) poisson += term;
    expect(binomialAtMost(4, 1e6, 3e-6)).toBeCloseTo(poisson, 5);
    // One deviation above the mean of a million tosses
    expect(binomialAtMost(500500, 1e6, 0.5)).toBeCloseTo(0.8415862, 5);
  });

  it("knows ln n! beside the sum of logarithms", () => {
    let sum = 0;
    for (let n = 1; n <= 2000; n++) {
      sum += Math.log(n);
      expect(Math.abs(logFactorial(n) - sum)).toBeLessThan(1e-12 * Math.max(1, sum));
    }
  });
});

describe("yield", () => {
  it("of 400 joints at 50 ppm is 98 % by either law, which part for large faults", () => {
    const line = { n: 400, p: 50e-6 };
    const D = law(lifetime.faultsPerUnit, line);
    const [poisson, binomial] = [law(lifetime.poissonYield, { D }), law(lifetime.binomialYield, line)];
    expect(D).toBeCloseTo(0.02, 12);
    expect(binomial).toBeCloseTo(0.9802, 4);
    expect(poisson / binomial).toBeCloseTo(1 + (400 * 50e-6 ** 2) / 2, 8);
    expect(law(lifetime.faultsOfYield, { Y: poisson })).toBeCloseTo(D, 12);
    expect(law(lifetime.poissonYield, { D: 1 })).toBeGreaterThan(law(lifetime.binomialYield, { n: 2, p: 0.5 }));
  });

  it("through four steps, with mending, is what counting units through a line finds", () => {
    const random = randomFrom(21);
    const steps = [0.98, 0.95, 0.99, 0.97];
    const [units, mended] = [200000, 0.6];
    let [first, final] = [0, 0];
    for (let unit = 0; unit < units; unit++) {
      const good = steps.every((Y) => random() < Y);
      first += good ? 1 : 0;
      final += good || random() < mended ? 1 : 0;
    }
    const [Y_1 = 0, Y_2 = 0, Y_3 = 0, Y_4 = 0] = steps;
    const Y = law(lifetime.throughYield, { Y_1, Y_2, Y_3, Y_4 });
    expect(Y).toBeCloseTo(first / units, 2);
    expect(law(lifetime.mendedYield, { Y, r: mended })).toBeCloseTo(final / units, 2);
    expect(Math.abs(Y - first / units)).toBeLessThan(4 * Math.sqrt((Y * (1 - Y)) / units));
  });

  it("lets escape what a test of part of the faults misses, counted fault by fault", () => {
    const random = randomFrom(22);
    const [D, T, units] = [0.2, 0.9, 300000];
    let [passed, bad] = [0, 0];
    for (let unit = 0; unit < units; unit++) {
      let faults = 0;
      // Poisson draw by products of uniforms
      for (let product = random(); product > Math.exp(-D); product *= random()) faults++;
      const caught = Array.from({ length: faults }, () => random() < T).some(Boolean);
      passed += caught ? 0 : 1;
      bad += !caught && faults > 0 ? 1 : 0;
    }
    const E = law(lifetime.escapes, { Y: Math.exp(-D), T });
    expect(E).toBeCloseTo(bad / passed, 2);
    expect(Math.abs(E - bad / passed)).toBeLessThan(4 * Math.sqrt(E / passed));
    expect(law(lifetime.escapes, { Y: 0.9, T: 1 })).toBe(0);
    expect(law(lifetime.escapes, { Y: 0.9, T: 0 })).toBeCloseTo(0.1, 12);
  });
});

describe("the cost of a good unit", () => {
  const steps = { c_1: 20, Y_1: 0.98, c_2: 6, Y_2: 0.95, c_3: 11, Y_3: 0.99 };

  it("through three steps is all that was spent over all that came out", () => {
    const random = randomFrom(23);
    let [spent, good] = [0, 0];
    for (let unit = 0; unit < 200000; unit++) {
      spent += steps.c_1;
      if (random() > steps.Y_1) continue;
      spent += steps.c_2;
      if (random() > steps.Y_2) continue;
      spent += steps.c_3;
      if (random() <= steps.Y_3) good++;
    }
    expect(law(lifetime.goodUnitCostBySteps, steps)).toBeCloseTo(spent / good, 1);
    expect(Math.abs(law(lifetime.goodUnitCostBySteps, steps) / (spent / good) - 1)).toBeLessThan(3e-3);
  });

  it("is the plain sum at a yield of one, and dearer the later a fault is found", () => {
    const perfect = { ...steps, Y_1: 1, Y_2: 1, Y_3: 1 };
    expect(law(lifetime.goodUnitCostBySteps, perfect)).toBe(37);
    const early = law(lifetime.goodUnitCostBySteps, { ...perfect, Y_1: 0.9 });
    const late = law(lifetime.goodUnitCostBySteps, { ...perfect, Y_3: 0.9 });
    expect(early).toBeCloseTo(37 + 20 / 9, 9);
    expect(late).toBeCloseTo(37 / 0.9, 9);
  });

  it("falls by what scrap brings, and mending pays where it costs less than a new unit", () => {
    expect(law(lifetime.goodUnitCost, { c_u: 37, Y: 0.9, s: 0 })).toBeCloseTo(37 / 0.9, 12);
    expect(law(lifetime.goodUnitCost, { c_u: 37, Y: 0.9, s: 37 })).toBeCloseTo(37, 12);
    const mended = (c_r: number): number => law(lifetime.mendedUnitCost, { c_u: 37, Y: 0.9, c_r, r: 0.8 });
    expect(mended(5)).toBeLessThan(37 / 0.9);
    // Even where 0.8 of a good unit costs as much as the work on it: 0.8·37/0.9
    expect(mended((0.8 * 37) / 0.9)).toBeCloseTo(37 / 0.9, 12);
    expect(law(lifetime.withTooling, { c_v: 37, F: 20000, n: 1000 })).toBe(57);
  });
});
