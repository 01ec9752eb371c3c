/**
 * Dimensions of a tree. The types of `text.ts` reach the same verdicts in the same sentences; faults are
 * reported in the order of evaluation: left operand, right operand, the operation.
 * In products a temperature is absolute kelvin; kinds are dropped by products, quotients and powers and kept by
 * sums, comparisons and results (ISO 80000-1 5.3 on quantities of the same kind).
 */
import { assignable, type Dimension, difference, dimension, dimensionless, divide, multiply, power, sum } from "../quantity/dimension";
import { asRatio, literalExponent } from "./exponent";
import type { CallExpression, Expression } from "./expression";
import { FaultFound, formulaError, found } from "./fault";
import { type FormulaFunction, functionOf } from "./functions";
import { plainText } from "./plain-text";

/** How the author wrote a sub-expression: what messages quote, and where it stands. */
export interface Wording {
  readonly text: string;
  /** Offset in the formula's text, from 0. */
  readonly at: number;
  /** The function called, where no function has that name; the tree then holds a stand-in symbol. */
  readonly unknownFunction?: string;
}

/** Dimension of a symbol; undefined where the formula is given no such symbol. */
export type SymbolTable = (name: string) => Dimension | undefined;

/** Dimension of a tree, quoting its plain text in errors. Throws WorkingsError('formula'). */
export function dimensionOf(expression: Expression, symbols: Readonly<Record<string, Dimension>>): Dimension {
  try {
    return dimensionWithin(expression, symbolTable(symbols), (e) => ({ text: plainText(e), at: 0 }));
  } catch (error) {
    throw error instanceof FaultFound ? formulaError(plainText(expression), error.fault) : error;
  }
}

/** As dimensionOf, quoting the author's wording. Throws FaultFound. */
export function dimensionWithin(expression: Expression, symbols: SymbolTable, wordingOf: (expression: Expression) => Wording): Dimension {
  return new Checker(symbols, wordingOf).value(expression);
}

export function symbolTable(symbols: Readonly<Record<string, Dimension>>): SymbolTable {
  return (name) => (Object.hasOwn(symbols, name) ? symbols[name] : undefined);
}

const temperature = dimension("K|temperature");
const kelvin = dimension("K");

class Checker {
  constructor(
    private readonly symbols: SymbolTable,
    private readonly wordingOf: (expression: Expression) => Wording,
  ) {}

  /** Dimension of a value; a condition is none. */
  value(expression: Expression): Dimension {
    const dimension = this.#valueOrCondition(expression);
    return dimension ?? this.#fault(expression, `${this.#text(expression)} is a condition, not a value`);
  }

