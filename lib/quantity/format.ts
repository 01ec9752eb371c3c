/**
 * Quantities as text at honest digits. What is printed reads back: `quantity(format(q))` is q to the rounding of the text,
 * and exactly with 17 digits in any unit that is a power of ten of its coherent one.
 *
 * Digits: a spread decides (two significant digits of it), else four significant digits; trailing zeros go.
 * Prefix: the author's unit stays while the number is between 0.1 and 1000; otherwise the prefix customary in print that
 * puts the number between 1 and 1000. Between number and unit stands a no-break space (SI Brochure 9th ed. 5.4.3).
 */
import { coherentUnit } from "./coherent-unit";
import { withoutKind } from "./dimension";
import { discreteMoments } from "./discrete";
import { limitsOf } from "./limits";
import {
  assertFinite,
  decimalsFor,
  engineeringText,
  exponentialText,
  fixedText,
  type Notation,
  numberToTwelve,
  outwardDecimals,
  roundOutward,
  roundTo,
  significantText,
} from "./number-text";
import { prefixOf } from "./prefix";
import type { Unit } from "./quantity";
import type { Spread } from "./spread";
import { spreadText } from "./spread-text";
import { unitLatex } from "./unit-latex";
import { readUnit } from "./unit-text";

export { numberToTwelve, roundOutward } from "./number-text";

export interface Formattable {
  /** In coherent SI. */
  readonly si: number;
  readonly unit: Unit<any>;
  readonly spread?: Spread;
}

export interface FormatOptions {
  /** Significant digits, 1 to 17. Default: decided by the spread, else 4. */
  readonly digits?: number;
  /** `tolerance` (default): value and spread; `plain`: value alone; `engineering`: 4.7×10³ Ω; `concise`: 3.300(95) V. */
  readonly style?: "plain" | "engineering" | "tolerance" | "concise";
  readonly notation?: Notation;
  /** Choose an SI prefix (default); false keeps the unit given. */
  readonly prefix?: boolean;
}

/** A quantity as text, `4.7 kΩ ±1 %`. Throws `not-finite` for NaN and infinities. */
export function format(quantity: Formattable, options: FormatOptions = {}): string {
  const { style = "tolerance", notation = "text", prefix = true } = options;
  assertFinite(quantity.si, "the value");
  const spread: Spread = quantity.spread ?? { kind: "exact" };
  const chosen = style !== "engineering" && prefix;
  const unit = shownUnit(quantity.unit, [quantity.si, ...limitsOf(spread, quantity.si)], chosen);
  if (style === "tolerance" && spread.kind !== "exact") return spreadText(quantity.si, spread, unit, notation, options.digits);
  if (style === "concise" && spread.kind !== "exact") return concise(quantity.si, spread, unit, notation);
  return withUnit(valueText(quantity.si, spread, unit, options), unit.symbol, notation);
}

/** A number of SI in a unit, `4.7 kΩ`, at `digits` significant digits, the unit kept as it is. */
export function formatNumber(si: number, unit: Unit<any>, digits = 4): string {
  return format({ si, unit }, { digits, prefix: false });
}

/** Limits in one unit, rounded outward: `13.69 dB to 14.12 dB`. digits are those of half the distance. */
export function formatInterval(
  low: number,
  high: number,
  unit: Unit<any>,
  options: { digits?: number; notation?: Notation; prefix?: boolean } = {},
): string {
  const { digits = 2, notation = "text", prefix = true } = options;
  assertFinite(low, "the low limit");
  assertFinite(high, "the high limit");
  const shown = shownUnit(unit, [low, high], prefix);
  const a = numberToTwelve(shown.fromSI(low));
  const b = numberToTwelve(shown.fromSI(high));
  const decimals = outwardDecimals(a, b, digits);
  const to = notation === "latex" ? "\\text{ to }" : " to ";
  return roundOutward(a, b, digits)
    .map((x) => withUnit(fixedText(x, decimals, notation), shown.symbol, notation))
    .join(to);
}

/** Number and unit with the space that belongs between them; `1` has no symbol, `°` of angles no space. */
function withUnit(number: string, symbol: string, notation: Notation = "text"): string {
  if (symbol === "1") return number;
  const close = /^[°′″]$/.test(symbol);
  if (notation === "latex") return number + (close ? "" : "\\,") + unitLatex(symbol);
  return number + (close ? "" : "\u00a0") + symbol;
}

