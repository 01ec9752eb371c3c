import { describe, expect, it } from "vitest";
import { scaleTable, turnGiven } from "../../lib/document/live/turn";
import type { GivenNode } from "../../lib/graph/node";
import { parseQuantity } from "../../lib/quantity/parse";
import { table } from "../graph/nodes";

function given(text: string): GivenNode {
  const { si, spread, dimension, unit } = parseQuantity(text);
  return {
    kind: "given",
    id: "x",
    path: "x",
    text,
    nominal: si,
    spread,
    dimension: dimension.key,
    unit: unit.symbol,
    provenance: { source: "own" },
  };
}

describe("turnGiven", () => {
  it("takes the spread that the text states", () => {
    expect(turnGiven(given("4.5 V ±2 %"), "5 V ±0.1 V")).toEqual({
      change: { nominal: 5, text: "5 V ±0.1 V", spread: { kind: "rectangular", low: 4.9, high: 5.1 } },
    });
  });
  it("keeps the relative tolerance where the text states none", () => {
    const { change, note } = turnGiven(given("4 V ±5 %"), " 8 V ");
    expect(change.spread).toMatchObject({ kind: "rectangular", low: expect.closeTo(7.6, 12), high: expect.closeTo(8.4, 12) });
    expect(change.text).toBe("8 V");
    expect(note).toMatch(/^relative tolerance kept: 7\.60\sV to 8\.40\sV$/);
  });
  it("keeps limits in order when the sign turns", () => {
    expect(turnGiven(given("-2 mV/K ±10 %"), "4 mV/K").change.spread).toMatchObject({
      low: expect.closeTo(0.0036, 12),
      high: expect.closeTo(0.0044, 12),
    });
  });
  it("scales the sigma of a normal tolerance", () => {
    expect(turnGiven(given("2.85 V ±0.12 V (3σ)"), "5.7 V").change.spread).toMatchObject({
      kind: "normal",
      sigma: expect.closeTo(0.08, 12),
      coverage: 3,
    });
  });
  it("keeps the absolute tolerance of a temperature", () => {
    const { spread } = turnGiven(given("25 °C ±2 K"), "35 °C").change;
    expect(spread).toMatchObject({ low: expect.closeTo(306.15, 9), high: expect.closeTo(310.15, 9) });
  });
  it("keeps the absolute tolerance about zero", () => {
    expect(turnGiven({ ...given("0 V ±1 mV"), nominal: 0 }, "1 V").change.spread).toMatchObject({ low: 0.999, high: 1.001 });
  });
  it("keeps a range while the value lies in it, and asks for a new one where it does not", () => {
    const cell = given("3.7 V in 3.0 V to 4.2 V");
    expect(turnGiven(cell, "3.2 V")).toMatchObject({
      change: { nominal: 3.2, spread: cell.spread },
      note: expect.stringContaining("range kept"),
    });
    expect(() => turnGiven(cell, "5 V")).toThrow(/condition of use from 3\.00?\sV to 4\.20?\sV; state the new range/);
  });
  it("refuses another dimension, and text that is no quantity", () => {
    expect(() => turnGiven(given("4 V"), "4 A")).toThrow(/voltage|current/);
    expect(() => turnGiven(given("4 V"), "four")).toThrow();
    expect(() => turnGiven(given("4 V"), "4")).toThrow();
  });
});

describe("scaleTable", () => {
  const curve = table("curve", [0, 1, 2], [1, 4, 9]);

  it.each(["×0.5", "x 0.5", "* .5", " 0.5 ", "×5e-1"])("reads %s as a factor of every ordinate", (text) => {
    expect(scaleTable(curve, text)).toEqual({ x: [0, 1, 2], y: [0.5, 2, 4.5], scale: 0.5 });
  });

  it("is no change where the factor is 1", () => {
    expect(scaleTable(curve, "×1.00")).toBeUndefined();
  });

  it("refuses a factor that takes an ordinate beyond the range of numbers, and any for a temperature in °C", () => {
    expect(() => scaleTable(curve, "×1e308")).toThrow(/takes y beyond the range of numbers/);
    const warm = { ...curve, dimension: "K|temperature", unit: "°C" };
    expect(() => scaleTable(warm, "×2")).toThrow(/is a temperature in °C, which has no factor; edit the rows/);
  });

  it.each(["×0", "-2", "1e999", "twice", "", "0,95", "×0.9 V"])("refuses '%s' and says what to write", (text) => {
    expect(() => scaleTable(curve, text)).toThrow(/scales no table; write a positive factor for its y, such as ×0\.95/);
  });
});
