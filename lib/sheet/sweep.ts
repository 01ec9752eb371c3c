/** A result as a function of one of its givens. */

import { contentId } from "../graph/identity";
import type { GivenNode } from "../graph/node";
import type { Dim } from "../quantity/dimension-types";
import type { Quantity } from "../quantity/quantity";
import { Curve } from "./curve";
import { evenPoints } from "./even-points";
import { expectFits, type FitsQuantity } from "./fits";
import type { AnyQuantity, Session } from "./session";

export interface SweepOptions<X extends Dim, F = Quantity<X>, T = Quantity<X>> {
  /** The given's own limits unless stated. */
  readonly from?: FitsQuantity<X, F, "from">;
  readonly to?: FitsQuantity<X, T, "to">;
  /** Number of points, 2 or more; 41 unless stated. */
  readonly points?: number;
}

/** The options at run time. */
export interface SweepEnds {
  readonly from?: AnyQuantity;
  readonly to?: AnyQuantity;
  readonly points?: number;
}

/** The curve of `result` over `given`, evaluated at evenly spaced points; preferred values are chosen again at each. */
export function sweep<Y extends Dim, X extends Dim>(
  session: Session,
  result: Quantity<Y>,
  given: Quantity<X>,
  { from, to, points = 41 }: SweepEnds = {},
): Curve<X, Y> {
  const of = session.node(session.enter(result));
  const over = session.node(session.enter(given));
  if (over.kind !== "given") throw session.error("worksheet", `a sweep runs over a given; ${over.symbol ?? over.id} is a result`);
  if (from !== undefined) expectFits(session, "from", given.dimension, from);
  if (to !== undefined) expectFits(session, "to", given.dimension, to);
  const limits = limitsOf(over);
  const low = from?.si ?? limits?.low;
  const high = to?.si ?? limits?.high;
  if (low === undefined || high === undefined || !(low < high)) {
    throw session.error("worksheet", `${over.path} has no limits to sweep between; say { from, to } with from below to`);
  }
  if (!Number.isInteger(points) || points < 2) throw session.error("worksheet", `a sweep needs 2 points or more, got ${points}`);
  const content = {
    kind: "sweep" as const,
    dimension: of.dimension,
    unit: of.unit,
    of: of.id,
    over: over.id,
    xDimension: over.dimension,
    xUnit: over.unit,
    points: evenPoints(low, high, points),
  };
  const id = session.add({ id: contentId(content), ...content });
  return new Curve<X, Y>(session, id);
}

function limitsOf({ spread, nominal }: GivenNode): { low: number; high: number } | undefined {
  if (spread.kind === "exact") return undefined;
  if (spread.kind === "discrete") return { low: Math.min(...spread.values), high: Math.max(...spread.values) };
  if (spread.kind === "normal") {
    return spread.scale === undefined
      ? { low: nominal - spread.coverage * spread.sigma, high: nominal + spread.coverage * spread.sigma }
      : undefined;
  }
  return spread.scale === undefined ? { low: spread.low, high: spread.high } : undefined;
}
