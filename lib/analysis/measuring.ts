/** What measuring something that is not known would do to a requirement. */
import type { GivenChange } from "../graph/graph";
import type { GivenNode } from "../graph/node";
import { WorkingsError } from "../quantity/error";
import { ownLimits, scaleOf } from "../quantity/limits";
import type { Spread } from "../quantity/spread";
import { unitOf } from "../quantity/unit";
import type { Evaluation } from "./evaluation";
import type { Demand } from "./just-holds";

export interface Measuring {
  /** Half width of what the measurement leaves: a share of the value, or SI; undefined where a quarter of the doubt is left on its own scale. */
  readonly half: { readonly share: number } | { readonly si: number } | undefined;
  /** Margins, SI (a ratio for dB units): now, and where the measurement confirms the best estimate. */
  readonly before: number;
  readonly after: number;
  /** The measured value, SI, at which the verdict turns; undefined where it does not within the doubt. */
  readonly turnsAt?: number;
}

/** How much of the doubt a measurement is taken to leave, at most. */
const left = 1 / 4;
const steps = 2;
/** Draws where it is asked at which value the verdict turns: a figure of two or three digits. */
export const drawsForTurn = 2000;

/**
 * A measurement with an uncertainty of a quarter of the present doubt, cut down to a digit of 1, 2 or 5. Undefined for a given without
 * doubt, and where the requirement has no margin with it. `rough`: the same book with {@link drawsForTurn} draws.
 */
export function measuring(evaluation: Evaluation, rough: Evaluation, demand: Demand, given: GivenNode): Measuring | undefined {
  const doubt = doubtOf(given);
  if (doubt === undefined) return undefined;
  const [low, high] = ownLimits(doubt, given.nominal);
  const half = halfOf(given, doubt, (high - low) / 2);
  const marginOf = (asked: Evaluation): number => asked.verdict(demand.node, demand.limit, demand.judged).margin;
  const marginAt = (nominal: number, asked: Evaluation): number =>
    marginOf(asked.withChanges({ givens: { [given.path]: measured(given, doubt, nominal, half) } }));
  // Of a unit in decibels the margin is a ratio, 1 at the limit.
  const isRatio = unitOf(evaluation.graph.get(demand.node).unit).log !== undefined;
  const place = (nominal: number): Place => [nominal, marginAt(nominal, rough) - (isRatio ? 1 : 0)];
  try {
    const before = marginOf(evaluation);
    const after = marginAt(given.nominal, evaluation);
    if (scaleOf(doubt) !== undefined) return { half, before, after };
    const turnsAt = crossing(place(low), place(high), place);
    return { half, before, after, ...(turnsAt !== undefined && { turnsAt }) };
  } catch (error) {
    // A value for which a law has no result.
    if (error instanceof WorkingsError) return undefined;
    throw error;
  }
}

function doubtOf({ spread, doubt, knowledge }: GivenNode): Exclude<Spread, { kind: "exact" | "range" | "discrete" }> | undefined {
  const own = knowledge === true ? spread : doubt;
  return own === undefined || own.kind === "exact" || own.kind === "range" || own.kind === "discrete" ? undefined : own;
}

function halfOf({ nominal, unit }: GivenNode, doubt: Spread, width: number): Measuring["half"] {
  if (scaleOf(doubt) !== undefined) return undefined;
  const { affine, log } = unitOf(unit);
  if (nominal !== 0 && !affine && !log) return { share: cutDown((left * width) / Math.abs(nominal)) };
  return { si: cutDown(left * width) };
}

/** To 1, 2 or 5 times a power of ten. */
function cutDown(x: number): number {
  const power = Number(`1e${Math.floor(Number(x.toExponential().split("e")[1]))}`);
  return Number((([5, 2, 1].find((digit) => digit * power <= x * (1 + 1e-9)) ?? 1) * power).toPrecision(1));
}

/** The given after the measurement has given a value: what differs between units stays. */
function measured(given: GivenNode, doubt: Spread, nominal: number, half: Measuring["half"]): GivenChange {
  const narrow = narrowed(doubt, nominal, half);
  const { spread, knowledge, text } = given;
  return knowledge === true
    ? { nominal, spread: narrow, text }
    : { nominal, spread: shifted(spread, nominal - given.nominal), doubt: narrow, text };
}

function narrowed(doubt: Spread, nominal: number, half: Measuring["half"]): Spread {
  if (half !== undefined) {
    const width = "share" in half ? half.share * Math.abs(nominal) : half.si;
    return { kind: "rectangular", low: nominal - width, high: nominal + width };
  }
  if (doubt.kind === "normal") return { ...doubt, sigma: doubt.sigma * left };
  if (!("low" in doubt)) return doubt;
  const middle = (doubt.low + doubt.high) / 2;
  return { ...doubt, low: middle + (doubt.low - middle) * left, high: middle + (doubt.high - middle) * left };
}

function shifted(spread: Spread, by: number): Spread {
  return "low" in spread && spread.kind !== "range" ? { ...spread, low: spread.low + by, high: spread.high + by } : spread;
}

type Place = readonly [x: number, margin: number];

/** Between two places of unlike sign, by the rule of false position with the Illinois correction (M. Dowell and P. Jarratt, 1971). */
function crossing(a: Place, b: Place, place: (x: number) => Place): number | undefined {
  if (!(a[1] * b[1] < 0)) return undefined;
  let [from, to] = [a, b];
  for (let i = 0; i < steps; i++) {
    const x = to[0] - (to[1] * (to[0] - from[0])) / (to[1] - from[1]);
    const next = place(x);
    if (next[1] === 0) return x;
    from = next[1] * to[1] < 0 ? to : [from[0], from[1] / 2];
    to = next;
  }
  return to[0] - (to[1] * (to[0] - from[0])) / (to[1] - from[1]);
}
