/**
 * Results and preferred values as LaTeX for a notebook's output: what it is in words, the law with numbers, then worst case, interval,
 * doubt and warnings. Front ends show text outside the dollars as it stands, and TeX reads it: so words hold nothing that either obeys.
 */
import type { Evaluation } from "../analysis/evaluation";
import type { Analysis } from "../analysis/result";
import { typesetSymbol } from "../formula/typeset";
import type { NodeId } from "../graph/node";
import { format } from "../quantity/format";
import { unitOf } from "../quantity/unit";
import type { Block, ResultBlock, SelectBlock, SubstitutedLaw } from "./block";
import { chosenWords, type Said } from "./block-words";
import { signOf } from "./level-budget";
import { doubtText, intervalText, isDoubtAlone, nominalText, remarksOn, worstText } from "./words";

/** Undefined where a block has no law to show. */
export function latexOf(block: Block, said: Said): string | undefined {
  if (block.type === "select") return selectLatex(block, said);
  return block.type === "result" ? resultLatex(block, said) : undefined;
}

function selectLatex(block: SelectBlock, { evaluation }: Said): string {
  const { node, of } = block;
  const { symbol = "", unit } = evaluation.graph.get(node);
  const value = (id: NodeId) => latexValue(evaluation, id, evaluation.graph.get(id).unit);
  const words = chosenWords(block, evaluation, (id) => `$${value(id)}$`);
  return `$$${typesetSymbol(symbol)} = ${latexValue(evaluation, node, unit)}$$\n\n${words} $${value(of)}$`;
}

function resultLatex(block: ResultBlock, { evaluation, analyses: [analysis] }: Said): string {
  const { symbol = "", unit, meaning = "" } = evaluation.graph.get(block.node);
  const name = typesetSymbol(symbol);
  const value = analysis === undefined ? latexValue(evaluation, block.node, unit) : nominalText(analysis, unitOf(unit), "latex");
  const law = block.law === undefined ? "" : ` = ${block.law}`;
  const numbers = block.substituted === undefined ? "" : ` = ${fillIn(evaluation, block.substituted)}`;
  const told = analysis === undefined ? [] : [spreadsLatex(analysis, unit), ...analysis.warnings.map(latexWarning)];
  return [
    latexWords(block.model === undefined ? meaning : `${meaning}: ${block.model}`),
    `$$${name}${law}${numbers} = ${value}$$`,
    levelArray(evaluation, block, name, value),
    ...told,
  ]
    .filter((text) => text !== "")
    .join("\n\n");
}

/** A sentence: front ends show the paragraphs of LaTeX as one. */
const latexWarning = (text: string) => latexWords(`Warning: ${text}`);

/** `worst case $712\,Ω\text{ to }949\,Ω$; $95\,\%$ of units $…$; doubt $…$.`; empty where there is no spread. */
function spreadsLatex(analysis: Analysis, symbol: string): string {
  const unit = unitOf(symbol);
  const interval = isDoubtAlone(analysis) ? "" : intervalText(analysis, unit, "latex");
  const spreads = [
    ["worst case", worstText(analysis, unit, { notation: "latex" })],
    ["$95\\,\\%$ of units", interval],
    ["doubt", doubtText(analysis, unit, "latex")],
  ];
  const told = [...spreads.flatMap(([name, text]) => (text === "" ? [] : [`${name} $${text}$`])), ...remarksOn(analysis)];
  return told.length === 0 ? "" : `${told.join("; ")}.`;
}

/** A product of levels as an array of LaTeX, with the sum below a rule. */
function levelArray(evaluation: Evaluation, { levels }: ResultBlock, name: string, sum: string): string {
  if (levels === undefined) return "";
  const rows = levels.lines.map(({ symbol, node, unit, times }) => {
    const value = latexValue(evaluation, node, unit);
    return `${typesetSymbol(symbol)} & ${signOf(times).replace("−", "-").replace("·", "\\cdot")} & ${value} \\\\`;
  });
  return `$$\\begin{array}{lrr} ${rows.join(" ")} \\hline ${name} & = & ${sum} \\end{array}$$`;
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

/** Words with symbols such as `V_f` typeset; what LaTeX or HTML would obey is shown in its wide form: `＜`, `＄`. */
export function latexWords(text: string): string {
  const piece = (part: string, index: number) => (index % 2 === 1 ? `$${typesetSymbol(part)}$` : inert(part));
  return text
    .split(/\b([A-Za-z]{1,8}_[A-Za-z0-9]{1,8})\b/)
    .map(piece)
    .join("");
}

const inert = (text: string) =>
  text.replace(/[#$&<>\\^_`{}~]/g, (character) => String.fromCharCode(character.charCodeAt(0) + 0xfee0)).replaceAll("%", "$\\%$");
