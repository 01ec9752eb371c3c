import { expect, test } from "vitest";
import { evaluate } from "../../lib/formula/evaluate";
import { parseFormula } from "../../lib/formula/parse";
import { WorkingsError } from "../../lib/quantity/error";

function value(text: string, symbols: Readonly<Record<string, number>> = {}): number {
  return evaluate(parseFormula(text, Object.keys(symbols)).expression, symbols);
}

test.each([
  ["(V_s - V_g)/I_g", { V_s: 5, V_g: 2.1, I_g: 0.01 }, 290],
  ["1/(2*pi*R*C)", { R: 1e3, C: 1e-9 }, 159154.94309189534],
  ["-x^2", { x: 3 }, -9],
  ["2^-1", {}, 0.5],
  ["8/4/2", {}, 1],
  ["8/4*2", {}, 4],
  ["2^3^2", {}, 512],
  ["x^0.5", { x: 9 }, 3],
  ["max(a, b, 7) - min(a, b)", { a: 2, b: 3 }, 5],
  ["20*log10(10)", {}, 20],
  ["atan2(1, 1)*4/pi", {}, 1],
  ["if(x >= 2, 10, 20)", { x: 2 }, 10],
  ["if(x != 2, 10, 20)", { x: 2 }, 20],
  ["round(2.5) + floor(-0.5) + ceil(0.2) + sign(-3)", {}, 2],
])("%s is evaluated", (text, symbols, expected) => {
  expect(value(text, symbols)).toBeCloseTo(expected, 9);
});

test("only the branch that is taken is evaluated", () => {
  expect(value("if(x > 0, 1/x, 0)", { x: 0 })).toBe(0);
});

test("a division by zero names the divisor", () => {
  expect(() => value("a/(b - c)", { a: 1, b: 2, c: 2 })).toThrow(/^a\/\(b - c\) divides by zero: b - c is 0/);
  expect(() => value("(b - c)^-1", { b: 2, c: 2 })).toThrow(/b - c is 0/);
  expect(codeOf(() => value("1/x", { x: 0 }))).toBe("division-by-zero");
});

test("a value that is not finite names where it arose", () => {
  expect(() => value("1 + ln(x)", { x: -1 })).toThrow("ln(x) has no finite value: x is -1");
  expect(() => value("exp(x)*0", { x: 1000 })).toThrow("exp(x) has no finite value: x is 1000");
});

test("a symbol without a number is an error", () => {
  expect(() => value("a*toString", { a: 1 })).toThrow("needs a number for 'toString'; given are a");
});

function codeOf(attempt: () => unknown): string | undefined {
  try {
    attempt();
  } catch (error) {
    return error instanceof WorkingsError ? error.code : undefined;
  }
  return undefined;
}
