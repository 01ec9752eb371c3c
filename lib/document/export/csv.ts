/** The book's tables for other programs: register of givens, results, requirements, decisions, parts. Numbers with 12 digits and a point. */
import { stringify } from "csv-stringify/sync";
import type { Book } from "../../book/book";
import { bookResults, type Results } from "../../book/results";
import type { Design } from "../../design/types";
import type { GivenNode, GraphNode, TableNode } from "../../graph/node";
import { numberToTwelve } from "../../quantity/format";
import { limitsOf } from "../../quantity/limits";
import { unitOf } from "../../quantity/unit";
import { assessDecision } from "../../sheet/decision";
import { givensByPath } from "../back/back";
import { staleLine } from "../front/stale";
import { chosenParts, toleranceText } from "../model/chosen-parts";
import { nodeWords } from "../model/names";

type Row = readonly (string | number | undefined)[];

/** Texts of CSV files by name, as RFC 4180 has them. */
export function csvFiles(book: Book, results: Results = bookResults(book, { sensitivity: true })): Record<string, string> {
  const tables = {
    givens: givens(book.graph.nodes(), book.design),
    results: published(results),
    sensitivity: sensitivity(results),
    requirements: requirements(results),
    decisions: decisions(book),
    parts: parts(book),
  };
  return Object.fromEntries(Object.entries(tables).map(([name, table]) => [name, textOf(table, book)]));
}

interface Table {
  readonly head: readonly string[];
  readonly rows: readonly Row[];
}

/** Of a book that is not fresh, every row says so in a column of its own. */
function textOf({ head, rows }: Table, { stale }: Book): string {
  const stamp = stale.size === 0 ? [] : [staleLine([...stale])];
  const all = [[...head, ...stamp.map(() => "stale")], ...rows.map((row) => [...row, ...stamp])];
  return stringify(
    all.map((row) => row.map(cellText)),
    { record_delimiter: "\r\n", quoted_match: /[\r\n]/ },
  );
}

/**
 * A spreadsheet computes text that begins with one of `= + - @`, a tab or a carriage return, and what it computes may load or run
 * something. Such a text gets `'` before it, which spreadsheets take for the mark of a text. Numbers stay as they are.
 */
function cellText(cell: string | number | undefined): string {
  const text = String(cell ?? "");
  return /^\s*[=+\-@＝＋－＠]|^[\t\r\n]/.test(text) && !isNumber.test(text) ? `'${text}` : text;
}

const isNumber = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?$/i;

function givens(nodes: readonly GraphNode[], design: Pick<Design, "place">): Table {
  const rows = givensByPath(nodes).map((node) => givenRow(node, design.place(node.path)));
  return {
    head: [
      "path",
      "symbol",
      "meaning",
      "text",
      "value",
      "low",
      "high",
      "unit",
      "ucum",
      "spread",
      "doubt low",
      "doubt high",
      "source",
      "from memory",
      "note",
      "place",
    ],
    rows,
  };
}

function givenRow(node: GivenNode | TableNode, place: string | undefined): Row {
  const { source, fromMemory, note } = node.provenance;
  const unit = unitOf(node.unit);
  const numbers =
    node.kind === "given"
      ? [node.nominal, ...limitsOf(node.spread, node.nominal)].map((si) => numberToTwelve(unit.fromSI(si)))
      : ["", "", ""];
  const text = node.kind === "given" ? node.text : `table of ${node.x.length} rows`;
  return [
    node.path,
    node.symbol,
    node.meaning,
    text,
    ...numbers,
    unit.symbol,
    unit.ucum,
    ...(node.kind === "given" ? kindCells(node) : ["", "", ""]),
    source,
    fromMemory === true ? "yes" : "no",
    note,
    place,
  ];
}

/** Kind of the spread, and the limits of a doubt beside it. */
function kindCells(node: GivenNode): Row {
  const { spread, nominal, doubt } = node;
  const unit = unitOf(node.unit);
  const limits = doubt ? limitsOf(doubt, nominal).map((si) => numberToTwelve(unit.fromSI(si))) : ["", ""];
  if (spread.kind === "exact") return ["exact", ...limits];
  return [spread.kind === "range" ? "condition of use" : doubt ? "both" : node.knowledge ? "knowledge" : "production", ...limits];
}

