import { describe, expect, it } from "vitest";
import { readDesign } from "../../lib/design/read";

const designWith = (given: string) =>
  readDesign(
    `product: { name: Test, revision: "1" }\nsources: { own: { type: document, title: Made up } }\ngivens:\n  x: { ${given}, meaning: a test, source: own }\n`,
    "d.yaml",
  );
const stepOf = (given: string) => {
  const node = designWith(given).given("x");
  return node.kind === "given" ? node.step : undefined;
};

describe("the step of a given", () => {
  it("is a difference: kelvin of a point of temperature, a factor of a level", () => {
    expect(stepOf("value: 5 V, step: 100 mV")).toBeCloseTo(0.1, 12);
    expect(stepOf("value: 25 °C, step: 5 °C")).toBeCloseTo(5, 9);
    expect(stepOf("value: 25 °C, step: 5 K")).toBeCloseTo(5, 9);
    expect(stepOf("value: 14 dB, step: 6 dB")).toBeCloseTo(10 ** (6 / 20), 9);
    expect(stepOf("value: 10 dBm, step: 3 dB")).toBeCloseTo(10 ** (3 / 10), 9);
    expect(stepOf("value: 5 V")).toBeUndefined();
  });

  it.each([
    ["value: 5 V, step: 1 mA", /d\.yaml:4:\d+: step of given 'x' is 1 mA, the given voltage/],
    ["value: 25 °C, step: 1 V", /step of given 'x' is 1 V.*; expected a difference of temperatures, such as 5 °C/],
    ["value: 14 dB, step: 2 V", /expected a difference of levels, such as 1 dB/],
    ["value: 5 V, step: -1 V", /expected a step above zero/],
    ["value: 5 V, step: 0 V", /expected a step above zero/],
    ["value: 25 °C, step: 0 °C", /expected a step above zero/],
    ["value: 5 V, step: 1 V ±2 %", /step of given 'x' has a tolerance/],
    ["table: { columns: [a in V, b in mA], interpolation: linear, rows: [[1, 1], [2, 2]] }, step: 1 mA", /is a table and has a step/],
  ])("is refused with its place: %s", (given, message) => {
    expect(() => designWith(given)).toThrow(message);
  });
});
