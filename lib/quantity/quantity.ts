/**
 * A quantity: a number in coherent SI with its dimension, the unit it is shown in, perhaps a spread, and perhaps a
 * lineage (the memory of what it was computed from). Arithmetic is checked twice: by the types, and at run time by
 * the interned dimension objects. The types need a known dimension or `any`: a function for every dimension takes `Quantity<any>`,
 * since inside a function of `D extends Dim` the compiler cannot tell whether operands fit.
 *
 * The spread of a result is not computed here: a quantity of a worksheet has a lineage, and the graph behind
 * it knows every given. Objects are not frozen: freezing costs seven times the arithmetic itself.
 */
import { coherentUnit } from "./coherent-unit";
import type { Dimension } from "./dimension";
import { assignable, comparable, difference, divide, multiply, power as powerOf, sum, withoutKind } from "./dimension";
import type { CommonKey, Difference, DifferenceKey, Dim, Div, Label, Mul, Name, Pow, Sqrt, Sum, SumKey } from "./dimension-types";
import { WorkingsError } from "./error";
import { format } from "./format";
import { power } from "./power";
import type { Exact, LogScale, Spread } from "./spread";
import { quantitiesAreMadeBy, type Stem } from "./unit-forms";

export type * from "./dimension-tables";
export type { Difference, Dim, Div, Label, Mul, Pow, SI, Sqrt, Sum } from "./dimension-types";

/** Operations that the methods of a quantity record in its lineage. */
type QuantityOperation = "add" | "subtract" | "multiply" | "divide" | "power" | "sqrt" | "negate" | "abs" | "min" | "max";

/** The memory of a quantity; worksheets implement it with nodes of their graph. */
export interface Lineage {
  /** The lineage of an operation's result; operands without lineage are constants. */
  operate(operation: QuantityOperation, operands: readonly (Quantity<any> | number)[]): Lineage;
  /** Records that a bare number was read out of the quantity. */
  read(): void;
}

/** A unit is called to make a quantity, `kohm(4.7)`, and passed to read one, `R.in(kohm)`. */
export interface Unit<in out D extends Dim> {
  (x: number): Quantity<D>;
  /** Canonical symbol, which `unitOf` reads back as this unit: `kΩ`, `nV/√Hz`, `dB (power)`. `1` for no unit. */
  readonly symbol: string;
  readonly dimension: Dimension;
  /** Code in the Unified Code for Units of Measure, case-sensitive form; empty where it has none. */
  readonly ucum: string;
  /** Throws `not-finite` for NaN and infinities. */
  toSI(x: number): number;
  /** Throws for a value that the unit cannot state: zero or a negative one as a level. */
  fromSI(si: number): number;
  /** @internal SI value of a difference of one unit; of a linear or affine unit only. */
  readonly factor?: number;
  /** @internal k where the unit is exactly 10^k of the coherent unit. */
  readonly decimal?: number;
  /** @internal Present where the SI prefix of the unit may change. */
  readonly stem?: Stem;
  /** Present on level units (dB, dBV): the scale over the linear quantity. */
  readonly log?: LogScale;
  /** True where zero of the unit is not zero of the quantity (°C). */
  readonly affine?: boolean;
}

/** A unit of decibels (dB, dBm, dB SPL): a logarithmic scale over the linear quantity. */
export interface LevelUnit<in out D extends Dim> extends Unit<D> {
  (x: number): Level<D>;
  readonly log: LogScale;
}

/** A quantity shown in decibels. It counts as the linear quantity, so formulas refuse sums in which decibels may be meant. */
export type Level<D extends Dim> = Quantity<D> & InDecibels;
interface InDecibels {
  readonly unit: { readonly log: LogScale };
}

/** What the type of a level, or of its unit, shows. */
export type StatedAsLevel = InDecibels | { readonly log: LogScale };

/** The quantity of dimension D in unit U. */
export type Shown<D extends Dim, U> = U extends StatedAsLevel ? Level<D> : Quantity<D>;

export interface QuantityExtra {
  readonly spread?: Spread;
  readonly symbol?: string;
  readonly meaning?: string;
  readonly lineage?: Lineage;
}

/** The dimension of a quantity or unit type. */
export type DimOf<Q> = Q extends Quantity<infer E extends Dim> ? E : Q extends Unit<infer E extends Dim> ? E : never;

