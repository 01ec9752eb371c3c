import { describe, expect, it } from "vitest";
import { sharedBeginning, sharedMeaning } from "../../lib/sheet/shared-meaning";

describe("the meaning of a chosen result", () => {
  it.each([
    [["mass of the small cell", "mass of the large cell"], "mass of the cell"],
    [
      ["current of the FET amplifier, each channel", "current of the bipolar amplifier, each channel"],
      "current of the amplifier, each channel",
    ],
    [["cost of the two halves in aluminium", "cost of the two halves in an unfilled plastic"], "cost of the two halves"],
    [["thickness", "thickness"], "thickness"],
  ])("is what %j share", (meanings, shared) => expect(sharedMeaning(meanings)).toBe(shared));

  it.each([
    [["rail of the logic, from a linear regulator", "positive rail of the amplifier"]],
    [["mass of the cell", undefined]],
    [["resistor", "current"]],
  ])("is nothing where %j share little", (meanings) => expect(sharedMeaning(meanings)).toBeUndefined());
});

describe("the beginning that meanings share", () => {
  it.each([
    [["width of the trace from the jack to the charger", "width of the trace from the cell to the rails"], "width of the trace"],
    [["current from the source", "current from the cell, both channels"], "current"],
    [["thickness", "thickness"], "thickness"],
    [["thickness of the wall", undefined], undefined],
    [["the cell", "the case"], undefined],
  ])("of %j ends with a word that can end a phrase", (meanings, shared) => expect(sharedBeginning(meanings)).toBe(shared));
});
