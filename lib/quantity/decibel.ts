/**
 * Levels: units over linear quantities, so that arithmetic stays linear. level = factor · log10(x / reference),
 * factor 20 for root-power quantities (voltage, pressure, field), 10 for power quantities. ISO 80000-1 Annex C,
 * IEC 60027-3.
 *
 * A bare dB is a gain of voltages (factor 20) unless a power gain is asked for. Headphone sensitivities are
 * sound-pressure levels at a stated drive, hence 102 dB/mW is (20 µPa)²·10^10.2 per milliwatt, in Pa²/W, and
 * dB/V is 20 µPa·10^(L/20) per volt, in Pa/V: squared pressure times power gives squared pressure, without logarithms.
 */
import type { Dimension } from "./dimension";
import type { LogScale } from "./spread";

/** Quantities whose square is in proportion to a power: those of the levels of factor 20, and noise densities. ISO 80000-1 Annex C. */
const fieldQuantities = [
  "1|field gain",
  "kg·m²·s⁻³·A⁻¹",
  "A",
  "kg·m⁻¹·s⁻²",
  "kg·m·s⁻³·A⁻¹",
  "m⁻¹·A",
  "kg·m²·s^(-5/2)·A⁻¹",
  "s^(1/2)·A",
] as const;

/** Quantities in proportion to a power: those of the levels of factor 10, intensity, and squares of field quantities. */
const powerQuantities = ["1|power gain", "kg·m²·s⁻³", "kg·s⁻³", "kg²·m⁴·s⁻⁶·A⁻²", "kg²·m⁻²·s⁻⁴", "A²"] as const;

/** Whether a dimension is that of a field quantity. */
export function isField({ key }: Dimension): boolean {
  return fieldQuantities.some((field) => field === key);
}

/** Whether a dimension is in proportion to a power. */
export function isPower({ key }: Dimension): boolean {
  return powerQuantities.some((power) => power === key);
}

/** What `powersum` of a formula adds. */
export type Summable = (typeof fieldQuantities | typeof powerQuantities)[number];

export interface LevelRow {
  readonly symbol: string;
  readonly aliases?: readonly string[];
  readonly log: LogScale;
  /** `Dimension.key`. */
  readonly dimension: string;
  readonly ucum: string;
  readonly source: string;
}

const voltage = "kg·m²·s⁻³·A⁻¹";
const power = "kg·m²·s⁻³";
const pressure = "kg·m⁻¹·s⁻²";
const hearingThreshold = 20e-6;
const sound = "IEC 61672-1: reference sound pressure 20 µPa (exact)";
const iec = "IEC 60027-3";

export const levelTable: readonly LevelRow[] = [
  { symbol: "dB", log: { factor: 20, reference: 1 }, dimension: "1|field gain", ucum: "dB", source: "ISO 80000-1 Annex C" },
  {
    symbol: "dB (power)",
    aliases: ["dB"],
    log: { factor: 10, reference: 1 },
    dimension: "1|power gain",
    ucum: "dB",
    source: "ISO 80000-1 Annex C",
  },
  {
    symbol: "dBi",
    log: { factor: 10, reference: 1 },
    dimension: "1|power gain",
    ucum: "",
    source: "IEEE 145: gain against an isotropic antenna",
  },
  {
    symbol: "dBFS",
    log: { factor: 20, reference: 1 },
    dimension: "1|field gain",
    ucum: "",
    source: "IEC 61606-1: full scale, a ratio of amplitudes",
  },
  { symbol: "dBV", log: { factor: 20, reference: 1 }, dimension: voltage, ucum: "dB[V]", source: iec },
  { symbol: "dBmV", log: { factor: 20, reference: 1e-3 }, dimension: voltage, ucum: "dB[mV]", source: iec },
  { symbol: "dBµV", aliases: ["dBuV"], log: { factor: 20, reference: 1e-6 }, dimension: voltage, ucum: "dB[uV]", source: iec },
  {
    symbol: "dBu",
    log: { factor: 20, reference: Math.sqrt(0.6) },
    dimension: voltage,
    ucum: "",
    source: "IEC 60268-3 practice: 1 mW in 600 Ω is √0.6 V",
  },
  { symbol: "dBA/m", aliases: ["dB(A/m)"], log: { factor: 20, reference: 1 }, dimension: "m⁻¹·A", ucum: "", source: iec },
  { symbol: "dBµA", aliases: ["dBuA"], log: { factor: 20, reference: 1e-6 }, dimension: "A", ucum: "", source: iec },
  { symbol: "dBµA/m", aliases: ["dBuA/m", "dB(µA/m)"], log: { factor: 20, reference: 1e-6 }, dimension: "m⁻¹·A", ucum: "", source: iec },
  { symbol: "dBV/m", aliases: ["dB(V/m)"], log: { factor: 20, reference: 1 }, dimension: "kg·m·s⁻³·A⁻¹", ucum: "", source: iec },
  {
    symbol: "dBµV/m",
    aliases: ["dBuV/m", "dB(µV/m)"],
    log: { factor: 20, reference: 1e-6 },
    dimension: "kg·m·s⁻³·A⁻¹",
    ucum: "",
    source: "CISPR 16-1-1: field strength",
  },
  { symbol: "dBW", log: { factor: 10, reference: 1 }, dimension: power, ucum: "dB[W]", source: iec },
  { symbol: "dBm", aliases: ["dBmW"], log: { factor: 10, reference: 1e-3 }, dimension: power, ucum: "", source: "ITU-R V.574: 1 mW" },
  { symbol: "dBf", log: { factor: 10, reference: 1e-15 }, dimension: power, ucum: "", source: iec },
  { symbol: "dBΩ", aliases: ["dBohm"], log: { factor: 20, reference: 1 }, dimension: "kg·m²·s⁻³·A⁻²", ucum: "", source: iec },
  {
    symbol: "dB SPL",
    aliases: ["dBSPL", "dB(SPL)"],
    log: { factor: 20, reference: hearingThreshold },
    dimension: pressure,
    ucum: "dB[SPL]",
    source: sound,
  },
  {
    symbol: "dBA",
    aliases: ["dB(A)", "dB A"],
    log: { factor: 20, reference: hearingThreshold },
    dimension: pressure,
    ucum: "",
    source: `${sound}; A-weighted`,
  },
  { symbol: "dBPa", log: { factor: 20, reference: 1 }, dimension: pressure, ucum: "", source: iec },
  {
    symbol: "dBV/Pa",
    aliases: ["dB re 1 V/Pa"],
    log: { factor: 20, reference: 1 },
    dimension: "m³·s⁻¹·A⁻¹",
    ucum: "",
    source: "IEC 60268-4: microphone sensitivity",
  },
  {
    symbol: "dB/mW",
    aliases: ["dB SPL/mW"],
    log: { factor: 10, reference: 4e-7 },
    dimension: "kg·m⁻⁴·s⁻¹",
    ucum: "",
    source: `IEC 60268-7; ${sound}`,
  },
  {
    symbol: "dB/V",
    aliases: ["dB SPL/V"],
    log: { factor: 20, reference: hearingThreshold },
    dimension: "m⁻³·s·A",
    ucum: "",
    source: `IEC 60268-7; ${sound}`,
  },
];