// Each of these gives the operand itself where it fits and a sentence where it does not, so that the compiler's error is that
// sentence, on one line. Unknown dimensions (any) always fit; the run time decides.
type Fits<Q, Key, Sentence> = [Key] extends [never] ? Sentence : Q;
type Unknown<D extends Dim, E extends Dim> = string extends D["si"] | E["si"] ? true : false;
type Addend<D extends Dim, Q> =
  Q extends Quantity<infer E extends Dim>
    ? Unknown<D, E> extends true
      ? Q
      : Fits<Q, SumKey<D["si"], E["si"]>, CannotAdd<D, E>>
    : "✗ not a quantity";
type CannotAdd<D extends Dim, E extends Dim> = `${D["si"]} ${E["si"]}` extends "K|temperature K|temperature"
  ? "✗ cannot add temperature to temperature: add a temperature difference"
  : `✗ cannot add ${Label<E>} to ${Label<D>}`;
type Subtrahend<D extends Dim, Q> =
  Q extends Quantity<infer E extends Dim>
    ? Unknown<D, E> extends true
      ? Q
      : Fits<Q, DifferenceKey<D["si"], E["si"]>, `✗ cannot subtract ${Label<E>} from ${Label<D>}`>
    : "✗ not a quantity";
type Compared<D extends Dim, Q> =
  Q extends Quantity<infer E extends Dim>
    ? Unknown<D, E> extends true
      ? Q
      : Fits<Q, CommonKey<D["si"], E["si"]>, `✗ cannot compare ${Label<D>} with ${Label<E>}`>
    : "✗ not a quantity";
type Asked<D extends Dim, U> =
  U extends Unit<infer E extends Dim>
    ? Unknown<D, E> extends true
      ? U
      : Fits<U, CommonKey<D["si"], E["si"]>, `✗ ${Label<D>} has no value in a unit of ${Label<E>}`>
    : "✗ not a unit";
type Exponent<D extends Dim, P extends number> = [Pow<D, P>] extends [never]
  ? `✗ ${Label<D>} to the power ${P}: powers of units must be whole or half`
  : P;
type Rooted<D extends Dim> = [Sqrt<D>] extends [never]
  ? `✗ square root of ${Label<D>}: powers of units must be whole or half`
  : Quantity<D>;

/** What two comparable dimensions have in common: the one with a kind. */
type Common<D extends Dim, E extends Dim> = string extends D["si"] ? E : string extends E["si"] ? D : Name<CommonKey<D["si"], E["si"]>>;
/** The negative of a temperature is no temperature. */
type Unsigned<D extends Dim> = string extends D["si"] ? D : D["si"] extends "K|temperature" ? Name<"K"> : D;

const exact: Exact = { kind: "exact" };

export class Quantity<in out D extends Dim> {
  /**
   * The name of the dimension, "voltage". It stands first because the compiler compares it first when dimensions differ, and
   * stops there: `"torque" is not assignable to "energy"`.
   */
  get label(): Label<D> {
    return this.dimension.label as Label<D>;
  }

  // Declared, so that only the constructor writes them: defining fields first makes arithmetic half as slow again.
  /** @internal In coherent SI. */
  declare readonly si: number;
  declare readonly dimension: Dimension;
  declare readonly spread: Spread;
  /** @internal */
  declare readonly lineage: Lineage | undefined;
  declare readonly symbol: string | undefined;
  declare readonly meaning: string | undefined;
  /** @internal Undefined until a result is shown in a unit. */
  declare readonly shownIn: Unit<any> | undefined;

  /** si in the coherent unit of `dimension`, any number. Shown in `unit`; without one, in the coherent unit. */
  constructor(si: number, dimension: Dimension, unit?: Unit<any>, extra?: QuantityExtra) {
    this.si = si;
    this.dimension = dimension;
    this.shownIn = unit;
    this.spread = extra?.spread ?? exact;
    this.symbol = extra?.symbol;
    this.meaning = extra?.meaning;
    this.lineage = extra?.lineage;
  }

  /** The unit in which the quantity is shown. */
  get unit(): Unit<any> {
    return this.shownIn ?? coherentUnit(this.dimension);
  }

  /** Sum. A temperature plus a difference is a temperature; two temperatures have no sum. Throws where dimensions or kinds differ. */
  plus<Q extends Quantity<any>>(other: Addend<D, Q>): Quantity<Sum<D, DimOf<Q>>> {
    const b = quantityOf(other);
    refuseLevels("add", "mul", this, b);
    const dimension = sum(this.dimension, b.dimension) ?? refuse(`cannot add ${b.dimension.label} to ${this.dimension.label}`, this, b);
    return result("add", this.si + b.si, dimension, this, b);
  }

