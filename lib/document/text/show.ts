/**
 * The text of a computed number. One function serves the publisher and the page, so a recalculated page and a
 * fresh document say the same; the words are those of the worksheet's own output.
 */
import type { Evaluation } from "../../analysis/evaluation";
import type { Analysis } from "../../analysis/result";
import type { NodeId } from "../../graph/node";
import { format, formatInterval } from "../../quantity/format";
import { numberToTwelve, significantText } from "../../quantity/number-text";
import type { Unit } from "../../quantity/quantity";
import { unitOf } from "../../quantity/unit";
import { type EndName, endNames, endText, isEndName } from "../../sheet/ends";
import { doubtText, intervalText, isDoubtAlone, nominalText, worstText } from "../../sheet/words";
import { computed, notComputed } from "./computed";
import { type Html, html } from "./html";

/**
 * `nominal`: four digits; `operand`: the same behind a sign, in brackets where it is negative; `number`: the same in exactly the unit named, without it; `result`: as many digits as the
 * spread deserves, `figure`: those in exactly the unit named, without it; `worst`, `interval`, `doubt` and `predicted` (of one unit): both ends, rounded outward;
 * one end alone by its name (`sheet/ends.ts`);
 * `bounds`: those of the worst case in exactly the unit named, without it.
 */
export type Show =
  | EndName
  | "nominal"
  | "operand"
  | "number"
  | "result"
  | "figure"
  | "worst"
  | "interval"
  | "doubt"
  | "predicted"
  | "bounds";

/** What each is made from: the nominal value; that with the digits of its spread; the spread. */
export const madeFrom: Readonly<Record<Show, "value" | "digits" | "spread">> = {
  nominal: "value",
  operand: "value",
  number: "value",
  result: "digits",
  figure: "digits",
  worst: "spread",
  interval: "spread",
  doubt: "spread",
  predicted: "spread",
  bounds: "spread",
  ...(Object.fromEntries(endNames.map((name) => [name, "spread"])) as Record<EndName, "spread">),
};

export interface Shown {
  readonly node: NodeId;
  readonly show: Show;
  readonly unit: string;
}

/** The text of one shown number at the state of an evaluation. Throws where the value is not a finite number. */
export function showText({ node, show, unit: symbol }: Shown, evaluation: Evaluation): string {
  const unit = unitOf(symbol);
  if (isEndName(show)) return endText(show, node, unit, evaluation);
  switch (show) {
    case "nominal":
      return format({ si: evaluation.nominal(node), unit });
    case "operand": {
      const text = format({ si: evaluation.nominal(node), unit });
      return text.startsWith("−") ? `(${text})` : text;
    }
    case "number":
      return significantText(numberToTwelve(unit.fromSI(evaluation.nominal(node))), 4);
    case "result":
      return nominalText(evaluation.analysis(node), unit);
    case "figure":
      return figureText(evaluation, node, unit);
    case "worst":
      return worstText(evaluation.analysis(node), unit) || "no spread";
    case "bounds":
      return boundsText(evaluation, node, unit);
    case "interval":
      return alikeText(evaluation.analysis(node), unit) ?? (intervalText(evaluation.analysis(node), unit) || "no spread");
    case "doubt":
      return doubtText(evaluation.analysis(node), unit) || "none";
    case "predicted": {
      const predicted = evaluation.predicted(node);
      return predicted ? formatInterval(predicted.low, predicted.high, unit) : "no spread";
    }
  }
}

/** Where units do not differ an interval of one value would only look exact: what is not known is said instead. */
function alikeText(analysis: Analysis, unit: Unit<any>): string | undefined {
  return isDoubtAlone(analysis) ? `units do not differ; doubt ${doubtText(analysis, unit)}` : undefined;
}

function boundsText(evaluation: Evaluation, node: NodeId, unit: Unit<any>): string {
  const text = worstText(evaluation.analysis(node), unit, { prefix: false });
  return unit.symbol === "1" ? text || "no spread" : text.replaceAll(`\u00a0${unit.symbol}`, "") || "no spread";
}

function figureText(evaluation: Evaluation, node: NodeId, unit: Unit<any>): string {
  const { nominal, worst } = evaluation.analysis(node);
  const spread = worst ? ({ kind: "rectangular", low: worst.low, high: worst.high } as const) : ({ kind: "exact" } as const);
  return format({ si: nominal, unit, spread }, { style: "plain", prefix: false }).split("\u00a0")[0] ?? "";
}

/** The same, or `cannot be computed`. */
export function textOrNone(shown: Shown, evaluation: Evaluation): string {
  return computed(() => showText(shown, evaluation)).value ?? notComputed;
}

/** An element that the page keeps up to date. */
export function live(shown: Shown, evaluation: Evaluation): Html {
  return html`<span ${shownAttributes(shown)}>${textOrNone(shown, evaluation)}</span>`;
}

export function shownAttributes({ node, show, unit }: Shown): Html {
  return html`data-node="${node}" data-show="${show}" data-unit="${unit}"`;
}

/** The text of a number that no node computes: a share, a coordinate. */
export function numberText(value: number, digits: number): string {
  return significantText(numberToTwelve(value), digits);
}

/** `10 000`. */
export function grouped(count: number): string {
  return String(count).replace(/\B(?=(\d{3})+$)/g, "\u00a0");
}

/** A share as percent, never rounded up to certainty. */
export function percent(share: number): string {
  return `${numberText(Math.floor(share * 1000) / 10, 3)}\u00a0%`;
}

/**
 * Paddings of the texts of one column, so that their decimal points stand above one another when set flush right:
 * figure spaces for missing digits, a punctuation space for a missing point.
 */
export function decimalPadding(texts: readonly string[]): string[] {
  const decimals = texts.map((text) => (/^−?\d*\.(\d+)/.exec(text)?.[1] ?? "").length);
  const most = Math.max(0, ...decimals);
  return texts.map((text, index) => {
    const own = decimals[index] ?? 0;
    return !/^[−\d]/.test(text) || own === most ? "" : (own === 0 ? "\u2008" : "") + "\u2007".repeat(most - own);
  });
}

/** Figure spaces before the texts of one column set flush left, so that their decimal points stand above one another. */
export function leadingPadding(texts: readonly string[]): string[] {
  const whole = texts.map((text) => /^[(±−-]?\d+/.exec(text)?.[0].length ?? 0);
  const most = Math.min(Math.max(0, ...whole), 5);
  return whole.map((own) => (own === 0 ? "" : "\u2007".repeat(Math.max(0, most - own))));
}

/** A share as a bar, beside which the number stands: `share` from 0 to 1; the length of the whole in CSS pixels. */
export function bar(share: number, length: number): Html {
  const width = numberText(Math.max(0, Math.min(1, share)) * length, 4);
  return html`<svg class="bar" width="${length}" height="8" aria-hidden="true"><path d="M0,0h${width}v8H0z"/></svg>`;
}
