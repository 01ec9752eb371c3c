/**
 * Dimensions of a tree. The types of `text.ts` reach the same verdicts in the same sentences; faults are
 * reported in the order of evaluation: left operand, right operand, the operation.
 * In products a temperature is absolute kelvin; kinds are dropped by products, quotients and powers and kept by
 * sums, comparisons and results (ISO 80000-1 5.3 on quantities of the same kind).
 */
import { isField, isPower } from "../quantity/decibel";
import { assignable, type Dimension, difference, dimension, dimensionless, divide, multiply, power, sum } from "../quantity/dimension";
import type { LogScale } from "../quantity/spread";
import { asRatio, literalExponent } from "./exponent";
import type { CallExpression, Expression } from "./expression";
import { FaultFound, formulaError, found } from "./fault";
import { clashOf, formOf, formOfCall, type Sort, strongest } from "./form";
import { type FormulaFunction, functionOf } from "./functions";
import { levelWords } from "./level-words";
import { plainText } from "./plain-text";

/** How the author wrote a sub-expression: what messages quote, and where it stands. */
export interface Wording {
  readonly text: string;
  /** Offset in the formula's text, from 0. */
  readonly at: number;
  /** The function called, where no function has that name; the tree then holds a stand-in symbol. */
  readonly unknownFunction?: string;
  /** The values of powersum(a, b, …); the tree then holds the root of the sum of squares. */
  readonly powerSum?: readonly Expression[];
}

/** What a formula must know of a symbol: its dimension, and whether it is stated in decibels. A unit says both. */
export interface Stated {
  readonly dimension: Dimension;
  readonly log?: LogScale;
}

/** A symbol; undefined where the formula is given no such symbol. */
export type SymbolTable = (name: string) => Stated | undefined;

/** Dimension of a tree, quoting its plain text in errors. Throws WorkingsError('formula'). */
export function dimensionOf(expression: Expression, symbols: Readonly<Record<string, Dimension>>): Dimension {
  try {
    const stated = Object.fromEntries(Object.entries(symbols).map(([symbol, dimension]) => [symbol, { dimension }]));
    return sortWithin(expression, symbolTable(stated), (e) => ({ text: plainText(e), at: 0 })).dimension;
  } catch (error) {
    throw error instanceof FaultFound ? formulaError(plainText(expression), error.fault) : error;
  }
}

/** A tree's dimension and form, and the values of each powersum of powers, which add as they are. */
export interface Checked extends Sort {
  readonly powers: ReadonlyMap<Expression, readonly Expression[]>;
}

/** As dimensionOf, quoting the author's wording. Throws FaultFound. */
export function sortWithin(expression: Expression, symbols: SymbolTable, wordingOf: (expression: Expression) => Wording): Checked {
  const checker = new Checker(symbols, wordingOf);
  return { ...checker.value(expression), powers: checker.powers };
}

export function symbolTable(symbols: Readonly<Record<string, Stated>>): SymbolTable {
  return (name) => (Object.hasOwn(symbols, name) ? symbols[name] : undefined);
}

const temperature = dimension("K|temperature");
const kelvin = dimension("K");
const plain = (dimension: Dimension): Sort => ({ dimension, form: "" });

class Checker {
  readonly powers = new Map<Expression, readonly Expression[]>();

  constructor(
    private readonly symbols: SymbolTable,
    private readonly wordingOf: (expression: Expression) => Wording,
  ) {}

  /** Dimension and form of a value; a condition has none. */
  value(expression: Expression): Sort {
    const sort = this.#valueOrCondition(expression);
    return sort ?? this.#fault(expression, `${this.#text(expression)} is a condition, not a value`);
  }

