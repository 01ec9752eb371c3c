/**
 * Dimensions at run time: exponents of the seven SI base units, with a kind where SI dimensions alone would let
 * things be confused (torque and energy, a temperature and a difference of two). Interned: two dimensions are
 * the same exactly when they are the same object. SI Brochure 9th ed. 2.3.3; kinds of quantity: ISO 80000-1, 5.
 */
import { WorkingsError } from "./error";
import { keyOf, namedDimensions } from "./named-dimensions";
import { fromSuperscript, toSuperscript } from "./superscript";

export interface Dimension {
  /** `kg·m²·s⁻³·A⁻¹`, with `|kind` behind it where there is one. */
  readonly key: string;
  /** The key without its kind; `1` when dimensionless. */
  readonly si: string;
  readonly kind?: string;
  /** Doubled exponents, so that √Hz stays an integer; in the order of `baseUnits`. */
  readonly exponents: readonly number[];
  /** `voltage`; the SI string where the dimension has no name. */
  readonly label: string;
  /** @internal Place in the tables of products. */
  readonly index: number;
}

const baseUnits = ["kg", "m", "s", "A", "K", "mol", "cd"] as const;

const factorPattern = /^(kg|mol|cd|m|s|A|K)(?:\^\((-?\d+)\/2\)|(⁻?[⁰¹²³⁴⁵⁶⁷⁸⁹]+))?$/u;
const labels = new Map(namedDimensions.map((row) => [keyOf(row), row.label]));
const interned = new Map<string, Dimension>();
const all: Dimension[] = [];
/** products[a.index][b.index]; filled as products are asked for. */
const products: (Dimension | undefined)[][] = [];
const quotients: (Dimension | undefined)[][] = [];

/** The dimension of a canonical key, `kg·m²·s⁻²|torque`. Throws where the key is not written as `Dimension.key` is. */
export function dimension(key: string): Dimension {
  return interned.get(key) ?? readKey(key);
}

export const dimensionless: Dimension = dimension("1");
const temperature = dimension("K|temperature");
const temperatureDifference = dimension("K|difference");

/** Dimension of a product; kinds are dropped. */
export function multiply(a: Dimension, b: Dimension): Dimension {
  return products[a.index]?.[b.index] ?? remember(products, a, b, 1);
}

/** Dimension of a quotient; kinds are dropped. */
export function divide(a: Dimension, b: Dimension): Dimension {
  return quotients[a.index]?.[b.index] ?? remember(quotients, a, b, -1);
}

/** Dimension of a^(numerator/denominator); the kind is dropped. Throws on exponents finer than one half. */
export function power(a: Dimension, numerator: number, denominator = 1): Dimension {
  const exponents = a.exponents.map((e) => (e * numerator) / denominator);
  if (!exponents.every(Number.isInteger)) {
    const exponent = denominator === 1 ? `${numerator}` : `${numerator}/${denominator}`;
    throw new WorkingsError(
      "dimension",
      `${a.label} to the power ${exponent} has exponents finer than one half; only whole and half powers of units exist here`,
      { dimension: a.key },
    );
  }
  return ofExponents(exponents);
}

/** Dimension of a + b, or undefined where the two may not be added. A kindless kelvin is a difference beside a temperature. */
export function sum(a: Dimension, b: Dimension): Dimension | undefined {
  if (a === temperature || b === temperature) return temperatureSum(a, b);
  return common(a, b);
}

/** Dimension of a − b, or undefined where b may not be taken from a. Temperature − temperature is a difference. */
export function difference(a: Dimension, b: Dimension): Dimension | undefined {
  if (a === temperature && b === temperature) return temperatureDifference;
  if (b === temperature) return undefined;
  return sum(a, b);
}

/** Whether a and b may be compared or take the same place in min, max and if. */
export function comparable(a: Dimension, b: Dimension): boolean {
  return common(a, b) !== undefined;
}

