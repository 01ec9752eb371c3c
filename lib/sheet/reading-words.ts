/** What readings of prototypes and of pilot batches say, in words: the same in a cell, in the document and in every command. */
import { type BatchStatistics, batchStatistics } from "../analysis/batch";
import type { Evaluation } from "../analysis/evaluation";
import type { Learned } from "../analysis/evidence";
import { meets } from "../analysis/reading";
import { spelledName } from "../graph/identity";
import type { GivenNode, ReadingNode } from "../graph/node";
import { log10 } from "../quantity/elementary";
import { format, formatInterval } from "../quantity/format";
import { significantText } from "../quantity/number-text";
import { unitOf } from "../quantity/unit";
import type { BatchBlock, ReadingBlock } from "./block";

/** `14.3 h ±0.2 h read, 12.9 h to 17.2 h predicted: inside`, then what it narrows. */
export function readingLines({ reading, node, of }: ReadingBlock, evaluation: Evaluation): string[] {
  const row = evaluation.graph.get(node) as ReadingNode;
  const unit = unitOf(evaluation.graph.get(of).unit);
  const predicted = evaluation.predicted(of);
  const expected = predicted === null ? format({ si: evaluation.nominal(of), unit }) : formatInterval(predicted.low, predicted.high, unit);
  const where = row.specimen === undefined ? "" : ` (${row.specimen})`;
  const finding = meets(row.nominal, of, evaluation) ? "inside" : "OUTSIDE";
  const first = `reading ${reading}${where}: ${row.text}; 95 % of what one unit was predicted to be: ${expected}: ${finding}`;
  return [first, ...learnedLines(evaluation.learned(node), evaluation)];
}

/** What a reading that is evidence narrows; nothing of any other. */
export function learnedLines(learned: Learned | undefined, evaluation: Evaluation): string[] {
  if (learned === undefined) return [];
  const { isUsed, refused, effective, draws, truths } = learned;
  if (!isUsed) return [`evidence, but not used: ${refused}`];
  const rows = truths.map(({ given, before, after }) => {
    const node = evaluation.graph.get(given) as GivenNode;
    const text = (moments: { readonly mean: number; readonly deviation: number }) => aboutText(moments, node);
    return `  ${node.symbol ?? node.meaning ?? ""} (${spelledName(given)}): ${text(before)} before, ${text(after)} with the reading`;
  });
  return [
    `evidence: it narrows what is not known (${Math.floor(effective)} of ${draws} draws agree with it). It counts in every doubt and verdict of the document, in a notebook in what stands below it; best estimates and worst cases stay as stated`,
    ...rows,
  ];
}

/** `0.98 ± 0.02`: the mean and the standard deviation, in the given's unit; in decibels the deviation as a level. */
export function aboutText({ mean, deviation }: { readonly mean: number; readonly deviation: number }, { unit: symbol }: GivenNode): string {
  const unit = unitOf(symbol);
  const spread = { kind: "normal", sigma: deviation, coverage: 1 } as const;
  if (unit.log === undefined) return format({ si: mean, unit, spread });
  return `${format({ si: mean, unit })} (${formatInterval(mean - deviation, mean + deviation, unit)})`;
}

export function readingWarnings({ reading, node, of }: ReadingBlock, evaluation: Evaluation): string[] {
  const row = evaluation.graph.get(node) as ReadingNode;
  const learned = evaluation.learned(node);
  return [
    ...(meets(row.nominal, of, evaluation) ? [] : [`reading ${reading}: ${row.text} lies outside what was predicted`]),
    ...(learned?.isUsed === false ? [`reading ${reading} is evidence, but not used: ${learned.refused}`] : []),
  ];
}

export function batchLines({ batch, node, values }: BatchBlock, evaluation: Evaluation): string[] {
  const given = evaluation.graph.get(node) as GivenNode;
  const found = batchStatistics(values, given);
  return [`batch ${batch} of ${spelledName(node)}, stated ${given.text}:`, ...statisticsLines(found, given).map((line) => `  ${line}`)];
}

/** What a batch says of its given in one line. */
export function batchText(values: readonly number[], given: GivenNode): string {
  const found = batchStatistics(values, given);
  return [statisticsLines(found, given)[0], ...found.contradictions.map((text) => `CONTRADICTS the spread: ${text}`)].join("; ");
}

function statisticsLines(found: BatchStatistics, given: GivenNode): string[] {
  const { count, mean, deviation, meanWithin, deviationWithin, tolerance, capability, outside, normality } = found;
  const unit = unitOf(given.unit);
  const symbol = unit.symbol === "1" ? "" : ` ${unit.affine ? "K" : unit.symbol}`;
  const digits = Math.max(0, 1 - Math.floor(log10(deviation > 0 ? deviation : Math.abs(mean) || 1)));
  const number = (x: number) => x.toFixed(Math.min(12, digits)).replace("-", "−");
  const value = (x: number) => `${number(x)}${unit.symbol === "1" ? "" : ` ${unit.symbol}`}`;
  return [
    `${count} units: mean ${value(mean)} (95 % confidence ${number(meanWithin[0])} to ${value(meanWithin[1])}), standard deviation ${number(deviation)}${symbol} (${number(deviationWithin[0])} to ${number(deviationWithin[1])}${symbol})`,
    `95 % of units lie within ${number(tolerance[0])} to ${value(tolerance[1])} with 95 % confidence`,
    ...(capability === undefined
      ? []
      : [
          `of the stated limits: Cp ${two(capability.cp)}, Cpk ${two(capability.cpk)}, with 95 % confidence at least ${two(capability.cpLow)} and ${two(capability.cpkLow)}; ${outside} of ${count} units outside`,
        ]),
    `a normal batch looks as little normal in ${significantText(Math.floor(1000 * normality) / 10, 2)} % of cases`,
    ...found.contradictions.map((text) => `contradicts the design file: ${text}`),
    ...found.remarks,
  ];
}

const two = (x: number) => x.toFixed(2).replace("-", "−");

export function batchWarnings(batch: string, { contradictions }: BatchStatistics): string[] {
  return contradictions.map((text) => `batch ${batch} contradicts the design file: ${text}`);
}