/** The unit to print in: of levels only positive values can be shown, so zero volt in dBV is shown in volt. */
function shownUnit(unit: Unit<any>, values: readonly number[], choose: boolean): Unit<any> {
  if (unit.log !== undefined && values.some((si) => si <= 0)) return coherentUnit(withoutKind(unit.dimension));
  if (!choose) return unit;
  return prefixed(unit, Math.max(...values.map(Math.abs)));
}

function prefixed(unit: Unit<any>, size: number): Unit<any> {
  if (unit.stem === undefined || size === 0) return unit;
  const rounded = Math.abs(Number(unit.fromSI(size).toPrecision(4)));
  if (rounded >= 0.1 && rounded < 1000) return unit;
  const { prefix, rest, shown: symbols } = unit.stem;
  const bare = rounded * sizeOf(prefix);
  const fits = symbols.find((symbol) => between1And1000(numberToTwelve(bare / sizeOf(symbol))));
  const other = readUnit((fits ?? (symbols.includes("") ? "" : prefix)) + rest);
  return "reason" in other ? unit : other;
}

function sizeOf(prefix: string): number {
  return Number(`1e${prefixOf(prefix)?.exponent ?? 0}`);
}

function between1And1000(x: number): boolean {
  return x >= 1 && x < 1000;
}

function valueText(si: number, spread: Spread, unit: Unit<any>, options: FormatOptions): string {
  const { digits, style, notation = "text" } = options;
  if (digits !== undefined && digits > 15) return exactText(si, unit, notation);
  const x = numberToTwelve(unit.fromSI(si));
  if (digits === undefined && spread.kind !== "exact") {
    const [low, high] = limitsOf(spread, si).map((limit) => unit.fromSI(limit)) as [number, number];
    const decimals = decimalsFor((high - low) / 2, 2);
    if (high > low) return significantText(x, Math.min(15, Math.max(1, digitsAt(x, decimals))), notation);
  }
  return style === "engineering" ? engineeringText(x, digits ?? 4, notation) : significantText(x, digits ?? 4, notation);
}

/** Significant digits of x down to a number of decimals. */
function digitsAt(x: number, decimals: number): number {
  return x === 0 ? 1 : decimals + 1 + Number(Math.abs(x).toExponential(15).split("e")[1]);
}

/** Every digit: a power of ten moves the point of the SI number, which changes nothing. */
function exactText(si: number, unit: Unit<any>, notation: Notation): string {
  if (unit.decimal === undefined) return significantText(unit.fromSI(si), 17, notation);
  if (si === 0) return "0";
  const [mantissa, ten] = si.toExponential().split("e") as [string, string];
  return exponentialText(`${mantissa}e${Number(ten) - unit.decimal}`, notation);
}

/** `3.300(95) V`: the standard uncertainty in units of the last digits. JCGM 100:2008 7.2.2. */
function concise(si: number, spread: Spread, unit: Unit<any>, notation: Notation): string {
  const u = standardUncertainty(si, spread, unit);
  const x = numberToTwelve(unit.fromSI(si));
  const decimals = decimalsFor(u, 2);
  const [mantissa, ten] = splitAtTen(fixedText(x, decimals, notation));
  const shown = roundTo(u, decimals);
  const digits = u === 0 ? "0" : shown.toExponential(1).replace(/\.|e.*/g, "");
  const plain = ten === "" && decimals < 0 ? String(shown) : digits;
  return withUnit(`${mantissa}(${plain})${ten}`, unit.symbol, notation);
}

/** `9.109` and `×10⁻³¹`. */
function splitAtTen(text: string): [mantissa: string, ten: string] {
  const at = text.search(/×|\\times/);
  return at < 0 ? [text, ""] : [text.slice(0, at), text.slice(at)];
}

/** In the unit shown. JCGM 100:2008 4.3.7 and 4.3.9; a range is taken as rectangular, halves of a split each so. */
function standardUncertainty(si: number, spread: Spread, unit: Unit<any>): number {
  const x = unit.fromSI(si);
  const [low, high] = limitsOf(spread, si).map((limit) => unit.fromSI(limit)) as [number, number];
  if (spread.kind === "discrete") return discreteMoments(spread.values.map(unit.fromSI), spread.shares).deviation;
  if (spread.kind === "normal") return (high - low) / (2 * spread.coverage);
  if (spread.kind === "triangular") return (high - low) / Math.sqrt(24);
  if (spread.kind === "split") return Math.sqrt(((x - low) ** 2 + (high - x) ** 2) / 6);
  return (high - low) / Math.sqrt(12);
}
