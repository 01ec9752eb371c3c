/** The trade-off of a decision: which alternatives meet their limits, which are dominated, and whether the choice still stands. */

import type { Evaluation } from "../analysis/evaluation";
import type { Verdict } from "../analysis/result";
import { isKept } from "../analysis/verdict";
import { entryOf } from "../quantity/entry-of";
import { WorkingsError } from "../quantity/error";
import { format } from "../quantity/format";
import { unitOf } from "../quantity/unit";
import type { Criterion, DecisionBlock } from "./block";
import { differenceText, intervalText, spreadOf, worstText } from "./words";

interface DecisionCell {
  readonly criterion: Criterion;
  /** SI: the deciding value where the criterion has a limit, else the nominal. */
  readonly value: number;
  readonly text: string;
  /** In the criterion's unit, by which alternatives are compared: less is better. */
  readonly cost: number;
  /** What is compared where it is not the value: how far from the target, or the spread. */
  readonly remark?: string;
  readonly verdict?: Verdict;
  /** Undefined where the criterion has no limit. */
  readonly meets?: boolean;
  /** Why the alternative has no number here: it cannot be built. */
  readonly problem?: string;
}

interface DecisionRow {
  readonly name: string;
  readonly label: string;
  readonly chosen: boolean;
  readonly cells: readonly DecisionCell[];
  /** Label of an alternative that is nowhere worse and somewhere better. */
  readonly dominatedBy?: string;
}

export interface Assessment {
  readonly rows: readonly DecisionRow[];
  readonly chosen: string;
  /** Sentences: why the chosen alternative should be looked at again. Empty while it stands. */
  readonly flags: readonly string[];
  /** Those of them that contradict nothing yet: a limit that may be kept. */
  readonly open: readonly string[];
}

/** Evaluates every alternative by every criterion; `chosen` is what the choice node of the graph says. */
export function assessDecision(block: DecisionBlock, evaluation: Evaluation): Assessment {
  const choice = evaluation.graph.get(block.choice);
  const chosen = choice.kind === "choice" ? choice.chosen : "";
  const bare = block.alternatives.map(({ name, label, values }) => ({
    name,
    label,
    chosen: name === chosen,
    cells: block.criteria.map((criterion) => cellOf(criterion, entryOf(values, criterion.name) ?? "", evaluation)),
  }));
  const rows = bare.map((row) => {
    const better = bare.find((other) => other !== row && dominates(other.cells, row.cells));
    return better === undefined ? row : { ...row, dominatedBy: better.label };
  });
  const told = rows.filter((row) => row.chosen).flatMap((row) => flagsOf(row, rows));
  return { rows, chosen, flags: told.map(({ text }) => text), open: told.flatMap(({ text, isOpen }) => (isOpen ? [text] : [])) };
}

function cellOf(criterion: Criterion, node: string, evaluation: Evaluation): DecisionCell {
  try {
    return evaluatedCell(criterion, node, evaluation);
  } catch (error) {
    if (!(error instanceof WorkingsError)) throw error;
    return { criterion, value: Number.NaN, cost: Number.NaN, text: "cannot be computed", meets: false, problem: error.message };
  }
}

function evaluatedCell(criterion: Criterion, node: string, evaluation: Evaluation): DecisionCell {
  const unit = unitOf(evaluation.graph.get(node).unit);
  const nominal = evaluation.nominal(node);
  const of = (value: number) => ({ criterion, value, text: format({ si: value, unit }), ...compared(criterion, node, value, evaluation) });
  if (criterion.limit === undefined) return of(nominal);
  const verdict = evaluation.verdict(node, criterion.limit, criterion.limit.judged);
  return { ...of(verdict.deciding), verdict, meets: isKept(verdict) };
}

function compared(criterion: Criterion, node: string, value: number, evaluation: Evaluation): Pick<DecisionCell, "cost" | "remark"> {
  const unit = unitOf(evaluation.graph.get(node).unit);
  switch (criterion.better) {
    case "lower":
      return { cost: value };
    case "higher":
      return { cost: -value };
    case "nearest": {
      const target = evaluation.nominal(criterion.target ?? "");
      const cost = Math.abs(unit.fromSI(value) - unit.fromSI(target));
      return { cost, remark: `${differenceText(cost, unit)} from ${format({ si: target, unit })}` };
    }
    case "smallest spread": {
      const analysis = evaluation.analysis(node);
      const kind = spreadOf(criterion);
      const ends = analysis[kind];
      if (ends === null) return { cost: 0, remark: "no spread" };
      const words = kind === "worst" ? `worst case ${worstText(analysis, unit)}` : `95 % ${intervalText(analysis, unit)}`;
      return { cost: unit.fromSI(ends.high) - unit.fromSI(ends.low), remark: words };
    }
  }
}

function dominates(a: readonly DecisionCell[], b: readonly DecisionCell[]): boolean {
  // An alternative that has no number neither dominates nor is dominated: it is out already.
  const comparisons = a.map((cell, i) => (b[i]?.cost ?? Number.NaN) - cell.cost);
  return comparisons.every((gain) => gain >= 0) && comparisons.some((gain) => gain > 0);
}

interface Flag {
  readonly text: string;
  /** Nothing contradicts the choice yet: it is only not sure. */
  readonly isOpen: boolean;
}

function flagsOf(row: DecisionRow, rows: readonly DecisionRow[]): Flag[] {
  const missed = row.cells.flatMap((cell, i) =>
    cell.meets === false ? [flagOf(cell, row.label, rows.length > 1 && rows.every((other) => other.cells[i]?.meets === false))] : [],
  );
  const dominated = `The chosen alternative “${row.label}” is dominated by “${row.dominatedBy}”: nowhere better, somewhere worse.`;
  return row.dominatedBy === undefined ? missed : [...missed, { text: dominated, isOpen: false }];
}

function flagOf({ criterion: { label }, problem, verdict }: DecisionCell, alternative: string, byNone: boolean): Flag {
  const chosen = `the chosen alternative “${alternative}”`;
  if (problem !== undefined) return { text: `The${chosen.slice(3)} has no ${label}: ${problem}.`, isOpen: false };
  if (verdict?.doubt !== undefined)
    return { text: `It is not sure that ${chosen} keeps the limit on ${label}: ${verdict.doubt}.`, isOpen: true };
  if (verdict?.verdict === "too close to call")
    return { text: `Whether ${chosen} keeps the limit on ${label} is too close to call.`, isOpen: true };
  const all = byNone ? "; so does every other alternative" : "";
  return { text: `The${chosen.slice(3)} misses the limit on ${label}${all}.`, isOpen: false };
}
