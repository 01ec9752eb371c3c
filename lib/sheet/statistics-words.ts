/** Statistics of a result that a reader may ask for: another coverage, the shortest interval, moments, expanded uncertainty, correlation with another result. */
import type { Evaluation } from "../analysis/evaluation";
import type { Drawn } from "../analysis/kinds";
import { correlation, finiteValues, moments, quantile, shortestInterval } from "../analysis/quantile";
import type { NodeId } from "../graph/node";
import { WorkingsError } from "../quantity/error";
import { format, formatInterval } from "../quantity/format";
import { significantText } from "../quantity/number-text";
import type { Unit } from "../quantity/quantity";
import { unitOf } from "../quantity/unit";

export interface StatisticsAsked {
  /** Share that an interval is to hold, in (0, 1). */
  readonly coverage: number;
  /** Another result, to correlate with. */
  readonly beside?: NodeId;
}

/** Draws beyond each end of an interval, at least: fewer make no end. */
const leastBeyond = 5;

const kinds: readonly (readonly [Drawn, string])[] = [
  ["production", "units (production, what is not known at its best estimate)"],
  ["knowledge", "what is not known (production at its nominal)"],
  ["both", "one unit (both)"],
];

/**
 * Lines of text, conditions of use at their nominal values. Throws "usage" for a coverage that the draws cannot tell.
 * Intervals are by quantiles of the draws (JCGM 101:2008 7.7); the shortest one by 5.3.4; U = k·u by JCGM 100:2008 annex G.
 */
export function statisticsLines(id: NodeId, evaluation: Evaluation, { coverage, beside }: StatisticsAsked): string[] {
  const unit = unitOf(evaluation.graph.get(id).unit);
  const share = `${significantText(100 * coverage, 6)} %`;
  const drawn = kinds.map(([kind, words]) => ({ words, values: finiteValues(evaluation.column(id, {}, kind)) }));
  const spread = drawn.filter(({ values }) => values.length > 1);
  const kept = spread.length > 2 ? spread : spread.slice(0, 1);
  if (kept.length === 0) return ["nothing that it depends on is drawn: it has no spread of units and no doubt"];
  const lines = kept.flatMap(({ words, values }) => [
    `${words}: ${momentsText(values, unit)}`,
    `  ${intervalsText(values, coverage, share, unit)}`,
  ]);
  const expanded = evaluation.expanded(id, coverage);
  const width = difference(expanded.uncertainty, evaluation.nominal(id), unit);
  const freedom = expanded.freedom === null ? "" : `, ν_eff = ${Math.floor(expanded.freedom)}`;
  return [
    ...lines,
    `expanded uncertainty to first order, all tolerances of both kinds: U = ${width} at ${share}, k = ${significantText(expanded.coverage, 4)}${freedom}`,
    ...(beside === undefined ? [] : correlationLines(id, beside, evaluation)),
  ];
}

function momentsText(values: Float64Array, unit: Unit<any>): string {
  const { mean, deviation } = moments(values);
  return `mean ${format({ si: mean, unit }, { digits: 5, prefix: false })}, standard deviation ${difference(deviation, mean, unit)}, ${values.length} draws`;
}

function intervalsText(values: Float64Array, coverage: number, share: string, unit: Unit<any>): string {
  const tail = (1 - coverage) / 2;
  if (tail * values.length < leastBeyond)
    throw new WorkingsError(
      "usage",
      `${values.length} draws cannot tell ${share}: fewer than ${leastBeyond} lie beyond either end; ask for ${significantText(100 * (1 - (2 * leastBeyond) / values.length), 6)} % or less`,
    );
  const shortest = shortestInterval(values, coverage);
  return `middle ${share} ${formatInterval(quantile(values, tail), quantile(values, 1 - tail), unit)}; shortest ${share} ${formatInterval(shortest.low, shortest.high, unit)}`;
}

/** A difference about a value, in the unit; of decibels a level, of °C in kelvin. */
function difference(si: number, about: number, unit: Unit<any>): string {
  const width = Math.abs(unit.fromSI(about + si) - unit.fromSI(about));
  const symbol = unit.affine ? "K" : unit.symbol;
  return `${significantText(width, 3)}${symbol === "1" ? "" : `\u00a0${symbol}`}`;
}

/** By the same draws: over units, and over what is not known. */
function correlationLines(id: NodeId, other: NodeId, evaluation: Evaluation): string[] {
  const found = kinds.slice(0, 2).flatMap(([kind, words]) => {
    const [a, b] = [id, other].map((node) => evaluation.column(node, {}, kind)) as [Float64Array, Float64Array];
    const r = correlation(a, b);
    return r === undefined ? [] : [`${significantText(r, 3)} over ${words}`];
  });
  return [`correlation with ${other}: ${found.length === 0 ? "none: not both are drawn" : found.join("; ")}`];
}
