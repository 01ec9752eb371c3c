/** Conversions held against three independent libraries, over every unit that both have. */
import { createRequire } from "node:module";
import convert from "convert-units";
import { createUnit, unit as mathUnit } from "mathjs";
import { describe, expect, it } from "vitest";
import { unitOf } from "../../lib/quantity/unit";

/** It has no types of its own. */
const Qty = createRequire(import.meta.url)("js-quantities") as (x: number, unit: string) => { to(unit: string): { scalar: number } };
const ours = (x: number, from: string, to: string): number => unitOf(from)(x).in(unitOf(to));
const relative = (a: number, b: number): number => Math.abs(a - b) / Math.abs(b);

/** Name there: symbol here. Each measure is converted over all its pairs. */
const convertUnits: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  length: { mm: "mm", cm: "cm", m: "m", km: "km", in: "in", yd: "yd", ft: "ft", mi: "mi" },
  area: { mm2: "mm²", cm2: "cm²", m2: "m²", ha: "ha", km2: "km²", in2: "in²", yd2: "yd²", ft2: "ft²", mi2: "mi²" },
  mass: { mcg: "µg", mg: "mg", g: "g", kg: "kg", mt: "t", oz: "oz", lb: "lb" },
  volume: {
    mm3: "mm³",
    cm3: "cm³",
    ml: "mL",
    cl: "cL",
    dl: "dL",
    l: "L",
    m3: "m³",
    in3: "in³",
    "fl-oz": "fl oz",
    gal: "US gal",
    ft3: "ft³",
    yd3: "yd³",
  },
  temperature: { C: "°C", K: "K", F: "°F" },
  time: { ns: "ns", mu: "µs", ms: "ms", s: "s", min: "min", h: "h", d: "d", week: "week" },
  speed: { "m/s": "m/s", "km/h": "km/h", "m/h": "mph", knot: "kn", "ft/s": "ft/s" },
  pressure: { Pa: "Pa", kPa: "kPa", MPa: "MPa", hPa: "hPa", bar: "bar", torr: "Torr", psi: "psi", ksi: "ksi" },
  current: { A: "A", mA: "mA", kA: "kA" },
  voltage: { V: "V", mV: "mV", kV: "kV" },
  power: { W: "W", mW: "mW", kW: "kW", MW: "MW", GW: "GW" },
  apparentPower: { VA: "VA", mVA: "mVA", kVA: "kVA", MVA: "MVA" },
  energy: { Wh: "Wh", mWh: "mWh", kWh: "kWh", MWh: "MWh", GWh: "GWh", J: "J", kJ: "kJ" },
  volumeFlowRate: { "mm3/s": "mm³/s", "ml/s": "mL/s", "l/s": "L/s", "l/min": "L/min", "m3/h": "m³/h", "ft3/s": "ft³/s" },
  illuminance: { lx: "lx", "ft-cd": "fc" },
  frequency: { mHz: "mHz", Hz: "Hz", kHz: "kHz", MHz: "MHz", GHz: "GHz", rpm: "rpm" },
  angle: { rad: "rad", deg: "°", grad: "gon", arcmin: "′", arcsec: "″" },
};

/** That library carries few digits between its metric and imperial halves; our factors there are exact by definition (NIST SP 811). */
const fewDigits: Readonly<Record<string, number>> = {
  length: 1e-7,
  area: 2e-6,
  mass: 1e-6,
  volume: 1e-5,
  speed: 1e-6,
  pressure: 1e-6,
  volumeFlowRate: 1e-6,
  illuminance: 1e-7,
};

describe.each(Object.entries(convertUnits))("%s agrees with convert-units", (measure, names) => {
  const pairs = Object.keys(names).flatMap((from) => Object.keys(names).map((to) => [from, to] as const));
  it.each(pairs.filter(([from, to]) => from !== to))("%s to %s", (from, to) => {
    const theirs = convert(7.25)
      .from(from as convert.Unit)
      .to(to as convert.Unit);
    expect(relative(ours(7.25, names[from] as string, names[to] as string), theirs)).toBeLessThan(fewDigits[measure] ?? 1e-9);
  });
});

