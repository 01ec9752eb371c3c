import { describe, expect, it } from "vitest";
import { format, formatInterval, formatNumber, numberToTwelve, roundOutward } from "../../lib/quantity/format";
import { quantity } from "../../lib/quantity/parse";
import { unitOf } from "../../lib/quantity/unit";

const plainSpaces = (text: string) => text.replace(/\u00a0/g, " ");
const shown = (si: number, unit: string, options = {}) => plainSpaces(format({ si, unit: unitOf(unit) }, options));

describe("format without a spread", () => {
  it.each([
    [270, "Ω", "270 Ω"],
    [4700, "Ω", "4.7 kΩ"],
    [0.1 + 0.2, "V", "0.3 V"],
    [1 / 3, "V", "0.3333 V"],
    [999.96, "Ω", "1 kΩ"],
    [1e-7, "F", "100 nF"],
    [0.0392, "kg", "39.2 g"],
    [0.00039, "mm", "0.39 mm"],
    [1.2e-6, "nV/√Hz", "1.2 µV/√Hz"],
    [1.380649e-23, "J/K", "1.381×10⁻²³ J/K"],
    [298.15, "°C", "25 °C"],
    [-0.002, "mV", "−2 mV"],
    [Math.PI / 2, "°", "90°"],
    [0, "V", "0 V"],
    [-0, "V", "0 V"],
    [0, "dBV", "0 V"],
    [0.125, "1", "0.125"],
    [Math.sqrt(10), "dB", "10 dB"],
  ])("%d in %s is %s", (si, unit, text) => {
    expect(shown(si, unit)).toBe(text);
  });

  it("keeps the unit when asked to", () => {
    expect(shown(4700, "Ω", { prefix: false })).toBe("4700 Ω");
    expect(plainSpaces(formatNumber(2.4e9, unitOf("Hz")))).toBe("2.4×10⁹ Hz");
  });

  it("writes exponents that are multiples of three in the engineering style", () => {
    expect(shown(47000, "Ω", { style: "engineering" })).toBe("47×10³ Ω");
  });

  it("never prints rounding noise", () => {
    for (let i = 1; i < 200; i++) expect(shown(i * 0.1, "V").length).toBeLessThan(8);
  });

  it("refuses NaN and infinities", () => {
    expect(() => shown(Number.NaN, "V")).toThrow("the value is not a number");
    expect(() => shown(Number.POSITIVE_INFINITY, "V")).toThrow("the value is infinite");
  });
});

describe("format with a spread", () => {
  it.each([
    ["3.3 V ±5 %", "3.3 V ±5 %"],
    ["10 MHz ±20 ppm", "10 MHz ±20 ppm"],
    ["2.85 V ±0.12 V (3σ)", "2.85 V ±0.12 V (3σ)"],
    ["2.8 mA (2.4 to 3.3 mA)", "2.8 mA (2.4 mA to 3.3 mA)"],
    ["3.0 to 4.2 V", "3.0 V to 4.2 V"],
    ["3.7 V in 3.0 V to 4.2 V", "3.7 V in 3.0 V to 4.2 V"],
    ["14 ± 0.3 dB", "14.0 dB ±0.3 dB"],
    ["(85 ± 3) %", "(85 ± 3) %"],
    ["±1 %", "±1 %"],
    ["25 °C ±2 K", "25 °C ±2 °C"],
    ["0 °C ±1 K", "0 °C ±1 °C"],
    ["32.768 kHz ±20 ppm", "32.768 kHz ±20 ppm"],
    ["0.74 ±0.037", "0.740 ±0.037"],
    ["3 V ±0.12345678 V", "3.00 V ±0.13 V"],
    ["3.141592 V ±0.12345678 V", "3.14 V ±0.13 V"],
    ["5 V (4.8 to 5.5 V, rectangular)", "5.0 V (4.8 V to 5.5 V, rectangular)"],
  ])("%s prints as %s", (text, printed) => {
    expect(plainSpaces(format(quantity(text)))).toBe(printed);
  });

  it("lets two digits of the spread decide the digits of the plain value", () => {
    expect(plainSpaces(format(quantity("1.23456 V ±0.021 V"), { style: "plain" }))).toBe("1.235 V");
    expect(plainSpaces(format(quantity("1.23456 V ±0.21 V"), { style: "plain" }))).toBe("1.23 V");
  });

  it("writes the standard uncertainty in brackets in the concise style", () => {
    expect(plainSpaces(format(quantity("9.109(28)e-31 kg"), { style: "concise", prefix: false }))).toBe("9.109(28)×10⁻³¹ kg");
    expect(format(quantity("9.109(28)e-31 kg"), { style: "concise", prefix: false, notation: "latex" })).toBe(
      "9.109(28)\\times10^{-31}\\,\\mathrm{kg}",
    );
    expect(plainSpaces(format(quantity("14 dB ±0.3 dB"), { style: "concise" }))).toBe("14.00(17) dB");
    expect(plainSpaces(format(quantity("123456 ± 9000"), { style: "concise" }))).toBe("123500(5200)");
    expect(plainSpaces(format(quantity("1.234567e8 ± 3e6"), { style: "concise" }))).toBe("1.235(17)×10⁸");
    expect(plainSpaces(format(quantity("3.3 V ±5 %"), { style: "concise" }))).toBe("3.300(95) V");
  });
});

describe("format as LaTeX", () => {
  it.each([
    ["4.7 kΩ", "4.7\\,\\mathrm{k\\Omega}"],
    ["12 nV/√Hz", "12\\,\\mathrm{nV}/\\sqrt{\\mathrm{Hz}}"],
    ["1.5 W/(m·K)", "1.5\\,\\mathrm{W}/(\\mathrm{m}\\cdot \\mathrm{K})"],
    ["10 µF", "10\\,\\mathrm{\\mu F}"],
    ["9.81 m/s²", "9.81\\,\\mathrm{m}/\\mathrm{s}^{2}"],
    ["25 °C", "25\\,\\text{°C}"],
    ["3.3 V ±5 %", "3.3\\,\\mathrm{V} \\pm 5\\,\\%"],
    ["1.38e-23 J/K", "1.38\\times10^{-23}\\,\\mathrm{J}/\\mathrm{K}"],
  ])("%s", (text, latex) => {
    expect(format(quantity(text), { notation: "latex" })).toBe(latex);
  });
});

describe("limits", () => {
  it("are rounded away from each other", () => {
    expect(roundOutward(13.694, 14.121)).toEqual([13.69, 14.13]);
    expect(roundOutward(-14.121, -13.694)).toEqual([-14.13, -13.69]);
    expect(roundOutward(1234.5, 9876.5)).toEqual([1200, 9900]);
  });

  it("stay where they are when they are on the grid already", () => {
    expect(roundOutward(0.1 + 0.2, 0.7)).toEqual([0.3, 0.7]);
  });

  it("print in one unit", () => {
    expect(plainSpaces(formatInterval(2.7134e-3, 3.3871e-3, unitOf("mA")))).toBe("2.71 mA to 3.39 mA");
  });
});

describe("numberToTwelve", () => {
  it("drops rounding noise and nothing else", () => {
    expect(numberToTwelve(0.1 + 0.2)).toBe(0.3);
    expect(numberToTwelve(1.23456789012e-30)).toBe(1.23456789012e-30);
  });
});
