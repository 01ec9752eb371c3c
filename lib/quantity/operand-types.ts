/**
 * What the methods of a quantity take. Each type gives the operand itself where it fits and a sentence where it does not, so that
 * the compiler's error is that sentence, on one line. Unknown dimensions (any) always fit; the run time decides.
 */
import type { CommonKey, DifferenceKey, Dim, Label, Name, Pow, Sqrt, SumKey } from "./dimension-types";
import type { Quantity, Unit } from "./quantity";

type Fits<Q, Key, Sentence> = [Key] extends [never] ? Sentence : Q;
type Unknown<D extends Dim, E extends Dim> = string extends D["si"] | E["si"] ? true : false;
export type Addend<D extends Dim, Q> =
  Q extends Quantity<infer E extends Dim>
    ? Unknown<D, E> extends true
      ? Q
      : Fits<Q, SumKey<D["si"], E["si"]>, CannotAdd<D, E>>
    : "✗ not a quantity";
type CannotAdd<D extends Dim, E extends Dim> = `${D["si"]} ${E["si"]}` extends "K|temperature K|temperature"
  ? "✗ cannot add temperature to temperature: add a temperature difference"
  : `✗ cannot add ${Label<E>} to ${Label<D>}`;
export type Subtrahend<D extends Dim, Q> =
  Q extends Quantity<infer E extends Dim>
    ? Unknown<D, E> extends true
      ? Q
      : Fits<Q, DifferenceKey<D["si"], E["si"]>, `✗ cannot subtract ${Label<E>} from ${Label<D>}`>
    : "✗ not a quantity";
export type Compared<D extends Dim, Q> =
  Q extends Quantity<infer E extends Dim>
    ? Unknown<D, E> extends true
      ? Q
      : Fits<Q, CommonKey<D["si"], E["si"]>, `✗ cannot compare ${Label<D>} with ${Label<E>}`>
    : "✗ not a quantity";
export type Asked<D extends Dim, U> =
  U extends Unit<infer E extends Dim>
    ? Unknown<D, E> extends true
      ? U
      : Fits<U, CommonKey<D["si"], E["si"]>, `✗ ${Label<D>} has no value in a unit of ${Label<E>}`>
    : "✗ not a unit";
export type Exponent<D extends Dim, P extends number> = [Pow<D, P>] extends [never]
  ? `✗ ${Label<D>} to the power ${P}: powers of units must be whole or half`
  : P;
export type Rooted<D extends Dim> = [Sqrt<D>] extends [never]
  ? `✗ square root of ${Label<D>}: powers of units must be whole or half`
  : Quantity<D>;

/** What two comparable dimensions have in common: the one with a kind. */
export type Common<D extends Dim, E extends Dim> = string extends D["si"]
  ? E
  : string extends E["si"]
    ? D
    : Name<CommonKey<D["si"], E["si"]>>;
/** The negative of a temperature is no temperature. */
export type Unsigned<D extends Dim> = string extends D["si"] ? D : D["si"] extends "K|temperature" ? Name<"K"> : D;
