/** The limits of a spread, in SI or in a unit: what a worst case and a display need. */
import { fromLevel, toLevel } from "./scale";
import type { LogScale, Spread } from "./spread";

/** Lowest and highest SI value that a spread allows about a nominal SI value; both the nominal where it is exact. */
export function limitsOf(spread: Spread, nominal: number): readonly [low: number, high: number] {
  const [low, high] = ownLimits(spread, nominal);
  const scale = scaleOf(spread);
  return scale === undefined ? [low, high] : [fromLevel(low, scale), fromLevel(high, scale)];
}

/** The same on the spread's own scale: levels where it is stated in decibels, else SI. Normal: nominal ± coverage·σ. */
export function ownLimits(spread: Spread, nominal: number): readonly [low: number, high: number] {
  if (spread.kind === "exact") return [nominal, nominal];
  if (spread.kind !== "normal") return [spread.low, spread.high];
  const centre = spread.scale === undefined ? nominal : toLevel(nominal, spread.scale);
  const half = spread.sigma * spread.coverage;
  return [centre - half, centre + half];
}

/** The logarithmic scale on which a spread is stated, if it is. */
export function scaleOf(spread: Spread): LogScale | undefined {
  return spread.kind === "exact" ? undefined : spread.scale;
}
