/** One call of a worksheet as a MIME bundle: text and LaTeX or SVG for any notebook front end, our JSON for the document. */
import type { Analysis, Verdict } from "../analysis/result";
import { typesetSymbol } from "../formula/typeset";
import type { GraphNode, NodeId } from "../graph/node";
import { format, numberToTwelve } from "../quantity/format";
import { unitOf } from "../quantity/unit";
import { confirmationWord } from "./assumption-word";
import {
  type Block,
  type BlockOf,
  type DecisionBlock,
  type Display,
  displayType,
  type ResultBlock,
  type SelectBlock,
  type TableBlock,
} from "./block";
import { assessDecision } from "./decision";
import type { MimeBundle } from "./emit";
import { signOf } from "./level-budget";
import type { Session } from "./session";
import { resultLine, verdictLine } from "./words";

/** Graphics that a block carries beside its data. */
export interface Drawn {
  readonly svg?: string;
  readonly vegaLite?: unknown;
  /** What they leave out, in sentences. */
  readonly warnings?: readonly string[];
}

interface Content {
  readonly block: Block;
  readonly nodes: readonly GraphNode[];
  readonly analyses: readonly Analysis[];
  readonly verdicts: readonly Verdict[];
}

export function presentation(session: Session, content: Content, drawn: Drawn): MimeBundle {
  const { block, nodes, analyses, verdicts } = content;
  const { warnings = [] } = drawn;
  const display: Display = {
    version: 1,
    sheet: session.sheet,
    block,
    nodes,
    analyses: analyses.map(twelveDigits),
    ...(verdicts.length === 0 ? {} : { verdicts: verdicts.map(twelveDigits) }),
    ...(warnings.length === 0 ? {} : { warnings }),
  };
  const latex = latexOf(session, block);
  return {
    ...(drawn.vegaLite === undefined ? {} : { "application/vnd.vegalite.v6+json": drawn.vegaLite }),
    [displayType]: display,
    ...(drawn.svg === undefined ? {} : { "image/svg+xml": drawn.svg }),
    ...(latex === undefined ? {} : { "text/latex": latex }),
    "text/plain": [...(plain[block.type] as Words<Block>)(session, block, content), ...warnings.map(warningLine)].join("\n"),
  };
}

/** Rounds every number in plain data to the 12 significant digits that are stored. */
function twelveDigits<T>(value: T): T {
  if (typeof value === "number") return numberToTwelve(value) as T;
  if (Array.isArray(value)) return value.map(twelveDigits) as T;
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, twelveDigits(inner)])) as T;
}

function valueText(session: Session, id: NodeId, notation: "text" | "latex" = "text"): string {
  const node = session.node(id);
  return format({ si: session.evaluation.nominal(id), unit: unitOf(node.unit) }, { notation });
}

type Words<B extends Block> = (session: Session, block: B, of: Pick<Content, "analyses" | "verdicts">) => string[];

const plain: { readonly [T in Block["type"]]: Words<BlockOf<T>> } = {
  givens: (session, { rows }) => rows.map(({ symbol, node }) => givenLine(session, symbol, node)),
  result: (session, block, { analyses }) => resultLines(session, block, analyses[0]),
  table: tableLines,
  select: (session, block) => [
    `${session.node(block.node).symbol} = ${valueText(session, block.node)}, ${chosenWords(session, block)} ${valueText(session, block.of)}`,
  ],
  decision: decisionLines,
  requirement: (session, { requirement, node }, { verdicts }) => [requirementLine(session, requirement, node, verdicts[0])],
  plot: (_, { caption }) => [caption],
  drawing: (_, { caption }) => [caption],
  caution: (_, { subject, text }) => [`CAUTION, ${subject}: ${text}`],
  contribution: (session, { budget, items }) => [
    `${budget}: ${items.map(({ label, node }) => `${label} ${valueText(session, node)}`).join(", ")}`,
  ],
  collection: (session, { budget, node, items }, { analyses: [sum] }) => [
    `${budget}: ${sum === undefined ? "" : resultLine(sum, unitOf(session.node(node).unit))}`,
    ...items.map(({ label, sheet, node: item }) => `  ${label} (${sheet}): ${valueText(session, item)}`),
  ],
  assumption: (session, { name, node }) => [`assumed, to be confirmed by a later sheet: ${givenLine(session, name, node)}`],
  confirmation: (session, { of, assumed, node }) => [
    `${of}: assumed ${valueText(session, assumed)}, computed ${valueText(session, node)}: ${confirmationWord(session.evaluation, assumed, node)}`,
  ],
  taken: (session, { rows }) =>
    rows.map(({ symbol, node, from }) => `${symbol} = ${valueText(session, node)}  ${session.node(node).meaning ?? ""} [${from}]`),
  publish: (session, { names }) => {
    const published = Object.entries(names).map(([name, id]) => `${name} = ${valueText(session, id)}`);
    return [`published: ${published.join(", ")}`];
  },
};

