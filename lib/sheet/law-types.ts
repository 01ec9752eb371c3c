/**
 * The types of `derive`: what a law takes and gives. A call that is wrong about its quantities makes the compiler
 * print one sentence at the argument in question; `derive.ts` says the same sentences at run time.
 */
import type { Expression } from "../formula/expression";
import type { CheckedText } from "../formula/text";
import type { TableInput } from "../graph/model";
import type { Dim, Label } from "../quantity/dimension-types";
import type { DimOf, Quantity, Shown, Unit } from "../quantity/quantity";
import type { Curve } from "./curve";
import type { DeriveOptions } from "./derive";
import type { FitsDim, FitsQuantity } from "./fits";

/** The part of a formula or model by which the types tell one from the other. */
interface FormulaLaw {
  readonly expression: Expression;
  readonly arguments: unknown;
  readonly result: Unit<any>;
}
interface ModelLaw {
  readonly inputs: unknown;
  readonly outputs: unknown;
}

/** The law itself where it is one; of a text, the text or what is wrong with it. */
export type CheckedLaw<L, A, U> = L extends string
  ? U extends Unit<any>
    ? NamedText<L, CheckedText<L, A, U>>
    : L
  : L extends FormulaLaw | ModelLaw
    ? L
    : "✗ derive takes the text of a law, a formula or a model";

/** A right text C, unless nothing names its result. */
type NamedText<L extends string, C> = string extends L
  ? C
  : C extends `✗${string}` | `${string}=${string}`
    ? C
    : `✗ the result has no name; begin with one, as in R = ${L}`;

type InputsOf<L> = L extends { readonly expression: Expression; readonly arguments: infer I }
  ? I
  : L extends { readonly inputs: infer I }
    ? I
    : Record<never, never>;

/** What may be passed for A: each argument itself where it fits the law, a sentence where it does not. */
export type FitsLaw<L, A> = 0 extends 1 & A
  ? A
  : A extends NoArguments
    ? "✗ derive takes the quantities of the law by symbol, as in { V: V, I: I }"
    : FitsInputs<L, A>;
type NoArguments = string | number | boolean | Quantity<any> | Curve<any, any>;

type FitsInputs<L, A> = L extends string
  ? A
  : { readonly [K in keyof A]: K extends keyof InputsOf<L> ? FitsInput<InputsOf<L>[K], A[K], K & string> : A[K] } & {
      readonly [K in Exclude<keyof InputsOf<L>, keyof A>]: Lacking<InputsOf<L>[K], K & string>;
    };

type Lacking<S, K extends string> =
  S extends TableInput<infer X extends Dim, infer Y extends Dim>
    ? `✗ ${K} is missing: a table of ${Label<Y>} against ${Label<X>}`
    : `✗ ${K} is missing: ${Label<DimOf<S>>}`;

type FitsInput<S, Q, K extends string> =
  S extends TableInput<infer X extends Dim, infer Y extends Dim> ? FitsTable<X, Y, Q, K> : FitsQuantity<DimOf<S>, Q, K>;

type FitsTable<X extends Dim, Y extends Dim, Q, K extends string> =
  Q extends Curve<infer V extends Dim, infer W extends Dim>
    ? FitsDim<X, V, FitsDim<Y, W, Q, WrongTable<X, Y, V, W, K>>, WrongTable<X, Y, V, W, K>>
    : `✗ ${K} must be a table of ${Label<Y>} against ${Label<X>}`;
type WrongTable<
  X extends Dim,
  Y extends Dim,
  V extends Dim,
  W extends Dim,
  K extends string,
> = `✗ ${K} must be a table of ${Label<Y>} against ${Label<X>}, got one of ${Label<W>} against ${Label<V>}`;

type NoUnit = "✗ a unit is missing, such as volt";
type AskedOf<L, U> = L extends { readonly expression: Expression; readonly result: Unit<infer D extends Dim> }
  ? U extends Unit<infer E extends Dim>
    ? FitsDim<D, E, U, `✗ the law gives ${Label<D>}, not ${Label<E>}`>
    : NoUnit
  : U;

/** What follows law and arguments: unit and meaning of a text, unit (and options) of a formula, options of a model. */
export type Trailing<L, U> = L extends string
  ? [unit: U extends Unit<any> ? U : NoUnit, meaning: string]
  : L extends ModelLaw
    ? [options?: DeriveOptions]
    : [unit: AskedOf<L, U>, options?: DeriveOptions];

type SlotValue<S> = S extends TableInput<infer X extends Dim, infer Y extends Dim> ? Curve<X, Y> : Shown<DimOf<S>, S>;

/** What comes out: a quantity, or the outputs of a model by name; anything where the compiler does not know the law. */
export type Derived<L, U> = 0 extends 1 & L
  ? any
  : L extends { readonly inputs: unknown; readonly outputs: infer O }
    ? { readonly [K in keyof O]: SlotValue<O[K]> }
    : Shown<DimOf<U>, U>;