  /** Undefined for a comparison. */
  #valueOrCondition(expression: Expression): Dimension | undefined {
    const unknown = this.wordingOf(expression).unknownFunction;
    if (unknown === "log") return this.#fault(expression, "log() is ambiguous: write ln() or log10()");
    if (unknown !== undefined) return this.#fault(expression, `unknown function '${unknown}'`);
    if ("call" in expression) return this.#call(expression);
    if (!("symbol" in expression)) return dimensionless;
    return this.symbols(expression.symbol) ?? this.#fault(expression, `unknown symbol '${expression.symbol}'`);
  }

  #call(expression: CallExpression): Dimension | undefined {
    const called = functionOf(expression.call);
    if (called !== undefined) return this.#function(expression, called);
    const [first, second] = expression.of as [Expression, Expression];
    const a = this.value(first);
    if (expression.call === "negate") return withoutOrigin(a);
    const b = this.value(second);
    switch (expression.call) {
      case "multiply":
        return multiply(a, b);
      case "divide":
        return divide(a, b);
      case "power":
        return this.#power(expression, a, b);
      case "add":
        return this.#sum(expression, a, b);
      case "subtract":
        return this.#difference(expression, a, b);
      default:
        this.#extreme(expression, [a, b]);
    }
    return undefined;
  }

  #sum(expression: CallExpression, a: Dimension, b: Dimension): Dimension {
    const [x, y] = expression.of as [Expression, Expression];
    const together = sum(a, b) ?? besideZero(x, a, y, b);
    if (together !== undefined) return together;
    if (a === temperature && b === temperature) {
      return this.#fault(
        expression,
        `cannot add ${this.#text(x)} and ${this.#text(y)}: both are temperatures (add a temperature difference)`,
      );
    }
    return this.#fault(expression, `cannot add ${this.#named(x, a)} and ${this.#named(y, b)}`);
  }

  #difference(expression: CallExpression, a: Dimension, b: Dimension): Dimension {
    const [x, y] = expression.of as [Expression, Expression];
    return (
      difference(a, b) ??
      besideZero(x, a, y, b) ??
      this.#fault(expression, `cannot subtract ${this.#named(y, b)} from ${this.#named(x, a)}`)
    );
  }

  #power(expression: CallExpression, a: Dimension, b: Dimension): Dimension {
    const [base, exponent] = expression.of as [Expression, Expression];
    if (a.si === "1") {
      if (b.si === "1") return dimensionless;
      return this.#fault(expression, `exponent ${this.#text(exponent)} of ${this.#text(base)} must be dimensionless, got ${b.label}`);
    }
    const literal = literalExponent(exponent);
    if (literal === undefined)
      return this.#fault(expression, `exponent ${this.#text(exponent)} of ${this.#named(base, a)} must be a literal number`);
    return this.#raised(expression, a, literal, `${this.#text(base)}^${this.#text(exponent)}`);
  }

  /** a to a whole, half or third power, where the powers of units come out whole or half. */
  #raised(expression: CallExpression, a: Dimension, exponent: number, written: string): Dimension {
    const ratio = asRatio(exponent);
    if (ratio !== undefined && a.exponents.every((e) => (e * ratio.numerator) % ratio.denominator === 0)) {
      return power(a, ratio.numerator, ratio.denominator);
    }
    const [base] = expression.of as [Expression];
    return this.#fault(expression, `${written}: powers of units must be whole or half, ${this.#text(base)} is ${a.label}`);
  }

  #function(expression: CallExpression, called: FormulaFunction): Dimension {
    const [condition, ...values] = expression.of as [Expression, ...Expression[]];
    const first = called.rule === "choice" ? this.#valueOrCondition(condition) : this.value(condition);
    const others = values.map((e) => this.value(e));
    this.#count(expression, called);
    if (called.rule !== "choice") return this.#ruled(expression, called, [first as Dimension, ...others]);
    if (first !== undefined) return this.#fault(condition, `if() needs a condition such as a > b, got ${this.#text(condition)}`);
    return this.#choice(values as [Expression, Expression], others as [Dimension, Dimension]);
  }

  #count(expression: CallExpression, { fewest, most }: FormulaFunction): void {
    const { length } = expression.of;
    if (length >= fewest && length <= most) return;
    const takes = `${fewest} ${fewest === 1 ? "value" : "values"}${most === Infinity ? " or more" : ""}`;
    this.#fault(expression, `${expression.call}() takes ${takes}, got ${length}`);
  }

  #ruled(expression: CallExpression, called: FormulaFunction, dimensions: readonly Dimension[]): Dimension {
    const [argument] = expression.of as [Expression];
    const [a] = dimensions as [Dimension];
    switch (called.rule) {
      case "same":
        return withoutOrigin(a);
      case "sign":
        return dimensionless;
      case "root":
        return this.#raised(expression, a, expression.call === "sqrt" ? 1 / 2 : 1 / 3, `${expression.call}(${this.#text(argument)})`);
      case "extreme":
        return this.#extreme(expression, dimensions);
      case "angle":
        this.#extreme(expression, dimensions);
        return dimensionless;
      default:
        return a.si === "1"
          ? dimensionless
          : this.#fault(argument, `${expression.call}() needs a dimensionless argument, got ${this.#named(argument, a)}`);
    }
  }

  /** The one dimension in which all may be compared. */
  #extreme(expression: CallExpression, dimensions: readonly Dimension[]): Dimension {
    const [first] = expression.of as [Expression];
    return dimensions.reduce((together, b, i) => {
      const next = expression.of[i] as Expression;
      return (
        common(together, b) ??
        besideZero(i === 1 ? first : undefined, together, next, b) ??
        this.#fault(expression, `cannot compare ${this.#named(first, together)} and ${this.#named(next, b)}`)
      );
    });
  }

  #choice([x, y]: [Expression, Expression], [a, b]: [Dimension, Dimension]): Dimension {
    return common(a, b) ?? besideZero(x, a, y, b) ?? this.#fault(x, `if() cannot give ${this.#named(x, a)} or ${this.#named(y, b)}`);
  }

  #text(expression: Expression): string {
    return this.wordingOf(expression).text;
  }

  #named(expression: Expression, { label }: Dimension): string {
    return `${this.#text(expression)} (${label})`;
  }

  #fault(expression: Expression, sentence: string): never {
    return found(sentence, this.wordingOf(expression).at);
  }
}

/** The negative or size of a temperature is kelvin without an origin. */
function withoutOrigin(a: Dimension): Dimension {
  return a === temperature ? kelvin : a;
}

/** Whichever has the kind, where both have the same SI units and not two kinds. */
function common(a: Dimension, b: Dimension): Dimension | undefined {
  if (!assignable(a, b)) return undefined;
  return a.kind === undefined ? b : a;
}

/** A literal 0 is 0 in every unit, except that no temperature is written so. */
function besideZero(x: Expression | undefined, a: Dimension, y: Expression, b: Dimension): Dimension | undefined {
  if (x !== undefined && isZero(x) && b !== temperature) return b;
  return isZero(y) && a !== temperature ? a : undefined;
}

function isZero(expression: Expression): boolean {
  return "number" in expression && expression.number === 0;
}
