/** What functions of a formula do to dimensions, as types; see `text.ts` for the sentences. */
import type { Summable } from "../quantity/decibel";
import type { LabelOfKey, PowKey, SiOf } from "../quantity/dimension-types";
import type { AnyValue, Compared, Described, Fault, Made, NoPower, OfRatios, Shared, Unsigned, Value } from "./text-operators";

type OfNumber =
  | "exp"
  | "ln"
  | "log10"
  | "log2"
  | "sin"
  | "cos"
  | "tan"
  | "asin"
  | "acos"
  | "atan"
  | "sinh"
  | "cosh"
  | "tanh"
  | "ceil"
  | "floor"
  | "round";
interface Root {
  sqrt: "1/2";
  cbrt: "1/3";
}
type Single = OfNumber | keyof Root | "abs" | "sign";
type Extreme = "min" | "max";

/** The value of f(a, b, …). L: the arguments in order. */
export type Call<F extends string, L extends readonly unknown[]> = Made<CallKey<F, L>, `${F}(${Listed<L>})`, CallForm<F, L>>;

type CallForm<F, L> = F extends "log10" | "ln" | "log2"
  ? "log"
  : L extends readonly AnyValue[]
    ? L[number]["form"] extends ""
      ? ""
      : F extends Extreme | "abs" | "if" | "powersum"
        ? Strongest<L[number]["form"]>
        : OfRatios<L[number]["form"]>
    : "";
type Strongest<F> = "log" extends F ? "log" : "level" extends F ? "level" : OfRatios<F>;

type Listed<L extends readonly unknown[]> = L extends [infer X extends AnyValue, ...infer R]
  ? R extends []
    ? X["text"]
    : `${X["text"]}, ${Listed<R>}`
  : "";

type CallKey<F extends string, L extends readonly unknown[]> = F extends "if"
  ? Choice<L>
  : F extends Single
    ? FirstFault<L> extends infer E
      ? [E] extends [never]
        ? L extends [infer X extends AnyValue]
          ? One<F, X>
          : Count<F, "1 value", L>
        : E
      : never
    : F extends Extreme | "powersum"
      ? FirstFault<L> extends infer E
        ? [E] extends [never]
          ? L extends [infer X extends AnyValue, ...infer R extends [unknown, ...unknown[]]]
            ? F extends Extreme
              ? Fold<X, R>
              : PowerSum<X, Fold<X, R>>
            : Count<F, "2 values or more", L>
          : E
        : never
      : F extends "atan2"
        ? FirstFault<L> extends infer E
          ? [E] extends [never]
            ? L extends [infer Y extends AnyValue, infer X extends AnyValue]
              ? Arc<Compared<Y, X>>
              : Count<F, "2 values", L>
            : E
          : never
        : F extends "log"
          ? "✗ log() is ambiguous: write ln() or log10()"
          : `✗ unknown function '${F}'`;

type FirstFault<L extends readonly unknown[]> = L extends [infer X, ...infer R]
  ? [Fault<X>] extends [never]
    ? FirstFault<R>
    : Fault<X>
  : never;

type Count<F extends string, N extends string, L extends readonly unknown[]> = `✗ ${F}() takes ${N}, got ${L["length"]}`;

type One<F, X extends AnyValue> = F extends keyof Root
  ? X["key"] extends "*"
    ? "*"
    : PowKey<X["key"], Root[F]> extends infer K
      ? [K] extends [never]
        ? NoPower<`${F}(${X["text"]})`, X>
        : K
      : never
  : F extends "abs"
    ? Unsigned<X["key"]>
    : F extends "sign"
      ? "1"
      : SiOf<X["key"]> extends "1" | "*"
        ? "1"
        : F extends string
          ? `✗ ${F}() needs a dimensionless argument, got ${Described<X>}`
          : never;

/** min and max: each argument is compared with what the ones before it have in common. */
type Fold<X extends AnyValue, R extends readonly unknown[]> = R extends [infer Y extends AnyValue, ...infer S]
  ? Compared<X, Y> extends infer K extends string
    ? K extends `✗${string}`
      ? K
      : Fold<Value<K, X["text"], X["form"] extends "level" ? "level" : "">, S>
    : never
  : X["key"];

type PowerSum<X extends AnyValue, K> = K extends `✗${string}` | Summable | "*"
  ? K
  : K extends string
    ? `✗ powersum() adds powers: ${X["text"]} (${LabelOfKey<K>}) is known neither as a field nor as a power`
    : never;

type Arc<K> = K extends `✗${string}` ? K : "1";

type Choice<L extends readonly unknown[]> =
  ChoiceFault<L> extends infer E
    ? [E] extends [never]
      ? L extends [infer C extends AnyValue, infer X extends AnyValue, infer Y extends AnyValue]
        ? C["key"] extends "?"
          ? Branches<X, Y, Shared<X, Y>>
          : `✗ if() needs a condition such as a > b, got ${C["text"]}`
        : Count<"if", "3 values", L>
      : E
    : never;
/** Only the first argument may be a condition. */
type ChoiceFault<L extends readonly unknown[]> = L extends [infer C extends AnyValue, ...infer R]
  ? C["key"] extends `✗${string}`
    ? C["key"]
    : FirstFault<R>
  : never;
type Branches<X extends AnyValue, Y extends AnyValue, K> = [K] extends [never]
  ? `✗ if() cannot give ${Described<X>} or ${Described<Y>}`
  : K;