function published({ sheets }: Results): Table {
  const rows = Object.entries(sheets).flatMap(([sheet, results]) =>
    Object.entries(results).map(
      ([name, { meaning, value, unit, ucum, standardUncertainty, worst, interval, doubt }]): Row => [
        `${sheet}.${name}`,
        meaning,
        value,
        unit,
        ucum,
        standardUncertainty,
        worst?.low,
        worst?.high,
        interval?.low,
        interval?.high,
        doubt?.low,
        doubt?.high,
      ],
    ),
  );
  return {
    head: [
      "name",
      "meaning",
      "value",
      "unit",
      "ucum",
      "standard uncertainty",
      "worst low",
      "worst high",
      "95 % low",
      "95 % high",
      "doubt low",
      "doubt high",
    ],
    rows,
  };
}

/** What each result is worth when each given alone is moved. */
function sensitivity({ sheets }: Results): Table {
  const rows = Object.entries(sheets).flatMap(([sheet, results]) =>
    Object.entries(results).flatMap(([name, result]) =>
      (result.sensitivity ?? []).map(
        ({ given, by, unit, low, high }): Row => [
          `${sheet}.${name}`,
          given,
          by,
          low.at,
          high.at,
          unit,
          result.value,
          low.value ?? "",
          high.value ?? "",
          result.unit,
        ],
      ),
    ),
  );
  return {
    head: ["result", "given", "moved by", "given low", "given high", "unit of the given", "value", "value at low", "value at high", "unit"],
    rows,
  };
}

/** Every answer of every requirement; the one that decides has the verdict of the requirement. */
function requirements({ requirements: all }: Results): Table {
  const rows = Object.entries(all).flatMap(([id, { verdict: word, judged, answers }]) =>
    answers.map(
      ({ verdict, sheet, value, deciding, margin, unit, ucum, outside, doubt, doubted }): Row => [
        id,
        word,
        judged,
        sheet,
        verdict,
        value,
        deciding,
        margin,
        unit,
        ucum,
        doubted?.best,
        doubted?.bestShare,
        doubted?.share,
        doubted?.standardError,
        doubt ?? "",
        outside?.join("; ") ?? "",
      ],
    ),
  );
  return {
    head: [
      "requirement",
      "verdict",
      "judged",
      "sheet",
      "verdict of the sheet",
      "value",
      "deciding",
      "margin",
      "unit",
      "ucum",
      "best estimate",
      "share at the best estimate",
      "share with the doubt",
      "standard error",
      "doubt",
      "outside the range of",
    ],
    rows,
  };
}

/** Every alternative by every criterion, and what they are compared by where it is not the value that decides. */
function decisions({ decisions: blocks, evaluation }: Book): Table {
  const rows = blocks.flatMap((block) =>
    assessDecision(block, evaluation).rows.flatMap(({ name, label, chosen, dominatedBy, cells }) =>
      cells.map(({ criterion, value, cost, verdict, problem }): Row => {
        const node = block.alternatives.find((one) => one.name === name)?.values[criterion.name] ?? "";
        const unit = unitOf(evaluation.graph.get(node).unit);
        const { better, target } = criterion;
        const shown = [value, ...(target === undefined ? [] : [evaluation.nominal(target)])].map((si) => numberToTwelve(unit.fromSI(si)));
        const compared = better === "nearest" || better === "smallest spread" ? numberToTwelve(cost) : "";
        return [
          block.choice,
          name,
          label,
          chosen ? "yes" : "no",
          criterion.label,
          better,
          shown[1] ?? "",
          problem === undefined ? shown[0] : "",
          problem === undefined ? compared : "",
          unit.symbol,
          unit.ucum,
          verdict?.verdict ?? "",
          dominatedBy ?? "",
          problem ?? "",
        ];
      }),
    ),
  );
  return {
    head: [
      "decision",
      "alternative",
      "label",
      "chosen",
      "criterion",
      "best",
      "target",
      "deciding",
      "distance or spread",
      "unit",
      "ucum",
      "verdict",
      "dominated by",
      "problem",
    ],
    rows,
  };
}

function parts({ blocks, graph, evaluation }: Book): Table {
  const rows = chosenParts(Object.values(blocks), graph).map((node): Row => {
    const unit = unitOf(node.unit);
    const value = numberToTwelve(unit.fromSI(evaluation.nominal(node.id)));
    return [node.id, nodeWords(node), value, unit.symbol, unit.ucum, node.series, toleranceText(node, graph)];
  });
  return { head: ["part", "for", "value", "unit", "ucum", "series", "tolerance"], rows };
}
