import { expect, it } from "vitest";
import { power } from "../../lib/quantity/power";

it("power is a product of factors for whole exponents", () => {
  expect(power(3, 5)).toBe(243);
  expect(power(2, -3)).toBe(0.125);
  expect(power(-2, 3)).toBe(-8);
  expect(power(7, 0)).toBe(1);
});

it("power takes one square root for half exponents", () => {
  expect(power(2, 0.5)).toBe(Math.sqrt(2));
  expect(power(9, 1.5)).toBe(27);
  expect(power(4, -0.5)).toBe(0.5);
});

it("power gives the same bits on every engine for other exponents", () => {
  expect([power(2, 0.44), power(10, 0.725), power(92, 16 / 39)].map((x) => x.toString())).toEqual(
    [Math.exp(0.44 * Math.log(2)), Math.exp(0.725 * Math.log(10)), Math.exp((16 / 39) * Math.log(92))].map((x) => x.toString()),
  );
});

it("power has the limits of the real function", () => {
  expect(power(0, 0.3)).toBe(0);
  expect(power(0, -1)).toBe(Number.POSITIVE_INFINITY);
  expect(power(-8, 1 / 3)).toBeNaN();
  expect(power(1, 100)).toBe(1);
  expect(power(-1, 101)).toBe(-1);
});
