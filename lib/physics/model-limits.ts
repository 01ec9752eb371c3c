/** Limits of a model's symbols, SI, as its author states them. */
import type { ValidityLimit } from "../formula/validity";

/** Above zero: what is divided by, and sizes that are nothing at 0. */
export function positive(...symbols: readonly string[]): ValidityLimit[] {
  return symbols.map((symbol) => ({ symbol, low: Number.MIN_VALUE, high: Infinity, text: "> 0" }));
}

/** Zero or more: losses, loads and parts that may be left out. */
export function notNegative(...symbols: readonly string[]): ValidityLimit[] {
  return symbols.map((symbol) => ({ symbol, low: 0, high: Infinity, text: ">= 0" }));
}

/** Shares of a whole. */
export function shares(...symbols: readonly string[]): ValidityLimit[] {
  return symbols.map((symbol) => ({ symbol, low: 0, high: 1, text: "0 to 1" }));
}

/** One or more: ratios that have 1 for their least, as a noise gain or a crest factor. */
export function oneOrMore(...symbols: readonly string[]): ValidityLimit[] {
  return symbols.map((symbol) => ({ symbol, low: 1, high: Infinity, text: ">= 1" }));
}

/** Temperatures above absolute zero. */
export function absolute(...symbols: readonly string[]): ValidityLimit[] {
  return symbols.map((symbol) => ({ symbol, low: Number.MIN_VALUE, high: Infinity, text: "> 0 K" }));
}