function chosenWords(session: Session, { parts }: SelectBlock): string {
  const [larger, smaller] = parts ?? [];
  if (larger === undefined || smaller === undefined) return "the preferred value for";
  const node = session.node(larger);
  const joined = node.kind === "select" ? ` in ${node.pair?.joined}` : "";
  return `made by ${valueText(session, larger)} and ${valueText(session, smaller)}${joined}, for`;
}

function givenLine(session: Session, symbol: string, id: NodeId): string {
  const node = session.node(id);
  const source = node.kind === "given" || node.kind === "table" || node.kind === "choice" ? node.provenance.source : "";
  const value = node.kind === "given" ? node.text : node.kind === "table" ? `table of ${node.x.length} rows` : "";
  return `${symbol} = ${value}  ${node.meaning ?? ""} [${source}]`;
}

function resultLines(session: Session, block: ResultBlock, analysis: Analysis | undefined): string[] {
  const node = session.node(block.node);
  const text = node.kind === "formula" ? `${node.symbol} = ${node.text}` : `${node.symbol}: ${block.model ?? ""}`;
  const result = analysis === undefined ? valueText(session, block.node) : resultLine(analysis, unitOf(node.unit));
  return [
    node.meaning ?? "",
    text,
    ...levelLines(session, block),
    `    = ${result}`,
    ...(analysis?.warnings ?? []).map(warningLine),
  ].filter((line) => line !== "");
}

const warningLine = (text: string) => `warning: ${text}`;

/** `    + G_t: 3 dBi`, a line for each factor of a product of levels. */
function levelLines(session: Session, { levels }: ResultBlock): string[] {
  return (levels?.lines ?? []).map(
    ({ symbol, node, unit, times }) =>
      `    ${signOf(times)} ${symbol}: ${format({ si: session.evaluation.nominal(node), unit: unitOf(unit) })}`,
  );
}

/** The same as an array of LaTeX, with the sum below a rule. */
function levelArray(session: Session, { levels }: ResultBlock, name: string, sum: string): string {
  if (levels === undefined) return "";
  const rows = levels.lines.map(({ symbol, node, unit, times }) => {
    const value = format({ si: session.evaluation.nominal(node), unit: unitOf(unit) }, { notation: "latex" });
    return `${typesetSymbol(symbol)} & ${signOf(times).replace("−", "-").replace("·", "\\cdot")} & ${value} \\\\`;
  });
  return `\n\n$$\\begin{array}{lrr} ${rows.join(" ")} \\hline ${name} & = & ${sum} \\end{array}$$`;
}

function tableLines(session: Session, block: TableBlock): string[] {
  const rows = block.rows.map(
    ({ label, cells }) => `${label}: ${cells.map((id, i) => `${block.columns[i]?.symbol} = ${valueText(session, id)}`).join(", ")}`,
  );
  return [block.caption, ...rows];
}

function decisionLines(session: Session, block: DecisionBlock): string[] {
  const { rows, flags } = assessDecision(block, session.evaluation);
  const lines = rows.map((row) => {
    const values = row.cells.map(
      (cell) =>
        `${cell.criterion.label} ${cell.text}${cell.problem !== undefined ? ` (${cell.problem})` : cell.meets === false ? " (misses its limit)" : ""}${cell.verdict?.outside === undefined ? "" : " (outside the range of a law)"}`,
    );
    return `${row.chosen ? "→" : " "} ${row.label}: ${values.join("; ")}${row.dominatedBy === undefined ? "" : `; dominated by “${row.dominatedBy}”`}`;
  });
  return [block.question, ...lines, ...flags];
}

function requirementLine(session: Session, id: string, node: NodeId, verdict: Verdict | undefined): string {
  const { statement } = session.design.requirement(id);
  return `${id}: ${statement}: ${verdict === undefined ? "not shown" : verdictLine(verdict, unitOf(session.node(node).unit))}`;
}

function latexOf(session: Session, block: Block): string | undefined {
  if (block.type === "select")
    return `$$${typesetSymbol(session.node(block.node).symbol ?? "")} = ${valueText(session, block.node, "latex")}$$`;
  if (block.type !== "result" || block.law === undefined) return undefined;
  const name = typesetSymbol(session.node(block.node).symbol ?? "");
  const numbers = block.substituted === undefined ? "" : ` = ${fillIn(session, block.substituted.latex, block.substituted.values)}`;
  const value = valueText(session, block.node, "latex");
  return `$$${name} = ${block.law}${numbers} = ${value}$$${levelArray(session, block, name, value)}`;
}

/** Puts formatted values where the placeholders `\text{⟦0⟧}` stand. */
function fillIn(session: Session, latex: string, values: readonly { node: NodeId; unit: string }[]): string {
  return latex.replace(/\\text\{⟦(\d+)⟧\}/g, (_, index: string) => {
    const value = values[Number(index)];
    return value === undefined
      ? "?"
      : format({ si: session.evaluation.nominal(value.node), unit: unitOf(value.unit) }, { notation: "latex" });
  });
}
