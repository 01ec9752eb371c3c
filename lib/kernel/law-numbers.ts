/**
 * Numbers typed into the text of a law. Integers, their quotients (1/2), pi, e and exponents are part of a law's form; any
 * other number is a quantity that has a source: a given of the design file, or part of a law of the library that cites it.
 */
import { FaultFound } from "../formula/fault";
import { scan } from "../formula/syntax";
import { type Token, tokenise } from "../formula/tokens";
import type { TypeScript } from "./cell-parser";

interface LawNumber {
  readonly text: string;
  /** Offset in the file. */
  readonly at: number;
}

/** A stretch of text in a cell: `from` is where its first character stands, or the literal where characters are escaped. */
interface Piece {
  readonly text: string;
  readonly from: number;
  readonly isPlain: boolean;
}

/** In place of `${…}`: a symbol like any other. */
const symbol = " x ";

/**
 * Numbers in a text of a cell (a literal, a template, or such joined by `+`) that may not stand in a law. `isLaw` says that
 * it is one; otherwise it is one where it reads `name = …` and the rest has a law's order.
 */
export function lawNumbers(ts: typeof TypeScript, file: TypeScript.SourceFile, node: TypeScript.Node, isLaw: boolean): LawNumber[] {
  const pieces = piecesOf(ts, file, node);
  const text = pieces?.map((piece) => piece.text).join("") ?? "";
  if (pieces === undefined || !(isLaw || readsAsLaw(text))) return [];
  return typedNumbers(tokenise(text)).map((token) => ({ text: token.text, at: placeIn(pieces, token.at) }));
}

function readsAsLaw(text: string): boolean {
  try {
    return scan(text, () => false).name !== undefined;
  } catch (error) {
    if (error instanceof FaultFound) return false;
    throw error;
  }
}

function typedNumbers(tokens: readonly Token[]): Token[] {
  const found: Token[] = [];
  for (let i = 0; i < tokens.length; i++) {
    const token = tokens[i] as Token;
    if (token.text === "^") i = endOfExponent(tokens, i + 1);
    else if (/^[\d.]/.test(token.text) && !/^\d+$/.test(token.text)) found.push(token);
  }
  return found;
}

/** Index of the last token of an exponent that begins at `start`: `-2`, `0.44`, `(1/3)`, `n`. */
function endOfExponent(tokens: readonly Token[], start: number): number {
  let at = start;
  while (/^[-+]$/.test(tokens[at]?.text ?? "")) at++;
  if (tokens[at]?.text !== "(") return at;
  for (let depth = 0; at < tokens.length; at++) {
    if (tokens[at]?.text === "(") depth++;
    if (tokens[at]?.text === ")" && --depth === 0) return at;
  }
  return at;
}

function placeIn(pieces: readonly Piece[], offset: number): number {
  let before = 0;
  for (const { text, from, isPlain } of pieces) {
    if (offset < before + text.length) return isPlain ? from + (offset - before) : from;
    before += text.length;
  }
  return pieces.at(-1)?.from ?? 0;
}

/** Undefined where the node is no text. */
function piecesOf(ts: typeof TypeScript, file: TypeScript.SourceFile, node: TypeScript.Node): Piece[] | undefined {
  if (ts.isStringLiteralLike(node)) return [pieceOf(file, node)];
  if (ts.isParenthesizedExpression(node) || ts.isAsExpression(node)) return piecesOf(ts, file, node.expression);
  if (ts.isTemplateExpression(node))
    return [
      pieceOf(file, node.head),
      ...node.templateSpans.flatMap(({ expression, literal }) => [hole(expression.getStart(file)), pieceOf(file, literal)]),
    ];
  if (!ts.isBinaryExpression(node) || node.operatorToken.kind !== ts.SyntaxKind.PlusToken) return undefined;
  const [left, right] = [piecesOf(ts, file, node.left), piecesOf(ts, file, node.right)];
  if (left === undefined && right === undefined) return undefined;
  return [...(left ?? [hole(node.left.getStart(file))]), ...(right ?? [hole(node.right.getStart(file))])];
}

function pieceOf(file: TypeScript.SourceFile, literal: TypeScript.LiteralLikeNode): Piece {
  // One quotation mark, backtick or brace stands before the text.
  const start = literal.getStart(file);
  const isPlain = file.text.startsWith(literal.text, start + 1);
  return { text: literal.text, from: isPlain ? start + 1 : start, isPlain };
}

const hole = (from: number): Piece => ({ text: symbol, from, isPlain: false });
