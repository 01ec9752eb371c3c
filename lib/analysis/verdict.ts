/** Verdicts: a result held against a limit. */
import type { GraphNode } from "../graph/node";
import { unitOf } from "../quantity/unit";
import { distanceError, distanceInside, shareWithin } from "./interval";
import type { NestedShare } from "./nested";
import type { Bounds, JudgedBy, Limit, RangePoint, Verdict, VerdictWord, WorstCase } from "./result";

/** The worst first. */
const order: readonly VerdictWord[] = ["does not hold", "not shown", "too close to call", "not sure", "holds for 95 %", "holds"];

/** Of several answers to one requirement the worst decides. */
export function worstOf(words: readonly VerdictWord[]): VerdictWord {
  return order.find((word) => words.includes(word)) ?? "not shown";
}

export function worseThan(word: VerdictWord, other: VerdictWord): boolean {
  return order.indexOf(word) < order.indexOf(other);
}

/** The least of these at which the lower bound of the share of good units lets a requirement hold. */
const requiredShare = 0.95;

/** A margin within so many standard errors of its sampling is too close to call. */
const tooClose = 2;

/** By the nominal value alone. */
export function typicalVerdict(node: GraphNode, value: number, limit: Limit): Verdict {
  return plainVerdict(node, "typical", value, limit, undefined);
}

/**
 * By the extreme that lies nearer to, or further beyond, its limit. What would hold is not sure where the search doubts the extreme
 * on a side that has a limit.
 */
export function worstCaseVerdict(node: GraphNode, worst: WorstCase, limit: Limit): Verdict {
  const { low, high, lowAt, highAt } = worst;
  const isLow = distanceInside(low, limit) <= distanceInside(high, limit);
  const verdict = plainVerdict(node, "worst case", isLow ? low : high, limit, isLow ? lowAt : highAt);
  const doubt = isInside(worst.bounds, limit) ? undefined : doubtOf(worst, limit);
  return verdict.verdict === "holds" && doubt !== undefined ? { ...verdict, verdict: "not sure", doubt } : verdict;
}

/** What nothing can pass lies inside the limit: an extreme that a search may have missed does as well. */
function isInside(bounds: Bounds | undefined, limit: Limit): boolean {
  return bounds !== undefined && distanceInside(bounds.low, limit) >= 0 && distanceInside(bounds.high, limit) >= 0;
}

function doubtOf({ lowDoubt, highDoubt }: WorstCase, limit: Limit): string | undefined {
  const doubts = [
    ...(limit.low !== undefined && lowDoubt !== undefined ? [`a lower value may have been missed: ${lowDoubt}`] : []),
    ...(limit.high !== undefined && highDoubt !== undefined ? [`a higher value may have been missed: ${highDoubt}`] : []),
  ];
  return doubts.length === 0 ? undefined : doubts.join("; ");
}

/** Whether a verdict lets a requirement count as kept. */
export function isKept({ verdict }: Pick<Verdict, "verdict">): boolean {
  return verdict === "holds" || verdict === "holds for 95 %";
}

/** By the draws at the range point with the fewest good units, and of equal ones the least margin. */
export function shareVerdict(
  node: GraphNode,
  draws: readonly { readonly at: RangePoint; readonly values: Float64Array }[],
  limit: Limit,
): Verdict {
  const shares = draws.map(({ at, values }) => ({ at, ...shareWithin(values, limit) }));
  const worst = shares.reduce((a, b) => (isWorse(b, a, limit) ? b : a));
  const { estimate, lower, upper, deciding, at } = worst;
  const verdict = {
    verdict: lower >= requiredShare ? "holds for 95 %" : upper >= requiredShare ? "too close to call" : "does not hold",
    judged: "95 %",
    deciding,
    margin: marginOf(node, deciding, limit),
    probability: { estimate, lower },
  } as const;
  return Object.keys(at).length === 0 ? verdict : { ...verdict, at };
}

/** By the deciding value with its standard error, what is not known being drawn apart from production. */
export function doubtedVerdict(
  node: GraphNode,
  { at, deciding, distance, standardError, share, confidence }: NestedShare,
  units: Float64Array,
  limit: Limit,
): Verdict {
  const best = shareWithin(units, limit);
  const isClose = Math.abs(distance) <= tooClose * standardError;
  const verdict = {
    verdict: isClose ? "too close to call" : distance > 0 ? "holds for 95 %" : "does not hold",
    judged: "95 %",
    deciding,
    margin: marginOf(node, deciding, limit),
    probability: { estimate: best.estimate, lower: best.lower },
    doubted: { best: { deciding: best.deciding, margin: marginOf(node, best.deciding, limit) }, share, confidence, standardError },
  } as const;
  return Object.keys(at).length === 0 ? verdict : { ...verdict, at };
}

/** Of a result without a spread of production: every unit is what the truth makes it, and the truths are what is drawn. */
export function truthVerdict(
  node: GraphNode,
  draws: readonly { readonly at: RangePoint; readonly values: Float64Array; readonly best: number }[],
  limit: Limit,
): Verdict {
  const verdict = shareVerdict(node, draws, limit);
  const { values, best } = draws.find(({ at }) => sameAt(at, verdict.at)) as (typeof draws)[number];
  const estimate = distanceInside(best, limit) >= 0 ? 1 : 0;
  return {
    ...verdict,
    probability: { estimate, lower: estimate },
    doubted: {
      best: { deciding: best, margin: marginOf(node, best, limit) },
      share: distanceInside(verdict.deciding, limit) >= 0 ? 1 : 0,
      confidence: verdict.probability?.estimate ?? Number.NaN,
      standardError: distanceError(values, limit),
    },
  };
}

function sameAt(a: RangePoint, b: RangePoint = {}): boolean {
  return Object.keys(a).every((id) => a[id] === b[id]);
}

function isWorse(a: { estimate: number; deciding: number }, b: { estimate: number; deciding: number }, limit: Limit): boolean {
  if (a.estimate !== b.estimate) return a.estimate < b.estimate;
  return distanceInside(a.deciding, limit) < distanceInside(b.deciding, limit);
}

function plainVerdict(node: GraphNode, judged: JudgedBy, deciding: number, limit: Limit, at: RangePoint | undefined): Verdict {
  const holds = distanceInside(deciding, limit) >= 0;
  const verdict = { verdict: holds ? "holds" : "does not hold", judged, deciding, margin: marginOf(node, deciding, limit) } as const;
  return at === undefined ? verdict : { ...verdict, at };
}

/** SI difference to the nearer limit; for a unit in decibels the ratio, 1 at the limit and more inside. */
function marginOf(node: GraphNode, deciding: number, limit: Limit): number {
  if (unitOf(node.unit).log === undefined) return distanceInside(deciding, limit);
  const { low = 0, high = Infinity } = limit;
  return Math.min(deciding / low, high / deciding);
}
