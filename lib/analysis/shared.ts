/**
 * Correlated givens by a Gaussian copula: each follows a normal score that is a weighted sum of independent scores, one
 * of its own and those that it shares (`GivenNode.shared`), turned into its own distribution by equal probability (NORTA:
 * M. C. Cario and B. L. Nelson, 1997; S. G. Henderson 2003). An independent given draws exactly as if there were no others.
 */
import { isFurtherPart, spelledName, wholeId } from "../graph/identity";
import type { GivenNode, SharedPart } from "../graph/node";
import { type Source, scoresOf } from "./distribution";
import { normalProbability } from "./normal";
import { StratifiedStream } from "./stratified";
import { Stream } from "./stream";

/** A variance of a score smaller than this is rounding. */
const nothing = 1e-9;
/** Probabilities stay inside (0, 1): half a step of a double away from 1. */
const least = 2 ** -54;

/** What draws a given: its own stream, or the scores that it shares; `stratified`: spread evenly over each block of rows. */
export function sourceOf(given: GivenNode, seed: number, stratified = false): Source {
  const stream = (key: string): Source => new (stratified ? StratifiedStream : Stream)(seed, spelledName(key));
  const weights = weightsOf(given);
  if (weights.size === 1 && weights.has(ownKey(given))) return stream(ownKey(given));
  return new SharedScores([...weights].map(([key, weight]) => ({ weight, stream: stream(key) })));
}

/** The score of a given as weights of independent ones, by the key of their stream; the squares sum to 1. */
export function weightsOf(given: GivenNode): ReadonlyMap<string, number> {
  const parts = sharedOf(given);
  const rest = 1 - parts.reduce((sum, { weight }) => sum + weight * weight, 0);
  const weights = new Map(parts.map((part) => [keyOf(part), part.weight]));
  if (rest > nothing) weights.set(ownKey(given), Math.sqrt(rest));
  return weights;
}

/** What is not known of a kind of part is the same in each of its parts: they draw one value. */
function ownKey({ id, knowledge }: GivenNode): string {
  return knowledge === true ? wholeId(id) : id;
}

/** Another part of the same path is another specimen: it has in common with others only what all have. */
function sharedOf(given: GivenNode): readonly SharedPart[] {
  const { shared = [] } = given;
  return isFurtherPart(given) && given.knowledge !== true ? shared.filter((part) => "common" in part) : shared;
}

// A cause has a name of its own: no id of a node has a space.
function keyOf(part: SharedPart): string {
  return "common" in part ? `common ${part.common}` : part.with;
}

/** Correlation of the scores of two givens: 0 where they share nothing, ±1 where one determines the other. */
export function scoreCorrelation(a: GivenNode, b: GivenNode): number {
  if (a.id === b.id) return 1;
  const other = weightsOf(b);
  let sum = 0;
  for (const [key, weight] of weightsOf(a)) sum += weight * (other.get(key) ?? 0);
  return Math.abs(sum) < 1e-12 ? 0 : Math.max(-1, Math.min(1, sum));
}

/** Groups of givens that hang together by correlations other than 0, each in the order given; lone ones are left out. */
export function correlatedGroups(givens: readonly GivenNode[]): readonly (readonly GivenNode[])[] {
  if (givens.every(({ shared }) => shared === undefined) && new Set(givens.map(ownKey)).size === givens.length) return [];
  const left = new Set(givens);
  const groups: GivenNode[][] = [];
  for (const first of left) {
    left.delete(first);
    const group = [first];
    for (const member of group) {
      for (const other of left) {
        if (scoreCorrelation(member, other) === 0) continue;
        left.delete(other);
        group.push(other);
      }
    }
    if (group.length > 1) groups.push(group.sort((a, b) => givens.indexOf(a) - givens.indexOf(b)));
  }
  return groups;
}

class SharedScores implements Source {
  private readonly parts: readonly { readonly weight: number; readonly scores: (out: Float64Array, start: number, n: number) => void }[];
  private column = new Float64Array(0);

  constructor(parts: readonly { readonly weight: number; readonly stream: Source }[]) {
    this.parts = parts.map(({ weight, stream }) => ({ weight, scores: scoresOf(stream) }));
  }

  scores(out: Float64Array, start: number, n: number): void {
    if (this.column.length < n) this.column = new Float64Array(n);
    out.fill(0, 0, n);
    for (const { weight, scores } of this.parts) {
      scores(this.column, start, n);
      for (let i = 0; i < n; i++) out[i] = (out[i] as number) + weight * (this.column[i] as number);
    }
  }

  fill(out: Float64Array, start: number, n: number): void {
    this.scores(out, start, n);
    for (let i = 0; i < n; i++) out[i] = Math.min(1 - least, Math.max(least, normalProbability(out[i] as number)));
  }
}
