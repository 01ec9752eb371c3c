/**
 * Units as tokens for worksheets: called to make a quantity, `kohm(4.7)`, passed to read one, `R.in(kohm)`.
 * Any other unit is `unitOf("text")`. `per_` is a solidus, a digit an exponent: `W_per_m2_K` is W/(m²·K).
 */
import type * as D from "./quantity/dimension-tables";
import type { SI } from "./quantity/dimension-types";
import type { LevelUnit, Unit } from "./quantity/quantity";
import { unitOf } from "./quantity/unit";

export type { LevelUnit, Unit } from "./quantity/quantity";
export { unitOf } from "./quantity/unit";

// numbers and gains
export const one: Unit<D.Dimensionless> = unitOf("1");
export const percent: Unit<D.Dimensionless> = unitOf("%");
export const ppm: Unit<D.Dimensionless> = unitOf("ppm");
export const bit: Unit<D.Information> = unitOf("bit");
export const byte: Unit<D.Information> = unitOf("byte");
export const rad: Unit<D.Angle> = unitOf("rad");
export const mrad: Unit<D.Angle> = unitOf("mrad");
export const deg: Unit<D.Angle> = unitOf("°");
export const sr: Unit<D.SolidAngle> = unitOf("sr");
export const dB: LevelUnit<D.FieldGain> = unitOf("dB");
export const dB_power: LevelUnit<D.PowerGain> = unitOf("dB (power)");
export const dBi: LevelUnit<D.PowerGain> = unitOf("dBi");
export const dBFS: LevelUnit<D.FieldGain> = unitOf("dBFS");

// levels
export const dBV: LevelUnit<D.Voltage> = unitOf("dBV");
export const dBu: LevelUnit<D.Voltage> = unitOf("dBu");
export const dBuV: LevelUnit<D.Voltage> = unitOf("dBµV");
export const dBm: LevelUnit<D.Power> = unitOf("dBm");
export const dBW: LevelUnit<D.Power> = unitOf("dBW");
export const dB_SPL: LevelUnit<D.Pressure> = unitOf("dB SPL");
export const dBA: LevelUnit<D.Pressure> = unitOf("dBA");
export const dBuA: LevelUnit<D.Current> = unitOf("dBµA");
export const dBuV_per_m: LevelUnit<D.ElectricField> = unitOf("dBµV/m");
export const dBuA_per_m: LevelUnit<D.MagneticField> = unitOf("dBµA/m");
export const dB_per_mW: LevelUnit<D.SquaredPressurePerPower> = unitOf("dB/mW");
export const dB_per_V: LevelUnit<D.PressurePerVoltage> = unitOf("dB/V");

// length, area, volume
export const metre: Unit<D.Length> = unitOf("m");
export const km: Unit<D.Length> = unitOf("km");
export const cm: Unit<D.Length> = unitOf("cm");
export const mm: Unit<D.Length> = unitOf("mm");
export const um: Unit<D.Length> = unitOf("µm");
export const nm: Unit<D.Length> = unitOf("nm");
export const inch: Unit<D.Length> = unitOf("in");
export const mil: Unit<D.Length> = unitOf("mil");
export const foot: Unit<D.Length> = unitOf("ft");
export const AWG: Unit<D.Length> = unitOf("AWG");
export const m2: Unit<D.Area> = unitOf("m²");
export const cm2: Unit<D.Area> = unitOf("cm²");
export const mm2: Unit<D.Area> = unitOf("mm²");
export const um2: Unit<D.Area> = unitOf("µm²");
export const mil2: Unit<D.Area> = unitOf("mil²");
export const m3: Unit<D.Volume> = unitOf("m³");
export const cm3: Unit<D.Volume> = unitOf("cm³");
export const mm3: Unit<D.Volume> = unitOf("mm³");
export const litre: Unit<D.Volume> = unitOf("L");
export const mL: Unit<D.Volume> = unitOf("mL");
export const mm4: Unit<D.SecondMomentOfArea> = unitOf("mm⁴");
export const per_metre: Unit<D.Curvature> = unitOf("1/m");

