import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { readReferences } from "../../../lib/design/reference";
import { evaluate } from "../../../lib/formula/evaluate";
import type { AnyFormula } from "../../../lib/formula/formula";
import { curveArgument, modelNamed } from "../../../lib/graph/model";
import type { TableNode } from "../../../lib/graph/node";
import { battery } from "../../../lib/physics";
import { celsius, dB_per_mW, dB_SPL, hour, mAh, mW } from "../../../lib/units";

const table = (x: readonly number[], y: readonly number[]) => curveArgument({ x: Float64Array.from(x), y: Float64Array.from(y) });
const value = (law: AnyFormula, symbols: Readonly<Record<string, number>>): number => evaluate(law.expression, symbols);

const references = readReferences({ "cells.yaml": readFileSync(new URL("../../../data/reference/cells.yaml", import.meta.url), "utf8") });
const polymer = references.nodes.get("reference.cells.lithium-polymer") as TableNode;
const ocv = curveArgument({ x: Float64Array.from(polymer.x), y: Float64Array.from(polymer.y), interpolation: polymer.interpolation });

describe("the open-circuit voltage of a lithium-polymer cell", () => {
  it("reads from 0 to 100 % and 3.0 to 4.2 V, rising, in 12 rows or more, marked as from memory", () => {
    expect(polymer.x.length).toBeGreaterThanOrEqual(12);
    expect([polymer.x[0], polymer.x.at(-1), polymer.y[0], polymer.y.at(-1)]).toEqual([0, 1, 3, 4.2]);
    expect(polymer.y.every((y, i) => i === 0 || y > (polymer.y[i - 1] ?? y))).toBe(true);
    expect([polymer.xUnit, polymer.unit, polymer.interpolation]).toEqual(["%", "V", "linear"]);
    expect(polymer.provenance).toMatchObject({ source: "reference.cells.typical", fromMemory: true });
  });

  it("has the mean of a cell called 3.7 to 3.8 V", () => {
    const { V } = battery.meanVoltage.evaluate({ ocv });
    expect(V).toBeGreaterThan(3.7);
    expect(V).toBeLessThan(3.85);
  });
});

