/**
 * Formula text to syntax tree. mathjs settles precedence and brackets; our scan before it has fixed which
 * tokens there are, and each word reaches mathjs under a neutral name, so that none of its own words (units,
 * `in`, `mod`, `true`) can change a meaning. The only import of mathjs in the product: `mathjs/number` adds
 * 144 kB minified and 20 to 30 ms at first use (the whole of mathjs: 250 to 450 ms).
 */
import { create, parseDependencies } from "mathjs/number";
import { dimensionless } from "../quantity/dimension";
import { sortWithin, type Wording } from "./dimensions";
import type { Expression, Operation } from "./expression";
import { FaultFound, formulaError } from "./fault";
import { comparisons, constants, formulaFunctions } from "./functions";
import { rootOfSquares } from "./power-sum";
import { scan } from "./syntax";
import type { Token } from "./tokens";

export interface Parsed {
  /** The result's symbol, where the text begins `name =`. */
  readonly name?: string;
  readonly expression: Expression;
  readonly wording: ReadonlyMap<Expression, Wording>;
}

/**
 * The tree of a formula such as `R_g = (V_s - V_g)/I_g`, its symbols and functions not yet checked. A word that
 * `isSymbol` accepts is a symbol even if a constant or function has its name.
 * Throws FaultFound where tokens are out of order.
 */
export function parseWords(text: string, isSymbol: (word: string) => boolean): Parsed {
  const { name, tokens } = scan(text, isSymbol);
  const reader = new TreeReader(tokens, isSymbol);
  const root = reader.read(mathTree(tokens));
  return { expression: root, wording: reader.wording, ...(name === undefined ? {} : { name }) };
}

/** A formula's tree and the symbol of its result. */
export interface ParsedFormula {
  readonly name?: string;
  readonly expression: Expression;
}

/**
 * The tree of a formula, whatever the dimensions of its symbols. `symbols` are names that mean a symbol even
 * though a constant (`e`) has that name. Throws WorkingsError('formula') with text, column and sentence where
 * tokens are out of order, a function is unknown or takes another number of values, or a condition is misplaced.
 */
export function parseFormula(text: string, symbols: readonly string[] = []): ParsedFormula {
  const given = new Set(symbols);
  try {
    const { wording, ...formula } = parseWords(text, (word) => given.has(word));
    // Were every symbol a bare number, only faults that do not hang on dimensions are left.
    sortWithin(
      formula.expression,
      () => ({ dimension: dimensionless }),
      (e) => wording.get(e) as Wording,
    );
    return formula;
  } catch (error) {
    throw error instanceof FaultFound ? formulaError(text, error.fault) : error;
  }
}

/** The parts of mathjs' nodes that are read here. */
interface MathNode {
  readonly type: string;
  readonly op?: string;
  readonly args?: readonly MathNode[];
  readonly params?: readonly MathNode[];
  readonly content?: MathNode;
}

let parse: ((text: string) => MathNode) | undefined;

function mathTree(tokens: readonly Token[]): MathNode {
  parse ??= makeParser();
  return parse(tokens.map(neutral).join(" "));
}

/** Made at first use: it takes longer than all the parsing of a worksheet. */
function makeParser(): (text: string) => MathNode {
  if (parseDependencies === undefined) throw new Error("this build of mathjs has no parser");
  return create({ parseDependencies }).parse as unknown as (text: string) => MathNode;
}

function neutral(token: Token, index: number): string {
  if (token.kind === "word") return `w${index}`;
  return token.kind === "number" ? String(Number(token.text)) : token.text;
}

const operators: ReadonlyMap<string, Operation> = new Map<string, Operation>([
  ["+", "add"],
  ["-", "subtract"],
  ["*", "multiply"],
  ["/", "divide"],
  ["^", "power"],
  ...comparisons,
]);

/** Walks mathjs' tree in the order of the text, taking one token for each thing it meets. */
class TreeReader {
  readonly wording = new Map<Expression, Wording>();
  #next = 0;

  constructor(
    private readonly tokens: readonly Token[],
    private readonly isSymbol: (word: string) => boolean,
  ) {}

  read(node: MathNode): Expression {
    switch (node.type) {
      case "ConstantNode":
      case "SymbolNode":
        return this.#leaf();
      case "ParenthesisNode":
        return this.#bracket(node.content as MathNode);
      case "FunctionNode":
        return this.#call(node.args ?? []);
      case "RelationalNode":
        return this.#chain(node.params ?? []);
      case "OperatorNode":
        return this.#operation(node.args ?? []);
      default:
        throw new Error(`the parser gave a ${node.type}, which the scan before it should have refused`);
    }
  }

  #take(): Token {
    return this.tokens[this.#next++] as Token;
  }

  #say<E extends Expression>(expression: E, wording: Wording): E {
    this.wording.set(expression, wording);
    return expression;
  }

  #wordingOf(expression: Expression): Wording {
    return this.wording.get(expression) as Wording;
  }

  #leaf(): Expression {
    const { kind, text, at } = this.#take();
    if (kind === "number") return this.#say({ number: Number(text) }, { text, at });
    const constant = this.isSymbol(text) ? undefined : constants.get(text);
    return this.#say(constant === undefined ? { symbol: text } : { constant }, { text, at });
  }

  #bracket(content: MathNode): Expression {
    const { at } = this.#take();
    const inside = this.read(content);
    this.#take();
    return this.#say(inside, { ...this.#wordingOf(inside), text: `(${this.#wordingOf(inside).text})`, at });
  }

  #operation(args: readonly MathNode[]): Expression {
    const [first, second] = args as [MathNode, MathNode?];
    if (second === undefined) return this.#sign(first);
    return this.#binary(this.read(first), second);
  }

  #sign(operand: MathNode): Expression {
    const { text: sign, at } = this.#take();
    const value = this.read(operand);
    if (sign === "+") return value;
    return this.#say({ call: "negate", of: [value] }, { text: `-${this.#wordingOf(value).text}`, at });
  }

  #binary(left: Expression, second: MathNode): Expression {
    const { text: operator } = this.#take();
    const right = this.read(second);
    const spaced = /^[*/^]$/.test(operator) ? operator : ` ${operator} `;
    const text = `${this.#wordingOf(left).text}${spaced}${this.#wordingOf(right).text}`;
    return this.#say({ call: operators.get(operator) as Operation, of: [left, right] }, { text, at: this.#wordingOf(left).at });
  }

  /** a < b < c, which mathjs keeps as one node. */
  #chain(params: readonly MathNode[]): Expression {
    const [first, ...others] = params as [MathNode, ...MathNode[]];
    return others.reduce((left: Expression, next) => this.#binary(left, next), this.read(first));
  }

  #call(args: readonly MathNode[]): Expression {
    const { text: name, at } = this.#take();
    this.#take();
    const of: Expression[] = [];
    for (const arg of args) {
      of.push(this.read(arg));
      this.#take();
    }
    const text = `${name}(${of.map((e) => this.#wordingOf(e).text).join(", ")})`;
    if (name === "powersum") return this.#say(rootOfSquares(of), { text, at, powerSum: of });
    const known = formulaFunctions.get(name);
    if (known === undefined) return this.#say({ symbol: name }, { text, at, unknownFunction: name });
    return this.#say({ call: known.operation, of }, { text, at });
  }
}
