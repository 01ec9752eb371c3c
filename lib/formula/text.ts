/**
 * Formula text checked by the compiler: the types here read a string literal such as `"R_g = (V_s - V_g)/I_g"`, look its symbols
 * up in the type of the arguments and give the dimension of the result, or a sentence that begins with ✗. `check.ts` gives the same
 * verdicts at run time.
 *
 * Method: operators are padded with spaces, then Dijkstra's shunting-yard algorithm runs over the text in tail-recursive
 * conditional types: a state that expects an operand, one that expects an operator, one that closes brackets and one
 * that finishes. A sentence about
 * dimensions travels upwards as a value, so that errors of syntax further right come first, as in the run-time check.
 *
 * Sentences (X and Y are quoted sub-expressions, L is the label of a dimension):
 *   syntax      a value is missing before 't' · a value is missing at the end · an operator is missing before 'w'
 *               unbalanced: ')' without '(' · unbalanced: '(' without ')' · ',' outside a function
 *               '=' may only follow the result's name
 *   names       unknown symbol 's' · s is no quantity · unknown function 'f' · log() is ambiguous: write ln() or log10()
 *               f() takes 1 value, got 2 · f() takes 2 values or more, got 1
 *   dimensions  cannot add X (L) and Y (L) · cannot subtract Y (L) from X (L) · cannot compare X (L) and Y (L)
 *               cannot add X and Y: both are temperatures (add a temperature difference)
 *               if() needs a condition such as a > b, got X · if() cannot give X (L) or Y (L) · X is a condition, not a value
 *               f() needs a dimensionless argument, got X (L)
 *               exponent Y of X (L) must be a literal number · exponent Y of X must be dimensionless, got L
 *               X^p: powers of units must be whole or half, X is L · f(X): powers of units must be whole or half, X is L
 *               powersum() adds powers: X (L) is known neither as a field nor as a power
 *   levels      cannot add X and Y, … · cannot subtract Y from X, … · cannot compare X and Y, … · exponent Y of X is …
 *               X is … (a logarithm where a level is asked for); the words are in level-words.ts
 *   result      X is L, not L
 */
import type { CommonKey, Dim, LabelOfKey, Name } from "../quantity/dimension-types";
import type { DimOf, Quantity, StatedAsLevel, Unit } from "../quantity/quantity";
import type { LevelWords } from "./level-words";
import type { Call } from "./text-functions";
import type { AnyValue, Binary, Bracket, Made, Negative, Value } from "./text-operators";
import type { Comparison, Operator, Tokens } from "./text-tokens";

/** What a formula's symbols stand for. */
export type FormulaArguments = Readonly<Record<string, Quantity<any> | Unit<any>>>;

type KeyOf<Q> = DimOf<Q> extends infer E extends Dim ? (string extends E["si"] ? "*" : E["si"]) : "*";
/** The key of what symbol T stands for, or a sentence where that is neither quantity nor unit. */
type SymbolKey<Q, T> = [KeyOf<Q>] extends [never] ? `✗ ${T & string} is no quantity` : KeyOf<Q>;
type SymbolForm<Q> = 0 extends 1 & Q ? "" : Q extends StatedAsLevel ? "level" : "";

/** Which operators on the stack are applied before the one that follows; powers associate to the right. */
type Powers = "^";
type Products = "*" | "/" | "~" | Powers;
type Sums = "+" | "-" | Products;
interface Before extends Record<Comparison, Comparison | Sums> {
  "+": Sums;
  "-": Sums;
  "*": Products;
  "/": Products;
  "^": never;
}

interface Stack<X, W> {
  readonly top: X;
  readonly below: W;
}
type Push<X, W> = true extends true ? Stack<X, W> : never;
interface Empty {
  readonly empty: true;
}
/** A function whose bracket is open, and the arguments before the last comma. */
interface Opened<F, L> {
  readonly function: F;
  readonly given: L;
}

type StrayEquals = "✗ '=' may only follow the result's name";

/** Expects an operand. S: text left, A: type of the arguments, V: values, O: operators. */
type Operand<S extends string, A, V, O> = S extends `${infer T} ${infer R}`
  ? T extends keyof A
    ? After<R, A, Push<Made<SymbolKey<A[T], T>, T, SymbolForm<A[T]>>, V>, O>
    : T extends Operator
      ? T extends "("
        ? Operand<R, A, V, Stack<"(", O>>
        : T extends "-"
          ? Operand<R, A, V, Stack<"~", O>>
          : T extends "+"
            ? Operand<R, A, V, O>
            : T extends "="
              ? StrayEquals
              : `✗ a value is missing before '${T}'`
      : T extends `${number}`
        ? After<R, A, Stack<Value<"1", T, T>, V>, O>
        : T extends `${number}${"e" | "E"}`
          ? Scientific<T, R, A, V, O>
          : R extends `( ${infer I}`
            ? Operand<I, A, V, Stack<Opened<T, []>, O>>
            : After<R, A, Push<Constant<T>, V>, O>
  : "✗ a value is missing at the end";

/** `1e-3` was split at its sign. */
type Scientific<
  T extends string,
  R extends string,
  A,
  V,
  O,
> = R extends `${infer G extends "-" | "+"} ${infer N extends `${number}`} ${infer I}`
  ? After<I, A, Stack<Value<"1", `${T}${G}${N}`, `${T}${G}${N}`>, V>, O>
  : R extends `( ${infer I}`
    ? Operand<I, A, V, Stack<Opened<T, []>, O>>
    : After<R, A, Push<Constant<T>, V>, O>;

