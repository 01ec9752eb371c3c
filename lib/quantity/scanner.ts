/** A cursor over the text of a quantity: numbers, units and signs, each with its column for messages. */
import { excerpt, sameCharacters } from "./characters";
import type { Dimension } from "./dimension";
import { WorkingsError } from "./error";
import type { Unit } from "./quantity";
import { fromSuperscript } from "./superscript";
import { problemText, readUnit } from "./unit-text";

/** A number as typed: its digits and its power of ten apart, so that a prefix moves the point and rounds nothing. */
export interface NumberToken {
  readonly at: number;
  readonly digits: string;
  readonly exponent: number;
  readonly value: number;
  /** Standard uncertainty in the same scale, of `9.109(28)e-31`. */
  readonly uncertainty?: number;
}

const numberPattern = /^[+-]? ?(?:\d+(?:\.\d+)?|\.\d+)/;
/**
 * Digits in groups of three: 10 000, 0.000 001, 6.674 30. The last group behind a point may be shorter where the spaces are thin or fixed, or
 * an uncertainty follows: with a plain space it could be another number.
 */
const groupedPattern =
  /^[+-]? ?(?:[1-9]\d{0,2}(?: \d{3})+(?:\.\d{3}(?: \d{3})*(?: \d{1,2})?|\.\d{1,2})?|\d{1,3}\.\d{3}(?: \d{3})*(?: \d{1,2})?)(?![\d./·*])/;
const exponentPattern = /^(?:[eE]([+-]?\d+)| ?[×x·*] ?10(?:\^([+-]?\d+)|\^\(([+-]?\d+)\)|(⁻?[⁰¹²³⁴⁵⁶⁷⁸⁹]+)))/;
/** Below it numbers lose digits one by one. */
export const smallestNumber = 2 ** -1022;

/** Where the text of a unit ends: a sign before a digit, a bracket that opens a number, a word of the grammar before a number. */
const unitEnd = new RegExp(
  [
    "±",
    "\\+/-",
    "\\+-",
    "/ ?(?=[+-])",
    "(?<![\\^(])[+-] ?[\\d.]",
    "…",
    "\\.\\.",
    "–",
    "σ",
    "×/÷",
    "(?<![^ ])(?:ν|dof\\b)",
    ",",
    ";",
    "(?<![^ ])sigma\\b",
    "(?<![^ ])(?:to|in|min|typ|max)\\b\\.? ?(?=[+-]?\\.?\\d)(?![+-] ?[\\d.]+[^/]{0,20}/ ?[+-])", // but 5 in +1/-2 is in inches
    "(?<![\\^/]) ?\\( ?(?=[±+\\-\\d.])",
    " ?\\((?=(?:triangular|rectangular)\\))",
  ].join("|"),
  "u",
);

export class Scanner {
  readonly text: string;
  at = 0;
  /** Whether a letter code with a power of ten of its own was read: 4k7. */
  codeRead = false;
  /** The last number without a unit of its own. */
  unitless: NumberToken | undefined;

  constructor(
    readonly original: string,
    readonly asked: Dimension | undefined,
  ) {
    this.text = sameCharacters(original);
  }

  rest(): string {
    return this.text.slice(this.at);
  }
  space(): void {
    while (this.text[this.at] === " ") this.at++;
  }
  done(): boolean {
    this.space();
    return this.at >= this.text.length;
  }

  /** Skips spaces and takes one of the words if it stands here. */
  take(pattern: RegExp): RegExpExecArray | undefined {
    this.space();
    const match = pattern.exec(this.rest());
    if (match === null || match.index !== 0) return undefined;
    this.at += match[0].length;
    return match;
  }

  /** A number that must stand here; with an uncertainty in brackets only where that is the spread. */
  number(): NumberToken {
    const number = this.uncertainNumber();
    if (number.uncertainty === undefined) return number;
    throw this.trouble(number.at, "an uncertainty in brackets stands behind a value alone; write one spread");
  }

  /** A number, perhaps `9.109(28)e-31`. */
  uncertainNumber(): NumberToken {
    this.space();
    const at = this.at;
    const match = this.grouped() ?? numberPattern.exec(this.rest());
    if (match === null)
      throw this.trouble(at, this.rest() === "" ? "a number is missing" : `a number is expected, not "${excerpt(this.rest())}"`);
    this.at += match[0].length;
    this.refuseSeparators(match[0]);
    const digits = match[0].replaceAll(" ", "");
    const brackets = this.uncertainty();
    const exponent = this.exponent();
    return this.token(at, digits, exponent, brackets);
  }

