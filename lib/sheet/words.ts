/** Results and verdicts in words and digits: the same in a cell, in the document and in the page. */
import type { Analysis, Verdict } from "../analysis/result";
import { format, formatInterval } from "../quantity/format";
import type { Unit } from "../quantity/quantity";

/** `825 Ω, worst case 712 Ω to 949 Ω, 95 % 744 Ω to 908 Ω`. */
export function resultLine(analysis: Analysis, unit: Unit<any>): string {
  const parts = [nominalText(analysis, unit)];
  if (analysis.worst !== null) parts.push(`worst case ${worstText(analysis, unit)}`);
  if (analysis.interval !== null) parts.push(`95 % ${intervalText(analysis, unit)}`);
  if (analysis.outside !== undefined) parts.push("outside the range of a law");
  if (analysis.frozen) parts.push("frozen: follows a number that was read out");
  return parts.join(", ");
}

/** The nominal value at the digits that its spread allows. */
export function nominalText({ nominal, worst }: Analysis, unit: Unit<any>): string {
  const spread = worst === null ? undefined : { kind: "rectangular" as const, low: worst.low, high: worst.high };
  return format({ si: nominal, unit: unit, ...(spread === undefined ? {} : { spread }) }, { style: "plain" });
}

/** Worst case, rounded outward. */
export function worstText({ worst }: Analysis, unit: Unit<any>, options: { readonly prefix?: boolean } = {}): string {
  return worst === null ? "" : formatInterval(worst.low, worst.high, unit, options);
}

/** 95 % interval, rounded outward. */
export function intervalText({ interval }: Analysis, unit: Unit<any>): string {
  return interval === null ? "" : formatInterval(interval.low, interval.high, unit);
}

/** `outside the range of R = V/I: V is 5 V here; the law holds up to 4 V`; undefined where every law holds. */
export function outsideText({ outside }: { readonly outside?: Verdict["outside"] | undefined }): string | undefined {
  return outside === undefined ? undefined : `outside the range of ${outside.join("; and of ")}`;
}

/** `holds for 95 %, margin 0.04, 96.1 % of units`. */
export function verdictLine(verdict: Verdict, unit: Unit<any>): string {
  const share = verdict.probability === undefined ? "" : `, met by ${(100 * verdict.probability.estimate).toFixed(1)} % of units`;
  const doubt = verdict.doubt === undefined ? "" : `: ${verdict.doubt}`;
  const outside = outsideText(verdict);
  return `${verdict.verdict}${outside === undefined ? "" : `, ${outside}`} (judged by ${verdict.judged}: ${format({ si: verdict.deciding, unit: unit })}, margin ${format({ si: verdict.margin, unit: unit })}${share})${doubt}`;
}
