/**
 * Limits within which a published law holds, as its author writes them: `> 0`, `>= 1 V`, `< 5 kHz`, `233 K to 398 K`,
 * `0.5 to 1.5`. Outside them a result is computed and carries a warning.
 */
import { assignable } from "../quantity/dimension";
import { WorkingsError } from "../quantity/error";
import type { Unit } from "../quantity/quantity";
import { unitOf } from "../quantity/unit";

/** Lowest and highest valid value of one symbol, coherent SI; an open end is infinite. */
export interface ValidityLimit {
  readonly symbol: string;
  readonly low: number;
  readonly high: number;
  readonly text: string;
}

const numberAndUnit = /^([-+−]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?)\s*(.*)$/iu;
const oneSided = /^(>=|<=|>|<)\s*(.+)$/u;
const twoSided = /^(.+?)\s+to\s+(.+)$/u;

/**
 * The limit that a text states for a symbol in `unit`. Strict and non-strict differ at zero only: `> 0` leaves
 * zero out. Throws WorkingsError('formula') where the text is no limit, or has another dimension.
 */
export function validityLimit(symbol: string, text: string, unit: Unit<any>): ValidityLimit {
  const read = (part: string) => value(symbol, part.trim(), unit, text);
  const sides = twoSided.exec(text.trim());
  if (sides !== null) return ordered({ symbol, low: read(sides[1] as string), high: read(sides[2] as string), text });
  const [, relation, bound] = oneSided.exec(text.trim()) ?? [];
  if (relation === undefined || bound === undefined) return refuse(symbol, text, 'write it as "> 0", "<= 5 V" or "1 V to 5 V"');
  const limit = read(bound);
  if (relation.startsWith(">")) return { symbol, low: relation === ">" && limit === 0 ? Number.MIN_VALUE : limit, high: Infinity, text };
  return { symbol, low: -Infinity, high: relation === "<" && limit === 0 ? -Number.MIN_VALUE : limit, text };
}

function ordered(limit: ValidityLimit): ValidityLimit {
  if (limit.low < limit.high) return limit;
  return refuse(limit.symbol, limit.text, "the lower limit must come first");
}

function value(symbol: string, text: string, unit: Unit<any>, whole: string): number {
  const [, digits, name] = numberAndUnit.exec(text) ?? [];
  if (digits === undefined || name === undefined) return refuse(symbol, whole, `"${text}" is no number with a unit`);
  const number = Number(digits.replace("−", "-"));
  if (name === "") return bare(symbol, number, unit, whole);
  const stated = unitOf(name, unit.dimension);
  if (assignable(stated.dimension, unit.dimension)) return stated.toSI(number);
  return refuse(symbol, whole, `${name} is ${stated.dimension.label}, the symbol is ${unit.dimension.label}`);
}

/** A number without a unit says enough for a ratio, and for zero where the unit's zero is the quantity's. */
function bare(symbol: string, number: number, unit: Unit<any>, whole: string): number {
  if (unit.dimension.si === "1" || (number === 0 && unit.toSI(0) === 0)) return number;
  return refuse(symbol, whole, `${number} needs a unit of ${unit.dimension.label}`);
}

function refuse(symbol: string, text: string, why: string): never {
  throw new WorkingsError("formula", `the limit of validity "${text}" of ${symbol} is not understood: ${why}`, { symbol, text });
}
