/**
 * Dimensions as types. A dimension is an interface with one field, its key: the SI string of
 * `named-dimensions.ts`, with `|kind` behind it where it has a kind. An interface keeps its name in editors and messages
 * (`Quantity<Power>`), which a tuple of exponents would not.
 *
 * Exponents are doubled whole numbers as strings, so that half powers (nV/√Hz) exist. Products, quotients and
 * powers drop the kind; sums keep it. SI Brochure 9th ed. 2.3.3, ISO 80000-1.
 */
import type { HalfT, LabelOf, Named, Negated, Pred, Succ, Sup, ThirdT, Unsup, VecOf } from "./dimension-tables";

export interface Dim {
  readonly si: string;
}
/** A dimension without a name. */
export interface SI<S extends string> {
  readonly si: S;
}

interface Vec extends Seven<string, string, string, string, string, string, string> {}
// A conditional type makes the compiler resolve the aliases among the arguments once, instead of at every use: fewer instantiations.
type Made<A, B, C, D, E, F, G> = true extends true ? Seven<A, B, C, D, E, F, G> : never;
interface Seven<A, B, C, D, E, F, G> {
  readonly 0: A;
  readonly 1: B;
  readonly 2: C;
  readonly 3: D;
  readonly 4: E;
  readonly 5: F;
  readonly 6: G;
}

type Add<A extends string, B extends string> = B extends "0"
  ? A
  : A extends "0"
    ? B
    : B extends `-${string}`
      ? A extends keyof Pred
        ? B extends keyof Succ
          ? Add<Pred[A], Succ[B]>
          : "overflow"
        : "overflow"
      : A extends keyof Succ
        ? B extends keyof Pred
          ? Add<Succ[A], Pred[B]>
          : "overflow"
        : "overflow";

type Look<T, E extends string> = E extends keyof T ? (T[E] extends string ? T[E] : "overflow") : "overflow";

type AddV<A, B> = A extends Vec
  ? B extends Vec
    ? Made<Add<A[0], B[0]>, Add<A[1], B[1]>, Add<A[2], B[2]>, Add<A[3], B[3]>, Add<A[4], B[4]>, Add<A[5], B[5]>, Add<A[6], B[6]>>
    : never
  : never;
type MapV<T, A> = A extends Vec
  ? Made<Look<T, A[0]>, Look<T, A[1]>, Look<T, A[2]>, Look<T, A[3]>, Look<T, A[4]>, Look<T, A[5]>, Look<T, A[6]>>
  : never;

type Part<U extends string, E> = E extends "0" ? "" : E extends keyof Sup ? `·${U}${Sup[E]}` : "overflow";
type Join<V> = V extends Vec
  ? `${Part<"kg", V[0]>}${Part<"m", V[1]>}${Part<"s", V[2]>}${Part<"A", V[3]>}${Part<"K", V[4]>}${Part<"mol", V[5]>}${Part<"cd", V[6]>}`
  : never;
/** The SI string of a vector; `never` when an exponent is neither whole nor half, or beyond ±20. */
type Fmt<V> =
  Join<V> extends infer J
    ? J extends ""
      ? "1"
      : J extends `${string}overflow${string}`
        ? never
        : J extends `·${infer S}`
          ? S
          : never
    : never;

type Get<S extends string, B extends string> = S extends `${string}·${B}${infer E}·${string}`
  ? E extends keyof Unsup
    ? Unsup[E]
    : "0"
  : "0";
type Parse<S extends string> = Made<Get<S, "kg">, Get<S, "m">, Get<S, "s">, Get<S, "A">, Get<S, "K">, Get<S, "mol">, Get<S, "cd">>;
type ToVec<K extends string> = K extends keyof VecOf ? VecOf[K] : Parse<`·${SiOf<K>}·`>;

/** The SI string of a key: the key without its kind. */
export type SiOf<K extends string> = K extends `${infer S}|${string}` ? S : K;
type KindOf<K extends string> = K extends `${string}|${infer N}` ? N : "";

export type MulKey<A extends string, B extends string> = A extends "1" ? SiOf<B> : B extends "1" ? SiOf<A> : Fmt<AddV<ToVec<A>, ToVec<B>>>;
type InvKey<A extends string> = Fmt<MapV<Negated, ToVec<A>>>;
export type DivKey<A extends string, B extends string> = B extends "1" ? SiOf<A> : MulKey<A, InvKey<B>>;
type RootKey<A extends string, D extends string> = D extends "1"
  ? A
  : D extends "2"
    ? Fmt<MapV<HalfT, ToVec<A>>>
    : D extends "3"
      ? Fmt<MapV<ThirdT, ToVec<A>>>
      : never;