describe("models of cells", () => {
  it("are registered under the name of their subject", () => {
    const models = Object.entries(battery).filter(([, law]) => "evaluate" in law);
    expect(models.length).toBe(11);
    for (const [name] of models) expect(modelNamed(`battery.${name}`).name).toBe(`battery.${name}`);
  });

  it("stateOfCharge undoes openCircuitVoltage, and outside the table is an error", () => {
    for (const s of [0, 0.03, 0.5, 0.97, 1]) {
      const { V_oc } = battery.openCircuitVoltage.evaluate({ s, ocv });
      expect(battery.stateOfCharge.evaluate({ V_oc, ocv }).s).toBeCloseTo(s, 12);
    }
    expect(() => battery.openCircuitVoltage.evaluate({ s: 1.01, ocv })).toThrow(expect.objectContaining({ code: "table-range" }));
  });

  it("meanVoltage of a straight line is its middle", () => {
    expect(battery.meanVoltage.evaluate({ ocv: table([0, 1], [3, 4]) }).V).toBe(3.5);
  });

  it("resistance and capacity follow their tables, and are as stated where the factor is 1", () => {
    const T = [5, 25, 45].map((t) => celsius.toSI(t));
    const at = (t: number) => ({ T: celsius.toSI(t) });
    const cold = { R_0: 0.25, factor: table(T, [2, 1, 0.8]) };
    expect(battery.resistanceAtTemperature.evaluate({ ...cold, ...at(25) }).R).toBe(0.25);
    expect(battery.resistanceAtTemperature.evaluate({ ...cold, ...at(5) }).R).toBe(0.5);
    const capacity = { Q: mAh.toSI(400), factor: table(T, [0.86, 1, 1]) };
    expect(battery.capacityAtTemperature.evaluate({ ...capacity, ...at(15) }).Q_T).toBeCloseTo(mAh.toSI(372), 9);
  });

  it("runtimeAtPower at no power loss is the energy of the table over the power", () => {
    const use = { P: 0.1, Q: 1440, R: 0, V_c: 3, s_0: 1, ocv };
    const { V } = battery.meanVoltage.evaluate({ ocv });
    expect(battery.runtimeAtPower.evaluate(use).t).toBeCloseTo((1440 * V) / 0.1, 8);
  });

  it("runtimeAtPower and runtimeAtCurrent end with the charge that is left", () => {
    const cell = { Q: 1440, R: 0.5, V_c: 3.2, s_0: 1, ocv };
    for (const { s_end, Q_out } of [
      battery.runtimeAtPower.evaluate({ ...cell, P: 0.1 }),
      battery.runtimeAtCurrent.evaluate({ ...cell, I: 0.03 }),
    ]) {
      expect(Q_out).toBeCloseTo(1440 * (1 - s_end), 9);
      expect(s_end).toBeGreaterThan(0.013);
      expect(s_end).toBeLessThan(0.03);
    }
  });

  it("converterInput takes in its load over the efficiency, scaled for the unit, and refuses more than 100 %", () => {
    const efficiency = table([0.01, 0.07, 0.5], [0.6, 0.78, 0.85]);
    expect(battery.converterInput.evaluate({ P_out: 0.07, k: 1, efficiency })).toEqual({ P_in: 0.07 / 0.78, eta: 0.78 });
    expect(battery.converterInput.evaluate({ P_out: 0.07, k: 0.9, efficiency }).eta).toBeCloseTo(0.702, 12);
    expect(battery.converterInput.evaluate({ P_out: 0.02, k: 1, efficiency: table([0, 1], [1, 1]) }).P_in).toBe(0.02);
    expect(() => battery.converterInput.evaluate({ P_out: 0.5, k: 1.2, efficiency })).toThrow("must lie above 0 and be at most 1");
    expect(() => battery.converterInput.evaluate({ P_out: 0.6, k: 1, efficiency })).toThrow(
      expect.objectContaining({ code: "table-range" }),
    );
  });
});

describe("runtime against listening level", () => {
  const efficiency = table([10e-3, 50e-3, 70e-3, 0.2, 0.5], [0.6, 0.75, 0.78, 0.83, 0.85]);
  const S = dB_per_mW.toSI(102);

  function hours(level: number, I_q: number, factor = 1): number {
    const I_rms = value(battery.levelCurrent, { p: dB_SPL.toSI(level), S, Z: 38 });
    const { k } = battery.rectifiedMean.evaluate({ C: 4 });
    const rails = value(battery.railPower, { n: 2, V_r: 4.5, I_q, k, I_rms });
    const { P_in } = battery.converterInput.evaluate({ P_out: rails + mW.toSI(9), k: factor, efficiency });
    const Q = value(battery.usableCapacity, { Q: mAh.toSI(400), k_T: 0.86, k_age: 1, u: 0.03 });
    return hour.fromSI(battery.runtimeAtPower.evaluate({ P: P_in, Q, R: 0.5, V_c: 3.2, s_0: 1, ocv }).t);
  }

  it("hardly depends on the level up to 90 dB, and falls steeply above", () => {
    const [quiet, usual, loud, louder] = [60, 82, 90, 110].map((level) => hours(level, 2.8e-3));
    expect((usual ?? 0) / (quiet ?? 0)).toBeGreaterThan(0.93);
    expect((loud ?? 0) / (quiet ?? 0)).toBeGreaterThan(0.8);
    expect((louder ?? 0) / (quiet ?? 0)).toBeLessThan(0.5);
  });

  it("never rises with the level, the quiescent current or the converter's loss", () => {
    const runs = [60, 70, 80, 90, 100, 110].map((level) => hours(level, 2.8e-3));
    expect(runs.every((run, i) => i === 0 || run < (runs[i - 1] ?? 0))).toBe(true);
    expect(hours(82, 4.2e-3)).toBeLessThan(hours(82, 2.8e-3));
    expect(hours(82, 2.8e-3, 0.8)).toBeLessThan(hours(82, 2.8e-3));
  });
});
