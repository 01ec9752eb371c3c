import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { levelTable } from "../../lib/quantity/decibel";
import { dimension } from "../../lib/quantity/dimension";
import { keyOf, namedDimensions } from "../../lib/quantity/named-dimensions";
import type { Unit } from "../../lib/quantity/quantity";
import { unitOf } from "../../lib/quantity/unit";
import { affineTable, unitSources, unitTable } from "../../lib/quantity/unit-table";
import * as tokens from "../../lib/units";

describe("the table of units", () => {
  it("has at least 120 rows, each with a source and a dimension", () => {
    expect(unitTable.length + affineTable.length + levelTable.length).toBeGreaterThanOrEqual(120);
    for (const row of [...unitTable, ...affineTable]) expect(unitSources[row.source], row.symbol).toBeTruthy();
    for (const row of levelTable) expect(row.source, row.symbol).toBeTruthy();
    for (const row of [...unitTable, ...affineTable, ...levelTable]) expect(() => dimension(row.dimension), row.symbol).not.toThrow();
  });

  it("gives every name to one unit, apart from those that a dimension asked for tells apart", () => {
    const names = [...unitTable, ...affineTable, ...levelTable].flatMap((row) => [row.symbol, ...(row.aliases ?? [])]);
    const twice = names.filter((name, i) => names.indexOf(name) !== i);
    expect(twice.sort()).toEqual(["dB", "°C", "°F"]);
  });

  it("is read back by every symbol", () => {
    for (const { symbol } of [...unitTable, ...affineTable, ...levelTable]) expect(unitOf(symbol).symbol, symbol).toBe(symbol);
  });
});

