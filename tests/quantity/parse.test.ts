import { describe, expect, it } from "vitest";
import { dimension } from "../../lib/quantity/dimension";
import type { WorkingsError } from "../../lib/quantity/error";
import { parseQuantity, quantity } from "../../lib/quantity/parse";

const datasheet: readonly (readonly [text: string, si: number, unit: string, label: string])[] = [
  ["4.7 kohm", 4700, "kΩ", "resistance"],
  ["4.7 kΩ", 4700, "kΩ", "resistance"],
  ["4.7 k\u2126", 4700, "kΩ", "resistance"],
  ["4k7", 4700, "kΩ", "resistance"],
  ["4K7", 4700, "kΩ", "resistance"],
  ["4R7", 4.7, "Ω", "resistance"],
  ["2n2", 2.2e-9, "nF", "capacitance"],
  ["R47", 0.47, "Ω", "resistance"],
  ["3V3", 3.3, "V", "voltage"],
  ["950 mAh", 3420, "mAh", "charge"],
  ["10 µF", 1e-5, "µF", "capacitance"],
  ["10 \u03bcF", 1e-5, "µF", "capacitance"],
  ["10 uF", 1e-5, "µF", "capacitance"],
  ["100nF", 1e-7, "nF", "capacitance"],
  ["12 nV/Hz^0.5", 12e-9, "nV/√Hz", "voltage noise density"],
  ["12 nV/√Hz", 12e-9, "nV/√Hz", "voltage noise density"],
  ["12 nV/sqrt(Hz)", 12e-9, "nV/√Hz", "voltage noise density"],
  ["25 °C", 298.15, "°C", "temperature"],
  ["-40 °C", 233.15, "°C", "temperature"],
  ["77 °F", 298.15, "°F", "temperature"],
  ["25 °C (difference)", 25, "Δ°C", "temperature difference"],
  ["50 ppm/°C", 50e-6, "ppm/°C", "temperature coefficient"],
  ["-107 dB", 10 ** (-107 / 20), "dB", "field gain"],
  ["\u2212107 dB", 10 ** (-107 / 20), "dB", "field gain"],
  ["25 mil", 635e-6, "mil", "length"],
  ["1 oz", 0.028349523125, "oz", "mass"],
  ["1 oz/ft²", 0.028349523125 / 0.3048 ** 2, "oz/ft²", "area density"],
  ["1.5 W/(m·K)", 1.5, "W/(m·K)", "thermal conductivity"],
  ["62 °C/W", 62, "°C/W", "thermal resistance"],
  ["9.81 m/s²", 9.81, "m/s²", "acceleration"],
  ["9.81 m/s^2", 9.81, "m/s²", "acceleration"],
  ["0.5 N·m", 0.5, "N·m", "torque"],
  ["2 Nm²", 2, "N²·m²", "kg²·m⁴·s⁻⁴"],
  ["3 W/Nm", 3, "W/(N·m)", "rate"],
  ["2.4e9 Hz", 2.4e9, "Hz", "frequency"],
  ["2.4×10⁹ Hz", 2.4e9, "Hz", "frequency"],
  ["2.4 x 10^9 Hz", 2.4e9, "Hz", "frequency"],
  ["20 AWG", 0.127e-3 * 92 ** (16 / 39), "AWG", "length"],
  ["82 dB SPL", 20e-6 * 10 ** 4.1, "dB SPL", "pressure"],
  ["14 dB", 10 ** 0.7, "dB", "field gain"],
  ["-20 dBm", 1e-5, "dBm", "power"],
  ["54 dBµV/m", 1e-6 * 10 ** 2.7, "dBµV/m", "electric field"],
  ["102 dB/mW", (10 ** 10.2 * 20e-6 ** 2) / 1e-3, "dB/mW", "squared pressure per power"],
  ["0 dBu", Math.sqrt(0.6), "dBu", "voltage"],
  ["3 mm²", 3e-6, "mm²", "area"],
  ["3 mm2", 3e-6, "mm²", "area"],
  ["16 mm⁻²", 16e6, "mm⁻²", "m⁻²"],
  [".5 V", 0.5, "V", "voltage"],
  ["5 min", 300, "min", "time"],
  ["0.02", 0.02, "1", "dimensionless"],
];