/** Symbol here, SI unit here: name there, SI unit there. */
const jsQuantities: readonly (readonly [string, string, string, string])[] = [
  ["Å", "m", "angstrom", "m"],
  ["nmi", "m", "naut-mile", "m"],
  ["mil", "m", "mil", "m"],
  ["ha", "m²", "hectare", "m^2"],
  ["fl oz", "m³", "fluid-ounce", "m^3"],
  ["US gal", "m³", "gallon", "m^3"],
  ["UK gal", "m³", "gallon-imp", "m^3"],
  ["hp", "W", "horsepower", "W"],
  ["atm", "Pa", "atm", "Pa"],
  ["mmHg", "Pa", "mmHg", "Pa"],
  ["inHg", "Pa", "inHg", "Pa"],
  ["psi", "Pa", "psi", "Pa"],
  ["dyn", "N", "dyne", "N"],
  ["lbf", "N", "pound-force", "N"],
  ["eV", "J", "eV", "J"],
  ["erg", "J", "erg", "J"],
  ["P", "Pa·s", "poise", "Pa*s"],
  ["St", "m²/s", "stokes", "m^2/s"],
  ["ct", "kg", "carat", "kg"],
  ["gr", "kg", "grain", "kg"],
  ["slug", "kg", "slug", "kg"],
  ["G", "T", "gauss", "T"],
  ["Mx", "Wb", "maxwell", "Wb"],
  ["Ah", "C", "Ah", "C"],
  ["Ci", "Bq", "curie", "Bq"],
  ["kn", "m/s", "knot", "m/s"],
  ["mph", "m/s", "mph", "m/s"],
  ["Gal", "m/s²", "Gal", "m/s^2"],
  ["g_n", "m/s²", "gee", "m/s^2"],
  ["′", "rad", "arcminute", "rad"],
  ["gon", "rad", "gradian", "rad"],
  ["byte", "bit", "byte", "bit"],
  ["week", "s", "week", "s"],
];
/** That library's ångström, horsepower and mercury columns carry six to eight digits. */
const loose = 2e-5;

describe("agrees with js-quantities", () => {
  it.each(jsQuantities)("%s in %s", (unit, si, there, siThere) => {
    expect(relative(ours(3.7, unit, si), Qty(3.7, there).to(siThere).scalar)).toBeLessThan(loose);
  });

  it.each([
    ["25 °C", 25, "tempC", 298.15],
    ["-40 °F", -40, "tempF", 233.15],
  ])("%s is a temperature", (text, x, there, kelvin) => {
    expect(ours(x, text.slice(-2), "K")).toBeCloseTo(Qty(x, there).to("tempK").scalar, 9);
    expect(ours(x, text.slice(-2), "K")).toBeCloseTo(kelvin, 9);
  });
});

const mathNames: readonly (readonly [string, string, string, string])[] = [
  ["in", "m", "inch", "m"],
  ["ft", "m", "foot", "m"],
  ["yd", "m", "yard", "m"],
  ["mi", "m", "mile", "m"],
  ["lbf", "N", "lbf", "N"],
  ["psi", "Pa", "psi", "Pa"],
  ["bar", "Pa", "bar", "Pa"],
  ["Btu", "J", "BTU", "J"],
  ["hp", "W", "hp", "W"],
  ["eV", "J", "eV", "J"],
  ["oz", "kg", "ounce", "kg"],
  ["lb", "kg", "poundmass", "kg"],
  ["gr", "kg", "grain", "kg"],
  ["kWh", "J", "kWh", "J"],
  ["mWh", "J", "mWh", "J"],
  ["dyn", "N", "dyn", "N"],
  ["kgf", "N", "kgf", "N"],
  ["L", "m³", "litre", "m^3"],
  ["°", "rad", "deg", "rad"],
  ["nF", "F", "nF", "F"],
  ["µH", "H", "uH", "H"],
  ["kΩ", "Ω", "kohm", "ohm"],
  ["mT", "T", "mT", "T"],
];

describe("agrees with mathjs", () => {
  createUnit("kgf", "9.80665 N", { override: true });
  it.each(mathNames)("%s in %s", (unit, si, there, siThere) => {
    expect(relative(ours(3.7, unit, si), mathUnit(3.7, there).toNumber(siThere))).toBeLessThan(1e-7);
  });
});