  /** Difference. Of two temperatures it is a temperature difference. Throws where dimensions or kinds differ. */
  minus<Q extends Quantity<any>>(other: Subtrahend<D, Q>): Quantity<Difference<D, DimOf<Q>>> {
    const b = quantityOf(other);
    refuseLevels("subtract", "div", this, b);
    const dimension =
      difference(this.dimension, b.dimension) ?? refuse(`cannot subtract ${b.dimension.label} from ${this.dimension.label}`, this, b);
    return result("subtract", this.si - b.si, dimension, this, b);
  }

  /** Product; kinds are dropped, a temperature counts in kelvin. A bare factor keeps the dimension (a temperature becomes kelvins). */
  mul(factor: number): Quantity<Unsigned<D>>;
  mul<E extends Dim>(other: Quantity<E>): Quantity<Mul<D, E>>;
  mul(other: Quantity<any> | number): Quantity<any> {
    if (typeof other === "number") return result("multiply", this.si * other, scaled(this.dimension), this, other);
    return result("multiply", this.si * other.si, multiply(this.dimension, other.dimension), this, other);
  }

  /** Quotient; like `mul`. Division by zero gives an infinity, as numbers do. */
  div(divisor: number): Quantity<Unsigned<D>>;
  div<E extends Dim>(other: Quantity<E>): Quantity<Div<D, E>>;
  div(other: Quantity<any> | number): Quantity<any> {
    if (typeof other === "number") return result("divide", this.si / other, scaled(this.dimension), this, other);
    return result("divide", this.si / other.si, divide(this.dimension, other.dimension), this, other);
  }

  /** A whole or half power, -12 to 12. Throws where units would get quarter powers. */
  pow<P extends number>(exponent: Exponent<D, P>): Quantity<Pow<D, P>> {
    const p: unknown = exponent;
    if (typeof p !== "number") throw new WorkingsError("dimension", `an exponent is a number, not ${String(p)}`);
    const dimension = this.dimension.si === "1" ? withoutKind(this.dimension) : powerOf(this.dimension, p);
    return result("power", power(this.si, p), dimension, this, p);
  }

  /** Square root. Throws where units would get quarter powers. */
  sqrt(this: Rooted<D>): Quantity<Sqrt<D>> {
    const a = quantityOf(this);
    return result("sqrt", Math.sqrt(a.si), powerOf(a.dimension, 1, 2), a);
  }

  /** The negative. Of a temperature: kelvins. */
  neg(): Quantity<Unsigned<D>> {
    return result("negate", -this.si, scaled(this.dimension), this);
  }

  /** The magnitude. Of a temperature: kelvins. */
  abs(): Quantity<Unsigned<D>> {
    return result("abs", Math.abs(this.si), scaled(this.dimension), this);
  }

  /** The smaller of two comparable quantities. */
  min<Q extends Quantity<any>>(other: Compared<D, Q>): Quantity<Common<D, DimOf<Q>>> {
    const b = comparableTo(this, other);
    return result("min", Math.min(this.si, b.si), kinded(this, b), this, b);
  }

  /** The larger of two comparable quantities. */
  max<Q extends Quantity<any>>(other: Compared<D, Q>): Quantity<Common<D, DimOf<Q>>> {
    const b = comparableTo(this, other);
    return result("max", Math.max(this.si, b.si), kinded(this, b), this, b);
  }

  /** Whether this is below `other`. Reads the number out: what is decided by it is not remembered by later results. */
  lessThan<Q extends Quantity<any>>(other: Compared<D, Q>): boolean {
    const b = comparableTo(this, other);
    this.lineage?.read();
    b.lineage?.read();
    return this.si < b.si;
  }

  /** Whether this is above `other`. Reads the number out, as `lessThan` does. */
  greaterThan<Q extends Quantity<any>>(other: Compared<D, Q>): boolean {
    const b = comparableTo(this, other);
    this.lineage?.read();
    b.lineage?.read();
    return this.si > b.si;
  }

  /** The bare number in a unit. A quantity without kind may be read in a unit of any kind of its SI dimension. */
  in<U extends Unit<any>>(unit: Asked<D, U>): number {
    const u = unitFor(this, unit);
    this.lineage?.read();
    return u.fromSI(this.si);
  }

