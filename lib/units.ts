/**
 * Units as tokens for worksheets: called to make a quantity, `kohm(4.7)`, passed to read one, `R.in(kohm)`.
 * Any other unit is `unitOf("text")`. `per_` is a solidus, a digit an exponent: `W_per_m2_K` is W/(m²·K).
 */
import type {
  Acceleration,
  Activity,
  AmountOfSubstance,
  Angle,
  Area,
  AreaDensity,
  Capacitance,
  Charge,
  Conductance,
  Conductivity,
  Current,
  CurrentDensity,
  CurrentNoiseDensity,
  CurrentSlope,
  Curvature,
  Density,
  Dimensionless,
  DynamicViscosity,
  ElectricField,
  Energy,
  FieldGain,
  Force,
  Frequency,
  HeatCapacity,
  HeatFlux,
  HeatTransferCoefficient,
  Illuminance,
  Inductance,
  Information,
  IntensityPerCurrent,
  Kelvins,
  Length,
  Luminance,
  LuminousEfficacy,
  LuminousFlux,
  LuminousIntensity,
  MagneticField,
  MagneticFlux,
  MagneticFluxDensity,
  Mass,
  MolarEnergy,
  MolarHeat,
  MolarMass,
  Permeability,
  Permittivity,
  Power,
  PowerGain,
  Pressure,
  PressurePerVoltage,
  Rate,
  Resistance,
  Resistivity,
  SecondMomentOfArea,
  SlewRate,
  SolidAngle,
  SoundExposure,
  SpecificEnergy,
  SpecificHeat,
  SquaredCurrentTime,
  SquaredPressurePerPower,
  Stiffness,
  Temperature,
  TemperatureCoefficient,
  TemperatureDifference,
  ThermalConductance,
  ThermalConductivity,
  ThermalResistance,
  Time,
  Torque,
  Velocity,
  Voltage,
  VoltageNoiseDensity,
  VoltageTemperatureSlope,
  Volume,
  Work,
} from "./quantity/dimension-tables";
import type { LevelUnit, Unit } from "./quantity/quantity";
import { unitOf } from "./quantity/unit";

export type { LevelUnit, Unit } from "./quantity/quantity";
export { unitOf } from "./quantity/unit";

// numbers and gains
export const one: Unit<Dimensionless> = unitOf("1");
export const percent: Unit<Dimensionless> = unitOf("%");
export const ppm: Unit<Dimensionless> = unitOf("ppm");
export const bit: Unit<Information> = unitOf("bit");
export const byte: Unit<Information> = unitOf("byte");
export const rad: Unit<Angle> = unitOf("rad");
export const mrad: Unit<Angle> = unitOf("mrad");
export const deg: Unit<Angle> = unitOf("°");
export const sr: Unit<SolidAngle> = unitOf("sr");
export const dB: LevelUnit<FieldGain> = unitOf("dB");
export const dB_power: LevelUnit<PowerGain> = unitOf("dB (power)");
export const dBi: LevelUnit<PowerGain> = unitOf("dBi");
export const dBFS: LevelUnit<FieldGain> = unitOf("dBFS");

// levels
export const dBV: LevelUnit<Voltage> = unitOf("dBV");
export const dBu: LevelUnit<Voltage> = unitOf("dBu");
export const dBuV: LevelUnit<Voltage> = unitOf("dBµV");
export const dBm: LevelUnit<Power> = unitOf("dBm");
export const dBW: LevelUnit<Power> = unitOf("dBW");
export const dB_SPL: LevelUnit<Pressure> = unitOf("dB SPL");
export const dBA: LevelUnit<Pressure> = unitOf("dBA");
export const dBuA: LevelUnit<Current> = unitOf("dBµA");
export const dBuV_per_m: LevelUnit<ElectricField> = unitOf("dBµV/m");
export const dBuA_per_m: LevelUnit<MagneticField> = unitOf("dBµA/m");
export const dB_per_mW: LevelUnit<SquaredPressurePerPower> = unitOf("dB/mW");
export const dB_per_V: LevelUnit<PressurePerVoltage> = unitOf("dB/V");

