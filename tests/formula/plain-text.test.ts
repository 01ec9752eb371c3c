import fc from "fast-check";
import { expect, test } from "vitest";
import { parseFormula } from "../../lib/formula/parse";
import { plainText } from "../../lib/formula/plain-text";
import { trees } from "./trees";
import { goodFormulas } from "./verdicts";

test("plainText of a tree parses to the same tree", () => {
  fc.assert(
    fc.property(trees, (tree) => {
      expect(parseFormula(plainText(tree)).expression).toEqual(tree);
    }),
    { seed: 20, numRuns: 1000 },
  );
});

test.each(goodFormulas.map(({ text, symbols }) => [text, Object.keys(symbols)] as const))(
  "plainText of %s parses to the same tree",
  (text, symbols) => {
    const { expression } = parseFormula(text, symbols);
    expect(parseFormula(plainText(expression), symbols).expression).toEqual(expression);
  },
);

test.each([
  ["((a))*(b/c)", "a*(b/c)"],
  ["(a*b)/c", "a*b/c"],
  ["a/(b*c)", "a/(b*c)"],
  ["a - (b + c)", "a - (b + c)"],
  ["(a + b) - c", "a + b - c"],
  ["(-a)^2", "(-a)^2"],
  ["-(a^2)", "-a^2"],
  ["-(a*b)", "-(a*b)"],
  ["(a^b)^c", "(a^b)^c"],
  ["a^(b^c)", "a^b^c"],
  ["2^(-1)", "2^-1"],
  ["a^(1/2)", "a^(1/2)"],
  ["max(a,(b))", "max(a, b)"],
  ["if((a)<=b,x,+y)", "if(a <= b, x, y)"],
])("plainText writes %s with the fewest brackets: %s", (text, shortest) => {
  expect(plainText(parseFormula(text).expression)).toBe(shortest);
});

test("a negative number, which only a program can put in a tree, is bracketed", () => {
  expect(plainText({ call: "power", of: [{ number: -2 }, { symbol: "n" }] })).toBe("(-2)^n");
});
