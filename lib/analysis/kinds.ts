/**
 * The two kinds of spread of a given. Production: units differ from one another. Knowledge: one true value that we do not have, the same
 * in every unit. A given has one of them, or both: its tolerance, and a doubt beside it that adds to it on the scale of the spread
 * (x = draw + doubt − nominal; in decibels or as a factor levels are added).
 */
import { wholeId } from "../graph/identity";
import type { GivenNode, NodeId } from "../graph/node";
import { fromLevel, toLevel } from "../quantity/level";
import { scaleOf } from "../quantity/limits";
import { drawer, isTolerance } from "./distribution";
import { sourceOf } from "./shared";

export type SpreadKind = "production" | "knowledge";

/** What of the givens is drawn, the rest being at its nominal. */
export type Drawn = SpreadKind | "both";

/** A given with the spread of one kind alone. */
export interface SpreadPart {
  /** Of a doubt beside a tolerance with a name of its own, by which it draws apart. */
  readonly node: GivenNode;
  readonly given: NodeId;
  readonly kind: SpreadKind;
}

/** The parts that have a width; none of an exact value or a range. */
export function spreadParts(given: GivenNode): readonly SpreadPart[] {
  const { doubt, ...own } = given;
  const kind = given.knowledge === true ? "knowledge" : "production";
  const parts: SpreadPart[] = [{ node: own, given: given.id, kind }];
  if (doubt !== undefined) {
    const { shared: _, ...alone } = own;
    parts.push({
      node: { ...alone, id: `${wholeId(given.id)} doubt`, spread: doubt, knowledge: true },
      given: given.id,
      kind: "knowledge",
    });
  }
  return parts.filter(({ node }) => isTolerance(node));
}

export function hasKind(given: GivenNode, kind: SpreadKind): boolean {
  return spreadParts(given).some((part) => part.kind === kind);
}

/** Fills out[0..n) with draws `start` to `start + n` of a given; undefined where nothing of what is asked has a width. */
export function drawsOf(given: GivenNode, drawn: Drawn, seed: number): ((out: Float64Array, start: number, n: number) => void) | undefined {
  const parts = spreadParts(given).filter(({ kind }) => drawn === "both" || kind === drawn);
  const [first, second] = parts.map(({ node, kind }) => drawer(node, sourceOf(node, seed, kind === "knowledge")));
  if (first === undefined || second === undefined) return first;
  const combine = combined(given);
  let other = new Float64Array(0);
  return (out, start, n) => {
    if (other.length < n) other = new Float64Array(n);
    first(out, start, n);
    second(other, start, n);
    for (let i = 0; i < n; i++) out[i] = combine(out[i] as number, other[i] as number);
  };
}

/** The value of a unit from its draw of production and that of the doubt, both about the nominal, SI. */
export function combined({ nominal, spread }: GivenNode): (unit: number, truth: number) => number {
  const scale = scaleOf(spread);
  if (scale === undefined) return (unit, truth) => unit + (truth - nominal);
  const centre = toLevel(nominal, scale);
  return (unit, truth) => fromLevel(toLevel(unit, scale) + toLevel(truth, scale) - centre, scale);
}