// length, area, volume
export const metre: Unit<Length> = unitOf("m");
export const km: Unit<Length> = unitOf("km");
export const cm: Unit<Length> = unitOf("cm");
export const mm: Unit<Length> = unitOf("mm");
export const um: Unit<Length> = unitOf("µm");
export const nm: Unit<Length> = unitOf("nm");
export const inch: Unit<Length> = unitOf("in");
export const mil: Unit<Length> = unitOf("mil");
export const foot: Unit<Length> = unitOf("ft");
export const AWG: Unit<Length> = unitOf("AWG");
export const m2: Unit<Area> = unitOf("m²");
export const cm2: Unit<Area> = unitOf("cm²");
export const mm2: Unit<Area> = unitOf("mm²");
export const um2: Unit<Area> = unitOf("µm²");
export const mil2: Unit<Area> = unitOf("mil²");
export const m3: Unit<Volume> = unitOf("m³");
export const cm3: Unit<Volume> = unitOf("cm³");
export const mm3: Unit<Volume> = unitOf("mm³");
export const litre: Unit<Volume> = unitOf("L");
export const mL: Unit<Volume> = unitOf("mL");
export const mm4: Unit<SecondMomentOfArea> = unitOf("mm⁴");
export const per_metre: Unit<Curvature> = unitOf("1/m");

// time and motion
export const second: Unit<Time> = unitOf("s");
export const ms: Unit<Time> = unitOf("ms");
export const us: Unit<Time> = unitOf("µs");
export const ns: Unit<Time> = unitOf("ns");
export const ps: Unit<Time> = unitOf("ps");
export const minute: Unit<Time> = unitOf("min");
export const hour: Unit<Time> = unitOf("h");
export const day: Unit<Time> = unitOf("d");
export const week: Unit<Time> = unitOf("week");
export const month: Unit<Time> = unitOf("month");
export const year: Unit<Time> = unitOf("year");
export const hertz: Unit<Frequency> = unitOf("Hz");
export const mHz: Unit<Frequency> = unitOf("mHz");
export const kHz: Unit<Frequency> = unitOf("kHz");
export const MHz: Unit<Frequency> = unitOf("MHz");
export const GHz: Unit<Frequency> = unitOf("GHz");
export const rpm: Unit<Frequency> = unitOf("rpm");
export const becquerel: Unit<Activity> = unitOf("Bq");
export const per_second: Unit<Rate> = unitOf("1/s");
export const per_hour: Unit<Rate> = unitOf("1/h");
export const rad_per_s: Unit<Rate> = unitOf("rad/s");
export const percent_per_month: Unit<Rate> = unitOf("%/month");
export const m_per_s: Unit<Velocity> = unitOf("m/s");
export const mm_per_s: Unit<Velocity> = unitOf("mm/s");
export const km_per_h: Unit<Velocity> = unitOf("km/h");
export const m_per_s2: Unit<Acceleration> = unitOf("m/s²");
export const g_n: Unit<Acceleration> = unitOf("gₙ");

