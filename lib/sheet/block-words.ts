/** What the blocks say in a notebook, and in the document where it has nothing of its own to show for them. */
import type { Evaluation } from "../analysis/evaluation";
import type { Analysis, Verdict } from "../analysis/result";
import type { NodeId } from "../graph/node";
import { format } from "../quantity/format";
import { unitOf } from "../quantity/unit";
import type { DecisionBlock, RequirementBlock, ResultBlock, SelectBlock, TableBlock } from "./block";
import { assessDecision } from "./decision";
import { signOf } from "./level-budget";
import { givenText, resultLine, verdictLine } from "./words";

/** What the words of a block are made from. */
export interface Said {
  readonly evaluation: Evaluation;
  /** Of the block's nodes, in its order, as far as the call has made them. */
  readonly analyses: readonly Analysis[];
  readonly verdicts: readonly Verdict[];
  /** What a requirement of the design file asks. */
  statement(requirement: string): string;
}

/** Nominal value with its unit. */
export function valueText({ evaluation }: Said, id: NodeId): string {
  return format({ si: evaluation.nominal(id), unit: unitOf(evaluation.graph.get(id).unit) });
}

/** `V_s = 4.5 V ±2 %  supply [brief]`. */
export function givenLine(said: Said, symbol: string, id: NodeId): string {
  const node = said.evaluation.graph.get(id);
  const source = node.kind === "given" || node.kind === "table" || node.kind === "choice" ? node.provenance.source : "";
  const value = node.kind === "given" ? givenText(node) : node.kind === "table" ? `table of ${node.x.length} rows` : "";
  return `${symbol} = ${value}  ${node.meaning ?? ""} [${source}]`;
}

export function takenLine(said: Said, symbol: string, id: NodeId, from: string): string {
  return `${symbol} = ${valueText(said, id)}  ${said.evaluation.graph.get(id).meaning ?? ""} [${from}]`;
}

export function resultLines(block: ResultBlock, said: Said): string[] {
  const [analysis] = said.analyses;
  const node = said.evaluation.graph.get(block.node);
  const text = node.kind === "formula" ? `${node.symbol} = ${node.text}` : `${node.symbol}: ${block.model ?? ""}`;
  const result = analysis === undefined ? valueText(said, block.node) : resultLine(analysis, unitOf(node.unit));
  return [node.meaning ?? "", text, ...levelLines(said, block), `    = ${result}`, ...(analysis?.warnings ?? []).map(warningLine)].filter(
    (line) => line !== "",
  );
}

export const warningLine = (text: string) => `warning: ${text}`;

/** `    + G_t: 3 dBi`, a line for each factor of a product of levels. */
function levelLines(said: Said, { levels }: ResultBlock): string[] {
  return (levels?.lines ?? []).map(
    ({ symbol, node, unit, times }) =>
      `    ${signOf(times)} ${symbol}: ${format({ si: said.evaluation.nominal(node), unit: unitOf(unit) })}`,
  );
}

export function tableLines(block: TableBlock, said: Said): string[] {
  const rows = block.rows.map(
    ({ label, cells }) => `${label}: ${cells.map((id, i) => `${block.columns[i]?.symbol} = ${valueText(said, id)}`).join(", ")}`,
  );
  return [block.caption, ...rows];
}

export function selectLine(block: SelectBlock, said: Said): string {
  return `${said.evaluation.graph.get(block.node).symbol} = ${valueText(said, block.node)}, ${chosenWords(block, said.evaluation, (id) => valueText(said, id))} ${valueText(said, block.of)}`;
}

/** `the preferred value for`, or which two make it; `value` writes one. */
export function chosenWords(
  { node: id, parts }: Pick<SelectBlock, "node" | "parts">,
  evaluation: Evaluation,
  value: (id: NodeId) => string,
): string {
  if (evaluation.graph.get(id).kind === "set-once") return "set once, the same in every unit, from";
  const [larger, smaller] = parts ?? [];
  if (larger === undefined || smaller === undefined) return "the preferred value for";
  const node = evaluation.graph.get(larger);
  const joined = node.kind === "select" ? ` in ${node.pair?.joined}` : "";
  return `made by ${value(larger)} and ${value(smaller)}${joined}, for`;
}

export function decisionLines(block: DecisionBlock, { evaluation }: Said): string[] {
  const { rows, flags } = assessDecision(block, evaluation);
  const lines = rows.map((row) => {
    const values = row.cells.map(
      (cell) =>
        `${cell.criterion.label} ${cell.text}${cell.remark === undefined ? "" : `, ${cell.remark}`}${cell.problem !== undefined ? ` (${cell.problem})` : cell.meets === false ? " (misses its limit)" : ""}${cell.verdict?.outside === undefined ? "" : " (outside the range of a law)"}`,
    );
    return `${row.chosen ? "→" : " "} ${row.label}: ${values.join("; ")}${row.dominatedBy === undefined ? "" : `; dominated by “${row.dominatedBy}”`}`;
  });
  return [block.question, ...lines, ...flags];
}

export function requirementLine({ requirement, node }: RequirementBlock, { evaluation, verdicts: [verdict], statement }: Said): string {
  const words = verdict === undefined ? "not shown" : verdictLine(verdict, unitOf(evaluation.graph.get(node).unit));
  return `${requirement}: ${statement(requirement)}: ${words}`;
}
