/** One call of a worksheet as a MIME bundle: text and LaTeX or SVG for any notebook front end, our JSON for the document. */
import type { Evaluation } from "../analysis/evaluation";
import type { Analysis, Verdict } from "../analysis/result";
import { typesetSymbol } from "../formula/typeset";
import type { NodeId } from "../graph/node";
import { format } from "../quantity/format";
import { unitOf } from "../quantity/unit";
import { type Block, type Display, displayType, type ResultBlock, type SubstitutedLaw } from "./block";
import { warningLine } from "./block-words";
import type { MimeBundle } from "./emit";
import { kindOf } from "./kinds";
import { signOf } from "./level-budget";
import type { Session } from "./session";
import { storeDisplay } from "./stored";

/** Graphics that a block carries beside its data. */
export interface Drawn {
  readonly svg?: string;
  readonly vegaLite?: unknown;
  /** What they leave out, in sentences. */
  readonly warnings?: readonly string[];
}

interface Content extends Pick<Display, "block" | "nodes" | "refers"> {
  readonly analyses: readonly Analysis[];
  readonly verdicts: readonly Verdict[];
}

export function presentation(session: Session, content: Content, drawn: Drawn): MimeBundle {
  const { block, nodes, refers = [], analyses, verdicts } = content;
  const { warnings = [] } = drawn;
  const outside = [...new Set(analyses.flatMap((analysis) => analysis.outside ?? []))];
  const told = [...outside.map((text) => `outside the range of ${text}`), ...warnings];
  const display: Display = { sheet: session.sheet, block, nodes, refers, warnings: told };
  const latex = latexOf(session.evaluation, block);
  const statement = (id: string) => session.design.requirement(id).statement;
  const said = { evaluation: session.evaluation, analyses, verdicts, statement };
  return {
    ...(drawn.vegaLite === undefined ? {} : { "application/vnd.vegalite.v6+json": drawn.vegaLite }),
    [displayType]: storeDisplay(display),
    ...(drawn.svg === undefined ? {} : { "image/svg+xml": drawn.svg }),
    ...(latex === undefined ? {} : { "text/latex": latex }),
    "text/plain": [...kindOf(block).words(block, said), ...warnings.map(warningLine)].join("\n"),
  };
}

/** A product of levels as an array of LaTeX, with the sum below a rule. */
function levelArray(evaluation: Evaluation, { levels }: ResultBlock, name: string, sum: string): string {
  if (levels === undefined) return "";
  const rows = levels.lines.map(({ symbol, node, unit, times }) => {
    const value = latexValue(evaluation, node, unit);
    return `${typesetSymbol(symbol)} & ${signOf(times).replace("−", "-").replace("·", "\\cdot")} & ${value} \\\\`;
  });
  return `\n\n$$\\begin{array}{lrr} ${rows.join(" ")} \\hline ${name} & = & ${sum} \\end{array}$$`;
}

function latexOf(evaluation: Evaluation, block: Block): string | undefined {
  if (block.type !== "select" && block.type !== "result") return undefined;
  const { symbol = "", unit } = evaluation.graph.get(block.node);
  const name = typesetSymbol(symbol);
  const value = latexValue(evaluation, block.node, unit);
  if (block.type === "select") return `$$${name} = ${value}$$`;
  if (block.law === undefined) return undefined;
  const numbers = block.substituted === undefined ? "" : ` = ${fillIn(evaluation, block.substituted)}`;
  return `$$${name} = ${block.law}${numbers} = ${value}$$${levelArray(evaluation, block, name, value)}`;
}

/** Puts formatted values where the placeholders `\text{⟦0⟧}` stand. */
function fillIn(evaluation: Evaluation, { latex, values }: SubstitutedLaw): string {
  return latex.replace(/\\text\{⟦(\d+)⟧\}/g, (_, index: string) => {
    const value = values[Number(index)];
    return value === undefined ? "?" : latexValue(evaluation, value.node, value.unit);
  });
}

function latexValue(evaluation: Evaluation, node: NodeId, unit: string): string {
  return format({ si: evaluation.nominal(node), unit: unitOf(unit) }, { notation: "latex" });
}
