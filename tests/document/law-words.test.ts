import { describe, expect, it } from "vitest";
import { handWords, lawWords, levelWords } from "../../lib/document/text/law-words";
import { tableInput } from "../../lib/graph/model";
import { dB, dBuV_per_m, hertz, ohm } from "../../lib/units";

const marked = (text: string): string => text.replace(/<var>(.*?)<\/var>/g, "[$1]").replace(/<\/?sub>/g, "|");

describe("lawWords(text, symbols)", () => {
  it.each([
    ["Resistance R at the temperature T behind R_s.", ["R", "T", "R_s"], "Resistance [R] at the temperature [T] behind [R|s|]."],
    ["Box of the face a × b and a height H", ["a", "b", "H"], "Box of the face [a] × [b] and a height [H]"],
    ["A surface A of 2 A, drifting by a", ["A", "a"], "A surface [A] of 2 A, drifting by [a]"],
    [
      "Ageing of the I–V curve, emissivity epsilon, rise dT",
      ["I", "V", "epsilon", "dT"],
      "Ageing of the I–[V] curve, emissivity [ε], rise [dT]",
    ],
    ["Longer than `share` of t", ["t", "s"], "Longer than <code>share</code> of [t]"],
    ["Of a part that V does not name", ["W"], "Of a part that V does not name"],
  ])("of %s sets %j as variables", (text, symbols, shown) => {
    expect(marked(lawWords(text, symbols).text)).toBe(shown);
  });
});

describe("levelWords(slots)", () => {
  it("says that a law takes ratios and quantities, not decibels", () => {
    const slots = [
      ["G", dB],
      ["R", ohm],
      ["E_l", tableInput(hertz, dBuV_per_m)],
    ] as const;
    const text = marked(levelWords(slots)?.text ?? "");
    expect(text).toContain("([G]: a ratio, 10 at 20 dB; [E|l|]: the electric field behind the dBµV/m)");
    expect(levelWords([["R", ohm]])).toBeUndefined();
  });
});

describe("handWords(text)", () => {
  it("raises powers and sets minus signs, but leaves names of rows", () => {
    expect(handWords("row audio-01: 2e-3·2.5^2/R_L^-1.5").text).toBe(
      "row audio-01: 2e−3·2.5<sup>2</sup>/<var>R<sub>L</sub></var><sup>−1.5</sup>",
    );
  });
});