  /** The same quantity, shown in another unit; one without kind takes the unit's. */
  as<U extends Unit<any>>(unit: Asked<D, U>): Shown<Common<D, DimOf<U>>, U>;
  as(unit: unknown): Quantity<any> {
    const u = unitFor(this, unit);
    const dimension = this.dimension.kind === undefined ? u.dimension : this.dimension;
    const { spread, symbol, meaning, lineage } = this;
    return new Quantity(this.si, dimension, u, extras(spread, symbol, meaning, lineage));
  }

  /** The number in coherent SI, so that `a < b` compares. Reads it out. */
  valueOf(): number {
    this.lineage?.read();
    return this.si;
  }

  /** As text, `4.7 kΩ ±1 %`. Reads the number out. */
  toString(): string {
    this.lineage?.read();
    return format(this);
  }

  /** What Node prints for a quantity. The last line of a notebook cell is echoed this way: nobody has read it out. */
  [Symbol.for("nodejs.util.inspect.custom")](): string {
    return format(this);
  }
}

quantitiesAreMadeBy((si, dimension, unit) => new Quantity(si, dimension, unit));

function extras(spread: Spread, symbol: string | undefined, meaning: string | undefined, lineage: Lineage | undefined): QuantityExtra {
  return {
    spread,
    ...(symbol === undefined ? {} : { symbol }),
    ...(meaning === undefined ? {} : { meaning }),
    ...(lineage === undefined ? {} : { lineage }),
  };
}

function result(
  operation: QuantityOperation,
  si: number,
  dimension: Dimension,
  a: Quantity<any>,
  b?: Quantity<any> | number,
): Quantity<any> {
  const memory = a.lineage ?? (typeof b === "object" ? b.lineage : undefined);
  if (memory === undefined) return new Quantity<any>(si, dimension);
  const lineage = memory.operate(operation, b === undefined ? [a] : [a, b]);
  return new Quantity<any>(si, dimension, undefined, { lineage });
}

/** A multiple of a temperature is no temperature; every other kind stays. */
function scaled(dimension: Dimension): Dimension {
  return dimension.key === "K|temperature" ? withoutKind(dimension) : dimension;
}

function quantityOf(value: unknown): Quantity<any> {
  if (value instanceof Quantity) return value;
  throw new WorkingsError(
    "dimension",
    `a quantity was expected, not ${typeof value === "object" ? "an object" : String(value)}; make one by calling a unit, as in volt(3)`,
  );
}

function comparableTo(a: Quantity<any>, value: unknown): Quantity<any> {
  const b = quantityOf(value);
  if (!comparable(a.dimension, b.dimension)) refuse(`cannot compare ${a.dimension.label} with ${b.dimension.label}`, a, b);
  return b;
}

function kinded(a: Quantity<any>, b: Quantity<any>): Dimension {
  return a.dimension.kind === undefined ? b.dimension : a.dimension;
}

function unitFor(quantity: Quantity<any>, value: unknown): Unit<any> {
  if (!isUnit(value)) throw new WorkingsError("dimension", "a unit was expected, such as volt; import it from the units");
  if (assignable(quantity.dimension, value.dimension)) return value;
  throw new WorkingsError("dimension", `${quantity.dimension.label} has no value in ${value.symbol}, a unit of ${value.dimension.label}`, {
    dimension: quantity.dimension.key,
    unit: value.symbol,
  });
}

/** Two values shown in decibels would add as the ratios that they are, where their decibels may be meant. */
function refuseLevels(verb: "add" | "subtract", method: "mul" | "div", a: Quantity<any>, b: Quantity<any>): void {
  const levels = [a, b].map(({ shownIn }) => shownIn).filter((unit) => unit?.log !== undefined);
  if (levels.length < 2) return;
  const [first, second] = levels.map((unit) => (unit as Unit<any>).symbol);
  refuse(
    `cannot ${verb} levels (${first} and ${second}): decibels ${verb} where the quantities ${method === "mul" ? "multiply" : "divide"}, a.${method}(b); to ${verb} the quantities themselves show them in a linear unit, as in a.as(one)`,
    a,
    b,
  );
}

function isUnit(value: unknown): value is Unit<any> {
  return typeof value === "function" && "fromSI" in value;
}

function refuse(message: string, a: Quantity<any>, b: Quantity<any>): never {
  throw new WorkingsError("dimension", message, { left: a.dimension.key, right: b.dimension.key });
}
