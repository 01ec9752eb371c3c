/** Names of units in three libraries, as ours; and those that we have not. */

/** Their name: our symbol, where the spelling differs or means something else. */
export type Words = Readonly<Record<string, string>>;

// --- mathjs

export const mathWords: Words = {
  m2: "m²",
  sqin: "in²",
  sqft: "ft²",
  sqyd: "yd²",
  sqmi: "mi²",
  sqfeet: "ft²",
  sqyard: "yd²",
  sqmile: "mi²",
  sqmiles: "mi²",
  sqmil: "mil²",
  m3: "m³",
  cuin: "in³",
  cuft: "ft³",
  cuyd: "yd³",
  cc: "cm³",
  lt: "L",
  fluidounce: "fl oz",
  fluidounces: "fl oz",
  floz: "fl oz",
  gallon: "US gal",
  gal: "US gal",
  gallons: "US gal",
  poundmass: "lb",
  poundmasses: "lb",
  lbm: "lb",
  hectare: "ha",
  hectares: "ha",
  angstroms: "Å",
  grams: "g",
  grad: "gon",
  gradian: "gon",
  gradians: "gon",
  cycle: "rev",
  cycles: "rev",
  celsius: "°C",
  fahrenheit: "°F",
  dyne: "dyn",
  poundforce: "lbf",
  kilogramforce: "kgf",
  BTUs: "Btu",
  electronvolt: "eV",
  electronvolts: "eV",
  torr: "Torr",
  acres: "acre",
  mmhg: "mmHg",
  b: "bit",
  B: "byte",
  secs: "s",
  mins: "min",
  hrs: "h",
  radian: "rad",
  radians: "rad",
  arcsecond: "″",
  arcseconds: "″",
  arcminute: "′",
  arcminutes: "′",
  coulombs: "C",
  webers: "Wb",
  teslas: "T",
  moles: "mol",
};
/** VAR is an imaginary number of watts there. */
export const mathAbsent = (
  "VAR link li rod rd chain ch links rods chains sqrd sqch teaspoon tablespoon drop gtt minim fluiddram gill cup pint quart beerbarrel oilbarrel hogshead ton dram hundredweight stick stone dr cwt decade century millennium " +
  "degR rankine kip mmH2O cmH2O teaspoons tablespoons minims fldr fluiddrams gi gills cp cups pt pints qt quarts bbl beerbarrels obl oilbarrels hogsheads gtts tons drams hundredweights sticks kips mmh2o cmh2o decades centuries millennia"
).split(" ");
/** Six digits there, and an elementary charge older than the SI of 2019; ours are exact by definition. */
export const mathLoose: Words = { acre: "1e-5", Torr: "1e-5", mmHg: "1e-5", eV: "1e-7" };

// --- convert-units

