/** What a given would have to be for a requirement to just hold. */
import type { GivenNode, NodeId } from "../graph/node";
import { WorkingsError } from "../quantity/error";
import { limitsOf } from "../quantity/limits";
import { unitOf } from "../quantity/unit";
import type { Evaluation } from "./evaluation";
import { keptSpreads } from "./kept-spread";
import type { JudgedBy, Limit } from "./result";
import { isKept } from "./verdict";

export interface Demand {
  readonly node: NodeId;
  readonly limit: Limit;
  readonly judged: JudgedBy;
}

/** Steps away from the present value that are tried, as parts of it (of the limits' distance for a temperature or about zero). */
const steps = [0.02, 0.05, 0.1, 0.2, 0.35, 0.5, 0.7, 1, 1.5, 2, 3];
const halvings = 12;

/**
 * The nominal value, SI, nearest to the present one at which the requirement holds, tolerance kept; found by trying steps
 * to either side and halving the last one. Undefined where it holds at none of the steps, up to four times the present
 * value, or nowhere that the given may be: a condition of use stays inside its range.
 */
export function justHolds(present: Evaluation, demand: Demand, given: GivenNode): number | undefined {
  const holds = (nominal: number) => holdsAt(present, demand, given, nominal);
  const unit = stepUnit(given);
  let before: readonly [number, number] = [given.nominal, given.nominal];
  for (const step of steps) {
    const tries = [given.nominal + step * unit, given.nominal - step * unit] as const;
    const found = tries.findIndex((nominal) => isAllowed(given, nominal) && holds(nominal));
    if (found >= 0) return halved(before[found] as number, tries[found] as number, holds);
    before = tries;
  }
  return undefined;
}

function halved(outside: number, inside: number, holds: (nominal: number) => boolean): number {
  let [out, good] = [outside, inside];
  for (let i = 0; i < halvings; i++) {
    const middle = (out + good) / 2;
    if (holds(middle)) good = middle;
    else out = middle;
  }
  return good;
}

function stepUnit(given: GivenNode): number {
  if (given.nominal !== 0 && !unitOf(given.unit).affine) return Math.abs(given.nominal);
  const [low, high] = limitsOf(given.spread, given.nominal);
  return high > low ? high - low : 1;
}

/** What is positive stays so, and a condition of use stays inside its range. */
function isAllowed({ nominal: present, spread }: GivenNode, nominal: number): boolean {
  if (present > 0 && nominal <= 0) return false;
  if (spread.kind !== "range") return true;
  const [low, high] = limitsOf(spread, present);
  return nominal >= low && nominal <= high;
}

function holdsAt(present: Evaluation, { node, limit, judged }: Demand, given: GivenNode, nominal: number): boolean {
  try {
    const change = { nominal, ...keptSpreads(given, nominal), text: "" };
    return isKept(present.withChanges({ givens: { [given.path]: change } }).verdict(node, limit, judged));
  } catch (error) {
    // A value for which the law has no result.
    if (error instanceof WorkingsError) return false;
    throw error;
  }
}
