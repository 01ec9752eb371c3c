/** Readings of prototypes and pilot batches in results.json, with what they say of the results and givens that they test. */
import { type BatchStatistics, batchStatistics } from "../analysis/batch";
import { meets } from "../analysis/reading";
import { spelledName } from "../graph/identity";
import { numberToTwelve } from "../quantity/format";
import { unitOf } from "../quantity/unit";
import { readingId } from "../sheet/reading-node";
import type { Book } from "./book";

export interface MeasuredReading {
  readonly result: string;
  readonly unit: string;
  readonly value: number;
  /** 95 % of what one unit was predicted to be before any evidence was used. */
  readonly predicted?: { readonly low: number; readonly high: number };
  readonly isInside: boolean;
  /** Of one that is called evidence. */
  readonly evidence?: {
    readonly isUsed: boolean;
    readonly refused?: string;
    readonly effective: number;
    readonly draws: number;
    /** By given, mean and standard deviation of its truth, in its unit; of a unit in decibels levels. */
    readonly truths: Readonly<
      Record<string, { readonly unit: string; readonly before: readonly [number, number]; readonly after: readonly [number, number] }>
    >;
  };
}

export interface MeasuredBatch extends BatchStatistics {
  readonly given: string;
  readonly unit: string;
}

export interface Measured {
  readonly readings: Readonly<Record<string, MeasuredReading>>;
  readonly batches: Readonly<Record<string, MeasuredBatch>>;
}

export function isMeasured({ design }: Book): boolean {
  return design.readings.length + design.batches.length > 0;
}

/** Readings of results that no sheet publishes are absent. */
export function measuredOf(book: Book): Measured {
  const { design, published, evaluation, graph } = book;
  return {
    readings: Object.fromEntries(
      design.readings.flatMap(({ id, result, nominal }) => {
        const of = published.get(result);
        if (of === undefined) return [];
        const unit = unitOf(graph.get(of).unit);
        const number = (si: number) => numberToTwelve(unit.fromSI(si));
        const predicted = evaluation.predicted(of);
        return [
          [
            id,
            {
              result,
              unit: unit.symbol,
              value: number(nominal),
              ...(predicted && { predicted: { low: number(predicted.low), high: number(predicted.high) } }),
              isInside: meets(nominal, of, evaluation),
              ...evidenceIn(id, book),
            },
          ] as const,
        ];
      }),
    ),
    batches: Object.fromEntries(
      design.batches.flatMap(({ id, given, values }) => {
        const node = design.given(given);
        return node.kind === "given" ? [[id, { given, unit: node.unit, ...rounded(batchStatistics(values, node)) }] as const] : [];
      }),
    ),
  };
}

function evidenceIn(id: string, { evaluation, graph }: Book): Pick<MeasuredReading, "evidence"> {
  const learned = evaluation.learned(readingId(id));
  if (learned === undefined) return {};
  const { truths, effective, ...rest } = learned;
  const inUnit = (given: string, { mean, deviation }: { readonly mean: number; readonly deviation: number }) => {
    const unit = unitOf(graph.get(given).unit);
    return [unit.fromSI(mean), unit.fromSI(mean + deviation) - unit.fromSI(mean)].map(numberToTwelve) as [number, number];
  };
  return {
    evidence: {
      ...rest,
      effective: Math.floor(effective),
      truths: Object.fromEntries(
        truths.map(({ given, before, after }) => [
          spelledName(given),
          { unit: unitOf(graph.get(given).unit).symbol, before: inUnit(given, before), after: inUnit(given, after) },
        ]),
      ),
    },
  };
}

/** Every number at 12 digits. */
function rounded<T>(value: T): T {
  if (typeof value === "number") return numberToTwelve(value) as T;
  if (Array.isArray(value)) return value.map(rounded) as T;
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, own]) => [key, rounded(own)])) as T;
}