export const convertWords: Readonly<Record<string, Words>> = {
  area: { mm2: "mm²", cm2: "cm²", m2: "m²", km2: "km²", in2: "in²", ft2: "ft²", yd2: "yd²", mi2: "mi²", ac: "acre" },
  mass: { mcg: "µg", mt: "t", t: "" },
  volume: {
    mm3: "mm³",
    cm3: "cm³",
    ml: "mL",
    cl: "cL",
    dl: "dL",
    kl: "m³",
    m3: "m³",
    km3: "km³",
    in3: "in³",
    ft3: "ft³",
    yd3: "yd³",
    "fl-oz": "fl oz",
    gal: "US gal",
  },
  temperature: { C: "°C", F: "°F", R: "" },
  time: { mu: "µs" },
  digital: { b: "bit", Kb: "", Mb: "", Gb: "", Tb: "", B: "byte", KB: "", MB: "", GB: "", TB: "" },
  partsPer: { ppt: "", ppq: "" },
  speed: { "m/h": "mph" },
  pressure: { torr: "Torr" },
  reactivePower: { VAR: "var", mVAR: "mvar", kVAR: "kvar", MVAR: "Mvar", GVAR: "" },
  apparentPower: { GVA: "" },
  reactiveEnergy: { VARh: "var·h", mVARh: "mvar·h", kVARh: "kvar·h", MVARh: "Mvar·h", GVARh: "" },
  volumeFlowRate: {
    "mm3/s": "mm³/s",
    "cm3/s": "cm³/s",
    "ml/s": "mL/s",
    "cl/s": "cL/s",
    "dl/s": "dL/s",
    "kl/s": "m³/s",
    "kl/min": "m³/min",
    "kl/h": "m³/h",
    "m3/s": "m³/s",
    "m3/min": "m³/min",
    "m3/h": "m³/h",
    "km3/s": "km³/s",
    "in3/s": "in³/s",
    "in3/min": "in³/min",
    "in3/h": "in³/h",
    "ft3/s": "ft³/s",
    "ft3/min": "ft³/min",
    "ft3/h": "ft³/h",
    "yd3/s": "yd³/s",
    "yd3/min": "yd³/min",
    "yd3/h": "yd³/h",
  },
  illuminance: { "ft-cd": "fc" },
  frequency: { "deg/s": "", "rad/s": "" },
  angle: { grad: "gon", arcmin: "′", arcsec: "″" },
};
/** Digital units there are powers of 1024, fl-oz and gal have no place in a compound unit here, a degree per second is no frequency. */
export const convertAbsent = new Set(
  (
    "length:ft-us mass:t volume:krm volume:tsk volume:msk volume:kkp volume:glas volume:kanna volume:tsp volume:Tbs volume:cup volume:pnt volume:qt each:ea each:dz temperature:R digital:Kb digital:Mb digital:Gb " +
    "digital:Tb digital:KB digital:MB digital:GB digital:TB partsPer:ppt partsPer:ppq apparentPower:GVA reactivePower:GVAR reactiveEnergy:GVARh frequency:deg/s frequency:rad/s " +
    "volumeFlowRate:tsp/s volumeFlowRate:Tbs/s volumeFlowRate:fl-oz/s volumeFlowRate:fl-oz/min volumeFlowRate:fl-oz/h volumeFlowRate:cup/s volumeFlowRate:pnt/s volumeFlowRate:pnt/min volumeFlowRate:pnt/h volumeFlowRate:qt/s " +
    "volumeFlowRate:gal/s volumeFlowRate:gal/min volumeFlowRate:gal/h"
  ).split(" "),
);
/**
 * That library carries few digits between its metric and imperial halves; our factors there are exact by definition (NIST
 * SP 811). Its acre is of international feet, ours of the survey feet of SP 811: 4·10⁻⁶ apart.
 */
export const convertLoose: Readonly<Record<string, number>> = {
  length: 1e-7,
  area: 5e-6,
  mass: 1e-6,
  volume: 1e-5,
  speed: 1e-6,
  pressure: 1e-6,
  volumeFlowRate: 1e-5,
  illuminance: 1e-7,
  pace: 1e-5,
  time: 1e-3,
};

// --- js-quantities

export const jsWords: Words = {
  AMU: "Da",
  arcminute: "′",
  arcsecond: "″",
  AU: "au",
  "fluid-ounce": "fl oz",
  gallon: "US gal",
  "gallon-imp": "UK gal",
  "metric-ton": "t",
  "naut-mile": "nmi",
  "pound-force": "lbf",
  "temp-C": "°C",
  "temp-F": "°F",
  "temp-K": "K",
  "volt-ampere": "VA",
  "volt-ampere-reactive": "var",
  btu: "Btu",
  Calorie: "kcal",
  calorie: "cal",
  celsius: "Δ°C",
  fahrenheit: "Δ°F",
  dyne: "dyn",
  electronvolt: "eV",
  gee: "g_n",
  gradian: "gon",
  hectare: "ha",
  kilogram: "kg",
  kph: "km/h",
  torr: "Torr",
  steradian: "sr",
  radian: "rad",
  rotation: "rev",
  fps: "ft/s",
};
/** sqft is one square metre there. */
export const jsAbsent = (
  "base-pair beerbarrel beerbarrel-imp bpm Bps bps bushel cell cents century cmh2o count cpm cup datamile decade decibel dollar dot dozen dpi dpm dram each fathom fluid-ounce-imp fortnight furlong gross inh2o league light-minute light-second " +
  "light-year molar molecule nucleotide oilbarrel parsec pica pint pint-imp pixel point ppi ppq ppt quart rankine redshift rod roentgen short-ton sqft stone tablespoon teaspoon temp-R therm-US unit wtpercent"
).split(" ");
/** Old constants and few digits there, and a year of 365.2425 days. */
export const jsLoose: Words = {
  acre: "1e-5",
  Da: "1e-6",
  au: "1e-6",
  Btu: "1e-6",
  "fl oz": "1e-8",
  "US gal": "1e-8",
  lbf: "1e-6",
  psi: "1e-6",
  slug: "1e-8",
  year: "1e-4",
  hp: "1e-4",
  mmHg: "1e-5",
  Torr: "1e-8",
  inHg: "1e-4",
  Å: "1e-9",
};
