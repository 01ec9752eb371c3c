/** The range points at which units are drawn: the nominal one, the corners, and where the worst case lies. */
import type { GivenNode } from "../graph/node";
import { limitsOf } from "../quantity/limits";
import type { RangePoint, WorstCase } from "./result";
import type { Study } from "./study";

/** Ranges up to which every corner is one; beyond, one range at a time goes to its limits. */
const cornersUpTo = 5;

/** Distinct range points, the nominal one first; of a result without ranges only that, empty. */
export function rangePoints(study: Study, worst: WorstCase | null): RangePoint[] {
  const nominal = study.own({});
  const points = [nominal, ...cornersOf(study, nominal)];
  if (worst !== null) points.push(study.own(worst.lowAt), study.own(worst.highAt));
  return [...new Map(points.map((point) => [JSON.stringify(point), point])).values()];
}

function cornersOf(study: Study, nominal: RangePoint): RangePoint[] {
  const { ranges } = study;
  if (ranges.length > cornersUpTo) {
    return ranges.flatMap((given) => limits(given).map((limit) => ({ ...nominal, [given.id]: limit })));
  }
  return Array.from({ length: 1 << ranges.length }, (_, bits) =>
    Object.fromEntries(ranges.map((given, k) => [given.id, limits(given)[((bits >> k) & 1) as 0 | 1]])),
  );
}

const limits = ({ spread, nominal }: GivenNode): readonly [number, number] => limitsOf(spread, nominal);
