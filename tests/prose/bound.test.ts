import { describe, expect, it } from "vitest";
import { type BoundResult, boundProblems } from "../../lib/prose/bound";

const results: Readonly<Record<string, BoundResult>> = {
  "lamp.R": { nominal: 910, unit: "Ω", dimension: "kg·m²·s⁻³·A⁻²" },
  "lamp.P": { nominal: 0.010506, unit: "mW", dimension: "kg·m²·s⁻³" },
  "lamp.share": { nominal: 0.14197, unit: "%", dimension: "1" },
  "lamp.T": { nominal: 298.15, unit: "°C", dimension: "K|temperature" },
  "battery.t": { nominal: 43_200, unit: "h", dimension: "s" },
};
const targets = {
  published: new Map([["lamp.resistor", "lamp.R"]]),
  has: (id: string) => id in results,
  result: (id: string, end?: string) => {
    const known = results[id] as BoundResult;
    return end === undefined ? known : { ...known, nominal: known.nominal * (end.endsWith("low") ? 0.9 : 1.1) };
  },
};
const messages = (text: string) => boundProblems(text, "lamp", targets).map(({ message }) => message);

describe("a number bound to a result", () => {
  it.each([
    "[910 Ω](#R)",
    "[0.91 kΩ](#R)",
    "[910 Ω](#resistor)",
    "[10.5 mW](#P)",
    "[≈ 10.5 mW](#P)",
    "[14 %](#share)",
    "[25 °C](#T)",
    "[12 h](04-battery.ipynb#t)",
    "[12 h](battery.ipynb#t)",
  ])("%s is right", (text) => expect(messages(`It is ${text}.`)).toEqual([]));

  it.each([
    ["[820 Ω](#R)", "[820 Ω](#R) is 910\u00a0Ω now"],
    ["[10.4 mW](#P)", "[10.4 mW](#P) is 10.51\u00a0mW now"],
    ["[1 kΩ](#R)", "[1 kΩ](#R) is 910\u00a0Ω now"],
    ["[15 %](#share)", "[15 %](#share) is 14.2\u00a0% now"],
    ["[9 h](battery.ipynb#t)", "[9 h](battery.ipynb#t) is 12\u00a0h now"],
    ["[910 Ω](#Q)", "[910 Ω](#Q) leads to no result; there is no lamp.Q"],
    ["[long](battery.ipynb#x)", "[long](battery.ipynb#x) leads to no result; there is no battery.x"],
  ])("%s is not", (text, message) => expect(messages(`It is ${text}.`)).toEqual([message]));

  it("may be an end of its spread, rounded outward", () => {
    expect(messages("[819 Ω](#R?worst-low) to [1001 Ω](#R?worst-high), [10.8 h](battery.ipynb#t?units-low)")).toEqual([]);
    expect(messages("[818 Ω](#R?doubt-low)")).toEqual([]);
    expect(messages("[910 Ω](#R?worst-low)")).toEqual(["[910 Ω](#R?worst-low) is 819\u00a0Ω now"]);
    expect(messages("[910 Ω](#R?worst)")[0]).toMatch(/\?worst is none of \?worst-low, \?worst-high, \?units-low/);
    expect(messages("[910 Ω](#Q?worst-low)")).toEqual(["[910 Ω](#Q?worst-low) leads to no result; there is no lamp.Q"]);
  });

  it("of another dimension is named with the reason", () => {
    expect(messages("[910 V](#R)")[0]).toMatch(/cannot be read as resistance.*the result is 910\u00a0Ω/);
  });

  it("is told with its line", () => {
    expect(boundProblems("First\n\nthen [820 Ω](#R)", "lamp", targets)).toEqual([{ line: 3, message: "[820 Ω](#R) is 910\u00a0Ω now" }]);
  });

  it("in words, or a link elsewhere, is left alone", () => {
    expect(messages("[the resistor](#R), [a heading](#why), [site](https://example.org/#12)")).toEqual([]);
  });
});
