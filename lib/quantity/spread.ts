/**
 * The spread of a given: how far units of a product differ from one another (a tolerance), or which
 * conditions of use every unit meets (a range). Numbers are coherent SI, except where `scale` says that they
 * are levels in decibels: a ± stated in dB is rectangular in dB.
 * Sources: JCGM 101:2008 6.4 (distributions), ISO 80000-1 (levels).
 */

/** A logarithmic scale: level = factor · log10(x / reference). factor is 10 (power) or 20 (root-power). */
export interface LogScale {
  readonly factor: 10 | 20;
  /** In coherent SI. */
  readonly reference: number;
}

interface Scaled {
  /** Present when the numbers of this spread are levels on this scale instead of SI values. */
  readonly scale?: LogScale;
}

/** Every unit has exactly this value. */
export interface Exact {
  readonly kind: "exact";
}

/** Anywhere between two limits with equal probability: the meaning of a bare ±. JCGM 101 6.4.2. */
export interface Rectangular extends Scaled {
  readonly kind: "rectangular";
  readonly low: number;
  readonly high: number;
}

/** Normal about the nominal with standard deviation `sigma`; worst-case limits at nominal ± `coverage`·sigma. */
export interface Normal extends Scaled {
  readonly kind: "normal";
  readonly sigma: number;
  /** How many sigma the stated limits are away: 3 unless stated otherwise. */
  readonly coverage: number;
}

/** Symmetric or skewed triangle with its mode at the nominal. JCGM 101 6.4.5. */
export interface Triangular extends Scaled {
  readonly kind: "triangular";
  readonly low: number;
  readonly high: number;
}

/**
 * min/typ/max and unequal limits (+0.2/−0.1): half of the units below the nominal, half above, each half
 * rectangular. The nominal is the median.
 */
export interface Split extends Scaled {
  readonly kind: "split";
  readonly low: number;
  readonly high: number;
}

/** A condition of use that every unit meets: never drawn at random. */
export interface Range extends Scaled {
  readonly kind: "range";
  readonly low: number;
  readonly high: number;
}

export type Spread = Exact | Rectangular | Normal | Triangular | Split | Range;
