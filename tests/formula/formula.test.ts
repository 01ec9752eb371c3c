import { expect, test } from "vitest";
import { evaluate } from "../../lib/formula/evaluate";
import { formula } from "../../lib/formula/formula";
import { ampere, celsius, farad, hertz, kHz, ohm, volt, watt } from "../../lib/units";

const about = { meaning: "corner frequency of a first-order low-pass filter", source: "any textbook" };

test("a formula keeps text, name, units, meaning and source, and parses at first use", () => {
  const corner = formula("f_c = 1/(2*pi*R*C)", { R: ohm, C: farad }, kHz, { ...about, valid: { R: "> 0" } });
  expect(corner).toMatchObject({ text: "f_c = 1/(2*pi*R*C)", name: "f_c", result: kHz, arguments: { R: ohm, C: farad }, ...about });
  expect(corner.valid).toEqual([{ symbol: "R", low: Number.MIN_VALUE, high: Infinity, text: "> 0" }]);
  expect(evaluate(corner.expression, { R: 1000, C: 1e-9 })).toBeCloseTo(159154.943, 3);
  expect(corner.expression).toBe(corner.expression);
});

test("a wrong law is a compile error, and an error at first use", () => {
  // @ts-expect-error cannot add V (voltage) and I (current)
  const sum = formula("P = V + I", { V: volt, I: ampere }, watt, about);
  expect(() => sum.expression).toThrow("cannot add V (voltage) and I (current)");
  // @ts-expect-error V*I is power, not resistance
  const product = formula("R = V*I", { V: volt, I: ampere }, ohm, about);
  expect(() => product.expression).toThrow("V*I is power, not resistance");
  // @ts-expect-error unknown symbol 'X'
  const unknown = formula("P = V*X", { V: volt }, watt, about);
  expect(() => unknown.expression).toThrow("unknown symbol 'X'");
});

test("a limit for a symbol that the law does not have is refused", () => {
  // @ts-expect-error T is not one of the law's symbols
  const law = formula("P = V*I", { V: volt, I: ampere }, watt, { ...about, valid: { T: "> 0 K" } });
  expect(() => law.valid).toThrow("there is a limit for 'T'");
});

test("a symbol with a unit that the law does not use is refused at first use", () => {
  const law = formula("f = 1/(R*C)", { R: ohm, C: farad, T: celsius }, hertz, about);
  expect(() => law.expression).toThrow("symbol 'T' has a unit but is not used");
});

test("a law without the symbol of its result is refused where it is defined", () => {
  expect(() => formula("1/(R*C)", { R: ohm, C: farad }, hertz, about)).toThrow("begins with the symbol of its result");
});
