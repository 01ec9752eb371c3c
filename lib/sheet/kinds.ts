/** The kinds of blocks: what each holds, which nodes it owns, what a reader sees of it, and what it says in words. */

import type { NodeId } from "../graph/node";
import { entryOf } from "../quantity/entry-of";
import { unitOf } from "../quantity/unit";
import { confirmationWord } from "./assumption-word";
import type { Block, BlockOf } from "./block";
import {
  decisionLines,
  givenLine,
  requirementLine,
  resultLines,
  type Said,
  selectLine,
  tableLines,
  takenLine,
  valueText,
} from "./block-words";
import { batchLines, readingLines } from "./reading-words";
import { either, fields, flag, listOf, mapOf, node, number, oneOf, type Shape, text } from "./shape";
import { resultLine, spreadOf } from "./words";

/** Numbers that a reader of the document sees, and in which forms. */
export interface Numbers {
  readonly nodes: readonly NodeId[];
  readonly shows: readonly ("number" | "nominal" | "result" | "figure" | "worst" | "interval" | "bounds")[];
  /** Beside one another, in the unit of the first. */
  readonly isColumn?: boolean;
}

/** What is to be known of a kind of block by whoever stores or shows it. */
export interface Kind<B extends Block> {
  /** What a stored one must hold. */
  readonly shape: Shape;
  /** May be left out within alternatives: what is made of its results brings them into the document. */
  readonly isQuiet?: boolean;
  /** The nodes whose place in the document it is: a link to one of them leads here. */
  owns?(block: B): readonly NodeId[];
  numbers?(block: B): readonly Numbers[];
  /** Markdown by the author. */
  prose?(block: B): readonly string[];
  /** Its lines in a notebook, and in the document where that has no place of its own for it. */
  words(block: B, said: Said): readonly string[];
}

const judged = oneOf("worst case", "95 %", "typical");
const limit = { low: number, high: number };
const axis = fields({ label: text, unit: text, scale: oneOf("linear", "log") }, limit);
const series = fields(
  { label: text },
  {
    curve: node,
    points: listOf(fields({ x: node, y: node }, { label: text })),
    band: flag,
    transposed: flag,
    within: fields({ judged }, limit),
  },
);
const branch = fields({ to: text }, { if: text });
const states = fields({
  id: text,
  start: text,
  off: text,
  events: listOf(fields({ event: text, meaning: text })),
  rows: listOf(fields({ state: text, next: mapOf(either(text, listOf(branch, 1))) })),
});
const law = { law: text, model: text, source: text };
const item = { label: text, node };

