/**
 * Units as rows of data. To add one, add a row: nothing else knows the list.
 *
 * `factor` is the SI value of one unit, exact where the source defines it so. `prefixes` lists the SI prefixes
 * that may be read before the unit: those in use, because a petafarad is a mistyped picofarad. `shown` lists the
 * ones that print, `-` for none; by default those of `prefixes` without c, d, h, and the bare unit.
 */
export interface UnitRow {
  readonly symbol: string;
  readonly aliases?: readonly string[];
  readonly factor: number;
  /** `Dimension.key`. */
  readonly dimension: string;
  readonly ucum: string;
  readonly source: UnitSource;
  readonly prefixes?: string;
  readonly shown?: string;
}

export const unitSources = {
  "SI 4": "SI Brochure, 9th ed. 2019, table 4 (units with special names)",
  "SI 2": "SI Brochure, 9th ed. 2019, table 2 (base units)",
  "SI 8": "SI Brochure, 9th ed. 2019, table 8 (units accepted for use with the SI)",
  "SP 811": "NIST SP 811 (2008), Appendix B.8",
  "80000-13": "IEC 80000-13:2008 (information)",
  "80000-1": "ISO 80000-1:2009, 6.5 and Annex C",
  "SI 5.4.7": "SI Brochure, 9th ed. 2019, 5.4.7 (percent; parts per million with numbers)",
  IAU: "IAU Style Manual 1989: Julian year of 365.25 days",
  IPC: "printed-board practice: the thousandth of an inch",
  "CGPM 1901": "3rd CGPM 1901: standard gravity 9.80665 m/s² (exact)",
  CODATA: "CODATA 2018, exact since the SI of 2019",
} as const;
type UnitSource = keyof typeof unitSources;

const electric = "f p n µ m k M";
const pound = 0.45359237;
const gravity = 9.80665;
const inch = 0.0254;
const foot = 0.3048;
const poundForce = 4.4482216152605;
const day = 86400;

