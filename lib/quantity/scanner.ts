/** A cursor over the text of a quantity: numbers, units and signs, each with its column for messages. */
import { sameCharacters } from "./characters";
import type { Dimension } from "./dimension";
import { WorkingsError } from "./error";
import type { Scale } from "./scale";
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
const exponentPattern = /^(?:[eE]([+-]?\d+)| ?[×x·*] ?10(?:\^\(?([+-]?\d+)\)?|(⁻?[⁰¹²³⁴⁵⁶⁷⁸⁹]+)))/;

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
    ",",
    ";",
    "(?<![^ ])sigma\\b",
    "(?<![^ ])(?:to|in|min|typ|max)\\b\\.? ?(?=[+-]?\\.?\\d)",
    "(?<![\\^/]) ?\\( ?(?=[±+\\-\\d.])",
    " ?\\((?=(?:triangular|rectangular)\\))",
  ].join("|"),
  "u",
);

export class Scanner {
  readonly text: string;
  at = 0;

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

  /** A number that must stand here. */
  number(): NumberToken {
    this.space();
    const at = this.at;
    const match = numberPattern.exec(this.rest());
    if (match === null) throw this.trouble(at, this.rest() === "" ? "a number is missing" : `a number is expected, not "${this.rest()}"`);
    this.at += match[0].length;
    this.refuseSeparators();
    const digits = match[0].replace(" ", "");
    const brackets = this.uncertainty();
    const exponent = this.exponent();
    return this.token(at, digits, exponent, brackets);
  }

  /** A unit, if one stands here. */
  unit(asked: Dimension | undefined = this.asked): Scale | undefined {
    this.space();
    const start = this.at;
    const rest = this.rest();
    const end = unitEnd.exec(rest)?.index ?? rest.length;
    const text = balanced(rest.slice(0, end));
    if (text.trim() === "") return undefined;
    const scale = readUnit(text, asked);
    if ("reason" in scale) throw this.trouble(start + scale.at, scale.reason, scale.candidates);
    this.at += text.length;
    return scale;
  }

  /** An error that names text and column. `at` counts from 0. */
  trouble(at: number, reason: string, candidates: readonly string[] = []): WorkingsError {
    return new WorkingsError(
      "quantity-text",
      `cannot read "${this.original}" at column ${at + 1}: ${problemText({ at, reason, candidates })}`,
      { text: this.original, column: at + 1, candidates },
    );
  }

  private token(at: number, digits: string, exponent: number, brackets: string | undefined): NumberToken {
    const value = Number(`${digits}e${exponent}`);
    if (!Number.isFinite(value)) throw this.trouble(at, "the number is too large");
    if (brackets === undefined) return { at, digits, exponent, value };
    const decimals = digits.includes(".") ? digits.length - 1 - digits.indexOf(".") : 0;
    return { at, digits, exponent, value, uncertainty: Number(`${brackets}e${exponent - decimals}`) };
  }

  private refuseSeparators(): void {
    const next = this.rest();
    if (/^,\d/.test(next))
      throw this.trouble(this.at, "a comma in a number has two readings; write a decimal point and no separator of thousands");
    if (/^ \d/.test(next)) throw this.trouble(this.at, "two numbers side by side; write digits without spaces");
    if (/^[.'_]\d/.test(next)) throw this.trouble(this.at, `"${next[0]}" cannot stand here in a number`);
  }

  private uncertainty(): string | undefined {
    const match = /^\((\d+)\)/.exec(this.rest());
    if (match !== null) this.at += match[0].length;
    return match?.[1];
  }

  private exponent(): number {
    const match = exponentPattern.exec(this.rest());
    if (match === null) return 0;
    this.at += match[0].length;
    return Number(match[1] ?? match[2] ?? fromSuperscript(match[3] as string));
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

/** SI value of a number in a unit. */
export function siOf(number: NumberToken, scale: Scale): number {
  if (scale.decimal === undefined) return scale.toSI(number.value);
  return Number(`${number.digits}e${number.exponent + scale.decimal}`);
}