// time and motion
export const second: Unit<D.Time> = unitOf("s");
export const ms: Unit<D.Time> = unitOf("ms");
export const us: Unit<D.Time> = unitOf("µs");
export const ns: Unit<D.Time> = unitOf("ns");
export const ps: Unit<D.Time> = unitOf("ps");
export const minute: Unit<D.Time> = unitOf("min");
export const hour: Unit<D.Time> = unitOf("h");
export const day: Unit<D.Time> = unitOf("d");
export const week: Unit<D.Time> = unitOf("week");
export const month: Unit<D.Time> = unitOf("month");
export const year: Unit<D.Time> = unitOf("year");
export const hertz: Unit<D.Frequency> = unitOf("Hz");
export const mHz: Unit<D.Frequency> = unitOf("mHz");
export const kHz: Unit<D.Frequency> = unitOf("kHz");
export const MHz: Unit<D.Frequency> = unitOf("MHz");
export const GHz: Unit<D.Frequency> = unitOf("GHz");
export const rpm: Unit<D.Frequency> = unitOf("rpm");
export const becquerel: Unit<D.Activity> = unitOf("Bq");
export const per_second: Unit<D.Rate> = unitOf("1/s");
export const per_hour: Unit<D.Rate> = unitOf("1/h");
export const rad_per_s: Unit<D.Rate> = unitOf("rad/s");
export const percent_per_month: Unit<D.Rate> = unitOf("%/month");
export const m_per_s: Unit<D.Velocity> = unitOf("m/s");
export const mm_per_s: Unit<D.Velocity> = unitOf("mm/s");
export const km_per_h: Unit<D.Velocity> = unitOf("km/h");
export const m_per_s2: Unit<D.Acceleration> = unitOf("m/s²");
export const g_n: Unit<D.Acceleration> = unitOf("gₙ");

// mechanics
export const kg: Unit<D.Mass> = unitOf("kg");
export const gram: Unit<D.Mass> = unitOf("g");
export const mg: Unit<D.Mass> = unitOf("mg");
export const ug: Unit<D.Mass> = unitOf("µg");
export const tonne: Unit<D.Mass> = unitOf("t");
export const oz: Unit<D.Mass> = unitOf("oz");
export const lb: Unit<D.Mass> = unitOf("lb");
export const kg_per_m3: Unit<D.Density> = unitOf("kg/m³");
export const g_per_cm3: Unit<D.Density> = unitOf("g/cm³");
export const g_per_m2: Unit<D.AreaDensity> = unitOf("g/m²");
export const oz_per_ft2: Unit<D.AreaDensity> = unitOf("oz/ft²");
export const newton: Unit<D.Force> = unitOf("N");
export const kN: Unit<D.Force> = unitOf("kN");
export const mN: Unit<D.Force> = unitOf("mN");
export const kgf: Unit<D.Force> = unitOf("kgf");
export const gf: Unit<D.Force> = unitOf("gf");
export const lbf: Unit<D.Force> = unitOf("lbf");
export const N_per_m: Unit<D.Stiffness> = unitOf("N/m");
export const N_per_mm: Unit<D.Stiffness> = unitOf("N/mm");
export const newton_metre: Unit<D.Torque> = unitOf("N·m");
export const N_mm: Unit<D.Work> = unitOf("N·mm");
export const pascal: Unit<D.Pressure> = unitOf("Pa");
export const uPa: Unit<D.Pressure> = unitOf("µPa");
export const mPa: Unit<D.Pressure> = unitOf("mPa");
export const kPa: Unit<D.Pressure> = unitOf("kPa");
export const MPa: Unit<D.Pressure> = unitOf("MPa");
export const GPa: Unit<D.Pressure> = unitOf("GPa");
export const bar: Unit<D.Pressure> = unitOf("bar");
export const mbar: Unit<D.Pressure> = unitOf("mbar");
export const psi: Unit<D.Pressure> = unitOf("psi");
export const atm: Unit<D.Pressure> = unitOf("atm");
export const Pa_s: Unit<D.DynamicViscosity> = unitOf("Pa·s");
export const Pa2_h: Unit<D.SoundExposure> = unitOf("Pa²·h");
export const joule: Unit<D.Energy> = unitOf("J");
export const kJ: Unit<D.Energy> = unitOf("kJ");
export const mJ: Unit<D.Energy> = unitOf("mJ");
export const uJ: Unit<D.Energy> = unitOf("µJ");
export const nJ: Unit<D.Energy> = unitOf("nJ");
export const Wh: Unit<D.Energy> = unitOf("Wh");
export const mWh: Unit<D.Energy> = unitOf("mWh");
export const kWh: Unit<D.Energy> = unitOf("kWh");
export const eV: Unit<D.Energy> = unitOf("eV");
export const watt: Unit<D.Power> = unitOf("W");
export const kW: Unit<D.Power> = unitOf("kW");
export const mW: Unit<D.Power> = unitOf("mW");
export const uW: Unit<D.Power> = unitOf("µW");
export const nW: Unit<D.Power> = unitOf("nW");
export const pW: Unit<D.Power> = unitOf("pW");

