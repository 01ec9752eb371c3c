/** Results and verdicts in words and digits: the same in a cell, in the document and in the page. */
import type { Analysis, JudgedBy, Limit, Verdict } from "../analysis/result";
import type { GivenNode } from "../graph/node";
import { log10 } from "../quantity/elementary";
import { format, formatInterval, formatNumber } from "../quantity/format";
import { type Notation, numberToTwelve, significantText } from "../quantity/number-text";
import type { Unit } from "../quantity/quantity";
import type { Criterion } from "./block";

/** `825 Ω, worst case 712 Ω to 949 Ω, 95 % 744 Ω to 908 Ω, doubt 790 Ω to 860 Ω`. */
export function resultLine(analysis: Analysis, unit: Unit<any>): string {
  const parts = [nominalText(analysis, unit)];
  if (analysis.worst !== null) parts.push(`worst case ${worstText(analysis, unit)}`);
  if (analysis.interval !== null && !isDoubtAlone(analysis)) parts.push(`95 % ${intervalText(analysis, unit)}`);
  if (analysis.doubt !== undefined) parts.push(`doubt ${doubtText(analysis, unit)}`);
  return [...parts, ...remarksOn(analysis)].join(", ");
}

/** What a reader must know of a result beside its numbers. */
export const remarksOn = ({ outside, frozen }: Analysis): readonly string[] => [
  ...(outside === undefined ? [] : ["outside the range of a law"]),
  ...(frozen ? ["frozen: follows a number that was read out"] : []),
];

/** The nominal value at the digits that its spread allows. */
export function nominalText({ nominal, worst }: Analysis, unit: Unit<any>, notation: Notation = "text"): string {
  const spread = worst === null ? undefined : { kind: "rectangular" as const, low: worst.low, high: worst.high };
  return format({ si: nominal, unit: unit, ...(spread === undefined ? {} : { spread }) }, { style: "plain", notation });
}

/** Worst case, rounded outward. */
export function worstText(
  { worst }: Analysis,
  unit: Unit<any>,
  options: { readonly prefix?: boolean; readonly notation?: Notation } = {},
): string {
  return worst === null ? "" : formatInterval(worst.low, worst.high, unit, options);
}

/** 95 % interval, rounded outward. */
export function intervalText({ interval }: Analysis, unit: Unit<any>, notation: Notation = "text"): string {
  return interval === null ? "" : formatInterval(interval.low, interval.high, unit, { notation });
}

/** What the middle unit could be, rounded outward; empty where all is known. */
export function doubtText({ doubt }: Analysis, unit: Unit<any>, notation: Notation = "text"): string {
  return doubt === undefined ? "" : formatInterval(doubt.low, doubt.high, unit, { notation });
}

/** Whether units do not differ: the interval is then one value. */
export function isDoubtAlone({ interval, doubt }: Analysis): boolean {
  return doubt !== undefined && interval !== null && interval.low === interval.high;
}

/** Value and spread of a given as stated, with the kind where it is knowledge: `78 % (72 to 82 %), knowledge`. */
export function givenText({ text, knowledge }: GivenNode): string {
  return knowledge === true && !/\bknowledge$/.test(text) ? `${text}, knowledge` : text;
}

/**
 * What is not known, beside a verdict for 95 %: `best estimate 13.9 h, met by 99.7 % of units; with the doubt by 86 %; standard error
 * 0.02 h`. Undefined where all is known.
 */
export function doubtedText({ doubted, probability, deciding }: Verdict, unit: Unit<any>): string | undefined {
  if (doubted === undefined) return undefined;
  const best = `best estimate ${format({ si: doubted.best.deciding, unit })}`;
  const met = probability === undefined ? "" : `, met by ${shareText(probability.estimate)} of units`;
  return `${best}${met}; with the doubt by ${shareText(doubted.share)}; standard error ${errorText(doubted.standardError, deciding, unit)}`;
}

/**
 * Of a margin that is smaller than the last of the deciding value's four digits, the size of that digit: `less than 0.01 h` says it
 * better than 1.3×10⁻⁴ h. All numbers in one unit; undefined where the margin is larger, or nothing.
 */
