/** Discharges into a protected pin: limiting cases, closed forms, balance of energy. */
import { describe, expect, it } from "vitest";
import { evaluate } from "../../../lib/formula/evaluate";
import type { AnyFormula } from "../../../lib/formula/formula";
import { modelNamed } from "../../../lib/graph/model";
import { circuit, esd, rf } from "../../../lib/physics";
import type { Protection } from "../../../lib/physics/esd/protection";

const value = (law: AnyFormula, symbols: Readonly<Record<string, number>>): number => evaluate(law.expression, symbols);
const design: Protection = {
  L_st: 0.3e-9,
  V_br: 5.5,
  R_dyn: 0.12,
  C_cl: 15e-12,
  L: 0.9e-6,
  L_sat: 100e-9,
  I_sat: 0.3,
  R_dc: 0.35,
  R_p: 1100,
  R: 4.7,
  C_pin: 5e-12,
  V_rail: 0,
  V_f: 0.6,
  R_pin: 0.3,
};
const plain: Protection = { ...design, L_st: 0, L: 0, R_dc: 0 };
const at8kV = (protection: Protection) => esd.contactDischarge.evaluate({ U: 8000, ...protection });

describe("contactDischarge in limiting cases", () => {
  it("without stub and choke is the settled current from the clamp's residual voltage", () => {
    const { I_pin, I_cl, V_j } = at8kV({ ...plain, C_cl: 1e-15, C_pin: 1e-15 });
    const V = value(esd.residualVoltage, { V_br: 5.5, I: I_cl, R_dyn: 0.12 });
    expect(V_j / V).toBeCloseTo(1, 3);
    expect(I_pin / value(esd.settledPinCurrent, { V, V_rail: 0, V_f: 0.6, R: 4.7, R_pin: 0.3 })).toBeCloseTo(1, 3);
    expect((I_pin + I_cl) / (2 * 14.9213)).toBeCloseTo(1, 3);
  });

  it("with a resistor in the line without end sends nothing into the pin, with none the pin shares the current", () => {
    expect(at8kV({ ...plain, R: 1e9 }).I_pin).toBeLessThan(1e-6);
    const short = { ...plain, R: 0, C_cl: 0, C_pin: 1e-15, V_rail: 5.5 - 0.6, R_pin: 0.12 };
    const { I_pin, I_cl } = at8kV(short);
    expect(I_pin / I_cl).toBeCloseTo(1, 3);
  });

  it("with a stub adds about L·dI/dt at the connector", () => {
    const slope = value(esd.edgeSlope, { I_p: 29.84, t_r: 0.81e-9 });
    const stub = value(esd.stubVoltage, { L: 0.5e-9, s: slope });
    const [without, having] = [at8kV({ ...plain, R: 100 }), at8kV({ ...plain, R: 100, L_st: 0.5e-9 })];
    expect(having.V_j).toBeGreaterThan(without.V_j + 0.4 * stub);
    expect(having.V_j).toBeLessThan(without.V_j + 2 * stub);
  });

  it("with a choke that does not saturate, or none at all, lies on either side of one that does", () => {
    const [none, some, ideal] = [{ ...design, L: 0 }, design, { ...design, L_sat: design.L }].map((each) => at8kV(each).I_pin);
    expect(none).toBeGreaterThan((some ?? 0) * 2);
    expect(some).toBeGreaterThan((ideal ?? 0) * 1.2);
  });

  it("is harder unpowered than powered, and the same for both polarities", () => {
    const [off, on] = [at8kV(design), at8kV({ ...design, V_rail: 4.5 })];
    expect(off.I_pin).toBeGreaterThan(3 * on.I_pin);
    const negative = esd.contactDischarge.evaluate({ U: -8000, ...design });
    expect(negative.I_pin).toBeCloseTo(off.I_pin, 9);
  });

  it("at 0 V does nothing", () => {
    expect(esd.contactDischarge.evaluate({ U: 0, ...design })).toMatchObject({ I_pin: 0, I_cl: 0, V_j: 0 });
  });
});

describe("the steps of a discharge", () => {
  it("are short enough: a thousandth of the tolerance moves no figure by 1 %", () => {
    for (const each of [design, plain, { ...design, V_rail: 4.5 }, { ...design, L: 0 }, { ...design, R: 22, L_st: 1e-9 }]) {
      const fine = circuit.transient(esd.dischargeCircuit(each, 8000), { stop: 400e-9, tolerance: 1e-6 });
      const most = (wave: Float64Array): number => Math.abs(circuit.peakOf(fine.t, wave).value);
      const coarse = at8kV(each);
      expect(coarse.I_pin / most(fine.current("pin_clamp"))).toBeCloseTo(1, 2);
      expect(coarse.I_cl / most(fine.current("clamp"))).toBeCloseTo(1, 2);
      expect(coarse.V_j / most(fine.voltage("jack"))).toBeCloseTo(1, 2);
      expect(Math.abs(coarse.E_cl / fine.energy("clamp") - 1)).toBeLessThan(0.01);
      expect(Math.abs(coarse.E_pin / fine.energy("pin_clamp") - 1)).toBeLessThan(0.01);
    }
  });
});

