/**
 * The spread of a given: how far units of a product differ from one another (a tolerance), or which
 * conditions of use every unit meets (a range). Numbers are coherent SI, except where `scale` says that they
 * are levels in decibels: a ± stated in dB is rectangular in dB.
 * Sources: JCGM 101:2008 6.4 (distributions), ISO 80000-1 (levels).
 */

/**
 * A logarithmic scale: level = factor · log10(x / reference). factor is 10 (power) or 20 (root-power). A spread stated as
 * a factor, `10 nA ×/÷ 3`, stands on the scale of factor 20 about the coherent unit: normal there is log-normal.
 */
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

interface Reliable {
  /**
   * Degrees of freedom ν of the standard uncertainty, at least 1; absent where it is taken as known. JCGM 100:2008 G.4.2 (readings:
   * n − 1) and G.4.3 (an uncertainty itself known to one part in √(2ν)).
   */
  readonly freedom?: number;
}

/** Anywhere between two limits with equal probability: the meaning of a bare ±. JCGM 101 6.4.2. `freedom` counts in ν_eff alone. */
export interface Rectangular extends Scaled, Reliable {
  readonly kind: "rectangular";
  readonly low: number;
  readonly high: number;
}

/**
 * Normal about the nominal with standard deviation `sigma`; worst-case limits at nominal ± `coverage`·sigma. With `freedom` the draws
 * follow nominal + sigma·t, Student's t of ν degrees of freedom (JCGM 101 6.4.9), sigma being the standard uncertainty of the budget.
 */
export interface Normal extends Scaled, Reliable {
  readonly kind: "normal";
  readonly sigma: number;
  /** How many sigma the stated limits are away: 3 unless stated otherwise. */
  readonly coverage: number;
}

/** Symmetric or skewed triangle with its mode at the nominal. JCGM 101 6.4.5. */
interface Triangular extends Scaled {
  readonly kind: "triangular";
  readonly low: number;
  readonly high: number;
}

/**
 * min/typ/max and unequal limits (+0.2/−0.1): half of the units below the nominal, half above, each half
 * rectangular. The nominal is the median.
 */
interface Split extends Scaled {
  readonly kind: "split";
  readonly low: number;
  readonly high: number;
}

/** One of a list of values, such as the bins that a maker sorts into. Each unit has one of them. Nominal: the first listed unless stated. */
export interface Discrete {
  readonly kind: "discrete";
  /** In coherent SI, as listed; all different. */
  readonly values: readonly number[];
  /** Shares of the units in the order of `values`, their sum 1; absent where all are equally likely. */
  readonly shares?: readonly number[];
}

/** A condition of use that every unit meets: never drawn at random. */
interface Range extends Scaled {
  readonly kind: "range";
  readonly low: number;
  readonly high: number;
}

export type Spread = Exact | Rectangular | Normal | Triangular | Split | Discrete | Range;
