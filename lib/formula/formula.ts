/**
 * Laws of the physics modules: a text with the units of its symbols, its meaning, source and limits. The compiler
 * checks the text where the law is defined; the run time parses and checks it again at first use, not when the
 * module is loaded.
 */
import type { Dim } from "../quantity/dimension-types";
import type { DimOf, Unit } from "../quantity/quantity";
import { checkedFormula, type Stated } from "./check";
import type { Expression } from "./expression";
import { formulaError } from "./fault";
import { symbolsOf } from "./symbols";
import type { CheckedText } from "./text";
import { type ValidityLimit, validityLimit } from "./validity";

/** The source of a law or model that every textbook has and nobody owns. */
export const commonPractice = "common practice, no source";

// Units of whatever dimension; explicit variance refuses Dim
export type AnyUnit = Unit<any>;

/** Units of a law's symbols. */
export type FormulaUnits = Readonly<Record<string, AnyUnit>>;

/** What is known of a law beside its text. */
export interface AboutFormula<A> {
  /** What comes out, in words. */
  readonly meaning: string;
  /** Where the law is published. */
  readonly source: string;
  /** Limits by symbol: `{ T: "233 K to 398 K", x: "> 0" }`. */
  readonly valid?: { readonly [S in keyof A]?: string };
  /** What limits of single symbols cannot say: how symbols must stand to one another, or that any value goes. */
  readonly holds?: string;
}

/** Symbols of the units in which a numerical value equation reads its symbols and gives its result; none of them a level. */
export interface NumericalUnits {
  readonly arguments: Readonly<Record<string, string>>;
  readonly result: string;
}

/** A law with units A of its symbols and a result of dimension D. */
export interface Formula<A, D extends Dim> {
  /** As written, with the result's symbol: `f_c = 1/(2*pi*R*C)`. */
  readonly text: string;
  /** The result's symbol. */
  readonly name: string;
  /** Parsed and checked at first use; throws WorkingsError('formula') then. */
  readonly expression: Expression;
  readonly arguments: A;
  readonly result: Unit<D>;
  readonly meaning: string;
  readonly source: string;
  readonly valid: readonly ValidityLimit[];
  /** Where it holds, in words, beside the limits of single symbols. */
  readonly holds?: string;
  /** Present for a numerical value equation. */
  readonly numerical?: NumericalUnits;
}

// A formula of whatever result
export type AnyFormula = Formula<FormulaUnits, any>;

/**
 * Defines a law: `formula("f_c = 1/(2*pi*R*C)", { R: ohm, C: farad }, hertz, { meaning, source })`. A text that does
 * not parse, or whose result has another dimension than the unit, is a compile error with the reason in words.
 * Throws WorkingsError('formula') where the text does not begin with the result's symbol.
 */
export function formula<const T extends string, const A extends FormulaUnits, U extends AnyUnit>(
  text: CheckedText<T, A, U>,
  args: A,
  result: U,
  about: AboutFormula<A>,
): Formula<A, DimOf<U>>;
export function formula(text: string, args: FormulaUnits, result: AnyUnit, about: AboutFormula<FormulaUnits>): AnyFormula {
  return new Law({ text, arguments: args, result, about, statedAs: (unit) => unit });
}

/** What `formula` and `numericalFormula` define. */
export interface LawDefinition<A> {
  readonly text: string;
  readonly arguments: A;
  readonly result: AnyUnit;
  readonly about: AboutFormula<A>;
  /** What a symbol, or the result, counts as in the check of dimensions. */
  readonly statedAs: (unit: AnyUnit) => Stated;
}

const leadingName = /^\s*([^\s=<>!]+)\s*=(?!=)/u;

/** A formula that parses itself when first asked for its tree. */
export class Law<A extends FormulaUnits, D extends Dim> implements Formula<A, D> {
  readonly text: string;
  readonly name: string;
  readonly arguments: A;
  readonly result: Unit<D>;
  readonly meaning: string;
  readonly source: string;
  readonly holds?: string;
  readonly #definition: LawDefinition<A>;
  #expression: Expression | undefined;
  #valid: readonly ValidityLimit[] | undefined;

  constructor(definition: LawDefinition<A>) {
    const name = leadingName.exec(definition.text)?.[1];
    if (name === undefined)
      throw formulaError(definition.text, { sentence: "a law begins with the symbol of its result, as in 'U = R*I'", at: 0 });
    this.#definition = definition;
    this.text = definition.text;
    this.name = name;
    this.arguments = definition.arguments;
    this.result = definition.result;
    this.meaning = definition.about.meaning;
    this.source = definition.about.source;
    if (definition.about.holds !== undefined) this.holds = definition.about.holds;
  }

  get expression(): Expression {
    this.#expression ??= checkedLaw(this.#definition);
    return this.#expression;
  }

  get valid(): readonly ValidityLimit[] {
    this.#valid ??= limits(this.#definition);
    return this.#valid;
  }
}

function checkedLaw({ text, arguments: units, result, statedAs }: LawDefinition<FormulaUnits>): Expression {
  const symbols = Object.fromEntries(Object.entries(units).map(([symbol, unit]) => [symbol, statedAs(unit)]));
  const { expression } = checkedFormula(text, symbols, statedAs(result));
  const used = new Set(symbolsOf(expression));
  const unused = Object.keys(units).find((symbol) => !used.has(symbol));
  if (unused !== undefined) throw formulaError(text, { sentence: `symbol '${unused}' has a unit but is not used`, at: 0 });
  return expression;
}

function limits({ text, arguments: units, about }: LawDefinition<FormulaUnits>): readonly ValidityLimit[] {
  return Object.entries(about.valid ?? {}).map(([symbol, limit]) => {
    const unit = units[symbol];
    if (unit === undefined)
      throw formulaError(text, { sentence: `there is a limit for '${symbol}', which is not one of its symbols`, at: 0 });
    return validityLimit(symbol, limit as string, unit);
  });
}