type Square<A extends string> = MulKey<A, A>;
type Cube<A extends string> = MulKey<Square<A>, A>;
type WholeKey<A extends string, N extends string> = N extends `-${infer M}`
  ? InvKey<WholeKey<A, M>>
  : N extends "0"
    ? "1"
    : N extends "1"
      ? SiOf<A>
      : N extends "2"
        ? Square<A>
        : N extends "3"
          ? Cube<A>
          : N extends "4"
            ? Square<Square<A>>
            : N extends "5"
              ? MulKey<Square<Square<A>>, A>
              : N extends "6"
                ? Square<Cube<A>>
                : N extends "7"
                  ? MulKey<Square<Cube<A>>, A>
                  : N extends "8"
                    ? Square<Square<Square<A>>>
                    : N extends "9"
                      ? Cube<Cube<A>>
                      : N extends "10"
                        ? MulKey<Cube<Cube<A>>, A>
                        : N extends "11"
                          ? MulKey<Cube<Cube<A>>, Square<A>>
                          : N extends "12"
                            ? Square<Square<Cube<A>>>
                            : never;

interface HalfOf {
  "": "1";
  "0": "1";
  "1": "3";
  "2": "5";
  "3": "7";
  "4": "9";
  "5": "11";
}
type Fraction<P extends string> = P extends `-${infer M}`
  ? Fraction<M> extends infer F extends string
    ? `-${F}`
    : never
  : P extends `${infer I}.5`
    ? I extends keyof HalfOf
      ? `${HalfOf[I]}/2`
      : never
    : P extends `${infer I}.0`
      ? I
      : P extends keyof Lowest
        ? Lowest[P]
        : P;
interface Lowest {
  "2/4": "1/2";
  "6/4": "3/2";
  "10/4": "5/2";
  "2/6": "1/3";
  "3/6": "1/2";
  "4/6": "2/3";
  "9/6": "3/2";
}
/** A to a literal power such as "2", "-1", "1/2" or "0.5"; `never` when powers of units would not be whole or half. */
export type PowKey<A extends string, P extends string> =
  SiOf<A> extends "1" ? "1" : Fraction<P> extends `${infer N}/${infer D}` ? RootKey<WholeKey<A, N>, D> : WholeKey<A, Fraction<P>>;

type TemperatureKey = "K|temperature";
type SameKind<A extends string, B extends string> = A extends B
  ? A
  : SiOf<A> extends SiOf<B>
    ? KindOf<A> extends ""
      ? B
      : KindOf<B> extends ""
        ? A
        : never
    : never;
type Offset = "K" | "K|difference";
/** The key of a + b; `never` when they may not be added. */
export type SumKey<A extends string, B extends string> = A extends TemperatureKey
  ? B extends Offset
    ? TemperatureKey
    : never
  : B extends TemperatureKey
    ? A extends Offset
      ? TemperatureKey
      : never
    : SameKind<A, B>;
/** The key of a − b; `never` when b may not be subtracted from a. */
export type DifferenceKey<A extends string, B extends string> = A extends TemperatureKey
  ? B extends TemperatureKey
    ? "K|difference"
    : B extends Offset
      ? TemperatureKey
      : never
  : B extends TemperatureKey
    ? never
    : SameKind<A, B>;
/** The key of what two comparable keys have in common; `never` when they may not be compared or assigned. */
export type CommonKey<A extends string, B extends string> = SameKind<A, B>;

/** The interface of a key. */
export type Name<K extends string> = [K] extends [never] ? never : string extends K ? any : K extends keyof Named ? Named[K] : SI<K>;
/** The label of a key in messages. */
export type LabelOfKey<K extends string> = K extends keyof LabelOf ? LabelOf[K] : SiOf<K>;
/** The label of a dimension in messages: 'voltage', or the SI string where it has no name. */
export type Label<D extends Dim> = LabelOfKey<D["si"]>;

// Keys are computed only when both are known: an unknown one (any) would send the recursions astray.
export type Mul<A extends Dim, B extends Dim> = string extends A["si"] | B["si"] ? any : Name<MulKey<A["si"], B["si"]>>;
export type Div<A extends Dim, B extends Dim> = string extends A["si"] | B["si"] ? any : Name<DivKey<A["si"], B["si"]>>;
export type Inv<A extends Dim> = string extends A["si"] ? any : Name<InvKey<A["si"]>>;
export type Pow<A extends Dim, P extends string | number> = string extends A["si"] | `${P}`
  ? any
  : number extends P
    ? any
    : Name<PowKey<A["si"], `${P}`>>;
export type Sqrt<A extends Dim> = Pow<A, "1/2">;
export type Sum<A extends Dim, B extends Dim> = string extends A["si"] | B["si"] ? any : Name<SumKey<A["si"], B["si"]>>;
export type Difference<A extends Dim, B extends Dim> = string extends A["si"] | B["si"] ? any : Name<DifferenceKey<A["si"], B["si"]>>;
