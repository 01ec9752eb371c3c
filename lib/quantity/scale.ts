/**
 * What the symbol of a unit does to numbers: the unit as plain data, below the callable `Unit` of a quantity.
 * Four forms: linear (mm), affine (°C), level (dBm, over a linear quantity) and wire gauge (AWG).
 */

import type { Dimension } from "./dimension";
import { exp, ln, log10 } from "./elementary";
import { WorkingsError } from "./error";
import { power } from "./power";
import type { LogScale } from "./spread";

export interface Scale {
  /** Canonical symbol, which `scaleOf` reads back: `kΩ`, `nV/√Hz`. `1` for no unit. */
  readonly symbol: string;
  readonly dimension: Dimension;
  /** Code of the Unified Code for Units of Measure, case sensitive; empty where it has none. */
  readonly ucum: string;
  /** Throws `not-finite` for NaN and infinities. */
  toSI(x: number): number;
  /** Throws for a value that the unit cannot state: zero or a negative one as a level. */
  fromSI(si: number): number;
  /** SI value of a difference of one unit; of a linear or affine unit only. */
  readonly factor?: number;
  /** k where the unit is exactly 10^k of the coherent unit. */
  readonly decimal?: number;
  readonly log?: LogScale;
  readonly affine?: boolean;
  /** How the unit splits into a prefix and the rest, where another SI prefix may take its place. */
  readonly stem?: Stem;
}

export interface Stem {
  readonly prefix: string;
  readonly rest: string;
  /** Prefixes customary in print, `""` for none, ascending. */
  readonly shown: readonly string[];
}

export interface ScaleNames {
  readonly symbol: string;
  readonly dimension: Dimension;
  readonly ucum: string;
  readonly stem?: Stem;
}

/** SI = factor · number. A power of ten multiplies or divides by a whole number, so that 0.1 µF is 10⁻⁷ F to the last bit. */
export function linear(names: ScaleNames, factor: number): Scale {
  const decimal = decimalExponent(factor);
  const { symbol } = names;
  if (decimal === undefined) return { ...names, factor, toSI: (x) => finite(x, symbol) * factor, fromSI: (si) => si / factor };
  const size = Number(`1e${Math.abs(decimal)}`);
  if (decimal < 0) return { ...names, factor, decimal, toSI: (x) => finite(x, symbol) / size, fromSI: (si) => si * size };
  return { ...names, factor, decimal, toSI: (x) => finite(x, symbol) * size, fromSI: (si) => si / size };
}

/** SI = (number + offset) · numerator / denominator, as (°F + 459.67) · 5 / 9. */
export function affine(names: ScaleNames, offset: number, numerator = 1, denominator = 1): Scale {
  return {
    ...names,
    factor: numerator / denominator,
    affine: true,
    toSI: (x) => ((finite(x, names.symbol) + offset) * numerator) / denominator,
    fromSI: (si) => (si * denominator) / numerator - offset,
  };
}

/** SI = reference · 10^(number / factor). ISO 80000-1 Annex C: factor 20 for root-power, 10 for power quantities. */
export function level(names: ScaleNames, log: LogScale): Scale {
  return {
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
  };
}

/** Level of a positive SI value; NaN or −∞ for others. */
export function toLevel(si: number, log: LogScale): number {
  return log.factor * log10(si / log.reference);
}

/** SI value of a level. */
export function fromLevel(x: number, log: LogScale): number {
  return log.reference * tenTo(x / log.factor);
}

/** American wire gauge: diameter = 0.127 mm · 92^((36 − n)/39), ASTM B258. 00 is −1, 0000 is −3. */
export function gauge(names: ScaleNames): Scale {
  const reference = 0.127e-3;
  return {
    ...names,
    toSI: (n) => reference * power(92, (36 - finite(n, names.symbol)) / 39),
    fromSI: (diameter) => {
      if (diameter > 0) return 36 - (39 * ln(diameter / reference)) / ln(92);
      throw new WorkingsError("level", `a diameter of ${diameter} m has no wire gauge`, { value: diameter });
    },
  };
}

function finite(x: number, symbol: string): number {
  if (Number.isFinite(x)) return x;
  throw new WorkingsError("not-finite", `${x} ${symbol} is no quantity: a finite number is expected`, { value: String(x), unit: symbol });
}

/** 10^x, exact for whole x. */
function tenTo(x: number): number {
  return Number.isInteger(x) && Math.abs(x) <= 300 ? Number(`1e${x}`) : exp(x * Math.LN10);
}

function decimalExponent(factor: number): number | undefined {
  const match = /^1e([+-]\d+)$/.exec(factor.toExponential());
  return match === null ? undefined : Number(match[1]);
}