export function smallMargin(margin: number, deciding: number): number | undefined {
  if (margin === 0 || !Number.isFinite(margin) || !Number.isFinite(deciding) || deciding === 0) return undefined;
  const digit = Number(`1e${Number(Math.abs(deciding).toExponential(3).split("e")[1]) - 3}`);
  return Math.abs(margin) < digit ? digit : undefined;
}

/** `less than 0.01 h short`. */
export function smallMarginText(digit: number, margin: number, symbol: string): string {
  return `less than ${significantText(digit, 1)}${symbol === "1" ? "" : `\u00a0${symbol}`} ${margin < 0 ? "short" : "inside"}`;
}

/** A margin in words: of decibels a level, of a temperature a difference in kelvin. */
export function marginWords({ margin, deciding }: Verdict, unit: Unit<any>): string {
  if (unit.log) return margin > 0 ? `${significantText(numberToTwelve(unit.log.factor * log10(margin)), 4)}\u00a0dB` : "none";
  if (unit.affine) return `${significantText(numberToTwelve(margin), 4)}\u00a0K`;
  const digit = smallMargin(unit.fromSI(margin), unit.fromSI(deciding));
  return digit === undefined ? format({ si: margin, unit }) : smallMarginText(digit, margin, unit.symbol);
}

/** A share in per cent, never rounded up to certainty. */
export function shareText(share: number): string {
  return `${significantText(Math.floor(share * 1000 + 1e-9) / 10, 3)} %`;
}

/** A difference of the deciding value, in the unit; a level for decibels. */
function errorText(error: number, deciding: number, unit: Unit<any>): string {
  const shown = unit.log ? unit.log.factor * log10(1 + error / Math.abs(deciding)) : Math.abs(unit.fromSI(error) - unit.fromSI(0));
  return differenceText(shown, unit, 2);
}

/** A difference of two numbers in a unit: of levels in decibels, of points of temperature in kelvin. */
export function differenceText(difference: number, unit: Unit<any>, digits = 3): string {
  const symbol = unit.log ? "dB" : unit.affine ? "K" : unit.symbol;
  return `${significantText(numberToTwelve(difference), digits)}${symbol === "1" ? "" : `\u00a0${symbol}`}`;
}

/** By which spread a criterion compares alternatives: the one that its limit is judged by, else 95 % of units. */
export function spreadOf({ limit }: Pick<Criterion, "limit">): "worst" | "interval" {
  return limit?.judged === "worst case" ? "worst" : "interval";
}

/** `outside the range of R = V/I: V is 5 V here; the law holds up to 4 V`; undefined where every law holds. */
export function outsideText({ outside }: { readonly outside?: Verdict["outside"] | undefined }): string | undefined {
  return outside === undefined ? undefined : `outside the range of ${outside.join("; and of ")}`;
}

/** `≥ 12 h`, `60 kHz to 200 kHz`, `14 dB ± …` as its two ends. */
export function limitText({ low, high }: Limit, unit: Unit<any>): string {
  const text = (si: number) => formatNumber(si, unit, 6);
  if (low !== undefined && high !== undefined) return `${text(low)} to ${text(high)}`;
  if (low !== undefined) return `≥\u00a0${text(low)}`;
  if (high !== undefined) return `≤\u00a0${text(high)}`;
  return "no limit stated";
}

export function judgedText(judged: JudgedBy): string {
  return judged === "worst case" ? "in the worst case" : judged === "95 %" ? "for 95 % of units" : "typically";
}

/** `holds for 95 %, margin 0.04, 96.1 % of units`. */
export function verdictLine(verdict: Verdict, unit: Unit<any>): string {
  const doubted = doubtedText(verdict, unit);
  const share =
    doubted !== undefined
      ? `; ${doubted}`
      : verdict.probability === undefined
        ? ""
        : `, met by ${(100 * verdict.probability.estimate).toFixed(1)} % of units`;
  const doubt = verdict.doubt === undefined ? "" : `: ${verdict.doubt}`;
  const outside = outsideText(verdict);
  return `${verdict.verdict}${outside === undefined ? "" : `, ${outside}`} (judged by ${verdict.judged}: ${format({ si: verdict.deciding, unit: unit })}, margin ${marginWords(verdict, unit)}${share})${doubt}`;
}