/** Whether a value of dimension `from` may be asked for in a unit of dimension `to`. */
export function assignable(from: Dimension, to: Dimension): boolean {
  return common(from, to) !== undefined;
}

/**
 * Whether a stated value of `from` may be read in a unit of `to`: where it is assignable, but bits and bytes are read as such alone, or
 * 20 byte would count as the number 160.
 */
export function readable(from: Dimension, to: Dimension): boolean {
  return assignable(from, to) && (from.kind === "information") === (to.kind === "information");
}

/** The dimension without its kind. */
export function withoutKind(a: Dimension): Dimension {
  return a.kind === undefined ? a : dimension(a.si);
}

/** The dimension of which both are: equal, or one of them without a kind. */
function common(a: Dimension, b: Dimension): Dimension | undefined {
  if (a === b) return a;
  if (a.si !== b.si) return undefined;
  if (a.kind === undefined) return b;
  return b.kind === undefined ? a : undefined;
}

/** A temperature may be added to a difference, never to another temperature. */
function temperatureSum(a: Dimension, b: Dimension): Dimension | undefined {
  const other = a === temperature ? b : a;
  return other.si === "K" && other !== temperature ? temperature : undefined;
}

function remember(table: (Dimension | undefined)[][], a: Dimension, b: Dimension, sign: 1 | -1): Dimension {
  const made = ofExponents(a.exponents.map((e, i) => e + sign * (b.exponents[i] as number)));
  (table[a.index] as (Dimension | undefined)[])[b.index] = made;
  return made;
}

/** The kindless dimension with these doubled exponents. */
export function ofExponents(exponents: readonly number[]): Dimension {
  return dimension(siText(exponents));
}

function readKey(key: string): Dimension {
  const bar = key.indexOf("|");
  const si = bar < 0 ? key : key.slice(0, bar);
  const exponents = si === "1" ? baseUnits.map(() => 0) : readSi(si);
  if (exponents === undefined || siText(exponents) !== si || bar === key.length - 1) {
    throw new WorkingsError(
      "dimension-text",
      `"${key}" is not a dimension; write base units in the order ${baseUnits.join(" ")}, as in kg·m²·s⁻³·A⁻¹ or kg·m²·s⁻²|torque`,
      { text: key },
    );
  }
  return intern(key, si, bar < 0 ? undefined : key.slice(bar + 1), exponents);
}

function intern(key: string, si: string, kind: string | undefined, exponents: readonly number[]): Dimension {
  const label = labels.get(key) ?? si;
  const made: Dimension = Object.freeze({
    key,
    si,
    exponents: Object.freeze(exponents),
    label,
    index: all.length,
    ...(kind === undefined ? {} : { kind }),
  });
  interned.set(key, made);
  all.push(made);
  products.push([]);
  quotients.push([]);
  return made;
}

function siText(exponents: readonly number[]): string {
  const parts = baseUnits.flatMap((unit, i) => {
    const doubled = exponents[i] as number;
    return doubled === 0 ? [] : [unit + exponentText(doubled)];
  });
  return parts.length === 0 ? "1" : parts.join("·");
}

/** Exponent as written behind a base unit: nothing for 1, `⁻²`, `^(1/2)`. */
function exponentText(doubled: number): string {
  if (doubled === 2) return "";
  return doubled % 2 === 0 ? toSuperscript(doubled / 2) : `^(${doubled}/2)`;
}

function readSi(si: string): number[] | undefined {
  const exponents: number[] = baseUnits.map(() => 0);
  for (const factor of si.split("·")) {
    const match = factorPattern.exec(factor);
    if (match === null) return undefined;
    exponents[(baseUnits as readonly string[]).indexOf(match[1] as string)] = readExponent(match[2], match[3]);
  }
  return exponents;
}

function readExponent(half: string | undefined, whole: string | undefined): number {
  if (half !== undefined) return Number(half);
  return whole === undefined ? 2 : 2 * Number(fromSuperscript(whole));
}