// mechanics
export const kg: Unit<Mass> = unitOf("kg");
export const gram: Unit<Mass> = unitOf("g");
export const mg: Unit<Mass> = unitOf("mg");
export const ug: Unit<Mass> = unitOf("µg");
export const tonne: Unit<Mass> = unitOf("t");
export const oz: Unit<Mass> = unitOf("oz");
export const lb: Unit<Mass> = unitOf("lb");
export const kg_per_m3: Unit<Density> = unitOf("kg/m³");
export const g_per_cm3: Unit<Density> = unitOf("g/cm³");
export const g_per_m2: Unit<AreaDensity> = unitOf("g/m²");
export const oz_per_ft2: Unit<AreaDensity> = unitOf("oz/ft²");
export const newton: Unit<Force> = unitOf("N");
export const kN: Unit<Force> = unitOf("kN");
export const mN: Unit<Force> = unitOf("mN");
export const kgf: Unit<Force> = unitOf("kgf");
export const gf: Unit<Force> = unitOf("gf");
export const lbf: Unit<Force> = unitOf("lbf");
export const N_per_m: Unit<Stiffness> = unitOf("N/m");
export const N_per_mm: Unit<Stiffness> = unitOf("N/mm");
export const newton_metre: Unit<Torque> = unitOf("N·m");
export const N_mm: Unit<Work> = unitOf("N·mm");
export const pascal: Unit<Pressure> = unitOf("Pa");
export const uPa: Unit<Pressure> = unitOf("µPa");
export const mPa: Unit<Pressure> = unitOf("mPa");
export const kPa: Unit<Pressure> = unitOf("kPa");
export const MPa: Unit<Pressure> = unitOf("MPa");
export const GPa: Unit<Pressure> = unitOf("GPa");
export const bar: Unit<Pressure> = unitOf("bar");
export const mbar: Unit<Pressure> = unitOf("mbar");
export const psi: Unit<Pressure> = unitOf("psi");
export const atm: Unit<Pressure> = unitOf("atm");
export const Pa_s: Unit<DynamicViscosity> = unitOf("Pa·s");
export const Pa2_h: Unit<SoundExposure> = unitOf("Pa²·h");
export const joule: Unit<Energy> = unitOf("J");
export const kJ: Unit<Energy> = unitOf("kJ");
export const mJ: Unit<Energy> = unitOf("mJ");
export const uJ: Unit<Energy> = unitOf("µJ");
export const nJ: Unit<Energy> = unitOf("nJ");
export const Wh: Unit<Energy> = unitOf("Wh");
export const mWh: Unit<Energy> = unitOf("mWh");
export const kWh: Unit<Energy> = unitOf("kWh");
export const eV: Unit<Energy> = unitOf("eV");
export const watt: Unit<Power> = unitOf("W");
export const kW: Unit<Power> = unitOf("kW");
export const mW: Unit<Power> = unitOf("mW");
export const uW: Unit<Power> = unitOf("µW");
export const nW: Unit<Power> = unitOf("nW");
export const pW: Unit<Power> = unitOf("pW");

// heat
export const kelvin: Unit<Kelvins> = unitOf("K");
export const celsius: Unit<Temperature> = unitOf("°C");
export const fahrenheit: Unit<Temperature> = unitOf("°F");
export const degC_difference: Unit<TemperatureDifference> = unitOf("Δ°C");
export const degF_difference: Unit<TemperatureDifference> = unitOf("Δ°F");
export const per_kelvin: Unit<TemperatureCoefficient> = unitOf("1/K");
export const ppm_per_K: Unit<TemperatureCoefficient> = unitOf("ppm/K");
export const percent_per_K: Unit<TemperatureCoefficient> = unitOf("%/K");
export const K_per_W: Unit<ThermalResistance> = unitOf("K/W");
export const W_per_K: Unit<ThermalConductance> = unitOf("W/K");
export const W_per_m_K: Unit<ThermalConductivity> = unitOf("W/(m·K)");
export const W_per_m2_K: Unit<HeatTransferCoefficient> = unitOf("W/(m²·K)");
export const W_per_m2: Unit<HeatFlux> = unitOf("W/m²");
export const J_per_K: Unit<HeatCapacity> = unitOf("J/K");
export const J_per_kg_K: Unit<SpecificHeat> = unitOf("J/(kg·K)");
export const Wh_per_kg: Unit<SpecificEnergy> = unitOf("Wh/kg");