type Constant<T extends string> = T extends "pi" | "e" ? Value<"1", T, ""> : Value<`✗ unknown symbol '${T}'`, T, "">;

/** Expects an operator. */
type After<S extends string, A, V, O> = S extends `${infer T} ${infer R}`
  ? T extends keyof Before
    ? O extends Stack<infer P extends Before[T], infer Q>
      ? Q extends Stack<Before[T], unknown>
        ? After<S, A, Apply<P, V>, Q>
        : Operand<R, A, Apply<P, V>, Stack<T, Q>>
      : Operand<R, A, V, Stack<T, O>>
    : T extends ")"
      ? Close<R, A, V, O>
      : T extends ","
        ? Next<R, A, V, O>
        : T extends "="
          ? StrayEquals
          : `✗ an operator is missing before '${T}'`
  : Finish<V, O>;

/** At `)`: back to its bracket. */
type Close<R extends string, A, V, O> =
  O extends Stack<infer P, infer Q>
    ? P extends "("
      ? After<R, A, Enclose<V>, Q>
      : P extends Opened<infer F extends string, infer L extends readonly unknown[]>
        ? V extends Stack<infer X, infer W>
          ? After<R, A, Push<Call<F, [...L, X]>, W>, Q>
          : never
        : Close<R, A, Apply<P, V>, Q>
    : "✗ unbalanced: ')' without '('";

/** At `,`: the value before it joins the arguments of its function. */
type Next<R extends string, A, V, O> =
  O extends Stack<infer P, infer Q>
    ? P extends "("
      ? "✗ ',' outside a function"
      : P extends Opened<infer F, infer L extends readonly unknown[]>
        ? V extends Stack<infer X, infer W>
          ? Operand<R, A, W, Stack<Opened<F, [...L, X]>, Q>>
          : never
        : Next<R, A, Apply<P, V>, Q>
    : "✗ ',' outside a function";

/** At the end: the one value that is left, unless a bracket is still open. */
type Finish<V, O> =
  O extends Stack<infer P, infer Q>
    ? P extends "(" | Opened<any, any>
      ? "✗ unbalanced: '(' without ')'"
      : Finish<Apply<P, V>, Q>
    : V extends Stack<infer X, unknown>
      ? X
      : never;

type Enclose<V> = V extends Stack<infer X, infer W> ? Push<Bracket<X>, W> : never;

type Apply<P, V> =
  V extends Stack<infer Y, infer W>
    ? P extends "~"
      ? Push<Negative<Y>, W>
      : W extends Stack<infer X, infer U>
        ? Push<Binary<P, X, Y>, U>
        : never
    : never;

/** `name = text` → text. */
type Body<S extends string, A> = S extends `${infer N} = ${infer R}`
  ? N extends `${string} ${string}` | Operator | `${number}` | ""
    ? StrayEquals
    : Operand<R, A, Empty, Empty>
  : S extends `= ${string}`
    ? StrayEquals
    : Operand<S, A, Empty, Empty>;

/** The value of a whole formula, or a sentence. Arguments whose names the compiler does not know leave it to the run time. */
type Read<S extends string, A> = string extends keyof A
  ? Value<"*", S, "">
  : Body<Tokens<S>, A> extends infer X
    ? X extends AnyValue
      ? X["key"] extends `✗${string}`
        ? X["key"]
        : X["key"] extends "?"
          ? `✗ ${X["text"]} is a condition, not a value`
          : X
      : X
    : never;

/** The key of a formula's result ("*" where the compiler does not know it), or a sentence. The tests of the types compile texts that name it. */
export type FormulaKey<S extends string, A> = Read<S, A> extends infer X ? (X extends AnyValue ? X["key"] : X) : never;

/** The dimension of a formula's result; `any` where the text is not a literal; a sentence where the formula is wrong. */
type FormulaDim<S extends string, A> = string extends S
  ? any
  : FormulaKey<S, A> extends infer K extends string
    ? K extends `✗${string}`
      ? K
      : K extends "*"
        ? any
        : Name<K>
    : never;

/** The dimension of what `derive` gives: the unit's, or the formula's where the unit's is not known to the compiler. */
export type ResultDim<S extends string, A, U> = KeyOf<U> extends "*" ? (FormulaDim<S, A> extends infer E extends Dim ? E : any) : DimOf<U>;

type AskedFor<X, K extends string, S, U> = X extends AnyValue
  ? X["form"] extends "log"
    ? U extends StatedAsLevel
      ? `✗ ${X["text"]} is ${LevelWords["result"]}`
      : InUnit<X, K, S>
    : InUnit<X, K, S>
  : X;
type InUnit<X extends AnyValue, K extends string, S> = X["key"] extends "*"
  ? S
  : K extends "*"
    ? S
    : [CommonKey<X["key"], K>] extends [never]
      ? `✗ ${X["text"]} is ${LabelOfKey<X["key"]>}, not ${LabelOfKey<K>}`
      : S;

/**
 * The text itself where the formula is right and its result has a value in unit U, else a sentence: as the type of a parameter it
 * makes the compiler's error one line. Text that is not a literal passes; the run time checks it.
 */
export type CheckedText<S extends string, A, U> = string extends S ? S : AskedFor<Read<S, A>, KeyOf<U>, S, U>;

/** The same for a numerical value equation, where symbols are plain numbers: syntax and names are checked. */
export type CheckedNumerical<S extends string, A> = string extends S
  ? S
  : Read<S, { [N in keyof A]: any }> extends infer X
    ? X extends AnyValue
      ? S
      : X
    : never;
