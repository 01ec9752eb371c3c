/**
 * Formulas and the verdicts on them, worked out by hand from the definitions of the SI units; the compiler and
 * the run time are both held to this one list. `symbols` and `asked` are names of named dimensions, with ` level` behind them for
 * what is stated in decibels; `expected` is the key of the result's dimension, or the sentence that refuses the formula.
 */
import type { Stated } from "../../lib/formula/check";
import { dimension } from "../../lib/quantity/dimension";
import { keyOf, namedDimensions } from "../../lib/quantity/named-dimensions";

export interface FormulaVerdict {
  readonly text: string;
  readonly symbols: Readonly<Record<string, string>>;
  /** The dimension the result is asked for in, where one is. */
  readonly asked?: string;
  readonly expected: string;
}

const volt = "kg·m²·s⁻³·A⁻¹";
const ohm = "kg·m²·s⁻³·A⁻²";
const watt = "kg·m²·s⁻³";
const joule = "kg·m²·s⁻²";
const voltPerRootHertz = "kg·m²·s^(-5/2)·A⁻¹";

const voltage = { V: "Voltage" };
const voltages = { V_1: "Voltage", V_2: "Voltage" };
const currents = { I_1: "Current", I_2: "Current" };
const ohmic = { V: "Voltage", I: "Current", R: "Resistance" };
const divider = { V_in: "Voltage", R_1: "Resistance", R_2: "Resistance" };
const diode = { V_s: "Voltage", V_f: "Voltage", I_f: "Current", R1: "Resistance", R2: "Resistance" };
const network = { R: "Resistance", C: "Capacitance", L: "Inductance", f: "Frequency" };
const heat = { T_a: "Temperature", T_j: "Temperature", dT: "TemperatureDifference", R_th: "ThermalResistance", P: "Power" };
const noise = {
  k: "HeatCapacity",
  T: "Temperature",
  R: "Resistance",
  e_n: "VoltageNoiseDensity",
  B: "Frequency",
  q: "Charge",
  I: "Current",
};
const work = { E: "Energy", M: "Torque", P: "Power", t: "Time", F: "Force", r: "Length" };
const numbers = { x: "Dimensionless", y: "Dimensionless", n: "Dimensionless" };

