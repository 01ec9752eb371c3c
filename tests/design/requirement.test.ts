import { describe, expect, it } from "vitest";
import { readDesign } from "../../lib/design/read";
import { spoil } from "./fixture";

function row(limit: string) {
  return readDesign(spoil('"<= 1.3"', JSON.stringify(limit)), "d.yaml").requirement("led");
}

describe("a requirement", () => {
  it("keeps statement, limit, unit, judgement and place", () => {
    expect(row("<= 1.3")).toEqual({
      id: "led",
      statement: "Alike.",
      limit: { high: 1.3 },
      text: "<= 1.3",
      unit: "1",
      dimension: "1",
      judged: "95 %",
      place: "d.yaml:11:12",
    });
  });

  it.each([
    [">= 12 h", { low: 43200 }, "h"],
    ["≥ 120 mW", { low: 0.12 }, "mW"],
    ["≤ 43 °C", { high: 316.15 }, "°C"],
    ["60 kHz to 200 kHz", { low: 60e3, high: 200e3 }, "kHz"],
    ["58 mm ±0.2 mm", { low: 0.0578, high: 0.0582 }, "mm"],
    ["0 mV ±1 mV", { low: -1e-3, high: 1e-3 }, "mV"],
    ["14 dB ±0.3 dB", { low: 10 ** (13.7 / 20), high: 10 ** (14.3 / 20) }, "dB"],
    ["<= -55 dB", { high: 10 ** (-55 / 20) }, "dB"],
  ])("reads the limit %s in SI", (text, limit, unit) => {
    const read = row(text);
    expect(Object.keys(read.limit)).toEqual(Object.keys(limit));
    for (const [side, value] of Object.entries(limit)) expect(read.limit[side as "low" | "high"]).toBeCloseTo(value, 9);
    expect(read.unit).toBe(unit);
  });
});