// electricity and magnetism
export const ampere: Unit<Current> = unitOf("A");
export const mA: Unit<Current> = unitOf("mA");
export const uA: Unit<Current> = unitOf("µA");
export const nA: Unit<Current> = unitOf("nA");
export const pA: Unit<Current> = unitOf("pA");
export const fA: Unit<Current> = unitOf("fA");
export const A_per_us: Unit<CurrentSlope> = unitOf("A/µs");
export const A_per_mm2: Unit<CurrentDensity> = unitOf("A/mm²");
export const pA_per_sqrtHz: Unit<CurrentNoiseDensity> = unitOf("pA/√Hz");
export const fA_per_sqrtHz: Unit<CurrentNoiseDensity> = unitOf("fA/√Hz");
export const coulomb: Unit<Charge> = unitOf("C");
export const uC: Unit<Charge> = unitOf("µC");
export const nC: Unit<Charge> = unitOf("nC");
export const pC: Unit<Charge> = unitOf("pC");
export const Ah: Unit<Charge> = unitOf("Ah");
export const mAh: Unit<Charge> = unitOf("mAh");
export const A2_s: Unit<SquaredCurrentTime> = unitOf("A²·s");
export const volt: Unit<Voltage> = unitOf("V");
export const kV: Unit<Voltage> = unitOf("kV");
export const mV: Unit<Voltage> = unitOf("mV");
export const uV: Unit<Voltage> = unitOf("µV");
export const nV: Unit<Voltage> = unitOf("nV");
export const V_per_us: Unit<SlewRate> = unitOf("V/µs");
export const V_per_sqrtHz: Unit<VoltageNoiseDensity> = unitOf("V/√Hz");
export const nV_per_sqrtHz: Unit<VoltageNoiseDensity> = unitOf("nV/√Hz");
export const uV_per_sqrtHz: Unit<VoltageNoiseDensity> = unitOf("µV/√Hz");
export const mV_per_K: Unit<VoltageTemperatureSlope> = unitOf("mV/K");
export const uV_per_K: Unit<VoltageTemperatureSlope> = unitOf("µV/K");
export const V_per_m: Unit<ElectricField> = unitOf("V/m");
export const uV_per_m: Unit<ElectricField> = unitOf("µV/m");
export const kV_per_mm: Unit<ElectricField> = unitOf("kV/mm");
export const ohm: Unit<Resistance> = unitOf("Ω");
export const uohm: Unit<Resistance> = unitOf("µΩ");
export const mohm: Unit<Resistance> = unitOf("mΩ");
export const kohm: Unit<Resistance> = unitOf("kΩ");
export const Mohm: Unit<Resistance> = unitOf("MΩ");
export const Gohm: Unit<Resistance> = unitOf("GΩ");
export const ohm_m: Unit<Resistivity> = unitOf("Ω·m");
export const siemens: Unit<Conductance> = unitOf("S");
export const mS: Unit<Conductance> = unitOf("mS");
export const uS: Unit<Conductance> = unitOf("µS");
export const S_per_m: Unit<Conductivity> = unitOf("S/m");
export const farad: Unit<Capacitance> = unitOf("F");
export const mF: Unit<Capacitance> = unitOf("mF");
export const uF: Unit<Capacitance> = unitOf("µF");
export const nF: Unit<Capacitance> = unitOf("nF");
export const pF: Unit<Capacitance> = unitOf("pF");
export const F_per_m: Unit<Permittivity> = unitOf("F/m");
export const henry: Unit<Inductance> = unitOf("H");
export const mH: Unit<Inductance> = unitOf("mH");
export const uH: Unit<Inductance> = unitOf("µH");
export const nH: Unit<Inductance> = unitOf("nH");
export const H_per_m: Unit<Permeability> = unitOf("H/m");
export const A_per_m: Unit<MagneticField> = unitOf("A/m");
export const weber: Unit<MagneticFlux> = unitOf("Wb");
export const tesla: Unit<MagneticFluxDensity> = unitOf("T");
export const mT: Unit<MagneticFluxDensity> = unitOf("mT");
export const uT: Unit<MagneticFluxDensity> = unitOf("µT");

// light
export const candela: Unit<LuminousIntensity> = unitOf("cd");
export const mcd: Unit<LuminousIntensity> = unitOf("mcd");
export const ucd: Unit<LuminousIntensity> = unitOf("µcd");
export const lumen: Unit<LuminousFlux> = unitOf("lm");
export const mlm: Unit<LuminousFlux> = unitOf("mlm");
export const lux: Unit<Illuminance> = unitOf("lx");
export const cd_per_m2: Unit<Luminance> = unitOf("nit");
export const lm_per_W: Unit<LuminousEfficacy> = unitOf("lm/W");
export const mcd_per_mA: Unit<IntensityPerCurrent> = unitOf("mcd/mA");

// amount of substance
export const mol: Unit<AmountOfSubstance> = unitOf("mol");
export const g_per_mol: Unit<MolarMass> = unitOf("g/mol");
export const J_per_mol: Unit<MolarEnergy> = unitOf("J/mol");
export const J_per_mol_K: Unit<MolarHeat> = unitOf("J/(mol·K)");