  /** Undefined for a comparison. */
  #valueOrCondition(expression: Expression): Sort | undefined {
    const { unknownFunction: unknown, powerSum } = this.wordingOf(expression);
    if (unknown === "log") return this.#fault(expression, "log() is ambiguous: write ln() or log10()");
    if (unknown !== undefined) return this.#fault(expression, `unknown function '${unknown}'`);
    if (powerSum !== undefined) return this.#powerSum(expression, powerSum);
    if ("call" in expression) return this.#call(expression);
    if ("number" in expression) return { dimension: dimensionless, form: "number" };
    if (!("symbol" in expression)) return plain(dimensionless);
    const symbol = this.symbols(expression.symbol) ?? this.#fault(expression, `unknown symbol '${expression.symbol}'`);
    return { dimension: symbol.dimension, form: symbol.log === undefined ? "" : "level" };
  }

  #call(expression: CallExpression): Sort | undefined {
    const called = functionOf(expression.call);
    if (called !== undefined) return this.#function(expression, called);
    const [first, second] = expression.of as [Expression, Expression];
    const a = this.value(first);
    if (expression.call === "negate") return { dimension: withoutOrigin(a.dimension), form: a.form };
    const b = this.value(second);
    const dimension = this.#operation(expression, a, b);
    return dimension && { dimension, form: formOf(expression.call, a, b) };
  }

  /** Undefined for a comparison. */
  #operation(expression: CallExpression, a: Sort, b: Sort): Dimension | undefined {
    switch (expression.call) {
      case "multiply":
        return multiply(a.dimension, b.dimension);
      case "divide":
        return divide(a.dimension, b.dimension);
      case "power":
        return this.#power(expression, a.dimension, b);
      case "add":
        return this.#sum(expression, a, b);
      case "subtract":
        return this.#difference(expression, a, b);
      default:
        this.#extreme(expression, [a, b]);
    }
    return undefined;
  }

  #sum(expression: CallExpression, a: Sort, b: Sort): Dimension {
    const [x, y] = expression.of as [Expression, Expression];
    const both = `cannot add ${this.#text(x)} and ${this.#text(y)}`;
    const clash = clashOf(x, a, y, b);
    if (clash !== undefined) this.#fault(expression, `${both}, ${levelWords.add[clash]}`);
    const together = sum(a.dimension, b.dimension) ?? besideZero(x, a.dimension, y, b.dimension);
    if (together !== undefined) return together;
    if (a.dimension === temperature && b.dimension === temperature) {
      return this.#fault(expression, `${both}: both are temperatures (add a temperature difference)`);
    }
    return this.#fault(expression, `cannot add ${this.#named(x, a.dimension)} and ${this.#named(y, b.dimension)}`);
  }

  #difference(expression: CallExpression, a: Sort, b: Sort): Dimension {
    const [x, y] = expression.of as [Expression, Expression];
    const clash = clashOf(x, a, y, b);
    if (clash !== undefined)
      this.#fault(expression, `cannot subtract ${this.#text(y)} from ${this.#text(x)}, ${levelWords.subtract[clash]}`);
    return (
      difference(a.dimension, b.dimension) ??
      besideZero(x, a.dimension, y, b.dimension) ??
      this.#fault(expression, `cannot subtract ${this.#named(y, b.dimension)} from ${this.#named(x, a.dimension)}`)
    );
  }

  #power(expression: CallExpression, a: Dimension, { dimension: b, form }: Sort): Dimension {
    const [base, exponent] = expression.of as [Expression, Expression];
    if (a.si === "1") {
      const both = `exponent ${this.#text(exponent)} of ${this.#text(base)}`;
      if (form === "level") return this.#fault(expression, `${both} is ${levelWords.exponent}`);
      if (b.si === "1") return dimensionless;
      return this.#fault(expression, `${both} must be dimensionless, got ${b.label}`);
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

  #function(expression: CallExpression, called: FormulaFunction): Sort {
    const [condition, ...values] = expression.of as [Expression, ...Expression[]];
    const first = called.rule === "choice" ? this.#valueOrCondition(condition) : this.value(condition);
    const others = values.map((e) => this.value(e));
    this.#count(expression.call, expression, expression.of, called);
    if (called.rule !== "choice") {
      const sorts = [first as Sort, ...others];
      return { dimension: this.#ruled(expression, called, sorts), form: formOfCall(expression, called, sorts) };
    }
    if (first !== undefined) return this.#fault(condition, `if() needs a condition such as a > b, got ${this.#text(condition)}`);
    return {
      dimension: this.#choice(values as [Expression, Expression], others as [Sort, Sort]),
      form: formOfCall(expression, called, others),
    };
  }

  /** powersum(a, b, …): of fields the root of the sum of their squares, of powers their sum. */
  #powerSum(expression: Expression, values: readonly Expression[]): Sort {
    const sorts = values.map((e) => this.value(e));
    this.#count("powersum", expression, values, { fewest: 2, most: Infinity });
    const dimension = this.#extreme(expression, sorts, values);
    if (isPower(dimension)) this.powers.set(expression, values);
    else if (!isField(dimension)) {
      const first = this.#named(values[0] as Expression, dimension);
      this.#fault(expression, `powersum() adds powers: ${first} is known neither as a field nor as a power`);
    }
    return { dimension, form: strongest(sorts) };
  }

  #count(
    name: string,
    expression: Expression,
    { length }: readonly Expression[],
    { fewest, most }: Pick<FormulaFunction, "fewest" | "most">,
  ): void {
    if (length >= fewest && length <= most) return;
    const takes = `${fewest} ${fewest === 1 ? "value" : "values"}${most === Infinity ? " or more" : ""}`;
    this.#fault(expression, `${name}() takes ${takes}, got ${length}`);
  }

  #ruled(expression: CallExpression, called: FormulaFunction, sorts: readonly Sort[]): Dimension {
    const [argument] = expression.of as [Expression];
    const [{ dimension: a }] = sorts as [Sort];
    switch (called.rule) {
      case "same":
        return withoutOrigin(a);
      case "sign":
        return dimensionless;
      case "root":
        return this.#raised(expression, a, expression.call === "sqrt" ? 1 / 2 : 1 / 3, `${expression.call}(${this.#text(argument)})`);
      case "extreme":
        return this.#extreme(expression, sorts);
      case "angle":
        this.#extreme(expression, sorts);
        return dimensionless;
      default:
        return a.si === "1"
          ? dimensionless
          : this.#fault(argument, `${expression.call}() needs a dimensionless argument, got ${this.#named(argument, a)}`);
    }
  }

  /** The one dimension in which all may be compared. */
  #extreme(expression: Expression, sorts: readonly Sort[], of = (expression as CallExpression).of): Dimension {
    const [first] = of as [Expression];
    const [{ dimension, form }, ...others] = sorts as [Sort, ...Sort[]];
    return others.reduce((together, sort, i) => {
      const next = of[i + 1] as Expression;
      const clash = clashOf(first, i === 0 || form === "level" ? { dimension, form } : plain(together), next, sort);
      if (clash === "log" || clash === "number")
        this.#fault(expression, `cannot compare ${this.#text(first)} and ${this.#text(next)}, ${levelWords.compare[clash]}`);
      return (
        common(together, sort.dimension) ??
        besideZero(i === 0 ? first : undefined, together, next, sort.dimension) ??
        this.#fault(expression, `cannot compare ${this.#named(first, together)} and ${this.#named(next, sort.dimension)}`)
      );
    }, dimension);
  }

  #choice([x, y]: [Expression, Expression], [{ dimension: a }, { dimension: b }]: [Sort, Sort]): Dimension {
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