describe("quantity reads a value", () => {
  it.each(datasheet)("%s", (text, si, unit, label) => {
    const read = quantity(text);
    expect(Math.abs(read.si - si)).toBeLessThanOrEqual(4e-15 * Math.abs(si));
    expect([read.unit.symbol, read.dimension.label, read.spread.kind]).toEqual([unit, label, "exact"]);
  });

  it("moves the decimal point for a prefix and rounds nothing", () => {
    for (const digits of ["0.1", "0.3", "4.7", "1.1", "2.675"]) expect(quantity(`${digits} µF`).si).toBe(Number(`${digits}e-6`));
  });
});

const spreads: readonly (readonly [text: string, si: number, label: string, spread: object])[] = [
  ["3.3 V ±5 %", 3.3, "voltage", { kind: "rectangular", low: 3.135, high: 3.465 }],
  ["10 kohm +/- 1%", 10e3, "resistance", { kind: "rectangular", low: 9900, high: 10100 }],
  ["10 kohm +- 1%", 10e3, "resistance", { kind: "rectangular", low: 9900, high: 10100 }],
  ["4k7 ±1 %", 4700, "resistance", { kind: "rectangular", low: 4653, high: 4747 }],
  ["10 MHz ±20 ppm", 10e6, "frequency", { kind: "rectangular", low: 9999800, high: 10000200 }],
  ["2.85 V ±120 mV", 2.85, "voltage", { kind: "rectangular", low: 2.73, high: 2.97 }],
  ["2.85 ±0.12 V", 2.85, "voltage", { kind: "rectangular", low: 2.73, high: 2.97 }],
  ["2.85V±0.12V", 2.85, "voltage", { kind: "rectangular", low: 2.73, high: 2.97 }],
  ["3.3V+0.2/-0.1V", 3.3, "voltage", { kind: "split", low: 3.2, high: 3.5 }],
  ["-40…85 °C", 295.65, "temperature", { kind: "range", low: 233.15, high: 358.15 }],
  ["(2.85 ± 0.12) V", 2.85, "voltage", { kind: "rectangular", low: 2.73, high: 2.97 }],
  ["(85 ± 3) %", 0.85, "dimensionless", { kind: "rectangular", low: 0.82, high: 0.88 }],
  ["25 °C ±2 K", 298.15, "temperature", { kind: "rectangular", low: 296.15, high: 300.15 }],
  ["25 °C ±2 °C", 298.15, "temperature", { kind: "rectangular", low: 296.15, high: 300.15 }],
  ["14 dB ±0.3 dB", 10 ** 0.7, "field gain", { kind: "rectangular", low: 13.7, high: 14.3, scale: { factor: 20, reference: 1 } }],
  ["82 dB SPL ±3 dB", 20e-6 * 10 ** 4.1, "pressure", { kind: "rectangular", low: 79, high: 85, scale: { factor: 20, reference: 20e-6 } }],
  ["3.3 V +0.2/-0.1 V", 3.3, "voltage", { kind: "split", low: 3.2, high: 3.5 }],
  ["3.3 V -0.1/+0.2 V", 3.3, "voltage", { kind: "split", low: 3.2, high: 3.5 }],
  ["5.0 V -5/+10 %", 5, "voltage", { kind: "split", low: 4.75, high: 5.5 }],
  ["2.8 mA (2.4 to 3.3 mA)", 2.8e-3, "current", { kind: "split", low: 2.4e-3, high: 3.3e-3 }],
  ["min 2.4, typ 2.8, max 3.3 mA", 2.8e-3, "current", { kind: "split", low: 2.4e-3, high: 3.3e-3 }],
  ["max 3.3 mA typ 2.8 mA min 2.4 mA", 2.8e-3, "current", { kind: "split", low: 2.4e-3, high: 3.3e-3 }],
  ["5 V (4.8 to 5.5 V, triangular)", 5, "voltage", { kind: "triangular", low: 4.8, high: 5.5 }],
  ["2.85 V ±0.12 V (3σ)", 2.85, "voltage", { kind: "normal", sigma: 0.04, coverage: 3 }],
  ["2.85 V ±0.12 V (2 sigma)", 2.85, "voltage", { kind: "normal", sigma: 0.06, coverage: 2 }],
  ["400 mAh σ 6.7 mAh", 1440, "charge", { kind: "normal", sigma: 24.12, coverage: 3 }],
  ["9.109(28)e-31 kg", 9.109e-31, "mass", { kind: "normal", sigma: 2.8e-33, coverage: 3 }],
  ["3.0 V to 4.2 V", 3.6, "voltage", { kind: "range", low: 3, high: 4.2 }],
  ["3.0 to 4.2 V", 3.6, "voltage", { kind: "range", low: 3, high: 4.2 }],
  ["-10 to 40 °C", 288.15, "temperature", { kind: "range", low: 263.15, high: 313.15 }],
  ["10–45 °C", 300.65, "temperature", { kind: "range", low: 283.15, high: 318.15 }],
  ["3.7 V in 3.0 V to 4.2 V", 3.7, "voltage", { kind: "range", low: 3, high: 4.2 }],
  ["1 in to 3 in", 0.0508, "length", { kind: "range", low: 0.0254, high: 0.0762 }],
  ["±1 %", 0, "dimensionless", { kind: "rectangular", low: -0.01, high: 0.01 }],
  ["±0.2 mV", 0, "voltage", { kind: "rectangular", low: -2e-4, high: 2e-4 }],
  ["±8 dB", 1, "field gain", { kind: "rectangular", low: -8, high: 8, scale: { factor: 20, reference: 1 } }],
  ["0 ±1 °C", 273.15, "temperature", { kind: "rectangular", low: 272.15, high: 274.15 }],
  ["5 ±1 Δ°C", 5, "temperature difference", { kind: "rectangular", low: 4, high: 6 }],
  ["5 in +1/-2 in", 0.127, "length", { kind: "split", low: 0.0762, high: 0.1524 }],
  ["14.00(17) dB", 10 ** 0.7, "field gain", { kind: "normal", sigma: 0.17, coverage: 3, scale: { factor: 20, reference: 1 } }],
  ["-2 V +10/-5 %", -2, "voltage", { kind: "split", low: -2.2, high: -1.9 }],
  ["50.000623 mm σ 25 nm ν 18", 50.000623e-3, "length", { kind: "normal", sigma: 25e-9, coverage: 3, freedom: 18 }],
  ["2.85 V ±0.12 V (3σ) dof 4.5", 2.85, "voltage", { kind: "normal", sigma: 0.04, coverage: 3, freedom: 4.5 }],
  ["9.109(28)e-31 kg ν 12", 9.109e-31, "mass", { kind: "normal", sigma: 2.8e-33, coverage: 3, freedom: 12 }],
  ["0 ±1 °C ν 2", 273.15, "temperature", { kind: "rectangular", low: 272.15, high: 274.15, freedom: 2 }],
  ["5 V (4 V to 7 V, rectangular) ν 5", 5, "voltage", { kind: "rectangular", low: 4, high: 7, freedom: 5 }],
  ["10 nA ×/÷ 10 (2σ)", 1e-8, "current", { kind: "normal", sigma: 10, coverage: 2, scale: { factor: 20, reference: 1 } }],
  ["10 kΩ ×/÷10", 1e4, "resistance", { kind: "rectangular", low: 60, high: 100, scale: { factor: 20, reference: 1 } }],
  ["one of 1 kΩ, 2 kΩ, 4 kΩ", 1e3, "resistance", { kind: "discrete", values: [1e3, 2e3, 4e3] }],
  ["2000 Ω, one of 1, 2, 4 kΩ", 2e3, "resistance", { kind: "discrete", values: [1e3, 2e3, 4e3] }],
  ["one of 4k7, 10k", 4.7e3, "resistance", { kind: "discrete", values: [4.7e3, 1e4] }],
  ["one of 1 A (25 %), 2 A (75 %)", 1, "current", { kind: "discrete", values: [1, 2], shares: [0.25, 0.75] }],
  ["one of 1, 2, 3", 1, "dimensionless", { kind: "discrete", values: [1, 2, 3] }],
  ["one of 20 dB, 0 dB", 10, "field gain", { kind: "discrete", values: [10, 1] }],
  ["-2 mV ±10 %", -2e-3, "voltage", { kind: "rectangular", low: -2.2e-3, high: -1.8e-3 }],
];