export const unitTable: readonly UnitRow[] = [
  // numbers
  { symbol: "1", aliases: [""], factor: 1, dimension: "1", ucum: "1", source: "80000-1" },
  { symbol: "%", aliases: ["percent"], factor: 0.01, dimension: "1", ucum: "%", source: "SI 5.4.7" },
  { symbol: "‰", factor: 1e-3, dimension: "1", ucum: "[ppth]", source: "80000-1" },
  { symbol: "ppm", factor: 1e-6, dimension: "1", ucum: "[ppm]", source: "SI 5.4.7" },
  { symbol: "ppb", factor: 1e-9, dimension: "1", ucum: "[ppb]", source: "SP 811" },
  { symbol: "cycle", aliases: ["cycles"], factor: 1, dimension: "1", ucum: "{cycle}", source: "80000-1" },
  { symbol: "rad", factor: 1, dimension: "1|angle", ucum: "rad", source: "SI 4", prefixes: "n µ m", shown: "µ m -" },
  { symbol: "°", aliases: ["deg", "degree", "degrees"], factor: Math.PI / 180, dimension: "1|angle", ucum: "deg", source: "SI 8" },
  { symbol: "′", aliases: ["arcmin"], factor: Math.PI / 10800, dimension: "1|angle", ucum: "'", source: "SI 8" },
  { symbol: "″", aliases: ["arcsec"], factor: Math.PI / 648000, dimension: "1|angle", ucum: "''", source: "SI 8" },
  { symbol: "rev", aliases: ["turn", "turns"], factor: 2 * Math.PI, dimension: "1|angle", ucum: "circ", source: "SP 811" },
  { symbol: "gon", factor: Math.PI / 200, dimension: "1|angle", ucum: "gon", source: "SP 811" },
  { symbol: "sr", factor: 1, dimension: "1|solid angle", ucum: "sr", source: "SI 4", prefixes: "µ m" },
  { symbol: "bit", aliases: ["bits"], factor: 1, dimension: "1|information", ucum: "bit", source: "80000-13", prefixes: "k M G T" },
  { symbol: "byte", aliases: ["bytes"], factor: 8, dimension: "1|information", ucum: "By", source: "80000-13" },
  { symbol: "kB", factor: 8e3, dimension: "1|information", ucum: "kBy", source: "80000-13" },
  { symbol: "MB", factor: 8e6, dimension: "1|information", ucum: "MBy", source: "80000-13" },
  { symbol: "GB", factor: 8e9, dimension: "1|information", ucum: "GBy", source: "80000-13" },
  { symbol: "KiB", factor: 8192, dimension: "1|information", ucum: "KiBy", source: "80000-13" },
  { symbol: "MiB", factor: 8388608, dimension: "1|information", ucum: "MiBy", source: "80000-13" },
  // length, area, volume
  {
    symbol: "m",
    aliases: ["metre", "metres", "meter", "meters"],
    factor: 1,
    dimension: "m",
    ucum: "m",
    source: "SI 2",
    prefixes: "a f p n µ m c d k",
    shown: "f p n µ m - k",
  },
  { symbol: "in", aliases: ["inch", "inches"], factor: inch, dimension: "m", ucum: "[in_i]", source: "SP 811" },
  { symbol: "mil", aliases: ["mils", "thou"], factor: 25.4e-6, dimension: "m", ucum: "[mil_i]", source: "IPC" },
  { symbol: "ft", aliases: ["foot", "feet"], factor: foot, dimension: "m", ucum: "[ft_i]", source: "SP 811" },
  { symbol: "yd", aliases: ["yard", "yards"], factor: 0.9144, dimension: "m", ucum: "[yd_i]", source: "SP 811" },
  { symbol: "mi", aliases: ["mile", "miles"], factor: 1609.344, dimension: "m", ucum: "[mi_i]", source: "SP 811" },
  { symbol: "nmi", aliases: ["nautical mile"], factor: 1852, dimension: "m", ucum: "[nmi_i]", source: "SI 8" },
  { symbol: "Å", aliases: ["angstrom"], factor: 1e-10, dimension: "m", ucum: "Ao", source: "SP 811" },
  { symbol: "au", factor: 149597870700, dimension: "m", ucum: "AU", source: "SI 8" },
  { symbol: "ha", factor: 1e4, dimension: "m²", ucum: "har", source: "SI 8" },
  { symbol: "acre", factor: 4046.872609874252, dimension: "m²", ucum: "[acr_us]", source: "SP 811" },
  { symbol: "cmil", factor: (Math.PI / 4) * 25.4e-6 * 25.4e-6, dimension: "m²", ucum: "[cml_i]", source: "SP 811" },
  {
    symbol: "L",
    aliases: ["l", "litre", "litres", "liter", "liters"],
    factor: 1e-3,
    dimension: "m³",
    ucum: "L",
    source: "SI 8",
    prefixes: "n µ m c d h",
    shown: "n µ m -",
  },
  { symbol: "fl oz", aliases: ["US fl oz"], factor: 2.95735295625e-5, dimension: "m³", ucum: "[foz_us]", source: "SP 811" },
  { symbol: "US gal", factor: 3.785411784e-3, dimension: "m³", ucum: "[gal_us]", source: "SP 811" },
  { symbol: "UK gal", factor: 4.54609e-3, dimension: "m³", ucum: "[gal_br]", source: "SP 811" },
  // time, rates, speed
  { symbol: "s", aliases: ["sec", "second", "seconds"], factor: 1, dimension: "s", ucum: "s", source: "SI 2", prefixes: "a f p n µ m" },
  { symbol: "min", aliases: ["minute", "minutes"], factor: 60, dimension: "s", ucum: "min", source: "SI 8" },
  { symbol: "h", aliases: ["hr", "hour", "hours"], factor: 3600, dimension: "s", ucum: "h", source: "SI 8" },
  { symbol: "d", aliases: ["day", "days"], factor: day, dimension: "s", ucum: "d", source: "SI 8" },
  { symbol: "week", aliases: ["weeks", "wk"], factor: 7 * day, dimension: "s", ucum: "wk", source: "SP 811" },
  { symbol: "month", aliases: ["months"], factor: 30.4375 * day, dimension: "s", ucum: "mo_j", source: "IAU" },
  { symbol: "year", aliases: ["years", "yr"], factor: 365.25 * day, dimension: "s", ucum: "a_j", source: "IAU" },
  {
    symbol: "Hz",
    aliases: ["hertz"],
    factor: 1,
    dimension: "s⁻¹|frequency",
    ucum: "Hz",
    source: "SI 4",
    prefixes: "n µ m k M G T",
    shown: "µ m - k M G T",
  },
  { symbol: "rpm", aliases: ["r/min", "rev/min"], factor: 1 / 60, dimension: "s⁻¹|frequency", ucum: "{rev}/min", source: "80000-1" },
  { symbol: "Bq", aliases: ["becquerel"], factor: 1, dimension: "s⁻¹|activity", ucum: "Bq", source: "SI 4", prefixes: "m k M G T" },
  { symbol: "Ci", aliases: ["curie"], factor: 3.7e10, dimension: "s⁻¹|activity", ucum: "Ci", source: "SP 811", prefixes: "p n µ m" },
  { symbol: "kn", aliases: ["knot", "knots"], factor: 1852 / 3600, dimension: "m·s⁻¹", ucum: "[kn_i]", source: "SP 811" },
  { symbol: "mph", factor: 0.44704, dimension: "m·s⁻¹", ucum: "[mi_i]/h", source: "SP 811" },
  { symbol: "gₙ", aliases: ["g_n", "gn"], factor: gravity, dimension: "m·s⁻²", ucum: "[g]", source: "CGPM 1901" },
  { symbol: "Gal", factor: 0.01, dimension: "m·s⁻²", ucum: "Gal", source: "SP 811", prefixes: "µ m" },
  // mass, force, pressure
  {
    symbol: "g",
    aliases: ["gram", "grams"],
    factor: 1e-3,
    dimension: "kg",
    ucum: "g",
    source: "SI 2",
    prefixes: "f p n µ m k",
    shown: "p n µ m - k",
  },
  { symbol: "t", aliases: ["tonne", "tonnes"], factor: 1e3, dimension: "kg", ucum: "t", source: "SI 8" },
  { symbol: "Da", aliases: ["dalton"], factor: 1.6605390666e-27, dimension: "kg", ucum: "u", source: "SI 8", prefixes: "k M" },
  { symbol: "oz", aliases: ["ounce", "ounces"], factor: pound / 16, dimension: "kg", ucum: "[oz_av]", source: "SP 811" },
  { symbol: "lb", aliases: ["lbs", "pound", "pounds"], factor: pound, dimension: "kg", ucum: "[lb_av]", source: "SP 811" },
  { symbol: "gr", aliases: ["grain", "grains"], factor: 64.79891e-6, dimension: "kg", ucum: "[gr]", source: "SP 811" },
  { symbol: "ct", aliases: ["carat"], factor: 2e-4, dimension: "kg", ucum: "[car_m]", source: "SP 811" },
  { symbol: "slug", factor: poundForce / foot, dimension: "kg", ucum: "", source: "SP 811" },
  {
    symbol: "N",
    aliases: ["newton"],
    factor: 1,
    dimension: "kg·m·s⁻²",
    ucum: "N",
    source: "SI 4",
    prefixes: "p n µ m c k M",
    shown: "p n µ m - k M",
  },
  { symbol: "kgf", aliases: ["kp"], factor: gravity, dimension: "kg·m·s⁻²", ucum: "kgf", source: "SP 811" },
  { symbol: "gf", factor: gravity / 1000, dimension: "kg·m·s⁻²", ucum: "gf", source: "SP 811" },
  { symbol: "dyn", factor: 1e-5, dimension: "kg·m·s⁻²", ucum: "dyn", source: "SP 811" },
  { symbol: "lbf", factor: poundForce, dimension: "kg·m·s⁻²", ucum: "[lbf_av]", source: "SP 811" },
  { symbol: "ozf", factor: poundForce / 16, dimension: "kg·m·s⁻²", ucum: "", source: "SP 811" },
  {
    symbol: "Pa",
    aliases: ["pascal"],
    factor: 1,
    dimension: "kg·m⁻¹·s⁻²",
    ucum: "Pa",
    source: "SI 4",
    prefixes: "n µ m h k M G T",
    shown: "n µ m - k M G T",
  },
  { symbol: "bar", factor: 1e5, dimension: "kg·m⁻¹·s⁻²", ucum: "bar", source: "SP 811", prefixes: "µ m k", shown: "m -" },
  { symbol: "atm", factor: 101325, dimension: "kg·m⁻¹·s⁻²", ucum: "atm", source: "SP 811" },
  { symbol: "Torr", factor: 101325 / 760, dimension: "kg·m⁻¹·s⁻²", ucum: "", source: "SP 811", prefixes: "m" },
  { symbol: "mmHg", factor: 133.322387415, dimension: "kg·m⁻¹·s⁻²", ucum: "mm[Hg]", source: "SP 811" },
  { symbol: "inHg", factor: 133.322387415 * 25.4, dimension: "kg·m⁻¹·s⁻²", ucum: "[in_i'Hg]", source: "SP 811" },
  { symbol: "psi", factor: poundForce / 0.00064516, dimension: "kg·m⁻¹·s⁻²", ucum: "[psi]", source: "SP 811" },
  { symbol: "ksi", factor: (poundForce * 1000) / 0.00064516, dimension: "kg·m⁻¹·s⁻²", ucum: "k[psi]", source: "SP 811" },
  { symbol: "P", aliases: ["poise"], factor: 0.1, dimension: "kg·m⁻¹·s⁻¹", ucum: "P", source: "SP 811", prefixes: "m c", shown: "m c -" },
  { symbol: "St", aliases: ["stokes"], factor: 1e-4, dimension: "m²·s⁻¹", ucum: "St", source: "SP 811", prefixes: "c", shown: "c -" },
  { symbol: "rayl", factor: 1, dimension: "kg·m⁻²·s⁻¹", ucum: "", source: "SP 811" },
  // energy, power, torque
  {
    symbol: "J",
    aliases: ["joule", "joules"],
    factor: 1,
    dimension: "kg·m²·s⁻²|energy",
    ucum: "J",
    source: "SI 4",
    prefixes: "a f p n µ m k M G T",
  },
  {
    symbol: "Wh",
    aliases: ["W·h", "W h"],
    factor: 3600,
    dimension: "kg·m²·s⁻²|energy",
    ucum: "W.h",
    source: "SI 8",
    prefixes: "µ m k M G T",
  },
  { symbol: "eV", factor: 1.602176634e-19, dimension: "kg·m²·s⁻²|energy", ucum: "eV", source: "CODATA", prefixes: "µ m k M G T" },
  { symbol: "erg", factor: 1e-7, dimension: "kg·m²·s⁻²|energy", ucum: "erg", source: "SP 811" },
  { symbol: "cal", factor: 4.184, dimension: "kg·m²·s⁻²|energy", ucum: "cal_th", source: "SP 811", prefixes: "k" },
  { symbol: "Btu", aliases: ["BTU"], factor: 1055.05585262, dimension: "kg·m²·s⁻²|energy", ucum: "[Btu_IT]", source: "SP 811" },
  { symbol: "ft·lbf", aliases: ["ft lbf"], factor: poundForce * foot, dimension: "kg·m²·s⁻²", ucum: "[ft_i].[lbf_av]", source: "SP 811" },
  {
    symbol: "N·m",
    aliases: ["Nm"],
    factor: 1,
    dimension: "kg·m²·s⁻²|torque",
    ucum: "N.m",
    source: "SI 4",
    prefixes: "n µ m c k M",
    shown: "n µ m - k M",
  },
  {
    symbol: "W",
    aliases: ["watt", "watts"],
    factor: 1,
    dimension: "kg·m²·s⁻³",
    ucum: "W",
    source: "SI 4",
    prefixes: "a f p n µ m k M G T",
  },
  { symbol: "VA", aliases: ["V·A"], factor: 1, dimension: "kg·m²·s⁻³", ucum: "V.A", source: "SI 4", prefixes: "m k M" },
  { symbol: "var", factor: 1, dimension: "kg·m²·s⁻³", ucum: "V.A", source: "80000-1", prefixes: "m k M" },
  { symbol: "hp", aliases: ["horsepower"], factor: poundForce * foot * 550, dimension: "kg·m²·s⁻³", ucum: "[HP]", source: "SP 811" },
  // temperature; the points are in the affine table
  {
    symbol: "K",
    aliases: ["kelvin", "kelvins"],
    factor: 1,
    dimension: "K",
    ucum: "K",
    source: "SI 2",
    prefixes: "n µ m k",
    shown: "n µ m -",
  },
  { symbol: "ΔK", aliases: ["K (difference)"], factor: 1, dimension: "K|difference", ucum: "K", source: "SI 2" },
  { symbol: "Δ°C", aliases: ["°C (difference)", "°C"], factor: 1, dimension: "K|difference", ucum: "K", source: "SI 4" },
  { symbol: "Δ°F", aliases: ["°F (difference)", "°F"], factor: 5 / 9, dimension: "K|difference", ucum: "", source: "SP 811" },
  // electricity and magnetism
  {
    symbol: "A",
    aliases: ["amp", "amps", "ampere", "amperes"],
    factor: 1,
    dimension: "A",
    ucum: "A",
    source: "SI 2",
    prefixes: `a ${electric}`,
    shown: `a f p n µ m - k M`,
  },
  { symbol: "V", aliases: ["volt", "volts"], factor: 1, dimension: "kg·m²·s⁻³·A⁻¹", ucum: "V", source: "SI 4", prefixes: electric },
  {
    symbol: "Ω",
    aliases: ["ohm", "ohms", "Ohm", "Ohms"],
    factor: 1,
    dimension: "kg·m²·s⁻³·A⁻²",
    ucum: "Ohm",
    source: "SI 4",
    prefixes: "n µ m k M G T",
  },
  { symbol: "S", aliases: ["siemens"], factor: 1, dimension: "kg⁻¹·m⁻²·s³·A²", ucum: "S", source: "SI 4", prefixes: "f p n µ m k M" },
  { symbol: "F", aliases: ["farad", "farads"], factor: 1, dimension: "kg⁻¹·m⁻²·s⁴·A²", ucum: "F", source: "SI 4", prefixes: "a f p n µ m" },
  { symbol: "H", aliases: ["henry", "henries"], factor: 1, dimension: "kg·m²·s⁻²·A⁻²", ucum: "H", source: "SI 4", prefixes: "f p n µ m k" },
  { symbol: "C", aliases: ["coulomb", "coulombs"], factor: 1, dimension: "s·A", ucum: "C", source: "SI 4", prefixes: "a f p n µ m k" },
  { symbol: "Ah", aliases: ["A·h", "A h"], factor: 3600, dimension: "s·A", ucum: "A.h", source: "SI 8", prefixes: "n µ m k" },
  { symbol: "Wb", aliases: ["weber"], factor: 1, dimension: "kg·m²·s⁻²·A⁻¹", ucum: "Wb", source: "SI 4", prefixes: "p n µ m k" },
  { symbol: "T", aliases: ["tesla"], factor: 1, dimension: "kg·s⁻²·A⁻¹", ucum: "T", source: "SI 4", prefixes: "f p n µ m k" },
  { symbol: "G", aliases: ["gauss"], factor: 1e-4, dimension: "kg·s⁻²·A⁻¹", ucum: "G", source: "SP 811", prefixes: "µ m k" },
  { symbol: "Mx", aliases: ["maxwell"], factor: 1e-8, dimension: "kg·m²·s⁻²·A⁻¹", ucum: "Mx", source: "SP 811" },
  { symbol: "Oe", aliases: ["oersted"], factor: 1000 / (4 * Math.PI), dimension: "m⁻¹·A", ucum: "Oe", source: "SP 811", prefixes: "m k" },
  // light and radiation
  { symbol: "cd", aliases: ["candela"], factor: 1, dimension: "cd|intensity", ucum: "cd", source: "SI 2", prefixes: "µ m k" },
  { symbol: "lm", aliases: ["lumen", "lumens"], factor: 1, dimension: "cd|flux", ucum: "lm", source: "SI 4", prefixes: "µ m k M" },
  { symbol: "lx", aliases: ["lux"], factor: 1, dimension: "m⁻²·cd|illuminance", ucum: "lx", source: "SI 4", prefixes: "µ m k M" },
  { symbol: "nit", aliases: ["nits"], factor: 1, dimension: "m⁻²·cd|luminance", ucum: "cd/m2", source: "SP 811" },
  { symbol: "fc", aliases: ["footcandle"], factor: 1 / (foot * foot), dimension: "m⁻²·cd|illuminance", ucum: "", source: "SP 811" },
  { symbol: "Gy", aliases: ["gray"], factor: 1, dimension: "m²·s⁻²", ucum: "Gy", source: "SI 4", prefixes: "n µ m k" },
  { symbol: "Sv", aliases: ["sievert"], factor: 1, dimension: "m²·s⁻²", ucum: "Sv", source: "SI 4", prefixes: "n µ m" },
  // amount of substance
  { symbol: "mol", aliases: ["mole", "moles"], factor: 1, dimension: "mol", ucum: "mol", source: "SI 2", prefixes: "f p n µ m k" },
  { symbol: "kat", aliases: ["katal"], factor: 1, dimension: "s⁻¹·mol", ucum: "kat", source: "SI 4", prefixes: "p n µ m" },
];

/** SI = (number + offset) · numerator / denominator. */
export interface AffineRow {
  readonly symbol: string;
  readonly aliases: readonly string[];
  readonly offset: number;
  readonly numerator: number;
  readonly denominator: number;
  readonly dimension: string;
  readonly ucum: string;
  readonly source: UnitSource;
}

/** Temperature points. In a compound unit (°C/W) their symbols mean differences. */
export const affineTable: readonly AffineRow[] = [
  {
    symbol: "°C",
    aliases: ["℃", "degC", "deg C"],
    offset: 273.15,
    numerator: 1,
    denominator: 1,
    dimension: "K|temperature",
    ucum: "Cel",
    source: "SI 4",
  },
  {
    symbol: "°F",
    aliases: ["℉", "degF", "deg F"],
    offset: 459.67,
    numerator: 5,
    denominator: 9,
    dimension: "K|temperature",
    ucum: "[degF]",
    source: "SP 811",
  },
];
