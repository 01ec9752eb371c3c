/**
 * The order of tokens: whether values and operators take turns, brackets pair up and commas stand between
 * arguments. Checked before parsing, from left to right, so that the first fault is named in our words and at
 * its place; the parser behind it accepts far more (implied products, matrices, units, text, assignments).
 */
import { found } from "./fault";
import { comparisons } from "./functions";
import { type Token, tokenise } from "./tokens";

export interface Scanned {
  /** The result's symbol, where the text begins `name =`. */
  readonly name?: string;
  /** The tokens of the right-hand side. */
  readonly tokens: readonly Token[];
}

/** Deeper nesting than any published law; keeps the recursions behind it safe. */
const deepest = 200;
/** Longer than any published law, for the same reason: a sum of n terms is a tree of n levels. */
const most = 400;
const binary = new Set(["+", "-", "*", "/", "^", ...comparisons.keys()]);

/** Tokens of a formula whose order is right. `isSymbol` tells symbols from functions before a bracket. Throws FaultFound. */
export function scan(text: string, isSymbol: (word: string) => boolean): Scanned {
  const all = tokenise(text);
  const equals = all.findIndex((token) => token.text === "=");
  if (equals < 0) return { tokens: checkOrder(all, text, isSymbol) };
  const [name] = all;
  if (equals !== 1 || name?.kind !== "word") return misplacedEquals(all[equals] as Token);
  return { name: name.text, tokens: checkOrder(all.slice(2), text, isSymbol) };
}

function misplacedEquals(token: Token): never {
  return found("'=' may only follow the result's name", token.at);
}

type Bracket = "group" | "function";

function checkOrder(tokens: readonly Token[], text: string, isSymbol: (word: string) => boolean): readonly Token[] {
  const operators = tokens.filter(isOperation);
  const excess = operators[most];
  if (excess !== undefined)
    found(`the formula has ${operators.length} operators, more than ${most}; make results of its parts, each with a name`, excess.at);
  const open: Bracket[] = [];
  let wantsValue = true;
  for (let i = 0; i < tokens.length; i++) {
    const token = tokens[i] as Token;
    if (token.text === "=") misplacedEquals(token);
    if (!wantsValue) {
      wantsValue = afterValue(token, open);
    } else if (isCall(token, tokens[i + 1], isSymbol)) {
      openBracket(open, "function", token);
      i++;
    } else {
      wantsValue = beforeValue(token, open);
    }
  }
  if (wantsValue) found("a value is missing at the end", text.length);
  if (open.length > 0) found("unbalanced: '(' without ')'", text.length);
  return tokens;
}

/** An operator, a sign or a call: each is a level at most. */
function isOperation({ kind, text }: Token, index: number, tokens: readonly Token[]): boolean {
  if (kind === "operator") return !"(),=".includes(text);
  return kind === "word" && tokens[index + 1]?.text === "(";
}

function isCall(token: Token, next: Token | undefined, isSymbol: (word: string) => boolean): boolean {
  return token.kind === "word" && next?.text === "(" && !isSymbol(token.text);
}

function openBracket(open: Bracket[], bracket: Bracket, token: Token): void {
  open.push(bracket);
  if (open.length > deepest) found(`brackets are nested deeper than ${deepest} levels`, token.at);
}

/** Where a value is expected: true if one still is after this token. */
function beforeValue(token: Token, open: Bracket[]): boolean {
  if (token.kind !== "operator") return false;
  if (token.text === "(") openBracket(open, "group", token);
  else if (token.text !== "-" && token.text !== "+") found(`a value is missing before '${token.text}'`, token.at);
  return true;
}

/** Where an operator is expected: true if a value is expected after this token. */
function afterValue(token: Token, open: Bracket[]): boolean {
  if (binary.has(token.text)) return true;
  if (token.text === ",") {
    if (open.at(-1) !== "function") found("',' outside a function", token.at);
    return true;
  }
  if (token.text !== ")") found(`an operator is missing before '${token.text}'`, token.at);
  if (open.pop() === undefined) found("unbalanced: ')' without '('", token.at);
  return false;
}
