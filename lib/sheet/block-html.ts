/**
 * Blocks as HTML for a notebook's output, for front ends that show it instead of the text: the same facts and warnings, in tables. Laws
 * are shown as LaTeX (`block-latex.ts`), plots and drawings as SVG.
 */
import type { Analysis, Verdict } from "../analysis/result";
import type { NodeId } from "../graph/node";
import { format } from "../quantity/format";
import { unitOf } from "../quantity/unit";
import { confirmationWord } from "./assumption-word";
import type { Better, Block, BlockOf, DecisionBlock, RequirementBlock, TableBlock } from "./block";
import { type Said, warningLine } from "./block-words";
import { assessDecision } from "./decision";
import { type Html, html, type Part } from "./html";
import { type Cell, htmlTable, paragraphs, stacked } from "./html-table";
import { batchLines, readingLines } from "./reading-words";
import { symbolHtml } from "./symbol-html";
import {
  doubtedText,
  doubtText,
  givenText,
  intervalText,
  isDoubtAlone,
  judgedText,
  limitText,
  marginWords,
  nominalText,
  outsideText,
  remarksOn,
  shareText,
  worstText,
} from "./words";

type Writers = { readonly [T in Block["type"]]?: (block: BlockOf<T>, said: Said) => Html };

const writers: Writers = {
  givens: ({ rows }, said) => givensTable(rows, said),
  assumption: ({ name, node }, said) =>
    html`${paragraphs(["Assumed, to be confirmed by a later sheet:"])}${givensTable([{ symbol: name, node }], said)}`,
  taken: ({ rows }, said) =>
    spreadsTable(
      ["", { words: "Meaning" }, { words: "From" }],
      rows.map(
        ({ symbol, node, from }) =>
          [node, [symbolHtml(symbol), { words: said.evaluation.graph.get(node).meaning }, { words: from }]] as const,
      ),
      said,
    ),
  table: resultsTable,
  decision: decisionTable,
  requirement: requirementTable,
  contribution: ({ budget, items }, said) =>
    spreadsTable(
      [{ words: `Contributed to ${budget}` }],
      items.map(({ label, node }) => [node, [{ words: label }]] as const),
      said,
    ),
  collection: ({ budget, node, items }, said) =>
    spreadsTable(
      [{ words: `Collected: ${budget}` }, { words: "Sheet" }],
      [
        [node, [{ words: html`<strong>sum</strong>` }, ""]],
        ...items.map((item) => [item.node, [{ words: item.label }, { words: item.sheet }]] as const),
      ],
      said,
    ),
  confirmation: ({ of, assumed, node }, said) =>
    html`${spreadsTable(
      [{ words: `Assumption ${of}` }],
      [
        [assumed, [{ words: "assumed" }]],
        [node, [{ words: "computed" }]],
      ],
      said,
    )}\n${paragraphs([strong(confirmationWord(said.evaluation, assumed, node))])}`,
  publish: ({ names }, said) =>
    spreadsTable(
      [{ words: "Published" }],
      Object.entries(names).map(([name, node]) => [node, [{ words: name }]] as const),
      said,
    ),
  caution: ({ subject, text }) => paragraphs([html`${strong(`Caution, ${subject}:`)} ${text}`]),
  reading: (block, { evaluation }) => paragraphs(readingLines(block, evaluation)),
  batch: (block, { evaluation }) => paragraphs(batchLines(block, evaluation)),
};

/** Undefined where a block has none. */
export function htmlOf(block: Block, said: Said): Html | undefined {
  const writer = writers[block.type] as ((block: Block, said: Said) => Html) | undefined;
  return writer?.(block, said);
}

const strong = (text: Part) => html`<strong>${text}</strong>`;
const unitOfNode = ({ evaluation }: Said, id: NodeId) => unitOf(evaluation.graph.get(id).unit);

function givensTable(rows: BlockOf<"givens">["rows"], { evaluation }: Said): Html {
  const cells = rows.map(({ symbol, node: id }): Cell[] => {
    const node = evaluation.graph.get(id);
    const source = "provenance" in node ? node.provenance.source : "";
    const value = node.kind === "given" ? givenText(node) : node.kind === "table" ? `table of ${node.x.length} rows` : "";
    return [symbolHtml(symbol), { words: node.meaning }, value, { words: source }];
  });
  return htmlTable(["", { words: "Meaning" }, "Value", { words: "Source" }], cells);
}

/** Of a result the nominal value, then each spread that it has, in words. */
export function spreadParts(analysis: Analysis, symbol: string): readonly string[] {
  const unit = unitOf(symbol);
  return [
    ...(analysis.worst === null ? [] : [`worst case ${worstText(analysis, unit)}`]),
    ...(analysis.interval === null || isDoubtAlone(analysis) ? [] : [`95 % of units ${intervalText(analysis, unit)}`]),
    ...(analysis.doubt === undefined ? [] : [`doubt ${doubtText(analysis, unit)}`]),
    ...remarksOn(analysis),
  ];
}

