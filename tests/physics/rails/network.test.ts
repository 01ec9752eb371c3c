import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { readReferences } from "../../../lib/design/reference";
import { evaluate } from "../../../lib/formula/evaluate";
import type { AnyFormula } from "../../../lib/formula/formula";
import { curveArgument } from "../../../lib/graph/model";
import type { TableNode } from "../../../lib/graph/node";
import { rails } from "../../../lib/physics";

const value = (law: AnyFormula, symbols: Readonly<Record<string, number>>): number => evaluate(law.expression, symbols);
const table = (x: readonly number[], y: readonly number[], interpolation: "linear" | "log-log" = "linear") =>
  curveArgument({ x: Float64Array.from(x), y: Float64Array.from(y), interpolation });
const none = { C: 0, ESR: 0, ESL: 0, n: 0 };

type Kind = typeof none;
function bank(...kinds: readonly Kind[]) {
  const entries = [0, 1, 2, 3].flatMap((k) => Object.entries(kinds[k] ?? none).map(([name, x]) => [`${name}_${k + 1}`, x]));
  return Object.fromEntries(entries) as Omit<Parameters<typeof rails.bankImpedance.evaluate>[0], "f">;
}
const bulk = { C: 10e-6, ESR: 5e-3, ESL: 1e-9, n: 1 };
const small = { C: 100e-9, ESR: 20e-3, ESL: 0.5e-9, n: 1 };
const band = { f_1: 1e4, f_2: 1e9 };

describe("a bank of capacitors", () => {
  it("of n equal pieces has the nth part of the impedance of one, wherever they are counted", () => {
    for (const f of [1e4, 1.6e6, 2e7, 5e8]) {
      const one = rails.bankImpedance.evaluate({ f, ...bank(bulk) }).Z;
      expect(rails.bankImpedance.evaluate({ f, ...bank({ ...bulk, n: 4 }) }).Z).toBeCloseTo(one / 4, 12);
      expect(rails.bankImpedance.evaluate({ f, ...bank(none, bulk, bulk, { ...bulk, n: 2 }) }).Z).toBeCloseTo(one / 4, 12);
    }
  });

  it("is its capacitance at low frequency, its inductance at high, and its ESR at resonance", () => {
    const f = value(rails.selfResonance, { L: 1e-9, C: 10e-6 });
    expect(rails.bankImpedance.evaluate({ f, ...bank(bulk) }).Z).toBeCloseTo(5e-3, 9);
    expect(rails.bankImpedance.evaluate({ f: 100, ...bank(bulk) }).Z * 2 * Math.PI * 100 * 10e-6).toBeCloseTo(1, 6);
    expect(rails.bankImpedance.evaluate({ f: 1e9, ...bank(bulk) }).Z / (2 * Math.PI)).toBeCloseTo(1, 5);
  });

  it("shows two resonances with an anti-resonance between, where the closed law says", () => {
    const { n, extremes, Z_max, f_max } = rails.bankExtremes.evaluate({ ...band, ...bank(bulk, small) });
    expect(n).toBe(1);
    expect(extremes.x.length).toBe(5);
    const f_a = value(rails.antiResonance, { L_1: 1e-9, L_2: 0.5e-9, C_1: 10e-6, C_2: 100e-9 });
    // Its losses draw the maximum down by a per cent; without them it stands at the law's place
    expect((extremes.x[2] ?? 0) / f_a).toBeCloseTo(0.991, 3);
    const bare = bank({ ...bulk, ESR: 1e-5 }, { ...small, ESR: 1e-5 });
    expect(rails.bankAntiResonance.evaluate({ ...band, ...bare }).f / f_a).toBeCloseTo(1, 6);
    expect([Z_max, f_max]).toEqual([rails.bankImpedance.evaluate({ f: 1e9, ...bank(bulk, small) }).Z, 1e9]);
    const top = rails.bankAntiResonance.evaluate({ ...band, ...bank(bulk, small) });
    for (const k of [0.999, 1.001]) expect(rails.bankImpedance.evaluate({ f: top.f * k, ...bank(bulk, small) }).Z).toBeLessThan(top.Z);
  });

  it("finds every anti-resonance of four kinds, also between self-resonances 1 % apart and without loss", () => {
    const four = bank({ C: 100e-6, ESR: 1e-6, ESL: 3e-9, n: 1 }, bulk, small, { C: 1e-9, ESR: 0.06, ESL: 0.4e-9, n: 1 });
    expect(rails.bankExtremes.evaluate({ ...band, ...four }).n).toBe(3);
    const twins = bank({ ...small, ESR: 1e-5 }, { ...small, ESR: 1e-5, ESL: 0.51e-9 });
    expect(rails.bankExtremes.evaluate({ ...band, ...twins }).n).toBe(1);
  });

  it("has none where there is one kind, and is refused where there is no capacitor", () => {
    expect(rails.bankExtremes.evaluate({ ...band, ...bank(bulk) }).n).toBe(0);
    expect(() => rails.bankAntiResonance.evaluate({ ...band, ...bank(bulk) })).toThrow("no anti-resonance between 10000 Hz");
    expect(() => rails.bankImpedance.evaluate({ f: 1e6, ...bank() })).toThrow("the bank has no capacitor");
    expect(() => rails.bankImpedance.evaluate({ f: 1e6, ...bank({ ...bulk, ESR: -1 }) })).toThrow("ESR, ESL and n ≥ 0");
  });

  it("has a curve through its extremes", () => {
    const { Z } = rails.bankImpedanceCurve.evaluate({ ...band, ...bank(bulk, small) });
    expect(Array.from(Z.x).every((f, i) => i === 0 || f > (Z.x[i - 1] ?? f))).toBe(true);
    const { Z_min } = rails.bankExtremes.evaluate({ ...band, ...bank(bulk, small) });
    expect(Math.min(...Array.from(Z.y)) / Z_min).toBeCloseTo(1, 3);
  });
});