/** Formulas that have a dimension. */
export const goodFormulas: readonly FormulaVerdict[] = [
  // Ohm's law and dividers
  { text: "R_g = (V_s - V_g)/I_g", symbols: { V_s: "Voltage", V_g: "Voltage", I_g: "Current" }, asked: "Resistance", expected: ohm },
  { text: "V*I", symbols: ohmic, expected: watt },
  { text: "V^2/R", symbols: ohmic, asked: "Power", expected: watt },
  { text: "I^2*R", symbols: ohmic, expected: watt },
  { text: "R_1*R_2/(R_1 + R_2)", symbols: divider, expected: ohm },
  { text: "1/(1/R_1 + 1/R_2)", symbols: divider, expected: ohm },
  { text: "V_out = V_in*R_2/(R_1 + R_2)", symbols: divider, expected: volt },
  { text: "V_in*(R_2/(R_1+R_2))*(1+R_1/R_2)", symbols: divider, expected: volt },
  { text: "((((V))))/R", symbols: ohmic, expected: "A" },
  { text: "R^-1", symbols: ohmic, asked: "Conductance", expected: "kg⁻¹·m⁻²·s³·A²" },
  { text: "rho*l/A", symbols: { rho: "Resistivity", l: "Length", A: "Area" }, expected: ohm },
  // filters, resonance, charge
  { text: "f_c = 1/(2*pi*R*C)", symbols: network, asked: "Frequency", expected: "s⁻¹" },
  { text: "tau = R*C", symbols: network, asked: "Time", expected: "s" },
  { text: "1/(2*pi*sqrt(L*C))", symbols: network, expected: "s⁻¹" },
  { text: "sqrt(L/C)", symbols: network, expected: ohm },
  { text: "2*pi*f*L", symbols: network, expected: ohm },
  { text: "atan(2*pi*f*R*C)", symbols: network, asked: "Angle", expected: "1" },
  { text: "atan2(2*pi*f*L, R)", symbols: network, expected: "1" },
  { text: "0.5*C*V^2", symbols: { C: "Capacitance", V: "Voltage" }, asked: "Energy", expected: joule },
  { text: "C*dV/t", symbols: { C: "Capacitance", dV: "Voltage", t: "Time" }, expected: "A" },
  { text: "V*e^(-t/tau)", symbols: { V: "Voltage", t: "Time", tau: "Time" }, expected: volt },
  { text: "20*log10(V_2/V_1)", symbols: voltages, expected: "1" },
  { text: "ceil(Q/(I*t))", symbols: { Q: "Charge", I: "Current", t: "Time" }, expected: "1" },
  // noise
  { text: "sqrt(4*k*T*R)", symbols: noise, asked: "VoltageNoiseDensity", expected: voltPerRootHertz },
  { text: "e_n*sqrt(B)", symbols: noise, expected: volt },
  { text: "sqrt(e_n^2 + 4*k*T*R)", symbols: noise, expected: voltPerRootHertz },
  { text: "sqrt(2*q*I)", symbols: noise, expected: "s^(1/2)·A" },
  // junctions
  { text: "I_s*(exp(V/(n*V_T)) - 1)", symbols: { I_s: "Current", V: "Voltage", n: "Dimensionless", V_T: "Voltage" }, expected: "A" },
  { text: "n*k*T/q*ln(I/I_s)", symbols: { ...noise, n: "Dimensionless", I_s: "Current" }, expected: volt },
  { text: "I_v/d^2", symbols: { I_v: "LuminousIntensity", d: "Length" }, asked: "Illuminance", expected: "m⁻²·cd" },
  // temperatures and their differences
  { text: "T_j = T_a + R_th*P", symbols: heat, asked: "Temperature", expected: "K|temperature" },
  { text: "T_j - T_a", symbols: heat, expected: "K|difference" },
  { text: "(T_j - T_a)/P", symbols: heat, asked: "ThermalResistance", expected: "kg⁻¹·m⁻²·s³·K" },
  { text: "dT + dT", symbols: heat, expected: "K|difference" },
  { text: "dT + T_a", symbols: heat, expected: "K|temperature" },
  { text: "T_a - dT", symbols: heat, expected: "K|temperature" },
  { text: "T_a + 0*dT", symbols: heat, expected: "K|temperature" },
  { text: "T_j^4 - T_a^4", symbols: heat, expected: "K⁴" },
  { text: "T_a^1.5", symbols: heat, expected: "K^(3/2)" },
  { text: "max(T_a, T_j, T_a + dT)", symbols: heat, expected: "K|temperature" },
  { text: "-dT", symbols: heat, expected: "K|difference" },
  { text: "-T_a", symbols: heat, expected: "K" },
  { text: "abs(T_a)", symbols: heat, expected: "K" },
  { text: "R_th*P", symbols: heat, asked: "TemperatureDifference", expected: "K" },
  { text: "m*c*dT", symbols: { m: "Mass", c: "SpecificHeat", dT: "TemperatureDifference" }, expected: joule },
  { text: "θ_JA*P", symbols: { θ_JA: "ThermalResistance", P: "Power" }, expected: "K" },
  // kinds
  { text: "E + E", symbols: work, expected: `${joule}|energy` },
  { text: "E + P*t", symbols: work, expected: `${joule}|energy` },
  { text: "P*t - E", symbols: work, expected: `${joule}|energy` },
  { text: "F*r + M", symbols: work, expected: `${joule}|torque` },
  { text: "F*r", symbols: work, asked: "Torque", expected: joule },
  { text: "2*E", symbols: work, expected: joule },
  { text: "E^1", symbols: work, expected: joule },
  { text: "E/t", symbols: work, expected: watt },
  { text: "min(f, 1/t)", symbols: { f: "Frequency", t: "Time" }, expected: "s⁻¹|frequency" },
  { text: "V*sin(phi)", symbols: { V: "Voltage", phi: "Angle" }, expected: volt },
  // precedence, signs, brackets, spaces
  { text: "-V^2", symbols: voltage, expected: "kg²·m⁴·s⁻⁶·A⁻²" },
  { text: "P/I/R", symbols: { P: "Power", ...ohmic }, expected: "A" },
  { text: "V/R*R", symbols: ohmic, expected: volt },
  { text: "V/(I*R)", symbols: ohmic, expected: "1" },
  { text: "2^-1*V", symbols: voltage, expected: volt },
  { text: "V*2^-x", symbols: { V: "Voltage", x: "Dimensionless" }, expected: volt },
  { text: "2^x^y", symbols: numbers, expected: "1" },
  { text: "V - -I*R", symbols: ohmic, expected: volt },
  { text: "+V", symbols: voltage, expected: volt },
  { text: " V_1  -\tV_2 ", symbols: voltages, expected: volt },
  { text: "1.6e-19*V", symbols: voltage, expected: volt },
  { text: ".5*V + 1.*V", symbols: voltage, expected: volt },
  { text: "x = 2", symbols: {}, expected: "1" },
  // powers and roots
  { text: "V^(1/2)", symbols: voltage, expected: "kg^(1/2)·m·s^(-3/2)·A^(-1/2)" },
  { text: "V^0.5*V^0.5", symbols: voltage, expected: volt },
  { text: "V^0", symbols: voltage, expected: "1" },
  { text: "A^(3/2)", symbols: { A: "Area" }, expected: "m³" },
  { text: "A^(-(1/2))", symbols: { A: "Area" }, expected: "m⁻¹" },
  { text: "cbrt(v)", symbols: { v: "Volume" }, expected: "m" },
  { text: "v^(1/3)", symbols: { v: "Volume" }, expected: "m" },
  { text: "x^y", symbols: numbers, expected: "1" },
  // functions and conditions
  { text: "min(V_1, V_2)", symbols: voltages, expected: volt },
  { text: "if(V_1 > V_2, V_1, V_2)", symbols: voltages, expected: volt },
  { text: "if((I_1 <= I_2), I_1*x, 0)", symbols: { ...currents, x: "Dimensionless" }, expected: "A" },
  { text: "if(n != 1, x, 2*x)", symbols: numbers, expected: "1" },
  { text: "max(V_1 - V_2, 0)", symbols: voltages, expected: volt },
  { text: "max((0), V_1)", symbols: voltages, expected: volt },
  { text: "V + 0", symbols: voltage, expected: volt },
  { text: "sign(V)*I", symbols: ohmic, expected: "A" },
  { text: "abs(I_1 - I_2)", symbols: currents, expected: "A" },
  { text: "round(x*10)/10 + floor(y)", symbols: numbers, expected: "1" },
  { text: "tanh(x)*log2(n) + cosh(y)", symbols: numbers, expected: "1" },
  // names: a given symbol comes before a constant; no other word has a meaning of its own
  { text: "V*e", symbols: { V: "Voltage", e: "Charge" }, expected: joule },
  { text: "mod*in/to", symbols: { mod: "Dimensionless", in: "Voltage", to: "Resistance" }, expected: "A" },
  { text: "η*ΔV", symbols: { η: "Dimensionless", ΔV: "Voltage" }, expected: volt },
];

