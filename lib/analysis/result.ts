/** What the analyses of one result give: plain data in coherent SI, stored in results.json with 12 digits. */
import type { NodeId } from "../graph/node";

/** Values of givens (by node id) at which an extreme or a range point lies. */
export type RangePoint = Readonly<Record<NodeId, number>>;

export interface WorstCase {
  readonly low: number;
  readonly high: number;
  readonly lowAt: RangePoint;
  readonly highAt: RangePoint;
  /** True where an extreme was found inside the limits by search: the law is not monotone there. */
  readonly searched: boolean;
  /** What no value inside the limits can pass, found without trying points; absent where nothing finite is known. */
  readonly bounds?: Bounds;
  /** Why a lower value may have been missed, in words; absent where there is no cause to think so. */
  readonly lowDoubt?: string;
  /** The same of a higher one. */
  readonly highDoubt?: string;
}

/** An enclosure of a result, SI. Where it meets the worst case, that is proved. */
export interface Bounds {
  readonly low: number;
  readonly high: number;
  /** Models whose declared ways it rests on. */
  readonly given?: readonly string[];
}

export interface Interval {
  readonly low: number;
  readonly high: number;
  /** The range point at which it was taken; absent when it is the union over the range, or there is no range. */
  readonly at?: RangePoint;
  readonly samples: number;
}

export interface Contribution {
  readonly given: NodeId;
  /**
   * Share of the variance (GUM uncertainty budget, JCGM 100:2008 5.1). Shares sum to 1. Of correlated givens each covariance is halved
   * between the two (5.2.2), so that one which makes the spread smaller can have a negative share.
   */
  readonly share: number;
  /** ∂result/∂given at the nominal point, SI. */
  readonly sensitivity: number;
}

export interface Analysis {
  readonly node: NodeId;
  readonly nominal: number;
  /** Null when nothing that it depends on has a spread. */
  readonly worst: WorstCase | null;
  readonly interval: Interval | null;
  readonly contributions: readonly Contribution[];
  /** Combined standard uncertainty of the tolerances to first order, SI. JCGM 100:2008 5.1.2. */
  readonly standardUncertainty: number;
  readonly frozen: boolean;
  /** Laws behind the result, its own among them, that are used outside their range: `R = V/I: V is 5 V here; the law holds up to 4 V`. */
  readonly outside?: readonly string[];
  /** Present where a given states degrees of freedom of its uncertainty. */
  readonly expanded?: Expanded;
  /** Sentences for the document: outside validity, first order and sampling disagree, table left. */
  readonly warnings: readonly string[];
}

/** Expanded uncertainty U = k·u to first order, k being Student's t for the effective degrees of freedom. JCGM 100:2008 6.2 and annex G. */
export interface Expanded {
  /** U, SI: the result is stated as nominal ± U. */
  readonly uncertainty: number;
  /** k. */
  readonly coverage: number;
  readonly probability: number;
  /** ν_eff by Welch and Satterthwaite; null where no given states degrees of freedom: k is then the normal quantile. */
  readonly freedom: number | null;
}

/** The share of units that meet several limits at once. */
export interface Yield {
  readonly estimate: number;
  /** One-sided 95 % bounds of its sampling (Wilson). */
  readonly lower: number;
  readonly upper: number;
  readonly samples: number;
  /** The share that meets each limit by itself, in the order asked. */
  readonly each: readonly number[];
}

export type JudgedBy = "worst case" | "95 %" | "typical";

/** A limit that a result is held against. SI. One of low and high may be absent. */
export interface Limit {
  readonly low?: number;
  readonly high?: number;
}

/**
 * "not sure": no value beyond the limit was found, but the search for the worst case has cause for doubt (`Verdict.doubt`) at an end that
 * has a limit.
 */
export type VerdictWord = "holds" | "holds for 95 %" | "not sure" | "does not hold" | "not shown";

export interface Verdict {
  readonly verdict: VerdictWord;
  readonly judged: JudgedBy;
  /** The value that decided: worst case, quantile or nominal. SI. */
  readonly deciding: number;
  /** Distance from the deciding value to the limit, positive inside. SI difference (a ratio for dB units). */
  readonly margin: number;
  /** Share of units that meet the limit at the worst range point, and the lower 95 % bound of its sampling. */
  readonly probability?: { readonly estimate: number; readonly lower: number };
  /** Range point that decided. */
  readonly at?: RangePoint;
  /** Of "not sure", the reason in words. */
  readonly doubt?: string;
  /** Laws behind the result that are used outside their range, as in {@link Analysis}; of a typical value at the nominal point alone. */
  readonly outside?: readonly string[];
}
