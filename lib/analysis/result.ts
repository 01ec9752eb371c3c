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
  /** Present where the spread is of knowledge; else it is of production. */
  readonly kind?: "knowledge";
}

export interface Analysis {
  readonly node: NodeId;
  readonly nominal: number;
  /** Null when nothing that it depends on has a spread. */
  readonly worst: WorstCase | null;
  /** Of units, what is not known at its best estimate. */
  readonly interval: Interval | null;
  /** What the middle unit could be: 95 % of what is not known, production at its nominal. Absent where all is known. */
  readonly doubt?: Interval;
  readonly contributions: readonly Contribution[];
  /** Combined standard uncertainty of the tolerances of both kinds to first order, SI. JCGM 100:2008 5.1.2. */
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
 * has a limit. "too close to call": the error of the sampling does not let it be told on which side of the limit the deciding value lies.
 */
export type VerdictWord = "holds" | "holds for 95 %" | "not sure" | "too close to call" | "does not hold" | "not shown";

/**
 * What is not known, beside a verdict for 95 %: at least 95 % of production within the limit, with 95 % confidence over what is not known.
 * `deciding` and `margin` of the verdict are with the doubt, its `probability` at the best estimate.
 */
export interface Doubted {
  /** The value that would decide, and its margin, if the best estimate were true. SI. */
  readonly best: { readonly deciding: number; readonly margin: number };
  /** The share of units within the limit if the truth is as bad as is to be allowed for: no worse with 95 % confidence. */
  readonly share: number;
  /** How likely the truth is one with which 95 % of units keep the limit. */
  readonly confidence: number;
  /** Of the deciding value, SI difference: by the sampling. */
  readonly standardError: number;
}

export interface Verdict {
  readonly verdict: VerdictWord;
  readonly judged: JudgedBy;
  /** The value that decided: worst case, quantile or nominal. SI. */
  readonly deciding: number;
  /** Distance from the deciding value to the limit, positive inside. SI difference (a ratio for dB units). */
  readonly margin: number;
  /** Share of units that meet the limit at the worst range point, and the lower 95 % bound of its sampling. */
  readonly probability?: { readonly estimate: number; readonly lower: number };
  /** Of a result that rests on what is not known, for 95 %. */
  readonly doubted?: Doubted;
  /** Range point that decided. */
  readonly at?: RangePoint;
  /** Of "not sure", the reason in words. */
  readonly doubt?: string;
  /** Laws behind the result that are used outside their range, as in {@link Analysis}; of a typical value at the nominal point alone. */
  readonly outside?: readonly string[];
}
