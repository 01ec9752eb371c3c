/**
 * The four forms of units: linear (mm), affine (°C), level (dBm, over a linear quantity) and wire gauge (AWG).
 */
import type { Dimension } from "./dimension";
import { ln } from "./elementary";
import { WorkingsError } from "./error";
import { fromLevel, toLevel } from "./level";
import { power } from "./power";
import type { Quantity, Unit } from "./quantity";
import type { LogScale } from "./spread";

interface UnitNames {
  readonly symbol: string;
  readonly dimension: Dimension;
  readonly ucum: string;
  readonly stem?: Stem;
}

/** How a unit splits into a prefix and the rest, where another SI prefix may take its place. */
export interface Stem {
  readonly prefix: string;
  readonly rest: string;
  /** Prefixes customary in print, `""` for none, ascending. */
  readonly shown: readonly string[];
}

/** SI = factor · number. A power of ten multiplies or divides by a whole number, so that 0.1 µF is 10⁻⁷ F to the last bit. */
export function linear(names: UnitNames, factor: number): Unit<any> {
  const decimal = decimalExponent(factor);
  const { symbol } = names;
  if (decimal === undefined) return unit({ ...names, factor, toSI: (x) => finite(x, symbol) * factor, fromSI: (si) => si / factor });
  const size = Number(`1e${Math.abs(decimal)}`);
  if (decimal < 0) return unit({ ...names, factor, decimal, toSI: (x) => finite(x, symbol) / size, fromSI: (si) => si * size });
  return unit({ ...names, factor, decimal, toSI: (x) => finite(x, symbol) * size, fromSI: (si) => si / size });
}

/** SI = (number + offset) · numerator / denominator, as (°F + 459.67) · 5 / 9. */
export function affine(names: UnitNames, offset: number, numerator = 1, denominator = 1): Unit<any> {
  return unit({
    ...names,
    factor: numerator / denominator,
    affine: true,
    toSI: (x) => ((finite(x, names.symbol) + offset) * numerator) / denominator,
    fromSI: (si) => (si * denominator) / numerator - offset,
  });
}

/** SI = reference · 10^(number / factor). ISO 80000-1 Annex C: factor 20 for root-power, 10 for power quantities. */
export function level(names: UnitNames, log: LogScale): Unit<any> {
  return unit({
    ...names,
    log,
    toSI: (x) => fromLevel(finite(x, names.symbol), log),
    fromSI: (si) => {
      if (si > 0) return toLevel(si, log);
      throw new WorkingsError(
        "level",
        `${si} has no level in ${names.symbol}: only positive values have one; ask for it in a linear unit of ${names.dimension.label}`,
        { value: si, unit: names.symbol },
      );
    },
  });
}

/** American wire gauge: diameter = 0.127 mm · 92^((36 − n)/39), ASTM B258. 00 is −1, 0000 is −3. */
export function gauge(names: UnitNames): Unit<any> {
  const reference = 0.127e-3;
  return unit({
    ...names,
    toSI: (n) => reference * power(92, (36 - finite(n, names.symbol)) / 39),
    fromSI: (diameter) => {
      if (diameter > 0) return 36 - (39 * ln(diameter / reference)) / ln(92);
      throw new WorkingsError("level", `a diameter of ${diameter} m has no wire gauge`, { value: diameter });
    },
  });
}

let newQuantity: (si: number, dimension: Dimension, unit: Unit<any>) => Quantity<any>;

/** Called once, by `quantity.ts`. Its class is not imported here, since it prints quantities and so needs units itself. */
export function quantitiesAreMadeBy(make: typeof newQuantity): void {
  newQuantity = make;
}

/** A callable unit of these properties. */
function unit(properties: Pick<Unit<any>, keyof Unit<any>>): Unit<any> {
  const make = (x: number): Quantity<any> => newQuantity(properties.toSI(x), properties.dimension, made);
  const made: Unit<any> = Object.assign(make, properties);
  return made;
}

function finite(x: number, symbol: string): number {
  if (Number.isFinite(x)) return x;
  throw new WorkingsError("not-finite", `${x} ${symbol} is no quantity: a finite number is expected`, { value: String(x), unit: symbol });
}

function decimalExponent(factor: number): number | undefined {
  const match = /^1e([+-]\d+)$/.exec(factor.toExponential());
  return match === null ? undefined : Number(match[1]);
}