// heat
export const kelvin: Unit<D.Kelvins> = unitOf("K");
export const celsius: Unit<D.Temperature> = unitOf("°C");
export const fahrenheit: Unit<D.Temperature> = unitOf("°F");
export const degC_difference: Unit<D.TemperatureDifference> = unitOf("Δ°C");
export const degF_difference: Unit<D.TemperatureDifference> = unitOf("Δ°F");
export const per_kelvin: Unit<D.TemperatureCoefficient> = unitOf("1/K");
export const ppm_per_K: Unit<D.TemperatureCoefficient> = unitOf("ppm/K");
export const percent_per_K: Unit<D.TemperatureCoefficient> = unitOf("%/K");
export const K_per_W: Unit<D.ThermalResistance> = unitOf("K/W");
export const W_per_K: Unit<D.ThermalConductance> = unitOf("W/K");
export const W_per_m_K: Unit<D.ThermalConductivity> = unitOf("W/(m·K)");
export const W_per_m2_K: Unit<D.HeatTransferCoefficient> = unitOf("W/(m²·K)");
export const W_per_m2_K4: Unit<SI<"kg·s⁻³·K⁻⁴">> = unitOf("W/(m²·K⁴)");
export const W_per_m2: Unit<D.HeatFlux> = unitOf("W/m²");
export const J_per_K: Unit<D.HeatCapacity> = unitOf("J/K");
export const J_per_kg_K: Unit<D.SpecificHeat> = unitOf("J/(kg·K)");
export const Wh_per_kg: Unit<D.SpecificEnergy> = unitOf("Wh/kg");