describe("unitOf", () => {
  it("gives the same object for the same unit, however it is written", () => {
    expect(unitOf("kohm")).toBe(unitOf("kΩ"));
    expect(unitOf("uF")).toBe(unitOf("µF"));
  });

  it.each([
    ["nV/√Hz", "kg·m²·s^(-5/2)·A⁻¹", ""],
    ["W/(m·K)", "kg·m·s⁻³·K⁻¹", "W/(m.K)"],
    ["°C/W", "kg⁻¹·m⁻²·s³·K", "K/W"],
    ["ppm/K", "K⁻¹", "[ppm]/K"],
    ["mm²", "m²", "mm2"],
    ["kΩ", "kg·m²·s⁻³·A⁻²", "kOhm"],
    ["µs", "s", "us"],
    ["°C", "K|temperature", "Cel"],
    ["dBµV", "kg·m²·s⁻³·A⁻¹", "dB[uV]"],
    ["N·m", "kg·m²·s⁻²|torque", "N.m"],
    ["J", "kg·m²·s⁻²|energy", "J"],
    ["Hz", "s⁻¹|frequency", "Hz"],
    ["1/s", "s⁻¹", "1/s"],
    ["kg·m²·s⁻³·A⁻¹", "kg·m²·s⁻³·A⁻¹", "kg.m2.s-3.A-1"],
    ["V·s^(-1/2)", "kg·m²·s^(-7/2)·A⁻¹", ""],
  ])("%s has dimension %s and UCUM code %s", (text, key, ucum) => {
    expect([unitOf(text).dimension.key, unitOf(text).ucum]).toEqual([key, ucum]);
  });

  it("has exact factors where the definition is exact", () => {
    expect(unitOf("mil")(10).in(unitOf("µm"))).toBe(254);
    expect(unitOf("mil²")(1).si).toBe(6.4516e-10);
    expect(unitOf("1/mm²")(1).si).toBe(1e6);
    expect(unitOf("g/cm³")(8.96).si).toBe(8960);
    expect(unitOf("in")(1).si).toBe(0.0254);
  });

  it("reads the coherent unit of every named dimension, with factor 1", () => {
    for (const row of namedDimensions) {
      const unit = unitOf(row.unit);
      expect([unit.symbol, unit.toSI(1), unit.dimension.si], row.name).toEqual([row.unit, 1, row.si]);
    }
  });

  // Stored results keep the symbol alone.
  it("has a symbol that reads back as itself, without its dimension", () => {
    const symbols = [
      ...unitTable.flatMap(({ symbol, prefixes = "" }) => ["", ...prefixes.split(" ")].map((prefix) => prefix + symbol)),
      ...[...affineTable, ...levelTable].map(({ symbol }) => symbol),
      ...["nV/√Hz", "W/(m·K)", "N·m²", "Δ°C/W", "1/s^(3/2)"],
    ];
    const dimensions = [undefined, ...namedDimensions.map((row) => dimension(keyOf(row)))];
    const facts = ({ symbol, ucum, affine, log, toSI }: Unit<any>) => ({ symbol, ucum, affine, log, two: toSI(2) });
    for (const symbol of symbols) {
      for (const asked of dimensions) {
        const unit = unitOf(symbol, asked);
        expect(facts(unitOf(unit.symbol)), symbol).toEqual(facts(unit));
      }
    }
    expect(symbols.length).toBeGreaterThan(300);
  });

  it("takes °C in a compound unit as a difference", () => {
    expect(unitOf("°C/W")(62).si).toBe(62);
    expect(unitOf("°F/W")(9).si).toBe(5);
  });

  it("has the dB that is asked for", () => {
    expect(unitOf("dB")(20).si).toBe(10);
    expect(unitOf("dB", dimension("1|power gain"))(20).si).toBe(100);
    expect(unitOf("dB (power)")(20).si).toBe(100);
  });

  it.each([
    ["W/m·K", 'cannot read the unit "W/m·K" at column 4: a product behind a solidus has two readings; did you mean W/(m·K) or W·K/m?'],
    ["Vlot", 'cannot read the unit "Vlot" at column 1: unknown unit "Vlot"; did you mean volt, foot or knot?'],
    ["W/(m·K", 'cannot read the unit "W/(m·K" at column 7: a closing bracket is missing'],
    ["V/", 'cannot read the unit "V/" at column 3: a unit is missing'],
    ["PF", 'cannot read the unit "PF" at column 1: unknown unit "PF"; did you mean pF?'],
    [
      "V^0.25",
      'cannot read the unit "V^0.25" at column 2: an exponent is a whole or half number up to 12, and not 0: ^2, ^-1, ^0.5 or ^(1/2)',
    ],
  ])("refuses %s", (text, message) => {
    expect(() => unitOf(text)).toThrow(expect.objectContaining({ code: "unit-text", message }));
  });

  it("refuses NaN and infinities when called", () => {
    for (const text of ["V", "mil", "°C", "dBm", "AWG"]) {
      expect(() => unitOf(text)(Number.NaN)).toThrow(`NaN ${text} is no quantity: a finite number is expected`);
      expect(() => unitOf(text)(Number.POSITIVE_INFINITY)).toThrow("no quantity");
    }
  });

  it("refuses the level of zero and of negative values", () => {
    expect(() => unitOf("V")(0).in(unitOf("dBV"))).toThrow(
      "0 has no level in dBV: only positive values have one; ask for it in a linear unit of voltage",
    );
    expect(() => unitOf("V")(-1).in(unitOf("dBV"))).toThrow("-1 has no level in dBV");
  });
});

describe("the tokens of workings/units", () => {
  const source = readFileSync(new URL("../../lib/units.ts", import.meta.url), "utf8");
  const declared = [...source.matchAll(/export const (\w+): (?:Level)?Unit<(?:D\.(\w+)|SI<"([^"]+)">)> = unitOf\("(.+)"\)/g)];

  it("are all read by this test", () => {
    expect(declared.length).toBe(Object.values(tokens).length - 1);
  });

  it.each(declared.map(([, name, type, si, text]) => [name, type ?? si, text] as [string, string, string]))(
    "%s is a unit of %s",
    (name, type, text) => {
      const row = namedDimensions.find((candidate) => candidate.name === type);
      expect(unitOf(text).symbol).toBe(text);
      expect((tokens as Record<string, { dimension?: { key: string } }>)[name]?.dimension?.key).toBe(
        row ? keyOf(row) : keyOf({ si: type }),
      );
    },
  );
});