describe("quantity reads a spread", () => {
  it.each(spreads)("%s", (text, si, label, spread) => {
    const read = quantity(text);
    expect(read.dimension.label).toBe(label);
    expect(read.si).toBeCloseTo(si, 12);
    expect(Object.keys(read.spread).sort()).toEqual(Object.keys(spread).sort());
    for (const [key, value] of Object.entries(spread)) {
      const got = read.spread[key as keyof typeof read.spread] as unknown;
      if (typeof value === "number") expect(Math.abs(Number(got) - value), key).toBeLessThanOrEqual(1e-14 * Math.abs(value));
      else expect(got, key).toEqual(value);
    }
  });
});

describe("parseQuantity with a dimension asked for", () => {
  it("reads a code as an inductance", () => {
    expect(parseQuantity("4n7", { dimension: dimension("kg·m²·s⁻²·A⁻²") }).toString()).toBe("4.7\u00a0nH");
  });
  it("reads 10M as ten megohms", () => {
    expect(parseQuantity("10M", { dimension: dimension("kg·m²·s⁻³·A⁻²") }).si).toBe(1e7);
  });
  it("reads dB as a gain of powers", () => {
    expect(parseQuantity("20 dB", { dimension: dimension("1|power gain") }).si).toBe(100);
    expect(parseQuantity("20 dB").si).toBe(10);
    const gain = parseQuantity("-107 dB", { dimension: dimension("1|power gain") });
    expect([gain.dimension.label, gain.unit.symbol]).toEqual(["power gain", "dB (power)"]);
    expect(gain.si).toBeCloseTo(10 ** -10.7, 24);
  });
  it("reads °C as a difference", () => {
    expect(parseQuantity("25 °C", { dimension: dimension("K|difference") }).si).toBe(25);
    expect(parseQuantity("5 ±1 °C", { dimension: dimension("K|difference") }).si).toBe(5);
  });
  it("refuses the code of a voltage where a resistance is asked for", () => {
    expect(() => parseQuantity("3V3", { dimension: dimension("kg·m²·s⁻³·A⁻²") })).toThrow('"3V3" is the code of a voltage');
  });
  it("refuses another dimension", () => {
    expect(() => parseQuantity("3 V", { dimension: dimension("A") })).toThrow('"3 V" is voltage; current is expected');
  });
  it("refuses a torque where an energy is asked for", () => {
    expect(() => parseQuantity("3 N·m", { dimension: dimension("kg·m²·s⁻²|energy") })).toThrow('"3 N·m" is torque; energy is expected');
  });
});

