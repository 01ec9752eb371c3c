/**
 * Doubt about a value, written beside its tolerance: `±8 %`, `(72 to 82 %)`, `×/÷1.3`, what stands behind a value in other texts; or the
 * value and its doubt together. In one text with the value `2.4 GPa ±5 %, doubt ±8 %`; a spread of knowledge alone
 * `78 % (72 to 82 %), knowledge`.
 */
import { WorkingsError } from "./error";
import { format } from "./format";
import { scaleOf } from "./limits";
import { parseQuantity } from "./parse";
import type { Quantity } from "./quantity";
import type { Spread } from "./spread";

export type SpreadWord = "production" | "knowledge";

export interface WithKinds {
  /** What stands before; empty where the text is a kind alone. */
  readonly value: string;
  readonly doubt?: string;
  readonly kind?: SpreadWord;
}

/** Takes the words of the kinds off a text. */
export function splitKinds(text: string): WithKinds {
  const [, value = "", doubt] = /^(.*?),\s*doubt\s+(.+)$/u.exec(text) ?? [];
  if (doubt !== undefined) return { value: value.trim(), doubt: doubt.trim() };
  const [, before = "", kind] = /^(?:(.*?)\s*,)?\s*(production|knowledge)\s*$/u.exec(text) ?? [];
  return kind === undefined ? { value: text.trim() } : { value: before.trim(), kind: kind as SpreadWord };
}

/**
 * The spread that a doubt beside a value has, about the same nominal and on the same scale. Throws "quantity-text" where it has none, is a
 * range or a list, has another middle, or stands on another scale than the tolerance.
 */
export function readDoubt(text: string, beside: Quantity<any>): Spread {
  const { si, unit, spread } = beside;
  const doubt = wholeDoubt(text, beside) ?? parseQuantity(`${format({ si, unit }, { digits: 17, prefix: false })} ${text}`);
  const fault = faultOf(doubt.spread, spread);
  if (fault !== undefined) throw new WorkingsError("quantity-text", `the doubt "${text}" ${fault}`, { text });
  return doubt.spread;
}

/** A text that states the value too: it must be the same. */
function wholeDoubt(text: string, { si, dimension }: Quantity<any>): Quantity<any> | undefined {
  if (!/^[(\d.+-]/u.test(text) || /^\(\s*\S+(\s+\S+)?\s+to\b/u.test(text) || /^\+\/?-|^\+.*\/-/u.test(text)) return undefined;
  const whole = parseQuantity(text, { dimension });
  if (Math.abs(whole.si - si) <= 1e-9 * Math.abs(si)) return whole;
  throw new WorkingsError(
    "quantity-text",
    `the doubt "${text}" is about another value than the given; write the doubt alone, such as ±8 %`,
    {
      text,
    },
  );
}

function faultOf(doubt: Spread, spread: Spread): string | undefined {
  if (doubt.kind === "exact") return "has no width; write how far the value may be off, such as ±8 %";
  if (doubt.kind === "range") return "is a range, which is a condition of use; write how far the value may be off, such as ±8 %";
  if (doubt.kind === "discrete") return "is a list; write how far the value may be off, such as ±8 %";
  const [own, other] = [scaleOf(doubt), scaleOf(spread)];
  if (own?.factor === other?.factor && own?.reference === other?.reference) return undefined;
  return "stands on another scale than the tolerance; state both as ±, both in decibels, or both as ×/÷";
}
