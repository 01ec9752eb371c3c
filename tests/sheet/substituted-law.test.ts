/** What stands in the place of a law's symbols: what multiplies is the quantity itself, not its reading on a scale. */
import { describe, expect, it } from "vitest";
import { parseFormula } from "../../lib/formula/parse";
import { substitutedLaw } from "../../lib/sheet/substituted-law";
import { celsius, dB, dB_per_mW, dB_SPL, ohm, one, type volt } from "../../lib/units";

type AnyUnit = typeof volt | typeof celsius | typeof one;
const units = { T: celsius, T_0: celsius, R: ohm, G: dB, p: dB_SPL, S: dB_per_mW, x: one } as unknown as Record<string, AnyUnit>;
const shownUnits = (law: string) => {
  const parsed = parseFormula(law);
  const { latex, values } = substitutedLaw(parsed.expression, (node) => {
    const unit = units[node];
    return unit === undefined ? undefined : { node, unit: unit.symbol, dimension: unit.dimension.key };
  });
  expect([...latex.matchAll(/⟦(\d+)⟧/g)].map(([, place]) => Number(place))).toEqual([...values.keys()]);
  return values.map(({ node, unit }) => `${node} in ${unit}`);
};

describe("the law with numbers", () => {
  it("puts kelvin where a temperature divides or multiplies", () => {
    expect(shownUnits("R*exp(1/T - 1/T_0)")).toEqual(["R in Ω", "T in K", "T_0 in K"]);
  });

  it("leaves a temperature as it is read where only differences are taken", () => {
    expect(shownUnits("R*(1 + x*(T - T_0))")).toEqual(["R in Ω", "x in 1", "T in °C", "T_0 in °C"]);
  });

  it("puts what is behind a level where it multiplies", () => {
    expect(shownUnits("G*x")).toEqual(["G in 1", "x in 1"]);
    expect(shownUnits("p^2/S")).toEqual(["p in Pa", "S in Pa²/W"]);
    expect(shownUnits("G")).toEqual(["G in dB"]);
  });
});
