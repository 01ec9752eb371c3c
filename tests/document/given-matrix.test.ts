import { describe, expect, it } from "vitest";
import { matrixLength, matrixOf } from "../../lib/document/sheet/givens";

const list = (symbols: readonly string[], ...words: readonly string[]) => ({
  rows: symbols.map((symbol, row) => ({ symbol, words: words[row] ?? "" })),
});
const lamp = (colour: string) =>
  list(["V_f", "J"], `forward voltage of the ${colour} lamp at the test current`, `intensity of the ${colour} lamp`);

describe("matrixOf", () => {
  it("finds in the words what tells the lists apart, and leaves it out of the quantity", () => {
    expect(matrixOf([lamp("green"), lamp("red")])).toEqual({
      labels: ["green", "red"],
      quantities: ["forward voltage of the … lamp at the test current", "intensity of the … lamp"],
    });
  });
  it("says both words where a quantity is called differently for some", () => {
    const material = (name: string, strength: string) =>
      list(["rho", "E", "s"], `density of ${name}`, `modulus of ${name}`, `${strength} of ${name}`);
    expect(matrixOf([material("steel", "yield stress"), material("cast iron with 3 % carbon", "strength")])).toEqual({
      labels: ["steel", "cast iron with 3 % carbon"],
      quantities: ["density", "modulus", "yield stress, or strength"],
    });
  });
  it.each([
    ["a single list", [lamp("green")]],
    ["lists of other symbols", [lamp("green"), list(["V_f", "I"], "forward voltage of the red lamp", "current of the red lamp")]],
    ["lists of other lengths", [lamp("green"), list(["V_f"], "forward voltage of the red lamp")]],
    ["words that have nothing in common", [list(["t"], "thickness of a wall"), list(["t"], "time until noon today")]],
    ["the same words twice", [lamp("green"), lamp("green")]],
  ])("makes none of %s", (_, lists) => expect(matrixOf(lists)).toBeUndefined());
});

describe("matrixLength", () => {
  it("takes the longest run of the same symbols, and a list by itself where they make no matrix", () => {
    const other = list(["h"], "height of a drop");
    expect([0, 1, 2, 3].map((start) => matrixLength([other, lamp("green"), lamp("red"), other], start))).toEqual([1, 2, 1, 1]);
  });
});
