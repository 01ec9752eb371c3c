/** Sentences about laws: their own symbols set as variables, and what they take for a level. */
import type { Slot } from "../../graph/model";
import type { Unit } from "../../quantity/quantity";
import { between, symbolHtml, wordsHtml } from "../model/names";
import { type Html, html } from "./html";

/** Names of Greek letters, and the letters that are words or units too. */
const greekWord = /^(?:alpha|beta|gamma|delta|epsilon|eta|theta|kappa|lambda|nu|rho|sigma|tau|phi|omega)$/u;
const beforeNoNoun = "(?=[.,;:)×·/+=−-]|\\s[×·/+=−]|$)";

/**
 * Words in which the law's symbols are variables, also those of one letter: not behind a number, where the letter is a
 * unit, `A` not at the beginning, and `a` only where no noun can follow.
 */
export function lawWords(text: string, symbols: readonly string[]): Html {
  const plain = symbols.filter((symbol) => greekWord.test(symbol) || /^(?:\p{L}|d\p{Lu})$/u.test(symbol));
  if (plain.length === 0) return wordsHtml(text);
  const each = plain.map((symbol) => (symbol === "a" ? symbol + beforeNoNoun : symbol === "A" ? "(?<=.)A" : symbol)).join("|");
  return between(text, new RegExp(`(?<![\\p{L}\\p{N}_.'^\`]|\\d\\s)(${each})(?![\\p{L}\\p{N}_'–\`])`, "gu"), symbolHtml, wordsHtml);
}

/** A sentence about the levels among a law's symbols; undefined without levels. */
export function levelWords(slots: readonly (readonly [symbol: string, slot: Slot])[]): Html | undefined {
  const behind = new Map<string, string[]>();
  for (const [symbol, slot] of slots) {
    const unit = "shape" in slot ? slot.y : slot;
    if (unit.log !== undefined) behind.set(quantityOf(unit), [...(behind.get(quantityOf(unit)) ?? []), symbol]);
  }
  if (behind.size === 0) return undefined;
  const told = [...behind].map(([quantity, symbols], n) => html`${n > 0 && "; "}${symbols.map(listed)}: ${quantity}`);
  return html`the law takes the quantity that a level stands for, not its decibels (${told})`;
}

function listed(symbol: string, index: number): Html {
  return html`${index > 0 && ", "}${symbolHtml(symbol)}`;
}

/** How an example's value was found: powers raised, minus signs as such but in names such as audio-01. */
export function handWords(text: string): Html {
  const minus = text.replace(/(?<!\p{L}\p{L})-(?=\d)/gu, "−");
  return between(minus, /\^(−?\d+(?:\.\d+)?)/u, (power) => html`<sup>${power}</sup>`, wordsHtml);
}

function quantityOf({ symbol, dimension, log }: Unit<any>): string {
  if (dimension.si !== "1") return `the ${dimension.label} behind the ${symbol}`;
  return `a ratio, 10 at ${log?.factor} ${symbol}`;
}
