/** A result against a limit: by its nominal value, its worst case, or the share of units that meet the limit. */
import type { Graph } from "../graph/graph";
import type { Drawn } from "./kinds";
import { nestedShare } from "./nested";
import type { JudgedBy, Limit, RangePoint, Verdict } from "./result";
import type { Sampler } from "./sampler";
import type { Study } from "./study";
import { doubtedVerdict, shareVerdict, truthVerdict, typicalVerdict, worstCaseVerdict } from "./verdict";
import type { WorstCaseFound } from "./worst-case";

/** A result and what an evaluation finds of it when it is asked for. */
export interface Findings {
  readonly graph: Graph;
  readonly study: Study;
  readonly sampler: Sampler;
  /** Undefined where nothing spreads. */
  readonly worst: () => WorstCaseFound | undefined;
  /** The range points that decide. */
  readonly points: () => readonly RangePoint[];
  /** The draws at a range point, SI; of production unless asked otherwise. */
  readonly column: (at: RangePoint, drawn?: Drawn) => Float64Array;
}

/** The limit is SI. A result that has no spread is judged by its nominal value. */
export function judge(findings: Findings, limit: Limit, judged: JudgedBy): Verdict {
  const { graph, study } = findings;
  const node = graph.get(study.id);
  if (judged === "typical") return typicalVerdict(node, study.value, limit);
  if (judged === "worst case") {
    const worst = findings.worst()?.worst ?? { low: study.value, high: study.value, lowAt: {}, highAt: {}, searched: false };
    return worstCaseVerdict(node, worst, limit);
  }
  return judgeShare(findings, limit);
}

function judgeShare({ graph, study, sampler, points, column }: Findings, limit: Limit): Verdict {
  const node = graph.get(study.id);
  const drawn = (kind: Drawn) => points().map((at) => ({ at, values: column(at, kind), best: study.valueAt(at) }));
  if (study.drawnWith("knowledge").length === 0) return shareVerdict(node, drawn("production"), limit);
  if (study.drawnWith("production").length === 0) {
    // As many draws as truths that evidence has drawn anew stand for.
    const share = sampler.evidence?.effectiveShare(study) ?? 1;
    const truths = drawn("knowledge").map((one) => ({ ...one, values: one.values.subarray(0, Math.floor(share * one.values.length)) }));
    return truthVerdict(node, truths, limit);
  }
  const nested = nestedShare(study, sampler, points(), limit);
  return doubtedVerdict(node, nested, column(nested.at), limit);
}