  /** A unit, if one stands here. */
  unit(asked: Dimension | undefined = this.asked): Unit<any> | undefined {
    this.space();
    const start = this.at;
    const rest = this.rest();
    const end = unitEnd.exec(rest)?.index ?? rest.length;
    const text = balanced(rest.slice(0, end)).trimEnd();
    if (text === "") return undefined;
    const scale = readUnit(text, asked);
    if ("reason" in scale) throw this.trouble(start + scale.at, scale.reason, scale.candidates);
    this.at += text.length;
    return scale;
  }

  /** An error that names text and column. `at` counts from 0. */
  trouble(at: number, reason: string, candidates: readonly string[] = []): WorkingsError {
    return new WorkingsError(
      "quantity-text",
      `cannot read "${excerpt(this.original)}" at column ${at + 1}: ${problemText({ at, reason, candidates })}`,
      { text: this.original, column: at + 1, candidates },
    );
  }

  private token(at: number, digits: string, exponent: number, brackets: string | undefined): NumberToken {
    const value = Number(`${digits}e${exponent}`);
    if (!Number.isFinite(value)) throw this.trouble(at, exponent < 0 ? "the number is too small" : "the number is too large");
    if (Math.abs(value) < smallestNumber && /[1-9]/.test(digits)) throw this.trouble(at, "the number is too small");
    if (brackets === undefined) return { at, digits, exponent, value };
    const decimals = digits.includes(".") ? digits.length - 1 - digits.indexOf(".") : 0;
    return { at, digits, exponent, value, uncertainty: Number(`${brackets}e${exponent - decimals}`) };
  }

  private grouped(): RegExpExecArray | undefined {
    const match = groupedPattern.exec(this.rest());
    const number = match?.[0].replace(/^[+-]? ?/, "") ?? "";
    if (match === null || !number.includes(" ")) return undefined;
    const stated = this.original.slice(this.at, this.at + match[0].length);
    const isWhole = !/\.\d{3}(?: \d{3})* \d{1,2}$/.test(number) || this.text[this.at + match[0].length] === "(";
    return isWhole || !stated.slice(-number.length).includes(" ") ? match : undefined;
  }

  /** `5 1/s` is printed of a unit without a numerator, and reads as that. */
  private refuseSeparators(before: string): void {
    const next = this.rest();
    const after = /^[, ](\d{1,12})(?![\d.])/.exec(next)?.[1];
    const readings = after === undefined || before.includes(".") ? [] : [`${before}.${after}`, before + after];
    if (/^,\d/.test(next))
      throw this.trouble(this.at, "a comma in a number has two readings; write a decimal point and no separator of thousands", readings);
    if (/^ \d/.test(next) && !/^ 1[/·*]\D/.test(next))
      throw this.trouble(this.at, "two numbers side by side; write digits without spaces, or in groups of three", readings.slice(1));
    if (/^[.'_]\d/.test(next)) throw this.trouble(this.at, `"${next[0]}" cannot stand here in a number`);
  }

  private uncertainty(): string | undefined {
    const match = /^\((\d+)\)/.exec(this.rest());
    if (match !== null) this.at += match[0].length;
    return match?.[1];
  }

  private exponent(): number {
    const match = exponentPattern.exec(this.rest());
    if (match === null) {
      if (/^ ?[×x·*] ?10\^/.test(this.rest())) throw this.trouble(this.at, "a power of ten is written 10^3, 10^(-3) or 10³");
      return 0;
    }
    this.at += match[0].length;
    return Number(match[1] ?? match[2] ?? match[3] ?? fromSuperscript(match[4] as string));
  }
}

/** The text up to a closing bracket that it did not open. */
function balanced(text: string): string {
  let depth = 0;
  for (let i = 0; i < text.length; i++) {
    if (text[i] === "(") depth++;
    if (text[i] === ")" && --depth < 0) return text.slice(0, i);
  }
  return text;
}

/** A number as it was written: `5e3`. */
export function numberText({ digits, exponent }: NumberToken): string {
  return exponent === 0 ? digits : `${digits}e${exponent}`;
}

/** SI value of a number in a unit. */
export function siOf(number: NumberToken, scale: Unit<any>): number {
  if (scale.decimal === undefined) return scale.toSI(number.value);
  return Number(`${number.digits}e${number.exponent + scale.decimal}`);
}