/** A row for each result, with what leads it; columns of spreads that none has are left out. */
function spreadsTable(lead: readonly Cell[], rows: readonly (readonly [NodeId, readonly Cell[]])[], said: Said): Html {
  const found = rows.map(([node, cells]) => {
    const analysis = said.evaluation.analysis(node);
    const unit = unitOfNode(said, node);
    const interval = isDoubtAlone(analysis) ? "" : intervalText(analysis, unit);
    const spreads = [worstText(analysis, unit), interval, doubtText(analysis, unit), remarksOn(analysis).join("; ")];
    return { cells, nominal: nominalText(analysis, unit), spreads };
  });
  const names = ["Worst case", "95 % of units", "Doubt", "Remark"];
  const shown = names.flatMap((_, index) => (found.some(({ spreads }) => spreads[index] !== "") ? [index] : []));
  return htmlTable(
    [...lead, "Value", ...shown.map((index) => names[index])],
    found.map(({ cells, nominal, spreads }) => [...cells, nominal, ...shown.map((index) => spreads[index])]),
  );
}

function resultsTable({ caption, columns, rows }: TableBlock, said: Said): Html {
  const head = columns.map(({ symbol, meaning }) => stacked([symbolHtml(symbol), meaning]));
  const body = rows.map(({ label, cells }): Cell[] => {
    const results = cells.map((id) => {
      const analysis = said.evaluation.analysis(id);
      const { unit } = said.evaluation.graph.get(id);
      return stacked([strong(nominalText(analysis, unitOf(unit))), ...spreadParts(analysis, unit)]);
    });
    return [{ words: label }, ...results];
  });
  return html`${paragraphs([strong(caption)])}${htmlTable(["", ...head], body)}`;
}

function decisionTable(block: DecisionBlock, { evaluation }: Said): Html {
  const { rows, flags } = assessDecision(block, evaluation);
  const [first] = block.alternatives;
  const head = block.criteria.map(({ name, label, better, limit }) => {
    const unit = unitOf(evaluation.graph.get(first?.values[name] ?? "").unit);
    return stacked([label, limit === undefined ? bestWords(better) : `${limitText(limit, unit)} ${judgedText(limit.judged)}`]);
  });
  const body = rows.map(({ label, chosen, cells, dominatedBy }): Cell[] => {
    const values = cells.map(({ text, remark, problem, meets, verdict }) =>
      stacked(
        [text, remark, problem, meets === false && problem === undefined && missedWords(verdict), outsideRemark(verdict)].filter(Boolean),
      ),
    );
    const name = chosen ? html`→ ${strong(label)}, chosen` : label;
    return [{ words: stacked([name, dominatedBy !== undefined && `dominated by “${dominatedBy}”`].filter(Boolean)) }, ...values];
  });
  const told = [...flags, `Why: ${unlinked(block.reason)}`, `What would change our mind: ${unlinked(block.reconsider)}`];
  return html`${paragraphs([strong(block.question)])}${htmlTable([{ words: "Alternative" }, ...head], body)}\n${paragraphs(told)}`;
}

/** What is best by a criterion without a limit. */
const bestWords = (better: Better) => (better === "lower" || better === "higher" ? `${better} is better` : `${better} is best`);

/** Of a limit that does not count as kept. */
const missedWords = (verdict: Verdict | undefined) =>
  verdict === undefined || verdict.verdict === "does not hold" ? "misses its limit" : verdict.verdict;

const outsideRemark = (verdict: Verdict | undefined) => verdict?.outside !== undefined && "outside the range of a law";

/** The author's Markdown with its links as their words: a notebook's output has nowhere to link to. */
const unlinked = (markdown: string) => markdown.replace(/\[([^\][]*)\]\([^()\s]*\)/g, "$1").trim();

function requirementTable({ requirement, node }: RequirementBlock, said: Said): Html {
  const [verdict] = said.verdicts;
  const asked = paragraphs([html`Requirement ${strong(requirement)}: ${said.statement(requirement)}`]);
  if (verdict === undefined) return html`${asked}${paragraphs([strong("not shown")])}`;
  const unit = unitOfNode(said, node);
  const { probability, doubt } = verdict;
  const doubted = doubtedText(verdict, unit);
  const told = [doubted ?? (probability && `met by ${shareText(probability.estimate)} of units`), doubt, outsideText(verdict)];
  const row = [{ words: strong(verdict.verdict) }, format({ si: verdict.deciding, unit }), marginWords(verdict, unit)];
  const table = htmlTable([{ words: "Verdict" }, `Judged by ${verdict.judged}`, "Margin"], [row]);
  return html`${asked}${table}\n${paragraphs(told.filter((text) => text !== undefined))}`;
}

/** Below a picture: its caption, what its bands mean, what it leaves out. */
export function captionHtml(
  caption: string,
  { key, warnings = [] }: { readonly key?: string | undefined; readonly warnings?: readonly string[] },
): Html {
  return paragraphs([unlinked(caption), ...(key === undefined ? [] : [key]), ...warnings.map(warningLine)]);
}
