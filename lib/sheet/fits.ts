/** Whether a quantity may stand where another dimension is named: for the compiler and at run time, in the same words. */
import { assignable, type Dimension } from "../quantity/dimension";
import type { CommonKey, Dim, Label } from "../quantity/dimension-types";
import { Quantity, type Unit } from "../quantity/quantity";
import type { Session } from "./session";

/** Q where a quantity of E may stand for one of D; what the compiler does not know (any) fits. */
export type FitsDim<D extends Dim, E extends Dim, Q, Sentence> = string extends D["si"] | E["si"]
  ? Q
  : [CommonKey<D["si"], E["si"]>] extends [never]
    ? Sentence
    : Q;

/** Q where it may stand for a quantity of D; else a sentence that begins with W, which says what it stands for. */
export type FitsQuantity<D extends Dim, Q, W extends string> =
  Q extends Quantity<infer E extends Dim>
    ? FitsDim<D, E, Q, `✗ ${W} must be ${Label<D>}, got ${Label<E>}`>
    : `✗ ${W} must be ${Label<D>}, got no quantity`;

/** Throws "dimension", in the words of {@link FitsQuantity}, where `value` is no quantity of that dimension. */
export function expectFits(session: Session, what: string, wanted: Dimension, value: unknown): void {
  if (!(value instanceof Quantity)) throw session.error("dimension", `${what} must be ${wanted.label}, got no quantity`);
  if (!assignable(value.dimension, wanted))
    throw session.error("dimension", `${what} must be ${wanted.label}, got ${value.dimension.label}`);
}

/** Whether a value that a cell passed is a unit. */
export function isUnit(value: unknown): value is Unit<any> {
  return typeof value === "function" && "toSI" in value;
}