const refused: readonly (readonly [text: string, message: string])[] = [
  ["X / a b", 'at column 1: a number is expected, not "X / a b"'],
  ["5 kb", 'at column 3: "kb" is not one unit; did you mean kbit or kB?'],
  ["3 mm mm", "at column 6: two units stand side by side; did you mean mm·mm?"],
  [
    "1,5 V",
    "at column 2: a comma in a number has two readings; write a decimal point and no separator of thousands; did you mean 1.5 or 15?",
  ],
  ["10 M", 'at column 4: "M" is not one unit; did you mean MΩ or MHz?'],
  ["10K", 'at column 1: "10K" has two readings; did you mean 10 K or 10 kΩ?'],
  ["4m7", "at column 1: the code does not say of what; write the unit; did you mean 4.7 mΩ, 4.7 mF or 4.7 mH?"],
  ["R47 F", 'at column 1: "R47" is the code of a resistance; R is the decimal point of ohms (IEC 60062); did you mean 0.47 F?'],
  ["4k7 kΩ", 'at column 1: the code "4k7" already has its power of ten; write Ω, F, H, V or A behind it, not kΩ'],
  ["3 V foo", 'at column 5: "foo" does not belong to a unit'],
  ["3 Vlot", 'at column 3: unknown unit "Vlot"; did you mean volt, foot or knot?'],
  ["5 kHZ", 'at column 3: unknown unit "kHZ"; did you mean kHz?'],
  ["3 W/m·K", "at column 6: a product behind a solidus has two readings; did you mean W/(m·K) or W·K/m?"],
  ["3 W/m K", "at column 7: a product behind a solidus has two readings; did you mean W/(m·K) or W·K/m?"],
  ["1 V/A/s", "at column 6: two solidi; did you mean V/(A·s)?"],
  ["5 dB/m", "at column 3: dB is not linear and cannot be part of a compound unit"],
  ["12 nV/Hz^0.3", "at column 9: an exponent is a whole or half number up to 12, and not 0: ^2, ^-1, ^0.5 or ^(1/2)"],
  ["", "at column 1: the text is empty; a number is expected"],
  ["NaN V", "at column 1: a quantity is a finite number"],
  ["-Infinity V", "at column 1: a quantity is a finite number"],
  ["1e999 V", "at column 1: the number is too large"],
  ["10 00 Ω", "at column 3: two numbers side by side; write digits without spaces, or in groups of three; did you mean 1000?"],
  ["1.2.3 V", 'at column 4: "." cannot stand here in a number'],
  ["4.2 V to 3.0 V", "at column 10: the limits are the wrong way round: 4.2 is above 3.0"],
  ["5 GHz to 6 V", "at column 10: the limits are GHz (frequency) and V (voltage)"],
  ["10 ± 1 %", "at column 6: ±1 % has two readings; did you mean (10 ± 1) % or 10 ± 0.1?"],
  ["85 % ±3 %", "at column 7: ±3 % has two readings; did you mean (85 ± 3) % or (85 ± 2.55) %?"],
  ["14 dB ±5 %", "at column 8: a tolerance beside dB is in dB, not %"],
  ["3 V ±1 dB", "at column 6: a tolerance in dB belongs beside a level; write the value in dB too"],
  ["25 °C ±5 %", "at column 8: a share of a temperature in °C has no meaning; write the tolerance in K"],
  ["3 V ±2 mA", "at column 6: the tolerance is mA (current), the value V (voltage)"],
  ["3.3 V ±-5 %", "at column 8: a tolerance has no sign of its own"],
  ["3.3 V +0.2", "at column 11: the other limit is missing; write both with the unit behind, +0.2/-0.1 mm"],
  ["3.3 V +0.2/+0.1 V", "at column 12: one limit has +, the other -"],
  ["3.3 V (3.4 to 3.5 V)", "at column 1: 3.3 lies outside its limits"],
  [
    "typ 2.7 max 3.2 nV/√Hz",
    "at column 1: min is missing; without it nothing is known of that side. Write the value with a tolerance instead",
  ],
  ["5 V ±", "at column 6: a number is missing"],
  ["5 V ±1 V ν 0.5", "at column 14: degrees of freedom are a number from 1; for n readings they are n − 1"],
  ["5 V ±0 V ν 3", 'at column 10: "ν 3" is left over'],
  ["5 V (4 V to 7 V) ν 3", 'at column 18: "ν 3" is left over'],
  ["5 V ×/÷ 0.5", "at column 9: the factor is above 1"],
  ["-5 V ×/÷ 2", "at column 1: a factor stands behind a value above zero"],
  ["5 dB ×/÷ 2", "at column 10: a factor has no meaning beside dB; write ±"],
  ["20 °C ×/÷ 2", "at column 11: a factor has no meaning beside °C; write ±"],
  ["one of 1 V", "at column 11: one value alone is exact; write at least two, or the value without one of"],
  ["one of 1 V, 2 A", "at column 8: the values are V (voltage) and A (current)"],
  ["one of 1 V, 1000 mV", "at column 13: 1000 stands twice"],
  ["one of 1 V, 2, 3 V", "at column 13: write a unit behind each value, or behind the last alone"],
  ["one of 1 V (20 %), 2 V", "at column 20: a share stands behind each value or behind none"],
  ["one of 1 V (20 %), 2 V (70 %)", "at column 29: the shares are above zero and add up to 100 %, not to 90 %"],
  ["3 V, one of 1 V, 2 V", "at column 1: 3 is none of the values listed"],
  ["3A3", 'at column 3: "3" does not belong to a unit'],
  ["600 Ω at 100 MHz", 'at column 7: "at 100 MHz" does not belong to a unit'],
  ["3 V,", 'at column 4: "," is left over'],
  ["3 ± 0.1) V", 'at column 8: ") V" is left over'],
  ["4k7 ±10", "at column 6: 10 beside a code has two readings; write its unit; did you mean 10 kΩ or 10 Ω?"],
  ["3V3 F", 'at column 1: "3V3" is the code of a voltage; V is the decimal point of volts; did you mean 3.3 F?'],
  ["4G7 F", 'at column 1: "4G7" would be in GF, which is not in use; did you mean 4.7 F?'],
  ["3.3(1) V ±5 %", "at column 10: an uncertainty in brackets is the whole spread; nothing can stand behind the unit"],
  ["3 V ±0.1(2) V", "at column 6: an uncertainty in brackets stands behind a value alone; write one spread"],
  ["3.3(0) V", "at column 1: the uncertainty in brackets is above zero"],
  ["3 N·m ±1 J", "at column 8: the tolerance is J (energy), the value N·m (torque)"],
  ["3 J to 4 N·m", "at column 8: the limits are J (energy) and N·m (torque)"],
  ["10 dB to 20 dBi", "at column 10: the limits are dB (field gain) and dBi (power gain)"],
  ["-2 V +10 %/-0.1 V", "at column 12: one limit is a share of the value, the other is not; write both alike"],
  ["2×10^(3 V", "at column 2: a power of ten is written 10^3, 10^(-3) or 10³"],
  ["5 m^0", "at column 4: an exponent is a whole or half number up to 12, and not 0: ^2, ^-1, ^0.5 or ^(1/2)"],
  ["1e-400 V", "at column 1: the number is too small"],
  ["-10000 dB", "at column 1: the number is too small"],
  ["1e308 V ±1e308 V", "at column 1: a limit of the spread is too large"],
  ["1e22 V ±1 V", "at column 11: the spread is lost in the rounding of the value; 15 digits are kept"],
  ["1e22 V +1/-1 V", "at column 14: the spread is lost in the rounding of the value; 15 digits are kept"],
  ["2 m ±1 AWG", "at column 6: AWG is no measure of a tolerance; write the length in mm"],
  ["3....6", 'at column 2: "....6" is left over'],
  ["20 AWG ±1 %", "at column 9: AWG takes no tolerance; write the length in mm"],
];

describe("quantity refuses, with the column, rather than guesses", () => {
  it.each(refused)("%s", (text, message) => {
    expect(() => quantity(text)).toThrow(expect.objectContaining({ code: "quantity-text", message: `cannot read "${text}" ${message}` }));
  });

  it("gives column and candidates as data", () => {
    try {
      quantity("5 kb");
      expect.unreachable();
    } catch (error) {
      expect((error as WorkingsError).code).toBe("quantity-text");
      expect((error as WorkingsError).details).toMatchObject({ column: 3, candidates: ["kbit", "kB"] });
    }
  });
});
