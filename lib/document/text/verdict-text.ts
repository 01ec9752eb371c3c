/** Verdicts, limits and margins in words. A verdict is never told by colour alone: the word stands in the badge. */

import type { JudgedBy, Limit, Verdict, VerdictWord } from "../../analysis/result";
import { format, formatNumber } from "../../quantity/format";
import type { Unit } from "../../quantity/quantity";
import { unitOf } from "../../quantity/unit";
import { doubtedText, limitText, outsideText, smallMargin, smallMarginText } from "../../sheet/words";
import { nodeOf, type View } from "../model/book-data";
import { nodeWords } from "../model/names";
import { type Html, html, nothing } from "./html";
import { numberText, percent } from "./show";

export { judgedText, limitText } from "../../sheet/words";

const marks: Readonly<Record<VerdictWord, { readonly mark: string; readonly name: string }>> = {
  holds: { mark: "✓", name: "holds" },
  "holds for 95 %": { mark: "✓", name: "most" },
  "not sure": { mark: "?", name: "unsure" },
  "too close to call": { mark: "≈", name: "close" },
  "does not hold": { mark: "✕", name: "fails" },
  "not shown": { mark: "?", name: "open" },
};

/** The mark of a verdict, and its name in the style sheet. */
export function verdictMark(word: VerdictWord): { readonly mark: string; readonly name: string } {
  return marks[word];
}

/** The verdict's word in a badge. */
export function badge(word: VerdictWord): Html {
  const { mark, name } = marks[word];
  return html`<span class="badge badge-${name}"><span aria-hidden="true">${mark}</span> ${word}</span>`;
}

/** What each verdict means, for a reader who meets it for the first time. */
export const verdictMeanings: Readonly<Record<VerdictWord, string>> = {
  holds: "In the worst case no unit misses the limit: every tolerance and every condition of use at its unfavourable end at once.",
  "holds for 95 %":
    "At least 95 units in a hundred meet the limit, at the worst point of use, with 95 % confidence over what is not known.",
  "not sure": "No value beyond the limit was found, but the search for the worst case may not have seen all.",
  "too close to call":
    "The value that decides lies so near to its limit that the draws cannot tell on which side. It does not count as met.",
  "does not hold": "The value that decides lies beyond the limit.",
  "not shown": "No sheet computes it, or it cannot be computed with the present values.",
};

/** The verdict in a badge that tells on hover, focus and tap what it means, and by which number it was decided (a sentence, or nothing). */
export function toldBadge(word: VerdictWord, decided: string): Html {
  const { mark, name } = marks[word];
  return html`<button type="button" class="badge badge-${name}" data-verdict="${word}" data-decided="${decided}"><span aria-hidden="true">${mark}</span> ${word}</button>`;
}

/** `Decided by the worst case 9.1 h, at ambient temperature = 5 °C, against ≥ 12 h: margin −2.9 h.` */
export function decidedBy(verdict: Verdict, limit: Limit, unit: Unit<any>, view: View): string {
  return `Decided by ${decidingText(verdict, unit, view)}, against ${limitText(limit, unit)}: margin ${marginText(verdict, unit)}.`;
}

/** Behind a verdict's badge: that a law was used where it does not hold. */
export function outsideRange(verdict: Verdict): Html {
  const text = outsideText(verdict);
  return text === undefined ? nothing : html` <span class="doubt">${text}</span>`;
}

/** The distance to the limit, in the unit: a difference in kelvin for °C, a level for decibels. */
export function marginText({ margin, deciding }: Pick<Verdict, "margin"> & Partial<Verdict>, unit: Unit<any>): string {
  const signed = (value: number, symbol: string) =>
    `${value > 0 ? "+" : ""}${numberText(value, 3)}${symbol === "1" ? "" : `\u00a0${symbol}`}`;
  if (!Number.isFinite(margin)) return "none";
  if (unit.log) return margin > 0 ? signed(unit.log.factor * Math.log10(margin), "dB") : "none";
  if (unit.affine) return signed(margin, "K");
  const small = deciding === undefined ? undefined : smallMargin(unit.fromSI(margin), unit.fromSI(deciding));
  return small === undefined ? signed(unit.fromSI(margin), unit.symbol) : smallMarginText(small, margin, unit.symbol);
}

const decidingWords: Readonly<Record<JudgedBy, string>> = {
  "worst case": "worst case",
  "95 %": "for 95\u00a0% of units",
  typical: "typical",
};

/** The value that decided, and at which range point: `worst case 9.1 h, at ambient temperature = 5 °C`. Tolerances are not told one by one. */
export function decidingText(verdict: Verdict, unit: Unit<any>, view: View): string {
  const value = `${decidingWords[verdict.judged]} ${decidingNumber(verdict, unit)}`;
  const point = rangePointText(verdict, view);
  return point === "" ? value : `${value}, ${point}`;
}

/** The value that decided, alone. */
export function decidingNumber({ deciding }: Verdict, unit: Unit<any>): string {
  return Number.isFinite(deciding) ? formatNumber(deciding, unit, 4) : "not finite";
}

/** `at ambient temperature = 5 °C`: the range point that decided; empty where there is none. */
export function rangePointText({ at }: Verdict, view: View): string {
  const points = Object.entries(at ?? {}).flatMap(([id, si]) => {
    const node = nodeOf(view, id);
    const range = node.kind === "given" && node.spread.kind === "range";
    return range ? [`${nodeWords(node)} = ${format({ si, unit: unitOf(node.unit) })}`] : [];
  });
  return points.length > 0 ? `at ${points.join(", ")}` : "";
}

/** Why the verdict is not sure, what is not known, or how sure the sampling is of a share. */
export function probabilityText(verdict: Verdict, unit: Unit<any>): string | undefined {
  const { probability, doubt } = verdict;
  if (doubt !== undefined) return doubt;
  const doubted = doubtedText(verdict, unit);
  if (doubted !== undefined) return doubted;
  if (!probability) return undefined;
  return `${percent(probability.estimate)} of sampled units meet it; at least ${percent(probability.lower)} with 95 % confidence`;
}
