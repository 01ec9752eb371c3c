import { expect, test } from "vitest";
import { parseFormula } from "../../lib/formula/parse";

const a = { symbol: "a" };
const b = { symbol: "b" };
const c = { symbol: "c" };

test.each([
  ["a/b/c", { call: "divide", of: [{ call: "divide", of: [a, b] }, c] }],
  ["a/b*c", { call: "multiply", of: [{ call: "divide", of: [a, b] }, c] }],
  ["a - b - c", { call: "subtract", of: [{ call: "subtract", of: [a, b] }, c] }],
  ["a^b^c", { call: "power", of: [a, { call: "power", of: [b, c] }] }],
  ["-a^2", { call: "negate", of: [{ call: "power", of: [a, { number: 2 }] }] }],
  ["-a*b", { call: "multiply", of: [{ call: "negate", of: [a] }, b] }],
  ["a*-b", { call: "multiply", of: [a, { call: "negate", of: [b] }] }],
  ["2^-1", { call: "power", of: [{ number: 2 }, { call: "negate", of: [{ number: 1 }] }] }],
  ["1.6e-19 - 3", { call: "subtract", of: [{ number: 1.6e-19 }, { number: 3 }] }],
  ["max(a, b, c)", { call: "max", of: [a, b, c] }],
  ["if(a < b, b, c)", { call: "if", of: [{ call: "less", of: [a, b] }, b, c] }],
  ["2*pi*e", { call: "multiply", of: [{ call: "multiply", of: [{ number: 2 }, { constant: "pi" }] }, { constant: "e" }] }],
])("%s has the tree of the trade's precedence", (text, tree) => {
  expect(parseFormula(text).expression).toEqual(tree);
});

test("names that mean something to other calculators are plain symbols", () => {
  for (const name of ["in", "to", "mod", "and", "true", "null", "i", "kg", "Infinity_", "w0", "ans", "end"]) {
    expect(parseFormula(`${name}*a`).expression).toEqual({ call: "multiply", of: [{ symbol: name }, a] });
  }
});

test("a given symbol called e is no constant", () => {
  expect(parseFormula("e*a", ["e"]).expression).toEqual({ call: "multiply", of: [{ symbol: "e" }, a] });
});

test("the name before = comes with the tree", () => {
  expect(parseFormula("x_1 = a")).toEqual({ name: "x_1", expression: a });
});

test.each([
  ["a b", "column 3: an operator is missing before 'b'"],
  ["f(a)", "column 1: unknown function 'f'"],
  ["a*exp(b, c)", "column 3: exp() takes 1 value, got 2"],
  ["a + (b > c)", "column 5: (b > c) is a condition, not a value"],
  ["if(a, b, c)", "column 4: if() needs a condition such as a > b, got a"],
  ["[a]; b", "column 6: an operator is missing before 'b'"],
  ['"text" a', `column 8: an operator is missing before 'a'`],
  ["f(x) = x", "column 6: '=' may only follow the result's name"],
])("%s is refused: %s", (text, sentence) => {
  expect(() => parseFormula(text)).toThrow(sentence);
});

test("a long sum is parsed", () => {
  const text = Array.from({ length: 401 }, (_, i) => `x_${i}`).join(" + ");
  expect(parseFormula(text).expression).toHaveProperty("call", "add");
});
