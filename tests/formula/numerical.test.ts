import { expect, test } from "vitest";
import { evaluate } from "../../lib/formula/evaluate";
import { numericalFormula } from "../../lib/formula/numerical";
import { unitOf } from "../../lib/quantity/unit";
import { AWG, ampere, kelvin, mil2, one } from "../../lib/units";

const about = { meaning: "current of a trace at a given rise", source: "IPC-2221 (1998), fit to its chart" };
const trace = numericalFormula("I = k*dT^0.44*A^0.725", { k: one, dT: kelvin, A: mil2 }, ampere, about);

test("a numerical value equation takes fractional powers and computes with numbers in its units", () => {
  // 0.048 · 10^0.44 · 10^0.725 = 0.048 · 10^1.165 = 0.048 · 14.6218
  expect(evaluate(trace.expression, { k: 0.048, dT: 10, A: 10 })).toBeCloseTo(0.701846, 5);
});

test("each symbol and the result keep the symbol of their unit", () => {
  expect(trace.numerical).toEqual({ arguments: { k: "1", dT: "K", A: "mil²" }, result: "A" });
});

test("names and syntax are checked all the same", () => {
  // @ts-expect-error unknown symbol 'B'
  const law = numericalFormula("I = k*B", { k: one }, ampere, about);
  expect(() => law.expression).toThrow("unknown symbol 'B'");
});

test("a level in decibels or a wire gauge is refused: its number is not proportional to anything", () => {
  expect(() => numericalFormula("I = 2*L", { L: unitOf("dBV") }, ampere, about)).toThrow("a numerical value equation cannot take L in dBV");
  expect(() => numericalFormula("I = 2*n", { n: AWG }, ampere, about)).toThrow("a numerical value equation cannot take n in AWG");
});
