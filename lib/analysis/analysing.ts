/** All that is shown of a result: its worst case, its 95 % interval, what contributes to its spread, and warnings. */
import type { NodeId } from "../graph/node";
import { type BriefAnalysis, restoredIntervals } from "./brief";
import { budget } from "./contributions";
import { freedomOf } from "./distribution";
import { expandedUncertainty } from "./expanded";
import { intervalAt, union } from "./interval";
import type { Findings } from "./judging";
import { finiteValues } from "./quantile";
import type { Analysis } from "./result";
import type { Outside } from "./validity";
import { disagreementWarnings, doubtWarning, failureWarning, negativeShareWarning } from "./warnings";

/** `kept`: what was published of it, where a page knows that. `outside`: the laws behind it that are used outside their range; `own`: its own. */
export function analyse(
  { graph, study, sampler, worst, points, column }: Findings,
  kept: BriefAnalysis | undefined,
  outside: () => readonly Outside[],
  own: () => readonly NodeId[],
): Analysis {
  const found = worst();
  const parts = sampler.evidence?.parts(study) ?? study.parts;
  const { standardUncertainty, contributions } = budget(study, parts);
  const faults = kept === undefined ? outside() : [];
  const laws = kept === undefined ? faults.map(({ law, fault }) => `${law}: ${fault}`) : (kept.outside ?? []);
  const analysis = {
    node: study.id,
    nominal: study.value,
    contributions,
    standardUncertainty,
    frozen: study.frozen,
    ...(laws.length > 0 && { outside: laws }),
    ...(study.parts.some(({ node }) => Number.isFinite(freedomOf(node))) && {
      expanded: expandedUncertainty(standardUncertainty, parts, contributions, 0.95),
    }),
  };
  if (kept !== undefined) return { ...analysis, worst: found?.worst ?? null, ...restoredIntervals(kept), warnings: kept.warnings ?? [] };
  const validity = validityWarnings(faults, own());
  if (found === undefined) return { ...analysis, worst: null, interval: null, warnings: validity };
  const columns = points().map((at) => column(at));
  const truths = study.drawnWith("knowledge").length === 0 ? [] : points().map((at) => column(at, "knowledge"));
  const drawn = [...columns, ...truths];
  const sum = (lengths: readonly number[]) => lengths.reduce((a, b) => a + b, 0);
  const warnings = [
    ...validity,
    ...doubtWarning(found.worst),
    ...failureWarning(found.failed, found.tried, "points within the limits"),
    ...failureWarning(
      sum(drawn.map((values) => values.length - finiteValues(values).length)),
      sum(drawn.map(({ length }) => length)),
      "draws",
    ),
    ...disagreementWarnings(graph.get(study.id), parts, { production: columns[0], knowledge: truths[0] }, contributions),
    ...negativeShareWarning(graph, study.id, contributions),
  ];
  const interval = union(columns.map((values) => intervalAt(values)));
  const doubt = truths.length > 0 && { doubt: union(truths.map((values) => intervalAt(values))) };
  return { ...analysis, worst: found.worst, interval, ...doubt, warnings };
}

/** A result's own law is known to who reads the warning; of one further back the law is named. */
function validityWarnings(outside: readonly Outside[], own: readonly NodeId[]): string[] {
  const isOwn = ({ node }: Outside) => own.includes(node);
  return [
    ...outside.filter(isOwn).map(({ fault }) => `${fault}.`),
    ...outside.filter((one) => !isOwn(one)).map(({ law, fault }) => `It follows from ${law}, used outside its range: ${fault}.`),
  ];
}
