import { describe, expect, it } from "vitest";
import { printedValue, withBoundUnits } from "../../lib/document/text/units-in-text";

describe("withBoundUnits", () => {
  it.each([
    ["holds 12 h at 5 °C, 30 % of it.", "holds 12\u00a0h at 5\u00a0°C, 30\u00a0% of it."],
    ["1.15 g/cm³ ±0.03 g/cm³", "1.15\u00a0g/cm³ ±0.03\u00a0g/cm³"],
    ["2.7 nV/√Hz (2.5 to 3.2), 102 dB/mW", "2.7\u00a0nV/√Hz (2.5 to 3.2), 102\u00a0dB/mW"],
    ["(20 mA)", "(20\u00a0mA)"],
  ])("keeps %s on one line at the units", (text, bound) => expect(withBoundUnits(text)).toBe(bound));

  it("leaves words that are no units", () => {
    for (const text of ["1 in 20 at most", "of 3 are 2 to be taken", "10 resistors"]) expect(withBoundUnits(text)).toBe(text);
  });
});

describe("printedValue", () => {
  it("sets true minus signs, and leaves hyphens", () => {
    expect(printedValue("-0.3 %/K ±0.1 %/K")).toBe("−0.3\u00a0%/K ±0.1\u00a0%/K");
    expect(printedValue("23 °C in -10 °C to 40 °C")).toBe("23\u00a0°C in −10\u00a0°C to 40\u00a0°C");
    expect(printedValue("AA-2")).toBe("AA-2");
  });
});
