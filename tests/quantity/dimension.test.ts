import { describe, expect, it } from "vitest";
import { assignable, comparable, difference, dimension, dimensionless, divide, multiply, power, sum } from "../../lib/quantity/dimension";
import { keyOf, namedDimensions } from "../../lib/quantity/named-dimensions";

const volt = dimension("kg·m²·s⁻³·A⁻¹");
const ampere = dimension("A");
const energy = dimension("kg·m²·s⁻²|energy");
const torque = dimension("kg·m²·s⁻²|torque");
const work = dimension("kg·m²·s⁻²");
const temperature = dimension("K|temperature");
const rise = dimension("K|difference");
const kelvin = dimension("K");

describe("dimension", () => {
  it("is interned: the same key is the same object", () => {
    expect(dimension("kg·m²·s⁻³·A⁻¹")).toBe(volt);
    expect(multiply(volt, ampere)).toBe(dimension("kg·m²·s⁻³"));
  });

  it("knows its name, and else is called by its SI string", () => {
    expect([volt.label, rise.label, dimension("kg·m⁷").label]).toEqual(["voltage", "temperature difference", "kg·m⁷"]);
  });

  it("keeps doubled exponents in the order kg m s A K mol cd", () => {
    expect(dimension("kg·m²·s^(-5/2)·A⁻¹").exponents).toEqual([2, 4, -5, -2, 0, 0, 0]);
  });

  it("reads the key of every named dimension", () => {
    for (const row of namedDimensions) expect(dimension(keyOf(row)).key).toBe(keyOf(row));
  });

  it.each(["m·kg", "kg·m2", "", "kg·", "V", "m|", "s^(-4/2)", "m⁰", "m¹"])("refuses %j", (key) => {
    expect(() => dimension(key)).toThrow("is not a dimension; write base units in the order kg m s A K mol cd");
  });
});

describe("products, quotients and powers", () => {
  it("drop kinds", () => {
    expect(divide(energy, dimension("s"))).toBe(dimension("kg·m²·s⁻³"));
    expect(multiply(energy, dimensionless)).toBe(work);
    expect(power(energy, 1)).toBe(work);
  });

  it("have half powers, and no finer ones", () => {
    expect(power(dimension("s⁻¹|frequency"), 1, 2)).toBe(dimension("s^(-1/2)"));
    expect(() => power(dimension("s^(-1/2)"), 1, 2)).toThrow("s^(-1/2) to the power 1/2 has exponents finer than one half");
    expect(() => power(volt, 1, 3)).toThrow("voltage to the power 1/3");
  });
});

describe("sums", () => {
  it("need the same kind, or one of them without", () => {
    expect(sum(energy, energy)).toBe(energy);
    expect(sum(energy, work)).toBe(energy);
    expect(sum(work, torque)).toBe(torque);
    expect(sum(energy, torque)).toBeUndefined();
    expect(sum(volt, ampere)).toBeUndefined();
  });

  it("of temperatures are points and differences", () => {
    expect(sum(temperature, rise)).toBe(temperature);
    expect(sum(rise, temperature)).toBe(temperature);
    expect(sum(temperature, kelvin)).toBe(temperature);
    expect(sum(temperature, temperature)).toBeUndefined();
    expect(difference(temperature, temperature)).toBe(rise);
    expect(difference(temperature, rise)).toBe(temperature);
    expect(difference(rise, temperature)).toBeUndefined();
    expect(difference(kelvin, kelvin)).toBe(kelvin);
  });
});

describe("comparison and assignment", () => {
  it("need the same SI string and no two kinds", () => {
    expect([comparable(energy, work), comparable(energy, torque), comparable(temperature, rise)]).toEqual([true, false, false]);
    expect([assignable(work, torque), assignable(torque, energy), assignable(energy, work)]).toEqual([true, false, true]);
  });
});