describe("capacitance under bias", () => {
  const references = readReferences({
    "ceramic-capacitors.yaml": readFileSync(new URL("../../../data/reference/ceramic-capacitors.yaml", import.meta.url), "utf8"),
  });
  const tables = ["x5r-10u-0402-6v3", "x5r-10u-0603-10v", "x5r-10u-0805-25v"].map(
    (name) => references.nodes.get(`reference.ceramic-capacitors.${name}`) as TableNode,
  );

  it("falls in every reference table from all of it, more in a smaller capacitor", () => {
    for (const { x, y, provenance } of tables) {
      expect([x[0], y[0]]).toEqual([0, 1]);
      expect(y.every((k, i) => i === 0 || k < (y[i - 1] ?? k))).toBe(true);
      expect(provenance.fromMemory).toBe(true);
    }
    const kept = tables.map(({ x, y }) => rails.biasedCapacitance.evaluate({ C_n: 10e-6, V: 4.5, share: table(x, y) }).k);
    expect(kept[0]).toBeLessThan(kept[1] ?? 0);
    expect(kept[1]).toBeLessThan(kept[2] ?? 0);
    expect(kept[1]).toBeCloseTo(0.55, 12);
  });

  it("is fitted to each of them within 5 percentage points by two numbers, which biasShare gives back", () => {
    for (const { x, y } of tables) {
      const { V_h, n, worst } = rails.biasFit.evaluate({ share: table(x, y) });
      expect(worst).toBeLessThan(0.05);
      expect(V_h).toBeGreaterThan(2);
      expect(n).toBeGreaterThan(1);
    }
    const V = [1, 2, 4, 8];
    const exact = V.map((volts) => value(rails.biasShare, { V: volts, V_h: 5, n: 1.7 }));
    expect(rails.biasFit.evaluate({ share: table(V, exact) })).toEqual({
      V_h: expect.closeTo(5, 10),
      n: expect.closeTo(1.7, 10),
      worst: expect.closeTo(0, 12),
    });
    expect(() => rails.biasFit.evaluate({ share: table([0, 5], [1, 0.5]) })).toThrow("two rows or more");
  });
});

describe("rails.biasedCapacitance", () => {
  it("is C_n/(1 + (V/V_h)^n) where the rows are of that law, and takes up its charge ∫C dV", () => {
    const V = Array.from({ length: 201 }, (_, i) => i / 20);
    const share = table(
      V,
      V.map((volts) => 1 / (1 + (volts / 5) ** 2)),
    );
    let charge = 0;
    for (let i = 0; i < 5000; i++) {
      const volts = ((i + 0.5) * 10) / 5000;
      const { C, k } = rails.biasedCapacitance.evaluate({ C_n: 10e-6, V: volts, share });
      expect(Math.abs(C / (10e-6 / (1 + (volts / 5) ** 2)) - 1), `${volts} V`).toBeLessThan(5e-4);
      expect(C / k).toBeCloseTo(10e-6, 15);
      charge += (C * 10) / 5000;
    }
    expect(charge / (10e-6 * 5 * Math.atan(2))).toBeCloseTo(1, 4);
  });

  it("is the whole of it without bias, and refused beyond the rows", () => {
    const share = table([0, 6.3], [1, 0.4]);
    expect(rails.biasedCapacitance.evaluate({ C_n: 10e-6, V: 0, share })).toEqual({ C: 10e-6, k: 1 });
    expect(() => rails.biasedCapacitance.evaluate({ C_n: 10e-6, V: 7, share })).toThrow(expect.objectContaining({ code: "table-range" }));
  });
});

