/** Compiled, never run: what quantities and units allow, and what they must not. Each expected error is a test. */
import type { CheckedText, FormulaArguments, ResultDim } from "../../lib/formula/text";
import type {
  Capacitance, Charge, Conductance, Current, Dimensionless, Energy, Force, Frequency, HeatCapacity, Length, Power, Pow, Quantity, Resistance, SI,
  Temperature, TemperatureDifference, ThermalResistance, Time, Torque, Unit, Voltage, VoltageNoiseDensity, Work,
} from "../../lib/quantity/quantity";

declare const volt: Unit<Voltage>;
declare const ampere: Unit<Current>;
declare const ohm: Unit<Resistance>;
declare const farad: Unit<Capacitance>;
declare const hertz: Unit<Frequency>;
declare const joule: Unit<Energy>;
declare const newtonMetre: Unit<Torque>;
declare const newton: Unit<Force>;
declare const metre: Unit<Length>;
declare const second: Unit<Time>;
declare const celsius: Unit<Temperature>;
declare const kelvinStep: Unit<TemperatureDifference>;
declare const kelvinPerWatt: Unit<ThermalResistance>;
declare const voltPerRootHertz: Unit<VoltageNoiseDensity>;
declare const anyUnit: Unit<any>;

type Same<A, B> = (<T>() => T extends A ? 1 : 2) extends <T>() => T extends B ? 1 : 2 ? true : false;
declare function same<A, B>(proof: Same<A, B>): void;

export function productsHaveNames(): void {
  const v = volt(3);
  const i = ampere(2);
  const p: Quantity<Power> = v.mul(i);
  const r: Quantity<Resistance> = v.div(i);
  const g: Quantity<Conductance> = i.div(v);
  const q: Quantity<Charge> = farad(1).mul(v);
  const one: Quantity<Dimensionless> = v.div(v);
  const kT: Quantity<Work> = (null! as Quantity<HeatCapacity>).mul(celsius(20));
  same<ReturnType<typeof v.neg>, Quantity<Voltage>>(true);
  const unnamed = v.mul(i).mul(metre(1));
  same<typeof unnamed, Quantity<SI<"kg·m³·s⁻³">>>(true);
  void [p, r, g, q, one, kT];
}

export function powersAndRoots(): void {
  const v = volt(3);
  const w: Quantity<Voltage> = v.pow(2).sqrt();
  const e: Quantity<VoltageNoiseDensity> = v.div(hertz(1).sqrt());
  const back: Quantity<Voltage> = voltPerRootHertz(1).mul(hertz(100).pow(0.5));
  const inverse: Quantity<Conductance> = ohm(1).pow(-1);
  same<Pow<Voltage, -1.5>, SI<"kg^(-3/2)·m⁻³·s^(9/2)·A^(3/2)">>(true);
  // @ts-expect-error quarter powers of units do not exist
  v.sqrt().sqrt();
  // @ts-expect-error nor do they as an exponent
  v.pow(0.25);
  void [w, e, back, inverse];
}

export function sumsNeedOneDimension(): void {
  const v = volt(3);
  const sum: Quantity<Voltage> = v.plus(volt(1)).minus(volt(2));
  // @ts-expect-error a current is no voltage
  v.plus(ampere(1));
  // @ts-expect-error nor may it be subtracted
  v.minus(ampere(1));
  // @ts-expect-error a number is no quantity
  v.plus(1);
  // @ts-expect-error unlike things have no larger one
  v.max(ampere(1));
  // @ts-expect-error and cannot be compared
  v.lessThan(ampere(1));
  // @ts-expect-error not by an operator either
  void (v > ampere(1));
  void (v > volt(1));
  void sum;
}

export function kindsStayApart(): void {
  const energy = joule(1);
  const torque = newtonMetre(1);
  const product = newton(1).mul(metre(1));
  same<typeof product, Quantity<Work>>(true);
  const asTorque: Quantity<Torque> = product.as(newtonMetre);
  const asEnergy: Quantity<Energy> = product.as(joule);
  const sum: Quantity<Energy> = energy.plus(product);
  const other: Quantity<Torque> = product.plus(torque);
  product.in(joule);
  // @ts-expect-error torque is not energy
  energy.plus(torque);
  // @ts-expect-error not by assignment
  const assigned: Quantity<Energy> = torque;
  // @ts-expect-error not even without kind: ask for a unit instead
  const unasked: Quantity<Energy> = product;
  // @ts-expect-error torque is not read in joules
  torque.in(joule);
  // @ts-expect-error a unit of torque is none of energy
  const unit: Unit<Energy> = newtonMetre;
  same<ReturnType<typeof energy.mul>, never>(false);
  void [asTorque, asEnergy, sum, other, assigned, unasked, unit];
}

export function temperaturesArePoints(): void {
  const ambient = celsius(25);
  const step = kelvinStep(3);
  const junction: Quantity<Temperature> = ambient.plus(step).plus(kelvinPerWatt(60).mul(volt(1).mul(ampere(1))));
  const rise: Quantity<TemperatureDifference> = junction.minus(ambient);
  const below: Quantity<Temperature> = ambient.minus(step);
  const hotter: Quantity<Temperature> = ambient.max(junction);
  // @ts-expect-error two temperatures have no sum
  ambient.plus(junction);
  // @ts-expect-error nothing is left of a difference without its temperature
  step.minus(ambient);
  // @ts-expect-error a rise is no temperature
  rise.in(celsius);
  void [below, hotter];
}

export function unknownDimensionsAreLeftToTheRunTime(): void {
  const unknown = anyUnit(1);
  const sum: Quantity<Voltage> = volt(1).plus(unknown);
  const product: Quantity<Power> = volt(1).mul(unknown);
  const read: number = unknown.in(volt) + volt(1).in(anyUnit);
  const square: Quantity<Power> = unknown.mul(unknown).div(volt(1)).plus(volt(1)).pow(0.25).max(unknown);
  const byVariable: Quantity<Power> = volt(1).pow(null! as number);
  void [sum, product, read, unknown.sqrt().sqrt(), square, byVariable];
}

declare function derive<S extends string, A extends FormulaArguments, U extends Unit<any>>(text: CheckedText<S, A, U>, args: A, unit: U): Quantity<ResultDim<S, A, U>>;

export function formulasHaveTheDimensionOfTheirText(): void {
  const given = { V_s: volt(3.3), V_g: volt(2.1), I_g: ampere(0.002), T_a: celsius(25) };
  const R: Quantity<Resistance> = derive("R_g = (V_s - V_g)/I_g", given, ohm);
  const P: Quantity<Power> = derive("V_s*I_g", given, anyUnit);
  const open: Record<string, Quantity<any>> = given;
  const unchecked: Quantity<Resistance> = derive("(V_s - V_g)/I_g", open, ohm);
  // @ts-expect-error a sum of unlike things
  derive("V_s + I_g", given, ohm);
  // @ts-expect-error asked for in another dimension
  derive("(V_s - V_g)/I_g", given, volt);
  // @ts-expect-error a symbol that was not given
  derive("(V_s - V_x)/I_g", given, ohm);
  // @ts-expect-error an open bracket
  derive("((V_s - V_g)/I_g", given, ohm);
  void [R, P, unchecked];
}
