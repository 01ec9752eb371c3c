/** Whether the ends of a worst case are proved, by bounds that nothing passes, or were only searched. */
import type { WorstCase } from "./result";

export type Shown = "proved" | "searched";

export interface Proof {
  readonly low: Shown;
  readonly high: Shown;
  /** Models on whose stated ways a proof rests. */
  readonly given?: readonly string[];
}

/** An end that lies nearer to its bound than this share of the whole worst case is as good as proved: the bound may lie that much further out. */
const near = 1e-3;

export function proofOf({ low, high, bounds }: WorstCase): Proof {
  const gap = near * (high - low);
  const isMet = (beyond: number): Shown => (beyond <= gap ? "proved" : "searched");
  const ends = bounds === undefined ? searched : { low: isMet(low - bounds.low), high: isMet(bounds.high - high) };
  const isProved = ends.low === "proved" || ends.high === "proved";
  return isProved && bounds?.given !== undefined ? { ...ends, given: bounds.given } : ends;
}

const searched: Proof = { low: "searched", high: "searched" };

/** `proved`, `proved, given the ways stated by battery.runtimeAtPower`, `searched`, `low end searched, high end proved`. */
export function proofText(worst: WorstCase): string {
  const { low, high, given } = proofOf(worst);
  const ends = low === high ? low : `low end ${low}, high end ${high}`;
  return given === undefined ? ends : `${ends}, given the ways stated by ${given.join(", ")}`;
}
