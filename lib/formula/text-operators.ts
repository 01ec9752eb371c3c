/** What operators of a formula do to dimensions, as types; see `text.ts` for the sentences. */
import type { CommonKey, DifferenceKey, DivKey, LabelOfKey, MulKey, PowKey, SiOf, SumKey } from "../quantity/dimension-types";
import type { LevelWords } from "./level-words";
import type { Comparison } from "./text-tokens";

/**
 * A sub-expression: key, text as quoted in sentences, and form. Beside keys of dimensions there are "*" (not known to the
 * compiler, fits everywhere), "?" (a condition) and sentences. The form is a literal number's text, "level" for a symbol stated
 * in decibels, its negative or a number of it, "log" for a number of logarithms, "ratio" for what counts either as a ratio, else "".
 */
export interface Value<K, T, L> {
  readonly key: K;
  readonly text: T;
  readonly form: L;
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

export type Bracket<X> = X extends AnyValue ? Value<X["key"], `(${X["text"]})`, X["form"]> : never;

/** −X; the negative of a temperature is kelvins. */
export type Negative<X> = X extends AnyValue
  ? Made<[Fault<X>] extends [never] ? Unsigned<X["key"]> : Fault<X>, `-${X["text"]}`, Opposite<X["form"]>>
  : never;
export type Unsigned<K> = K extends "K|temperature" ? "K" : K;

export type Binary<P, X, Y> = X extends AnyValue
  ? Y extends AnyValue
    ? Made<
        [Fault<X>] extends [never] ? ([Fault<Y>] extends [never] ? Operate<P, X, Y> : Fault<Y>) : Fault<X>,
        Written<P, X, Y>,
        Form<P, X, Y>
      >
    : never
  : never;

type Written<P, X extends AnyValue, Y extends AnyValue> = P extends "*" | "/" | "^"
  ? `${X["text"]}${P}${Y["text"]}`
  : P extends string
    ? `${X["text"]} ${P} ${Y["text"]}`
    : never;

type Form<P, X extends AnyValue, Y extends AnyValue> = X["form"] | Y["form"] extends ""
  ? ""
  : P extends "*" | "/"
    ? Y["form"] extends OfLevels
      ? P extends "/"
        ? "ratio"
        : Multiple<Y["form"], X>
      : X["form"] extends OfLevels
        ? Multiple<X["form"], Y>
        : P extends "/"
          ? Quotient<X["form"], Y["form"]>
          : ""
    : P extends "+" | "-"
      ? "log" extends X["form"] | Y["form"]
        ? "log"
        : X["form"] | Y["form"] extends "level" | ""
          ? "level"
          : OfRatios<X["form"] | Y["form"]>
      : OfRatios<X["form"] | Y["form"]>;
/** Forms of what levels and logarithms are in. */
type OfLevels = "level" | "log" | "ratio";
/** The form of a level or logarithm times Y, or over Y: a number of them is still one, all else is arithmetic with ratios. */
type Multiple<F, Y extends AnyValue> = Y["form"] extends OfLevels ? "ratio" : SiOf<Y["key"]> extends "1" ? F : "ratio";
/** The form of all other arithmetic on values of these forms. */
export type OfRatios<F> = [Extract<F, OfLevels>] extends [never] ? "" : "ratio";

/** A quotient of two literals may be an exponent. */
type Quotient<N extends string, D extends string> = N extends ""
  ? ""
  : D extends ""
    ? ""
    : D extends `-${infer M}`
      ? `${Opposite<N>}/${M}`
      : `${N}/${D}`;
type Opposite<L extends string> = L extends "" | OfLevels ? L : L extends `-${infer M}` ? M : `-${L}`;

/** What a level, which counts as its ratio, cannot stand beside: another level, a logarithm, or a number of decibels. */
type Clash<X extends AnyValue, Y extends AnyValue> = X["form"] extends "level"
  ? Beside<Y["form"]>
  : Y["form"] extends "level"
    ? Beside<X["form"]>
    : never;
type Beside<F> = F extends "" | "ratio" | Neutral ? never : F extends "level" | "log" ? F : "number";
type Neutral = Zero | "1" | "-1";

type Operate<P, X extends AnyValue, Y extends AnyValue> = P extends "*"
  ? Product<X["key"], Y["key"]>
  : P extends "/"
    ? Ratio<X["key"], Y["key"]>
    : P extends "+"
      ? [Clash<X, Y>] extends [never]
        ? Added<X, Y, Zeroed<X, Y>>
        : `✗ cannot add ${X["text"]} and ${Y["text"]}, ${LevelWords["add"][Clash<X, Y>]}`
      : P extends "-"
        ? [Clash<X, Y>] extends [never]
          ? Subtracted<X, Y, Zeroed<X, Y>>
          : `✗ cannot subtract ${Y["text"]} from ${X["text"]}, ${LevelWords["subtract"][Clash<X, Y>]}`
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
    : X["form"] extends Zero
      ? Y["key"] extends "K|temperature"
        ? never
        : Y["key"]
      : Y["form"] extends Zero
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
export type Compared<X extends AnyValue, Y extends AnyValue> = [Exclude<Clash<X, Y>, "level">] extends [never]
  ? Shared<X, Y> extends infer K
    ? [K] extends [never]
      ? `✗ cannot compare ${Described<X>} and ${Described<Y>}`
      : K
    : never
  : `✗ cannot compare ${X["text"]} and ${Y["text"]}, ${LevelWords["compare"][Exclude<Clash<X, Y>, "level">]}`;
export type Shared<X extends AnyValue, Y extends AnyValue> = [Zeroed<X, Y>] extends [never] ? CommonKey<X["key"], Y["key"]> : Zeroed<X, Y>;

type Powered<X extends AnyValue, Y extends AnyValue> = X["key"] extends "*"
  ? "*"
  : SiOf<X["key"]> extends "1"
    ? Y["form"] extends "level"
      ? `✗ exponent ${Y["text"]} of ${X["text"]} is ${LevelWords["exponent"]}`
      : SiOf<Y["key"]> extends "1" | "*"
        ? "1"
        : `✗ exponent ${Y["text"]} of ${X["text"]} must be dimensionless, got ${LabelOfKey<Y["key"]>}`
    : Y["form"] extends "" | OfLevels
      ? `✗ exponent ${Y["text"]} of ${Described<X>} must be a literal number`
      : PowKey<X["key"], Y["form"]> extends infer K
        ? [K] extends [never]
          ? NoPower<`${X["text"]}^${Y["text"]}`, X>
          : K
        : never;

export type NoPower<
  T extends string,
  X extends AnyValue,
> = `✗ ${T}: powers of units must be whole or half, ${X["text"]} is ${LabelOfKey<X["key"]>}`;
