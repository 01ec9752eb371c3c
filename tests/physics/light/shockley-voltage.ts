/** The exponential junction solved for its voltage, closed: what the solver of the current is held against. */
import { thermalVoltage } from "../../../lib/physics/constants";
import type { Junction } from "../../../lib/physics/light/shockley";

/** Voltage of a junction diode that carries I (A, > −I_s) at T (K). */
export function shockleyVoltage(I: number, diode: Junction, T: number): number {
  return diode.n * thermalVoltage(T) * Math.log1p(I / diode.I_s) + I * diode.R_s;
}