export const kinds: { readonly [T in Block["type"]]: Kind<BlockOf<T>> } = {
  givens: {
    shape: fields({ rows: listOf(fields({ symbol: text, node })) }),
    isQuiet: true,
    owns: ({ rows }) => rows.map(({ node }) => node),
    words: ({ rows }, said) => rows.map(({ symbol, node }) => givenLine(said, symbol, node)),
  },
  result: {
    shape: fields(
      { node },
      {
        ...law,
        substituted: fields({ latex: text, values: listOf(fields({ node, unit: text })) }),
        levels: fields({ lines: listOf(fields({ symbol: text, node, unit: text, times: number })) }),
      },
    ),
    isQuiet: true,
    owns: ({ node }) => [node],
    numbers: ({ node }) => [{ nodes: [node], shows: ["result", "worst", "interval"] }],
    words: resultLines,
  },
  table: {
    shape: fields({
      caption: text,
      laws: listOf(fields({ symbol: text }, law)),
      columns: listOf(fields({ symbol: text, meaning: text })),
      rows: listOf(fields({ label: text, cells: listOf(node) })),
    }),
    isQuiet: true,
    owns: ({ rows }) => rows.flatMap(({ cells }) => cells),
    numbers: ({ columns, rows }) =>
      columns.map((_, index) => ({ nodes: rows.flatMap(({ cells }) => cells[index] ?? []), shows: ["figure", "bounds"], isColumn: true })),
    words: tableLines,
  },
  select: {
    shape: fields({ node, of: node }, { parts: listOf(node, 2) }),
    isQuiet: true,
    owns: ({ node }) => [node],
    numbers: ({ node, of, parts = [] }) => [
      { nodes: [node, of, ...parts], shows: ["nominal"] },
      { nodes: [node], shows: ["worst", "interval"] },
    ],
    words: (block, said) => [selectLine(block, said)],
  },
  decision: {
    shape: fields({
      name: text,
      question: text,
      choice: node,
      criteria: listOf(
        fields(
          { name: text, label: text, better: oneOf("lower", "higher", "nearest", "smallest spread") },
          { target: node, limit: fields({ judged }, { ...limit, requirement: text }) },
        ),
      ),
      alternatives: listOf(fields({ name: text, label: text, values: mapOf(node) })),
      reason: text,
      reconsider: text,
    }),
    owns: ({ choice }) => [choice],
    numbers: ({ criteria, alternatives }) =>
      criteria.flatMap((criterion): Numbers[] => [
        {
          nodes: alternatives.flatMap(({ values }) => entryOf(values, criterion.name) ?? []),
          shows: criterion.better === "smallest spread" ? ["number", spreadOf(criterion)] : ["number"],
          isColumn: true,
        },
        { nodes: criterion.target === undefined ? [] : [criterion.target], shows: ["nominal"] },
      ]),
    prose: ({ reason, reconsider }) => [reason, reconsider],
    words: decisionLines,
  },
  // Its number stands in the table of verdicts, where the verdict tells the change.
  requirement: { shape: fields({ requirement: text, node }), words: (block, said) => [requirementLine(block, said)] },
  plot: {
    shape: fields(
      { name: text, caption: text, x: axis, y: axis, series: listOf(series) },
      {
        colours: mapOf(text),
        spreads: listOf(fields(item)),
        rules: listOf(fields({ axis: oneOf("x", "y"), label: text, value: number })),
      },
    ),
    prose: ({ caption }) => [caption],
    words: ({ caption }) => [caption],
  },
  drawing: {
    shape: fields({ name: text, caption: text, drawing: text, arguments: mapOf(node) }, { states }),
    prose: ({ caption }) => [caption],
    words: ({ caption }) => [caption],
  },
  caution: {
    shape: fields({ subject: text, text }),
    prose: ({ text }) => [text],
    words: ({ subject, text }) => [`CAUTION, ${subject}: ${text}`],
  },
  contribution: {
    shape: fields({ budget: text, items: listOf(fields(item)) }),
    numbers: ({ items }) => [{ nodes: items.map(({ node }) => node), shows: ["result"] }],
    words: ({ budget, items }, said) => [`${budget}: ${items.map(({ label, node }) => `${label} ${valueText(said, node)}`).join(", ")}`],
  },
  collection: {
    shape: fields({ budget: text, node, items: listOf(fields({ ...item, sheet: text })) }),
    owns: ({ node }) => [node],
    numbers: ({ items, node }) => [{ nodes: [...items.map((item) => item.node), node], shows: ["result", "interval"] }],
    words: ({ budget, node, items }, said) => [
      `${budget}: ${said.analyses[0] ? resultLine(said.analyses[0], unitOf(said.evaluation.graph.get(node).unit)) : ""}`,
      ...items.map(({ label, sheet, node: item }) => `  ${label} (${sheet}): ${valueText(said, item)}`),
    ],
  },
  assumption: {
    shape: fields({ name: text, node }),
    numbers: ({ node }) => [{ nodes: [node], shows: ["result"] }],
    words: ({ name, node }, said) => [`assumed, to be confirmed by a later sheet: ${givenLine(said, name, node)}`],
  },
  confirmation: {
    shape: fields({ of: text, assumed: node, node }),
    numbers: ({ node }) => [{ nodes: [node], shows: ["result", "interval"] }],
    words: ({ of, assumed, node }, said) => [
      `${of}: assumed ${valueText(said, assumed)}, computed ${valueText(said, node)}: ${confirmationWord(said.evaluation, assumed, node)}`,
    ],
  },
  reading: {
    shape: fields({ reading: text, node, of: node }),
    owns: ({ node }) => [node],
    words: (block, { evaluation }) => readingLines(block, evaluation),
  },
  batch: {
    shape: fields({ batch: text, node, values: listOf(number, 2) }),
    words: (block, { evaluation }) => batchLines(block, evaluation),
  },
  taken: {
    shape: fields({ rows: listOf(fields({ symbol: text, node, from: text })) }),
    isQuiet: true,
    numbers: ({ rows }) => [{ nodes: rows.map(({ node }) => node), shows: ["result"] }],
    words: ({ rows }, said) => rows.map(({ symbol, node, from }) => takenLine(said, symbol, node, from)),
  },
  publish: {
    shape: fields({ names: mapOf(node) }),
    numbers: ({ names }) => [{ nodes: Object.values(names), shows: ["result", "worst", "interval"] }],
    words: ({ names }, said) => [
      `published: ${Object.entries(names)
        .map(([name, id]) => `${name} = ${valueText(said, id)}`)
        .join(", ")}`,
    ],
  },
};

export const kindOf = ({ type }: Block): Kind<Block> => kinds[type];
