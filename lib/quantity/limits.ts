/** The limits of a spread, in SI or in a unit: what a worst case and a display need. */
import { fromLevel, toLevel } from "./scale";
import type { LogScale, Spread } from "./spread";

/** Lowest and highest SI value that a spread allows about a nominal SI value; both the nominal where it is exact. */
export function limitsOf(spread: Spread, nominal: number): readonly [low: number, high: number] {
  switch (spread.kind) {
    case "exact":
      return [nominal, nominal];
    case "normal":
      return normalLimits(spread.sigma * spread.coverage, nominal, spread.scale);
    default:
      return spread.scale === undefined
        ? [spread.low, spread.high]
        : [fromLevel(spread.low, spread.scale), fromLevel(spread.high, spread.scale)];
  }
}

function normalLimits(half: number, nominal: number, scale: LogScale | undefined): readonly [number, number] {
  if (scale === undefined) return [nominal - half, nominal + half];
  const center = toLevel(nominal, scale);
  return [fromLevel(center - half, scale), fromLevel(center + half, scale)];
}
