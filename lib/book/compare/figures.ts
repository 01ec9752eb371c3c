/** Published results and differences as text, from the numbers of results.json: honest digits, display units. */
import type { Analysis } from "../../analysis/result";
import { significantText } from "../../quantity/number-text";
import { unitOf } from "../../quantity/unit";
import { doubtText, intervalText, nominalText, worstText } from "../../sheet/words";
import type { PublishedResult } from "../results";

/** How a published result was and is: `12.8 h (95 %: 11.2 h to 14.4 h)`, by the worst case where there is no interval, or where it alone has moved. */
export function publishedTexts(before: PublishedResult, after: PublishedResult): readonly [before: string, after: string] {
  const [old, now] = [before, after].map(partsOf) as [Parts, Parts];
  const isWorst = old.interval === now.interval && old.doubt === now.doubt && old.value === now.value && old.worst !== now.worst;
  return [joined(old, isWorst), joined(now, isWorst)];
}

export function publishedText(result: PublishedResult): string {
  return joined(partsOf(result), false);
}

interface Parts {
  readonly value: string;
  readonly interval: string;
  readonly doubt: string;
  readonly worst: string;
}

function partsOf(result: PublishedResult): Parts {
  const unit = unitOf(result.unit);
  const analysis = asAnalysis(result);
  return {
    value: nominalText(analysis, unit),
    interval: intervalText(analysis, unit),
    doubt: doubtText(analysis, unit),
    worst: worstText(analysis, unit),
  };
}

function joined({ value, interval, doubt, worst }: Parts, isWorst: boolean): string {
  if (interval !== "" && !isWorst) return `${value} (95\u00a0%: ${interval}${doubt === "" ? "" : `; doubt: ${doubt}`})`;
  return worst === "" ? value : `${value} (worst case: ${worst})`;
}

/** Whether a reader sees two results differ, in value or spread; another unit alone is no difference. */
export function isMoved(before: PublishedResult, after: PublishedResult): boolean {
  if (before.unit !== after.unit) return !sameNumbers(before, after);
  const [old, now] = [partsOf(before), partsOf(after)];
  return old.value !== now.value || old.interval !== now.interval || old.doubt !== now.doubt || old.worst !== now.worst;
}

/** SI; NaN where the unit states no such number. */
export function inSI({ value, unit }: Pick<PublishedResult, "value" | "unit">): number {
  return unitOf(unit).toSI(value);
}

/** A difference of two numbers in a unit, `+1.93 h`: in kelvin for °C, in dB for levels. */
export function differenceText(difference: number, symbol: string): string {
  const unit = unitOf(symbol);
  const shown = unit.affine ? "K" : unit.log ? "dB" : symbol;
  return `${difference > 0 ? "+" : ""}${significantText(difference, 3)}${shown === "1" ? "" : `\u00a0${shown}`}`;
}

function asAnalysis(result: PublishedResult): Analysis {
  const unit = unitOf(result.unit);
  const { worst, interval, doubt } = result;
  const ends = { lowAt: {}, highAt: {}, searched: false };
  return {
    node: "",
    nominal: unit.toSI(result.value),
    worst: worst && { low: unit.toSI(worst.low), high: unit.toSI(worst.high), ...ends },
    interval: interval && { low: unit.toSI(interval.low), high: unit.toSI(interval.high), samples: interval.samples },
    ...(doubt && { doubt: { low: unit.toSI(doubt.low), high: unit.toSI(doubt.high), samples: doubt.samples } }),
    contributions: [],
    standardUncertainty: 0,
    frozen: false,
    warnings: [],
  };
}

function sameNumbers(before: PublishedResult, after: PublishedResult): boolean {
  const [a, b] = [before, after].map((result) => {
    const { nominal, worst, interval, doubt } = asAnalysis(result);
    return [nominal, worst?.low, worst?.high, interval?.low, interval?.high, doubt?.low, doubt?.high];
  });
  return (a ?? []).every((x, index) => {
    const y = b?.[index];
    return x === y || (x !== undefined && y !== undefined && Math.abs(x - y) <= 1e-9 * Math.abs(x));
  });
}