// electricity and magnetism
export const ampere: Unit<D.Current> = unitOf("A");
export const mA: Unit<D.Current> = unitOf("mA");
export const uA: Unit<D.Current> = unitOf("µA");
export const nA: Unit<D.Current> = unitOf("nA");
export const pA: Unit<D.Current> = unitOf("pA");
export const fA: Unit<D.Current> = unitOf("fA");
export const A_per_us: Unit<D.CurrentSlope> = unitOf("A/µs");
export const A_per_mm2: Unit<D.CurrentDensity> = unitOf("A/mm²");
export const pA_per_sqrtHz: Unit<D.CurrentNoiseDensity> = unitOf("pA/√Hz");
export const fA_per_sqrtHz: Unit<D.CurrentNoiseDensity> = unitOf("fA/√Hz");
export const coulomb: Unit<D.Charge> = unitOf("C");
export const uC: Unit<D.Charge> = unitOf("µC");
export const nC: Unit<D.Charge> = unitOf("nC");
export const pC: Unit<D.Charge> = unitOf("pC");
export const Ah: Unit<D.Charge> = unitOf("Ah");
export const mAh: Unit<D.Charge> = unitOf("mAh");
export const A2_s: Unit<D.SquaredCurrentTime> = unitOf("A²·s");
export const volt: Unit<D.Voltage> = unitOf("V");
export const kV: Unit<D.Voltage> = unitOf("kV");
export const mV: Unit<D.Voltage> = unitOf("mV");
export const uV: Unit<D.Voltage> = unitOf("µV");
export const nV: Unit<D.Voltage> = unitOf("nV");
export const V_per_us: Unit<D.SlewRate> = unitOf("V/µs");
export const V_per_sqrtHz: Unit<D.VoltageNoiseDensity> = unitOf("V/√Hz");
export const nV_per_sqrtHz: Unit<D.VoltageNoiseDensity> = unitOf("nV/√Hz");
export const uV_per_sqrtHz: Unit<D.VoltageNoiseDensity> = unitOf("µV/√Hz");
export const mV_per_K: Unit<D.VoltageTemperatureSlope> = unitOf("mV/K");
export const uV_per_K: Unit<D.VoltageTemperatureSlope> = unitOf("µV/K");
export const V_per_m: Unit<D.ElectricField> = unitOf("V/m");
export const uV_per_m: Unit<D.ElectricField> = unitOf("µV/m");
export const kV_per_mm: Unit<D.ElectricField> = unitOf("kV/mm");
export const ohm: Unit<D.Resistance> = unitOf("Ω");
export const uohm: Unit<D.Resistance> = unitOf("µΩ");
export const mohm: Unit<D.Resistance> = unitOf("mΩ");
export const kohm: Unit<D.Resistance> = unitOf("kΩ");
export const Mohm: Unit<D.Resistance> = unitOf("MΩ");
export const Gohm: Unit<D.Resistance> = unitOf("GΩ");
export const ohm_m: Unit<D.Resistivity> = unitOf("Ω·m");
export const siemens: Unit<D.Conductance> = unitOf("S");
export const mS: Unit<D.Conductance> = unitOf("mS");
export const uS: Unit<D.Conductance> = unitOf("µS");
export const S_per_m: Unit<D.Conductivity> = unitOf("S/m");
export const farad: Unit<D.Capacitance> = unitOf("F");
export const mF: Unit<D.Capacitance> = unitOf("mF");
export const uF: Unit<D.Capacitance> = unitOf("µF");
export const nF: Unit<D.Capacitance> = unitOf("nF");
export const pF: Unit<D.Capacitance> = unitOf("pF");
export const F_per_m: Unit<D.Permittivity> = unitOf("F/m");
export const henry: Unit<D.Inductance> = unitOf("H");
export const mH: Unit<D.Inductance> = unitOf("mH");
export const uH: Unit<D.Inductance> = unitOf("µH");
export const nH: Unit<D.Inductance> = unitOf("nH");
export const H_per_m: Unit<D.Permeability> = unitOf("H/m");
export const A_per_m: Unit<D.MagneticField> = unitOf("A/m");
export const weber: Unit<D.MagneticFlux> = unitOf("Wb");
export const tesla: Unit<D.MagneticFluxDensity> = unitOf("T");
export const mT: Unit<D.MagneticFluxDensity> = unitOf("mT");
export const uT: Unit<D.MagneticFluxDensity> = unitOf("µT");

// light
export const candela: Unit<D.LuminousIntensity> = unitOf("cd");
export const mcd: Unit<D.LuminousIntensity> = unitOf("mcd");
export const ucd: Unit<D.LuminousIntensity> = unitOf("µcd");
export const lumen: Unit<D.LuminousFlux> = unitOf("lm");
export const mlm: Unit<D.LuminousFlux> = unitOf("mlm");
export const lux: Unit<D.Illuminance> = unitOf("lx");
export const cd_per_m2: Unit<D.Luminance> = unitOf("nit");
export const lm_per_W: Unit<D.LuminousEfficacy> = unitOf("lm/W");
export const mcd_per_mA: Unit<D.IntensityPerCurrent> = unitOf("mcd/mA");

// amount of substance
export const mol: Unit<D.AmountOfSubstance> = unitOf("mol");
export const g_per_mol: Unit<D.MolarMass> = unitOf("g/mol");
export const J_per_mol: Unit<D.MolarEnergy> = unitOf("J/mol");
export const J_per_mol_K: Unit<D.MolarHeat> = unitOf("J/(mol·K)");
