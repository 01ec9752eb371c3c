/**
 * The dimensions that have a name, as rows of data. The run time looks labels up here, and
 * `.build/generate-types.mjs` writes the interfaces of `dimension-tables.ts` from the same rows.
 *
 * `si` lists the base units in the order kg m s A K mol cd, joined by `·`, exponents as superscripts
 * (`s⁻³`) and half-integers as `s^(1/2)`, `s^(-5/2)`; dimensionless is `1`. `kind` tells quantities apart that share one SI string
 * (torque is not energy). A row without kind beside kinded rows names what a product gives: it may be asked for in a unit
 * of any of those kinds.
 * Names follow ISO 80000 parts 3 to 8.
 */
export interface NamedDimension {
  /** Name of the generated interface. */
  readonly name: string;
  /** The name in messages and legends. */
  readonly label: string;
  readonly si: string;
  readonly kind?: string;
  /** Symbol of its coherent SI unit, as results without a unit of their own are shown. */
  readonly unit: string;
}

export const namedDimensions: readonly NamedDimension[] = [
  // dimensionless
  { name: "Dimensionless", label: "dimensionless", si: "1", unit: "1" },
  { name: "Angle", label: "angle", si: "1", kind: "angle", unit: "rad" },
  { name: "SolidAngle", label: "solid angle", si: "1", kind: "solid angle", unit: "sr" },
  { name: "FieldGain", label: "field gain", si: "1", kind: "field gain", unit: "1" },
  { name: "PowerGain", label: "power gain", si: "1", kind: "power gain", unit: "1" },
  { name: "Information", label: "information", si: "1", kind: "information", unit: "bit" },
  // space and time
  { name: "Length", label: "length", si: "m", unit: "m" },
  { name: "Area", label: "area", si: "m²", unit: "m²" },
  { name: "Volume", label: "volume", si: "m³", unit: "m³" },
  { name: "SecondMomentOfArea", label: "second moment of area", si: "m⁴", unit: "m⁴" },
  { name: "Curvature", label: "curvature", si: "m⁻¹", unit: "1/m" },
  { name: "Time", label: "time", si: "s", unit: "s" },
  { name: "Rate", label: "rate", si: "s⁻¹", unit: "1/s" },
  { name: "Frequency", label: "frequency", si: "s⁻¹", kind: "frequency", unit: "Hz" },
  { name: "Activity", label: "activity", si: "s⁻¹", kind: "activity", unit: "Bq" },
  { name: "SweepRate", label: "sweep rate", si: "s⁻²", unit: "1/s²" },
  { name: "Velocity", label: "velocity", si: "m·s⁻¹", unit: "m/s" },
  { name: "Acceleration", label: "acceleration", si: "m·s⁻²", unit: "m/s²" },
  { name: "VolumeFlow", label: "volume flow", si: "m³·s⁻¹", unit: "m³/s" },
  { name: "Diffusivity", label: "diffusivity", si: "m²·s⁻¹", unit: "m²/s" },
  // mechanics
  { name: "Mass", label: "mass", si: "kg", unit: "kg" },
  { name: "Density", label: "density", si: "kg·m⁻³", unit: "kg/m³" },
  { name: "AreaDensity", label: "area density", si: "kg·m⁻²", unit: "kg/m²" },
  { name: "LinearDensity", label: "linear density", si: "kg·m⁻¹", unit: "kg/m" },
  { name: "MomentOfInertia", label: "moment of inertia", si: "kg·m²", unit: "kg·m²" },
  { name: "Momentum", label: "momentum", si: "kg·m·s⁻¹", unit: "kg·m/s" },
  { name: "Force", label: "force", si: "kg·m·s⁻²", unit: "N" },
  { name: "Pressure", label: "pressure", si: "kg·m⁻¹·s⁻²", unit: "Pa" },
  { name: "Stiffness", label: "stiffness", si: "kg·s⁻²", unit: "N/m" },
  { name: "FlexuralRigidity", label: "flexural rigidity", si: "kg·m³·s⁻²", unit: "N·m²" },
  { name: "DynamicViscosity", label: "dynamic viscosity", si: "kg·m⁻¹·s⁻¹", unit: "Pa·s" },
  { name: "Work", label: "energy or torque", si: "kg·m²·s⁻²", unit: "J" },
  { name: "Energy", label: "energy", si: "kg·m²·s⁻²", kind: "energy", unit: "J" },
  { name: "Torque", label: "torque", si: "kg·m²·s⁻²", kind: "torque", unit: "N·m" },
  { name: "SpecificEnergy", label: "specific energy", si: "m²·s⁻²", unit: "J/kg" },
  { name: "Power", label: "power", si: "kg·m²·s⁻³", unit: "W" },
  { name: "PowerRate", label: "power rate", si: "kg·m²·s⁻⁴", unit: "W/s" },
  // acoustics
  { name: "SquaredPressure", label: "squared pressure", si: "kg²·m⁻²·s⁻⁴", unit: "Pa²" },
  { name: "SoundExposure", label: "sound exposure", si: "kg²·m⁻²·s⁻³", unit: "Pa²·s" },
  { name: "AcousticImpedance", label: "acoustic impedance", si: "kg·m⁻²·s⁻¹", unit: "Pa·s/m" },
  { name: "SquaredPressurePerPower", label: "squared pressure per power", si: "kg·m⁻⁴·s⁻¹", unit: "Pa²/W" },
  { name: "PressurePerVoltage", label: "pressure per voltage", si: "m⁻³·s·A", unit: "Pa/V" },
  // heat
  { name: "Kelvins", label: "kelvins", si: "K", unit: "K" },
  { name: "Temperature", label: "temperature", si: "K", kind: "temperature", unit: "K" },
  { name: "TemperatureDifference", label: "temperature difference", si: "K", kind: "difference", unit: "K" },
  { name: "TemperatureCoefficient", label: "temperature coefficient", si: "K⁻¹", unit: "1/K" },
  { name: "ThermalResistance", label: "thermal resistance", si: "kg⁻¹·m⁻²·s³·K", unit: "K/W" },
  { name: "ThermalConductance", label: "thermal conductance", si: "kg·m²·s⁻³·K⁻¹", unit: "W/K" },
  { name: "ThermalConductivity", label: "thermal conductivity", si: "kg·m·s⁻³·K⁻¹", unit: "W/(m·K)" },
  { name: "HeatTransferCoefficient", label: "heat transfer coefficient", si: "kg·s⁻³·K⁻¹", unit: "W/(m²·K)" },
  { name: "HeatFlux", label: "heat flux", si: "kg·s⁻³", unit: "W/m²" },
  { name: "HeatCapacity", label: "heat capacity", si: "kg·m²·s⁻²·K⁻¹", unit: "J/K" },
  { name: "SpecificHeat", label: "specific heat", si: "m²·s⁻²·K⁻¹", unit: "J/(kg·K)" },
  // electricity and magnetism
  { name: "Current", label: "current", si: "A", unit: "A" },
  { name: "CurrentDensity", label: "current density", si: "m⁻²·A", unit: "A/m²" },
  { name: "CurrentSlope", label: "current slope", si: "s⁻¹·A", unit: "A/s" },
  { name: "CurrentNoiseDensity", label: "current noise density", si: "s^(1/2)·A", unit: "A/√Hz" },
  { name: "Charge", label: "charge", si: "s·A", unit: "C" },
  { name: "SquaredCurrentTime", label: "squared current time", si: "s·A²", unit: "A²·s" },
  { name: "Voltage", label: "voltage", si: "kg·m²·s⁻³·A⁻¹", unit: "V" },
  { name: "SquaredVoltage", label: "squared voltage", si: "kg²·m⁴·s⁻⁶·A⁻²", unit: "V²" },
  { name: "SlewRate", label: "slew rate", si: "kg·m²·s⁻⁴·A⁻¹", unit: "V/s" },
  { name: "VoltageNoiseDensity", label: "voltage noise density", si: "kg·m²·s^(-5/2)·A⁻¹", unit: "V/√Hz" },
  { name: "VoltageTemperatureSlope", label: "voltage per kelvin", si: "kg·m²·s⁻³·A⁻¹·K⁻¹", unit: "V/K" },
  { name: "Resistance", label: "resistance", si: "kg·m²·s⁻³·A⁻²", unit: "Ω" },
  { name: "Conductance", label: "conductance", si: "kg⁻¹·m⁻²·s³·A²", unit: "S" },
  { name: "Resistivity", label: "resistivity", si: "kg·m³·s⁻³·A⁻²", unit: "Ω·m" },
  { name: "Conductivity", label: "conductivity", si: "kg⁻¹·m⁻³·s³·A²", unit: "S/m" },
  { name: "Capacitance", label: "capacitance", si: "kg⁻¹·m⁻²·s⁴·A²", unit: "F" },
  { name: "Permittivity", label: "permittivity", si: "kg⁻¹·m⁻³·s⁴·A²", unit: "F/m" },
  { name: "Inductance", label: "inductance", si: "kg·m²·s⁻²·A⁻²", unit: "H" },
  { name: "Permeability", label: "permeability", si: "kg·m·s⁻²·A⁻²", unit: "H/m" },
  { name: "ElectricField", label: "electric field", si: "kg·m·s⁻³·A⁻¹", unit: "V/m" },
  { name: "MagneticField", label: "magnetic field", si: "m⁻¹·A", unit: "A/m" },
  { name: "MagneticFlux", label: "magnetic flux", si: "kg·m²·s⁻²·A⁻¹", unit: "Wb" },
  { name: "MagneticFluxDensity", label: "magnetic flux density", si: "kg·s⁻²·A⁻¹", unit: "T" },
  // light
  { name: "LuminousFlux", label: "luminous flux", si: "cd", kind: "flux", unit: "lm" },
  { name: "LuminousIntensity", label: "luminous intensity", si: "cd", kind: "intensity", unit: "cd" },
  { name: "Illuminance", label: "illuminance", si: "m⁻²·cd", kind: "illuminance", unit: "lx" },
  { name: "Luminance", label: "luminance", si: "m⁻²·cd", kind: "luminance", unit: "cd/m²" },
  { name: "LuminousEfficacy", label: "luminous efficacy", si: "kg⁻¹·m⁻²·s³·cd", unit: "lm/W" },
  { name: "IntensityPerCurrent", label: "intensity per current", si: "A⁻¹·cd", unit: "cd/A" },
  // amount of substance
  { name: "AmountOfSubstance", label: "amount of substance", si: "mol", unit: "mol" },
  { name: "MolarEnergy", label: "molar energy", si: "kg·m²·s⁻²·mol⁻¹", unit: "J/mol" },
  { name: "MolarHeat", label: "molar heat", si: "kg·m²·s⁻²·K⁻¹·mol⁻¹", unit: "J/(mol·K)" },
  { name: "MolarMass", label: "molar mass", si: "kg·mol⁻¹", unit: "kg/mol" },
];

/** The key of a dimension: its SI string, with `|kind` where it has one. */
export function keyOf(row: { readonly si: string; readonly kind?: string }): string {
  return row.kind === undefined ? row.si : `${row.si}|${row.kind}`;
}
