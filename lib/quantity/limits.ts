/** The limits of a spread, in SI or in a unit: what a worst case and a display need. */
import { fromLevel, toLevel } from "./level";
import type { LogScale, Spread } from "./spread";

/** Lowest and highest SI value that a spread allows about a nominal SI value; both the nominal where it is exact. */
export function limitsOf(spread: Spread, nominal: number): readonly [low: number, high: number] {
  const [low, high] = ownLimits(spread, nominal);
  const scale = scaleOf(spread);
  return scale === undefined ? [low, high] : [fromLevel(low, scale), fromLevel(high, scale)];
}

/** The same on the spread's own scale: levels where it is stated in decibels or as a factor, else SI. Normal: nominal ± coverage·σ. */
export function ownLimits(spread: Spread, nominal: number): readonly [low: number, high: number] {
  if (spread.kind === "exact") return [nominal, nominal];
  if (spread.kind === "discrete") return [Math.min(...spread.values), Math.max(...spread.values)];
  if (spread.kind !== "normal") return [spread.low, spread.high];
  const centre = spread.scale === undefined ? nominal : toLevel(nominal, spread.scale);
  const half = spread.sigma * spread.coverage;
  return [centre - half, centre + half];
}

/** The scale of a spread stated as a factor, `×/÷ 3`: log x = 20·lg(x in the coherent unit). */
export const factorScale: LogScale = { factor: 20, reference: 1 };

/** Below 0 K by more than the rounding of a conversion. */
export function isBelowZero(kelvin: number): boolean {
  return kelvin < -1e-9;
}

/** The logarithmic scale on which a spread is stated, if it is. */
export function scaleOf(spread: Spread): LogScale | undefined {
  return spread.kind === "exact" || spread.kind === "discrete" ? undefined : spread.scale;
}