/** Formulas that are refused. */
export const badFormulas: readonly FormulaVerdict[] = [
  // sums of unlike things
  { text: "V_s + I_f*R1*R2/V_f", symbols: diode, expected: "✗ cannot add V_s (voltage) and I_f*R1*R2/V_f (resistance)" },
  { text: "V_s - I_f", symbols: diode, expected: "✗ cannot subtract I_f (current) from V_s (voltage)" },
  { text: "V_s + 1", symbols: diode, expected: "✗ cannot add V_s (voltage) and 1 (dimensionless)" },
  { text: "(V_s+I_f)*R1", symbols: diode, expected: "✗ cannot add V_s (voltage) and I_f (current)" },
  { text: "exp(V_s*2 + I_f)", symbols: diode, expected: "✗ cannot add V_s*2 (voltage) and I_f (current)" },
  { text: "V_s - (V_f - (I_f + R1))", symbols: diode, expected: "✗ cannot add I_f (current) and R1 (resistance)" },
  { text: "V_s + ((I_f))", symbols: diode, expected: "✗ cannot add V_s (voltage) and ((I_f)) (current)" },
  { text: "V_s + max(I_f,I_f)", symbols: diode, expected: "✗ cannot add V_s (voltage) and max(I_f, I_f) (current)" },
  { text: "-V_s + -I_f", symbols: diode, expected: "✗ cannot add -V_s (voltage) and -I_f (current)" },
  { text: "E + M", symbols: work, expected: "✗ cannot add E (energy) and M (torque)" },
  { text: "T_a + T_j", symbols: heat, expected: "✗ cannot add T_a and T_j: both are temperatures (add a temperature difference)" },
  { text: "dT - T_a", symbols: heat, expected: "✗ cannot subtract T_a (temperature) from dT (temperature difference)" },
  { text: "R_th*P - T_a", symbols: heat, expected: "✗ cannot subtract T_a (temperature) from R_th*P (kelvins)" },
  { text: "T_a + 0", symbols: heat, expected: "✗ cannot add T_a (temperature) and 0 (dimensionless)" },
  { text: "V*I + V", symbols: ohmic, expected: "✗ cannot add V*I (power) and V (voltage)" },
  { text: "V^2*I + V", symbols: ohmic, expected: "✗ cannot add V^2*I (kg²·m⁴·s⁻⁶·A⁻¹) and V (voltage)" },
  // comparisons
  { text: "max(V_s, I_f)", symbols: diode, expected: "✗ cannot compare V_s (voltage) and I_f (current)" },
  { text: "max(0, V_s, I_f)", symbols: diode, expected: "✗ cannot compare 0 (voltage) and I_f (current)" },
  { text: "min(V_s, V_f, I_f)", symbols: diode, expected: "✗ cannot compare V_s (voltage) and I_f (current)" },
  { text: "atan2(V_s, I_f)", symbols: diode, expected: "✗ cannot compare V_s (voltage) and I_f (current)" },
  { text: "if(V_s > I_f, V_s, V_f)", symbols: diode, expected: "✗ cannot compare V_s (voltage) and I_f (current)" },
  { text: "if(T_a > dT, T_a, T_j)", symbols: heat, expected: "✗ cannot compare T_a (temperature) and dT (temperature difference)" },
  { text: "if(T_a > 0, T_a, T_j)", symbols: heat, expected: "✗ cannot compare T_a (temperature) and 0 (dimensionless)" },
  { text: "max(E, M)", symbols: work, expected: "✗ cannot compare E (energy) and M (torque)" },
  { text: "if(V_s, I_f, I_f)", symbols: diode, expected: "✗ if() needs a condition such as a > b, got V_s" },
  { text: "if(V_s > V_f, V_s, I_f)", symbols: diode, expected: "✗ if() cannot give V_s (voltage) or I_f (current)" },
  { text: "V_s > V_f", symbols: diode, expected: "✗ V_s > V_f is a condition, not a value" },
  { text: "(V_s>=V_f)*I_f", symbols: diode, expected: "✗ (V_s >= V_f) is a condition, not a value" },
  { text: "if(1 < x < 2, x, y)", symbols: numbers, expected: "✗ 1 < x is a condition, not a value" },
  { text: "max(V_s == V_f, x)", symbols: { ...diode, x: "Dimensionless" }, expected: "✗ V_s == V_f is a condition, not a value" },
  // functions
  { text: "exp(T/C)", symbols: { T: "Time", C: "Capacitance" }, expected: "✗ exp() needs a dimensionless argument, got T/C (resistance)" },
  { text: "sin(V)", symbols: voltage, expected: "✗ sin() needs a dimensionless argument, got V (voltage)" },
  { text: "ceil((I_1))", symbols: currents, expected: "✗ ceil() needs a dimensionless argument, got (I_1) (current)" },
  { text: "ln(E)", symbols: work, expected: "✗ ln() needs a dimensionless argument, got E (energy)" },
  { text: "sqrt(V, I)", symbols: ohmic, expected: "✗ sqrt() takes 1 value, got 2" },
  { text: "atan2(V)", symbols: ohmic, expected: "✗ atan2() takes 2 values, got 1" },
  { text: "if(V > V, V)", symbols: ohmic, expected: "✗ if() takes 3 values, got 2" },
  { text: "max(V)", symbols: ohmic, expected: "✗ max() takes 2 values or more, got 1" },
  { text: "foo(V)", symbols: ohmic, expected: "✗ unknown function 'foo'" },
  { text: "constructor(V)", symbols: ohmic, expected: "✗ unknown function 'constructor'" },
  { text: "foo(V + I)", symbols: ohmic, expected: "✗ unknown function 'foo'" },
  { text: "log(x)", symbols: numbers, expected: "✗ log() is ambiguous: write ln() or log10()" },
  // powers
  { text: "V_s^w", symbols: { V_s: "Voltage", w: "Dimensionless" }, expected: "✗ exponent w of V_s (voltage) must be a literal number" },
  { text: "V^(1+1)", symbols: voltage, expected: "✗ exponent (1 + 1) of V (voltage) must be a literal number" },
  { text: "(V*V)^pi", symbols: voltage, expected: "✗ exponent pi of (V*V) (squared voltage) must be a literal number" },
  { text: "x^I", symbols: { x: "Dimensionless", I: "Current" }, expected: "✗ exponent I of x must be dimensionless, got current" },
  { text: "2^V", symbols: voltage, expected: "✗ exponent V of 2 must be dimensionless, got voltage" },
  { text: "V^0.44", symbols: voltage, expected: "✗ V^0.44: powers of units must be whole or half, V is voltage" },
  { text: "V^(1/3)", symbols: voltage, expected: "✗ V^(1/3): powers of units must be whole or half, V is voltage" },
  { text: "sqrt(e_n)", symbols: noise, expected: "✗ sqrt(e_n): powers of units must be whole or half, e_n is voltage noise density" },
  { text: "cbrt(A)", symbols: { A: "Area" }, expected: "✗ cbrt(A): powers of units must be whole or half, A is area" },
  // symbols
  { text: "(V_s - V_x)/I_f", symbols: diode, expected: "✗ unknown symbol 'V_x'" },
  { text: "V + I + Z", symbols: ohmic, expected: "✗ cannot add V (voltage) and I (current)" },
  { text: "2V", symbols: voltage, expected: "✗ unknown symbol '2V'" },
  { text: "2*π*V", symbols: voltage, expected: "✗ unknown symbol 'π'" },
  { text: "V·V", symbols: voltage, expected: "✗ unknown symbol 'V·V'" },
  { text: "V + 5%", symbols: voltage, expected: "✗ unknown symbol '5%'" },
  { text: "V!", symbols: voltage, expected: "✗ unknown symbol 'V!'" },
  { text: "V[1]", symbols: voltage, expected: "✗ unknown symbol 'V[1]'" },
  { text: "'V'", symbols: voltage, expected: "✗ unknown symbol ''V''" },
  { text: "toString*V", symbols: voltage, expected: "✗ unknown symbol 'toString'" },
  { text: "Infinity*V", symbols: voltage, expected: "✗ unknown symbol 'Infinity'" },
  { text: "1e999*V", symbols: voltage, expected: "✗ unknown symbol '1e999'" },
  { text: "exp*V", symbols: voltage, expected: "✗ unknown symbol 'exp'" },
  // order of tokens
  { text: "V_s - V_f)/I_f", symbols: diode, expected: "✗ unbalanced: ')' without '('" },
  { text: "((V_s - V_f)/I_f", symbols: diode, expected: "✗ unbalanced: '(' without ')'" },
  { text: "max(V_s, V_f", symbols: diode, expected: "✗ unbalanced: '(' without ')'" },
  { text: "V_s * / I_f", symbols: diode, expected: "✗ a value is missing before '/'" },
  { text: "V_s**2", symbols: diode, expected: "✗ a value is missing before '*'" },
  { text: "max()", symbols: diode, expected: "✗ a value is missing before ')'" },
  { text: "max(V_s,,V_f)", symbols: diode, expected: "✗ a value is missing before ','" },
  { text: "V_s +", symbols: diode, expected: "✗ a value is missing at the end" },
  { text: "", symbols: {}, expected: "✗ a value is missing at the end" },
  { text: "R =", symbols: {}, expected: "✗ a value is missing at the end" },
  { text: "V_s I_f", symbols: diode, expected: "✗ an operator is missing before 'I_f'" },
  { text: "2(V_s)", symbols: diode, expected: "✗ an operator is missing before '('" },
  { text: "V_s(V_f)", symbols: diode, expected: "✗ an operator is missing before '('" },
  { text: "(V_s)(V_f)", symbols: diode, expected: "✗ an operator is missing before '('" },
  { text: "3 mm", symbols: {}, expected: "✗ an operator is missing before 'mm'" },
  { text: "V_s; I_f", symbols: diode, expected: "✗ an operator is missing before 'I_f'" },
  { text: "(V_s, I_f)", symbols: diode, expected: "✗ ',' outside a function" },
  { text: "max(V_s, (V_f, V_f))", symbols: diode, expected: "✗ ',' outside a function" },
  { text: "R = V = I", symbols: ohmic, expected: "✗ '=' may only follow the result's name" },
  { text: "f(x) = x", symbols: numbers, expected: "✗ '=' may only follow the result's name" },
  { text: "2 = x", symbols: numbers, expected: "✗ '=' may only follow the result's name" },
  { text: "= x", symbols: numbers, expected: "✗ '=' may only follow the result's name" },
  // results asked for
  { text: "V/R", symbols: ohmic, asked: "Voltage", expected: "✗ V/R is current, not voltage" },
  { text: "P = V*I*R", symbols: ohmic, asked: "Power", expected: "✗ V*I*R is squared voltage, not power" },
  { text: "E", symbols: work, asked: "Torque", expected: "✗ E is energy, not torque" },
  { text: "T_j - T_a", symbols: heat, asked: "Temperature", expected: "✗ T_j - T_a is temperature difference, not temperature" },
  { text: "0", symbols: {}, asked: "Voltage", expected: "✗ 0 is dimensionless, not voltage" },
];

/** All of them. */
export const formulaVerdicts: readonly FormulaVerdict[] = [...goodFormulas, ...badFormulas];

/** What the run time must know of a symbol. The scale of its decibels does not matter to a verdict. */
export function statedOf(name: string): Stated {
  const [dimensionName, level] = name.split(" ");
  const row = namedDimensions.find((candidate) => candidate.name === dimensionName);
  if (row === undefined) throw new Error(`no dimension is named ${dimensionName}`);
  return { dimension: dimension(keyOf(row)), ...(level === undefined ? {} : { log: { factor: 20, reference: 1 } }) };
}
