/** Searches for the weakest place of a network in a band, against a sweep so dense that it misses nothing, over networks drawn at random. */
import { describe, expect, it } from "vitest";
import { rails, rf } from "../../lib/physics";
import { inFull } from "../full";
import { randomFrom } from "./control/power-states";

const dB = (ratio: number): number => 20 * Math.log10(ratio);
const count = 12_000;
const swept = (from: number, to: number): readonly number[] =>
  Array.from({ length: count + 1 }, (_, i) => from * (to / from) ** (i / count));

/** A number between, every ratio alike. */
function drawing(seed: number): (low: number, high: number) => number {
  const random = randomFrom(seed);
  return (low, high) => low * (high / low) ** random();
}

describe("rf.leastInsertionLoss", () => {
  it("is no more than the least of 12 000 frequencies, for filters of low and high loss", () => {
    const drawn = drawing(11);
    for (let k = 0; k < inFull(60, 10); k++) {
      const given = {
        ...{ C_1: drawn(1e-11, 1e-9), ESR_1: drawn(0.01, 0.3), ESL_1: drawn(1e-10, 2e-9) },
        ...{ L: drawn(1e-8, 1e-5), R_dc: drawn(0.01, 0.5), R_p: drawn(1e3, 1e5), C_p: drawn(1e-13, 5e-12) },
        ...{ C_2: drawn(1e-11, 1e-8), ESR_2: drawn(0.01, 0.3), ESL_2: drawn(1e-10, 2e-9) },
        ...{ C_3: k % 2 === 0 ? 0 : drawn(1e-12, 1e-9), ESR_3: drawn(0.01, 0.3), ESL_3: drawn(1e-10, 2e-9) },
        ...{ R_s: drawn(0.5, 200), L_s: drawn(1e-9, 1e-6), R_L: drawn(30, 1e5), C_L: drawn(1e-12, 1e-10) },
      };
      const { IL, f } = rf.leastInsertionLoss.evaluate({ f_1: 1e4, f_2: 6e9, ...given });
      const least = Math.min(...swept(1e4, 6e9).map((at) => rf.insertionLoss.evaluate({ f: at, ...given }).IL));
      expect(dB(IL / least), `filter ${k}: ${JSON.stringify(given)}`).toBeLessThan(0.001);
      expect(rf.insertionLoss.evaluate({ f, ...given }).IL / IL).toBeCloseTo(1, 9);
    }
  });
});

describe("rails.postFilterPeak", () => {
  it("is no less than the most of 12 000 frequencies, for filters with little damping or much", () => {
    const drawn = drawing(5);
    for (let k = 0; k < inFull(40, 8); k++) {
      const given = {
        ...{ R_s: drawn(0.005, 1), L: drawn(1e-7, 1e-4), R_dc: drawn(0.005, 0.5), R_p: drawn(10, 1e6), R_L: drawn(10, 1e4) },
        ...{
          C: drawn(1e-7, 1e-4),
          ESR: drawn(1e-3, 0.3),
          ESL: drawn(1e-10, 5e-9),
          C_d: k % 2 === 0 ? 0 : drawn(1e-6, 1e-3),
          R_d: drawn(0.01, 5),
        },
      };
      const { H, Z } = rails.postFilterPeak.evaluate({ f_1: 1e3, f_2: 1e8, ...given });
      const points = swept(1e3, 1e8).map((f) => rails.postFilter.evaluate({ f, ...given }));
      expect(dB(Math.max(...points.map((each) => each.H)) / H), `transfer of ${JSON.stringify(given)}`).toBeLessThan(0.001);
      expect(dB(Math.max(...points.map((each) => each.Z)) / Z), `impedance of ${JSON.stringify(given)}`).toBeLessThan(0.001);
    }
  });
});

describe("rails.bankExtremes", () => {
  it("are no less and no more than those of 12 000 frequencies, for banks of one to four kinds", () => {
    const drawn = drawing(3);
    for (let k = 0; k < inFull(40, 8); k++) {
      const kinds = [1, 2, 3, 4].map((i) => ({
        ...{
          [`C_${i}`]: drawn(1e-10, 1e-4),
          [`ESR_${i}`]: drawn(1e-3, 0.3),
          [`ESL_${i}`]: drawn(2e-10, 5e-9),
          [`n_${i}`]: i <= 1 + (k % 4) ? 2 : 0,
        },
      }));
      const bank = Object.assign({}, ...kinds) as Omit<Parameters<typeof rails.bankImpedance.evaluate>[0], "f">;
      const { Z_max, Z_min } = rails.bankExtremes.evaluate({ f_1: 1e5, f_2: 5e8, ...bank });
      const sizes = swept(1e5, 5e8).map((f) => rails.bankImpedance.evaluate({ f, ...bank }).Z);
      expect(dB(Math.max(...sizes) / Z_max), JSON.stringify(bank)).toBeLessThan(0.001);
      expect(dB(Z_min / Math.min(...sizes)), JSON.stringify(bank)).toBeLessThan(0.001);
    }
  });
});
