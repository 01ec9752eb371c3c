/** Levels: numbers on a logarithmic scale over a linear quantity. ISO 80000-1 Annex C. */
import { exp, log10 } from "./elementary";
import type { LogScale } from "./spread";

/** Level of a positive SI value; NaN or −∞ for others. */
export function toLevel(si: number, log: LogScale): number {
  return log.factor * log10(si / log.reference);
}

/** SI value of a level. */
export function fromLevel(x: number, log: LogScale): number {
  return log.reference * tenTo(x / log.factor);
}

/** 10^x, exact for whole x. */
function tenTo(x: number): number {
  return Number.isInteger(x) && Math.abs(x) <= 300 ? Number(`1e${x}`) : exp(x * Math.LN10);
}
