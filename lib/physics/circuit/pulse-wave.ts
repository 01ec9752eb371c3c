/** Values of a pulse made of Heidler's terms (F. Heidler, "Analytische Blitzstromfunktion", 18th ICLP, Munich 1985; from memory). */
import { exp } from "../../quantity/elementary";
import { power } from "../../quantity/power";
import type { PulseWave } from "./data";

/** The pulse at t (s), in the unit of its peaks; 0 before its start. */
export function pulseAt({ scale, terms }: PulseWave, t: number): number {
  if (!(t > 0)) return 0;
  let sum = 0;
  for (const { peak, rise, fall, power: n } of terms) {
    const x = power(t / rise, n);
    sum += peak * (x / (1 + x)) * exp(-t / fall);
  }
  return scale * sum;
}
