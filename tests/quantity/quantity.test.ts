import { inspect } from "node:util";
import { expect, test } from "vitest";
import { coherentUnit } from "../../lib/quantity/coherent-unit";
import { WorkingsError } from "../../lib/quantity/error";
import type { Current, Energy, Power, Resistance, Temperature, TemperatureDifference, Torque, Voltage } from "../../lib/quantity/quantity";
import { type Lineage, Quantity, type Unit } from "../../lib/quantity/quantity";
import { unitOf } from "../../lib/quantity/unit";

const volt: Unit<Voltage> = unitOf("V");
const mV: Unit<Voltage> = unitOf("mV");
const ampere: Unit<Current> = unitOf("A");
const kohm: Unit<Resistance> = unitOf("kΩ");
const watt: Unit<Power> = unitOf("W");
const joule: Unit<Energy> = unitOf("J");
const newtonMetre: Unit<Torque> = unitOf("N·m");
const celsius: Unit<Temperature> = unitOf("°C");
const step: Unit<TemperatureDifference> = unitOf("Δ°C");

/** Calls that the types forbid, as text that is not type-checked would make them. */
const untyped = (quantity: Quantity<any>): Quantity<any> => quantity;

test("a unit is called to make a quantity, which reads back in any unit of its dimension", () => {
  expect(kohm(4.7).in(kohm)).toBeCloseTo(4.7, 12);
  expect(volt(1.25).in(mV)).toBe(1250);
  expect(celsius(25).valueOf()).toBeCloseTo(298.15, 12);
});

test("a product is shown in the coherent unit of its dimension until another is asked for", () => {
  const power = volt(3).mul(ampere(2));
  expect(power.unit.symbol).toBe("W");
  expect(power.as(watt).unit).toBe(watt);
  expect(volt(3).div(ampere(2)).unit.symbol).toBe("Ω");
  const { symbol, ucum } = power.mul(volt(1)).unit;
  expect({ symbol, ucum }).toEqual({ symbol: "kg²·m⁴·s⁻⁶·A⁻¹", ucum: "kg2.m4.s-6.A-1" });
  expect(coherentUnit(power.dimension)).toBe(power.unit);
});

test("arithmetic is done in SI and dimensions follow", () => {
  const i = volt(5).minus(mV(3000)).div(kohm(1));
  expect(i.in(ampere)).toBeCloseTo(0.002, 15);
  expect(i.dimension).toBe(ampere.dimension);
  expect(volt(3).pow(2).sqrt().in(volt)).toBe(3);
  expect(volt(3).pow(2).sqrt().dimension).toBe(volt.dimension);
  expect(volt(-3).abs().plus(volt(3).neg()).in(volt)).toBe(0);
  expect(
    volt(3)
      .min(volt(2))
      .plus(volt(3).max(volt(2)))
      .in(volt),
  ).toBe(5);
  expect(volt(3).mul(2).div(4).in(volt)).toBe(1.5);
});

test("a temperature plus a difference is a temperature, two temperatures leave a difference", () => {
  const rise = celsius(60).minus(celsius(25));
  expect(rise.dimension.key).toBe("K|difference");
  expect(celsius(25).plus(rise).in(celsius)).toBeCloseTo(60, 12);
  expect(celsius(25).minus(step(5)).dimension.key).toBe("K|temperature");
  expect(celsius(25).mul(2).dimension.key).toBe("K");
  expect(celsius(25).neg().dimension.key).toBe("K");
});

test("a quantity without kind takes that of the other, or of the unit asked for", () => {
  const work = watt(2)
    .mul(watt(3).div(watt(3)))
    .div(unitOf("1/s")(1));
  expect(work.dimension.key).toBe("kg·m²·s⁻²");
  expect(joule(1).plus(work).dimension.key).toBe("kg·m²·s⁻²|energy");
  expect(work.as(newtonMetre).dimension.key).toBe("kg·m²·s⁻²|torque");
  expect(work.in(joule)).toBe(2);
});

test.each([
  ["cannot add current to voltage", () => untyped(volt(1)).plus(ampere(1))],
  ["cannot subtract torque from energy", () => untyped(joule(1)).minus(newtonMetre(1))],
  ["cannot add temperature to temperature", () => untyped(celsius(1)).plus(celsius(1))],
  ["cannot compare voltage with current", () => untyped(volt(1)).lessThan(ampere(1))],
  ["voltage has no value in A, a unit of current", () => untyped(volt(1)).in(ampere)],
  ["torque has no value in J, a unit of energy", () => untyped(newtonMetre(1)).as(joule)],
  ["exponents finer than one half", () => untyped(volt(1)).sqrt().sqrt()],
])("where the compiler did not look, the run time says: %s", (sentence, attempt) => {
  expect(attempt).toThrow(WorkingsError);
  expect(attempt).toThrow(sentence);
});

test("comparison operators compare SI numbers", () => {
  expect(volt(1) < mV(1001)).toBe(true);
  expect(volt(1) > mV(1001)).toBe(false);
  expect(volt(1).greaterThan(mV(999))).toBe(true);
});

test("text, and what a cell prints, is the number with its unit", () => {
  expect(`${volt(3.3)}`.replace(/\s/gu, " ")).toBe("3.3 V");
  expect(inspect(volt(3.3))).toBe(`${volt(3.3)}`);
});

class Recorder implements Lineage {
  readonly log: string[];
  constructor(
    readonly name: string,
    log?: string[],
  ) {
    this.log = log ?? [];
  }
  operate(operation: string, operands: readonly (Quantity<any> | number)[]): Recorder {
    const names = operands.map((o) => (typeof o === "number" ? String(o) : o.lineage instanceof Recorder ? o.lineage.name : "constant"));
    return new Recorder(`${operation}(${names.join(", ")})`, this.log);
  }
  read(): void {
    this.log.push(this.name);
  }
}

test("results remember what they came from, and reading a number out is recorded", () => {
  const a = new Quantity<Voltage>(3, volt.dimension, volt, { lineage: new Recorder("a") });
  const result = volt(5).minus(a).mul(2).pow(2).sqrt().neg().max(a);
  const { lineage } = result;
  if (!(lineage instanceof Recorder)) throw new Error("the lineage was lost");
  expect(lineage.name).toBe("max(negate(sqrt(power(multiply(subtract(constant, a), 2), 2))), a)");
  expect(lineage.log).toEqual([]);
  result.in(volt);
  void (result < volt(1));
  result.lessThan(a);
  String(result);
  expect(lineage.log).toEqual([lineage.name, lineage.name, lineage.name, "a", lineage.name]);
});

test("a change of display unit keeps spread, symbol, meaning and lineage", () => {
  const spread = { kind: "rectangular", low: 2.9, high: 3.1 } as const;
  const given = new Quantity<Voltage>(3, volt.dimension, volt, { spread, symbol: "V_s", meaning: "supply", lineage: new Recorder("V_s") });
  expect(given.as(mV)).toMatchObject({ spread, symbol: "V_s", meaning: "supply", lineage: given.lineage, unit: mV });
});
