/**
 * Formula text cut into tokens: operators, brackets, commas, and words. Whatever is not an operator sticks
 * together in a word (`2k`, `V·I`, `x.y`, `"a"`), which then is a number, a given symbol, a constant or unknown:
 * one rule that the type-level parser can keep as well.
 */

export interface Token {
  readonly kind: "word" | "number" | "operator";
  readonly text: string;
  /** Offset in the formula's text. */
  readonly at: number;
}

const piece = /[<>=!]=|[-+*/^(),<>=]|(?:(?![<>=!]=)[^-+*/^(),<>=\s])+/gu;
const operator = /^(?:[<>=!]=|[-+*/^(),<>=])$/u;
const mantissa = /^(?:\d+\.?\d*|\.\d+)[eE]$/;

/** All tokens of a text, in order. Never fails. */
export function tokenise(text: string): Token[] {
  const tokens: Token[] = [];
  for (const match of text.matchAll(piece)) {
    tokens.push({ kind: kindOf(match[0]), text: match[0], at: match.index });
    joinExponent(tokens);
  }
  return tokens;
}

function kindOf(text: string): Token["kind"] {
  if (operator.test(text)) return "operator";
  return Number.isFinite(Number(text)) ? "number" : "word";
}

/** Puts `1.6e`, `-`, `19` back together: the sign of an exponent of ten is no operator. */
function joinExponent(tokens: Token[]): void {
  const [head, sign, digits] = tokens.slice(-3);
  if (head === undefined || sign === undefined || digits === undefined) return;
  if (!mantissa.test(head.text) || !/^[-+]$/.test(sign.text) || !/^\d+$/.test(digits.text)) return;
  const text = head.text + sign.text + digits.text;
  tokens.splice(-3, 3, { kind: kindOf(text), text, at: head.at });
}