describe("any network", () => {
  it("is followed to its end, and its energies balance: 60 drawn over two decades of each value", () => {
    let state = 7;
    const drawn = (low: number, high: number): number => {
      state = (state * 48271) % 2147483647;
      return low * (high / low) ** (state / 2147483647);
    };
    for (let k = 0; k < 60; k++) {
      const L = drawn(1e-8, 1e-6);
      const line = { L, L_sat: L * drawn(0.01, 1), I_sat: drawn(0.05, 5), R_dc: drawn(0.05, 1), R_p: drawn(50, 2000), R: drawn(0.5, 50) };
      const clamp = { L_st: drawn(1e-10, 3e-9), V_br: drawn(4, 20), R_dyn: drawn(0.05, 2), C_cl: drawn(1e-12, 5e-11) };
      const pin = { C_pin: drawn(1e-12, 1e-10), V_rail: k % 2 === 0 ? 0 : 4.5, V_f: 0.6, R_pin: drawn(0.1, 5) };
      const waves = circuit.transient(esd.dischargeCircuit({ ...clamp, ...line, ...pin }, drawn(500, 15000)), { stop: 200e-9 });
      const last = (wave: Float64Array): number => wave.at(-1) ?? Number.NaN;
      const electric = (clamp.C_cl * last(waves.voltage("clamp")) ** 2 + pin.C_pin * last(waves.voltage("pin")) ** 2) / 2;
      const taken = ["clamp", "R_p", "R", "pin_clamp", "choke"].reduce((sum, name) => sum + waves.energy(name), electric);
      expect(Math.abs(taken / -waves.energy("discharge") - 1)).toBeLessThan(0.01);
      // What a choke has taken up is what its current still holds: never less than none
      expect(waves.energy("choke")).toBeGreaterThan(-0.001 * taken);
    }
  });
});

describe("energies of a discharge", () => {
  it("in all elements and what is still stored are what the source gave", () => {
    const waves = circuit.transient(esd.dischargeCircuit(design, 8000), { stop: 200e-9, tolerance: 1e-5 });
    const parts = ["clamp", "R_p", "R", "pin_clamp"].map((name) => waves.energy(name));
    const last = (wave: Float64Array): number => wave.at(-1) ?? Number.NaN;
    const stored =
      (15e-12 * last(waves.voltage("clamp")) ** 2 + 5e-12 * last(waves.voltage("pin")) ** 2 + 0.9e-6 * last(waves.current("choke")) ** 2) /
      2;
    expect((parts.reduce((a, b) => a + b) + stored) / -waves.energy("discharge")).toBeCloseTo(1, 3);
  });

  it("of a charged body end in its resistor and the clamps, half C·U² in all", () => {
    const source = { U: 4000, C_0: 100e-12, R_0: 1500, L_0: 0 };
    const waves = circuit.transient(esd.bodyCircuit(plain, source), { stop: 3e-6, tolerance: 1e-5 });
    const parts = ["R_0", "clamp", "R", "pin_clamp"].map((name) => waves.energy(name));
    const whole = value(esd.storedEnergy, { C: 100e-12, U: 4000 });
    expect(parts.reduce((a, b) => a + b) / whole).toBeCloseTo(1, 3);
  });

  it("in the line's resistor are shared with the choke's own resistance by their values", () => {
    const whole = at8kV({ ...design, R: 5.05, R_dc: 0 }).E_R;
    expect(at8kV(design).E_R / whole).toBeCloseTo(4.7 / 5.05, 6);
  });
});

describe("bodyDischarge", () => {
  it("straight into a pin has the peak of its rating: 2.67 A at 4 kV of the human-body model", () => {
    const bare = { ...plain, V_br: 1e5, C_cl: 0, R: 0, C_pin: 1e-12, V_f: 0.6, R_pin: 0.3 };
    const { I_pin } = esd.bodyDischarge.evaluate({ U: 4000, C_0: 100e-12, R_0: 1500, L_0: 0, ...bare });
    expect(I_pin / value(esd.bodyPeak, { U: 4000, R: 1500 })).toBeCloseTo(1, 2);
  });
});

describe("levels", () => {
  const { I_on, I_off, M_on, M_off } = esd.levels.evaluate({ I_max: 2, ...design, V_rail: 4.5 });

  it("gives at each level what a discharge of that voltage gives, powered and unpowered", () => {
    expect(Array.from(I_on.x)).toEqual([2000, 4000, 6000, 8000]);
    expect(I_off.y[3]).toBe(at8kV(design).I_pin);
    expect(I_on.y[1]).toBe(esd.contactDischarge.evaluate({ U: 4000, ...design, V_rail: 4.5 }).I_pin);
  });

  it("has margins that shrink with the level, and follow their law", () => {
    for (const [I, M] of [
      [I_on, M_on],
      [I_off, M_off],
    ] as const) {
      for (let k = 0; k < 4; k++) expect(M.y[k]).toBeCloseTo(value(esd.pinMargin, { I_max: 2, I: I.y[k] ?? 0 }), 12);
      expect(Array.from(I.y).every((y, k) => k === 0 || y >= (I.y[k - 1] ?? 0))).toBe(true);
    }
  });
});

describe("models of filters and discharges", () => {
  it("are registered under the name of their subject", () => {
    for (const [subject, laws, count] of [
      ["rf", rf, 10],
      ["esd", esd, 8],
    ] as const) {
      const models = Object.entries(laws).filter(([, law]) => typeof law === "object" && "evaluate" in law);
      expect(models.length).toBe(count);
      for (const [name] of models) expect(modelNamed(`${subject}.${name}`).name).toBe(`${subject}.${name}`);
    }
  });
});