describe("a post filter", () => {
  const bare = { R_s: 0, L: 10e-6, R_dc: 1e-6, R_p: 1e9, C: 10e-6, ESR: 0, ESL: 0, C_d: 0, R_d: 0, R_L: 1e9 };

  it("peaks by its quality factor and falls with 40 dB a decade", () => {
    const { H, f_H } = rails.postFilterPeak.evaluate({ ...bare, R_L: 10, f_1: 1e3, f_2: 1e6 });
    expect(H / (10 / Math.sqrt(1 - 1 / 400))).toBeCloseTo(1, 4);
    expect(f_H / (15915.49 * Math.sqrt(1 - 1 / 200))).toBeCloseTo(1, 4);
    const far = [1e6, 1e7].map((f) => rails.postFilter.evaluate({ ...bare, R_L: 10, f }).H);
    expect((far[0] ?? 0) / (far[1] ?? 1)).toBeCloseTo(100, 0);
  });

  it("passes all at low frequency but what its resistances take", () => {
    expect(rails.postFilter.evaluate({ ...bare, R_dc: 1, R_L: 9, f: 1 }).H).toBeCloseTo(0.9, 6);
  });

  it.each([0.5, 1, 4])(
    "with a damping capacitor of %s C has the least peak of output impedance at dampingResistor, of dampedPeakImpedance",
    (n) => {
      const law = { L: 10e-6, C: 10e-6, n };
      const R_d = value(rails.dampingResistor, law);
      const peak = (R: number): number => rails.postFilterPeak.evaluate({ ...bare, C_d: n * 10e-6, R_d: R, f_1: 1e3, f_2: 1e6 }).Z;
      const best = peak(R_d);
      expect(best / value(rails.dampedPeakImpedance, law)).toBeCloseTo(1, 3);
      for (const k of [0.8, 0.95, 1.05, 1.25]) expect(peak(k * R_d)).toBeGreaterThan(best);
    },
  );
});

describe("supply rejection", () => {
  const f = [10, 1e3, 20e3, 1e6, 1e7];
  const decibels = [100, 100, 60, 25, 10];
  const rejection = table(
    f,
    decibels.map((dB) => 10 ** (dB / 20)),
    "log-log",
  );

  it("is straight in decibels between its rows, less the noise gain", () => {
    const { A, V_o } = rails.supplyResidue.evaluate({ V_r: 10e-3, f: Math.sqrt(1e3 * 20e3), G: 5, rejection });
    expect(20 * Math.log10(A)).toBeCloseTo(80 - 20 * Math.log10(5), 9);
    expect(V_o).toBeCloseTo(10e-3 / A, 15);
    expect(() => rails.supplyResidue.evaluate({ V_r: 10e-3, f: 5, G: 5, rejection })).toThrow(
      expect.objectContaining({ code: "table-range" }),
    );
  });

  it("over a band goes through its rows, and a filter adds what it takes away", () => {
    const { A } = rails.rejectionCurve.evaluate({ f_1: 10, f_2: 1e7, G: 5, rejection });
    const own = curveArgument({ x: Float64Array.from(A.x), y: Float64Array.from(A.y), interpolation: "log-log" });
    expect(own.at(20e3)).toBeCloseTo(200, 9);
    const filter = { R_s: 0.1, L: 2.2e-6, R_dc: 0.08, R_p: 1e3, C: 5.5e-6, ESR: 5e-3, ESL: 0.6e-9, C_d: 22e-6, R_d: 0.5, R_L: 60 };
    const curve = rails.filteredRejectionCurve.evaluate({ f_1: 10, f_2: 1e7, G: 5, rejection, ...filter }).A;
    const both = curveArgument({ x: Float64Array.from(curve.x), y: Float64Array.from(curve.y), interpolation: "log-log" });
    const { H } = rails.postFilter.evaluate({ f: 1e6, ...filter });
    expect(both.at(1e6) / (own.at(1e6) / H)).toBeCloseTo(1, 3);
  });

  it("of a sawtooth sums its harmonics in the band, alike one by one and in blocks", () => {
    const band = { f_1: 20, f_2: 2e6 };
    for (const tone of [300, 7e3, 90e3]) {
      let square = 0;
      for (let n = Math.ceil(20 / tone); n * tone <= 2e6; n++) {
        square += (value(rails.sawtoothHarmonic, { dV: 10e-3, n }) / rejection.at(n * tone)) ** 2;
      }
      const { V_o } = rails.sawtoothResidue.evaluate({ f: tone, dV: 10e-3, ...band, rejection });
      expect(V_o / Math.sqrt(square)).toBeCloseTo(1, 3);
    }
  });

  it("of a sawtooth is its rms value without rejection, and nothing where no harmonic falls into the band", () => {
    const flat = table([1, 1e9], [1, 1], "log-log");
    const { V_o } = rails.sawtoothResidue.evaluate({ f: 100, dV: 1, f_1: 20, f_2: 1e8, rejection: flat });
    expect(V_o).toBeCloseTo(1 / Math.sqrt(12), 5);
    expect(rails.sawtoothResidue.evaluate({ f: 25e3, dV: 1, f_1: 20, f_2: 20e3, rejection: flat }).V_o).toBe(0);
  });

  it("of two rails adds by powers", () => {
    expect(value(rails.residueSum, { V_1: 3e-6, V_2: 4e-6 })).toBeCloseTo(5e-6, 18);
  });
});
