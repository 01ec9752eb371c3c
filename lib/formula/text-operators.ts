/** What operators of a formula do to dimensions, as types; see `text.ts` for the sentences. */
import type { CommonKey, DifferenceKey, DivKey, LabelOfKey, MulKey, PowKey, SiOf, SumKey } from "../quantity/dimension-types";
import type { Comparison } from "./text-tokens";

/**
 * A sub-expression: key, text as quoted in sentences, and the literal number it is ("" when it is none).
 * Beside keys of dimensions there are "*" (not known to the compiler, fits everywhere), "?" (a condition) and sentences.
 */
export interface Value<K, T, L> {
  readonly key: K;
  readonly text: T;
  readonly literal: L;
}
export type AnyValue = Value<string, string, string>;

/**
 * A value from its parts. The compiler resolves a reference late, and then again and again, when an alias is among its arguments or
 * when it is itself all of an alias: hence this detour, without which the cost doubles with every level of brackets.
 */
export type Made<K, T, L> = true extends true ? Value<K, T, L> : never;

/** The sentence of an operand that cannot be used, else never. */
export type Fault<X> = X extends AnyValue
  ? X["key"] extends `✗${string}`
    ? X["key"]
    : X["key"] extends "?"
      ? `✗ ${X["text"]} is a condition, not a value`
      : never
  : never;

/** `X (label)`. */
export type Described<X extends AnyValue> = `${X["text"]} (${LabelOfKey<X["key"]>})`;

export type Bracket<X> = X extends AnyValue ? Value<X["key"], `(${X["text"]})`, X["literal"]> : never;

/** −X; the negative of a temperature is kelvins. */
export type Negative<X> = X extends AnyValue
  ? Made<[Fault<X>] extends [never] ? Unsigned<X["key"]> : Fault<X>, `-${X["text"]}`, Opposite<X["literal"]>>
  : never;
export type Unsigned<K> = K extends "K|temperature" ? "K" : K;

export type Binary<P, X, Y> = X extends AnyValue
  ? Y extends AnyValue
    ? Made<
        [Fault<X>] extends [never] ? ([Fault<Y>] extends [never] ? Operate<P, X, Y> : Fault<Y>) : Fault<X>,
        Written<P, X, Y>,
        Quotient<P, X["literal"], Y["literal"]>
      >
    : never
  : never;

type Written<P, X extends AnyValue, Y extends AnyValue> = P extends "*" | "/" | "^"
  ? `${X["text"]}${P}${Y["text"]}`
  : P extends string
    ? `${X["text"]} ${P} ${Y["text"]}`
    : never;

/** A quotient of two literals may be an exponent. */
type Quotient<P, N extends string, D extends string> = P extends "/"
  ? N extends ""
    ? ""
    : D extends ""
      ? ""
      : D extends `-${infer M}`
        ? `${Opposite<N>}/${M}`
        : `${N}/${D}`
  : "";
type Opposite<L extends string> = L extends "" ? "" : L extends `-${infer M}` ? M : `-${L}`;

type Operate<P, X extends AnyValue, Y extends AnyValue> = P extends "*"
  ? Product<X["key"], Y["key"]>
  : P extends "/"
    ? Ratio<X["key"], Y["key"]>
    : P extends "+"
      ? Added<X, Y, Zeroed<X, Y>>
      : P extends "-"
        ? Subtracted<X, Y, Zeroed<X, Y>>
        : P extends "^"
          ? Powered<X, Y>
          : P extends Comparison
            ? Compared<X, Y> extends `✗${infer S}`
              ? `✗${S}`
              : "?"
            : never;

type Product<A extends string, B extends string> = "*" extends A | B ? "*" : OrUnknown<MulKey<A, B>>;
type Ratio<A extends string, B extends string> = "*" extends A | B ? "*" : OrUnknown<DivKey<A, B>>;
/** Powers of units beyond the tables are left to the run time. */
type OrUnknown<K> = [K] extends [never] ? "*" : K;

type Zero = "0" | "0.0" | "0." | ".0";
/** The other's key where one operand is the literal 0, which fits every dimension but a temperature; "*" rules likewise. */
type Zeroed<X extends AnyValue, Y extends AnyValue> = X["key"] extends "*"
  ? Y["key"]
  : Y["key"] extends "*"
    ? X["key"]
    : X["literal"] extends Zero
      ? Y["key"] extends "K|temperature"
        ? never
        : Y["key"]
      : Y["literal"] extends Zero
        ? X["key"] extends "K|temperature"
          ? never
          : X["key"]
        : never;

type Added<X extends AnyValue, Y extends AnyValue, Z> = [Z] extends [never]
  ? SumKey<X["key"], Y["key"]> extends infer K
    ? [K] extends [never]
      ? CannotAdd<X, Y>
      : K
    : never
  : Z;
type CannotAdd<X extends AnyValue, Y extends AnyValue> = X["key"] | Y["key"] extends "K|temperature"
  ? `✗ cannot add ${X["text"]} and ${Y["text"]}: both are temperatures (add a temperature difference)`
  : `✗ cannot add ${Described<X>} and ${Described<Y>}`;

type Subtracted<X extends AnyValue, Y extends AnyValue, Z> = [Z] extends [never]
  ? DifferenceKey<X["key"], Y["key"]> extends infer K
    ? [K] extends [never]
      ? `✗ cannot subtract ${Described<Y>} from ${Described<X>}`
      : K
    : never
  : Z;

/** The key that two comparable values have in common, or a sentence. */
export type Compared<X extends AnyValue, Y extends AnyValue> =
  Shared<X, Y> extends infer K ? ([K] extends [never] ? `✗ cannot compare ${Described<X>} and ${Described<Y>}` : K) : never;
export type Shared<X extends AnyValue, Y extends AnyValue> = [Zeroed<X, Y>] extends [never] ? CommonKey<X["key"], Y["key"]> : Zeroed<X, Y>;

type Powered<X extends AnyValue, Y extends AnyValue> = X["key"] extends "*"
  ? "*"
  : SiOf<X["key"]> extends "1"
    ? SiOf<Y["key"]> extends "1" | "*"
      ? "1"
      : `✗ exponent ${Y["text"]} of ${X["text"]} must be dimensionless, got ${LabelOfKey<Y["key"]>}`
    : Y["literal"] extends ""
      ? `✗ exponent ${Y["text"]} of ${Described<X>} must be a literal number`
      : PowKey<X["key"], Y["literal"]> extends infer K
        ? [K] extends [never]
          ? NoPower<`${X["text"]}^${Y["text"]}`, X>
          : K
        : never;

export type NoPower<
  T extends string,
  X extends AnyValue,
> = `✗ ${T}: powers of units must be whole or half, ${X["text"]} is ${LabelOfKey<X["key"]>}`;
