/**
 * Numbers as text: rounding to significant digits or decimals, powers of ten, and limits rounded so that they
 * still hold. ISO 80000-1 Annex B (rounding), 7.3 (printing of numbers).
 */
import { WorkingsError } from "./error";
import { toSuperscript } from "./superscript";

export type Notation = "text" | "latex";

/** x with 12 significant digits, as numbers are stored: what is left of rounding noise is not. */
export function numberToTwelve(x: number): number {
  return Number.isFinite(x) ? Number(x.toPrecision(12)) : x;
}

/** Throws where x is NaN or an infinity. `what` names it: `the limit "low"`. */
export function assertFinite(x: number, what: string): void {
  if (!Number.isFinite(x))
    throw new WorkingsError(
      "not-finite",
      `${what} is ${Number.isNaN(x) ? "not a number" : "infinite"}; every quantity is a finite number`,
      { value: String(x) },
    );
}

/** Decimals (negative: zeros before the point) that show `digits` significant digits of x; 0 for x = 0. */
export function decimalsFor(x: number, digits: number): number {
  if (x === 0) return 0;
  return (
    digits -
    1 -
    Number(
      Math.abs(x)
        .toExponential(digits - 1)
        .split("e")[1],
    )
  );
}

/** The fewest decimals, 1 to 4 significant digits of `width`, at which every x is exact; else those of 2 digits. */
export function decimalsExact(xs: readonly number[], width: number): number {
  for (let digits = 1; digits <= 4; digits++) {
    const decimals = decimalsFor(width, digits);
    if (xs.every((x) => Math.abs(roundTo(x, decimals) - x) <= 1e-9 * Math.abs(width))) return decimals;
  }
  return decimalsFor(width, 2);
}

/** x rounded to a number of decimals, which may be negative. */
export function roundTo(x: number, decimals: number): number {
  return onGrid(x, decimals, Math.round);
}

/**
 * Limits rounded to `digits` significant digits of half their distance, the low one down and the high one up, so that what
 * lies within the limits lies within the rounded ones. Limits that are equal are rounded at `digits` + 2 digits of their own.
 */
export function roundOutward(low: number, high: number, digits = 2): readonly [low: number, high: number] {
  const decimals = outwardDecimals(low, high, digits);
  return [onGrid(low, decimals, Math.floor), onGrid(high, decimals, Math.ceil)];
}

/** Decimals that `roundOutward` rounds to. */
export function outwardDecimals(low: number, high: number, digits = 2): number {
  const half = numberToTwelve((high - low) / 2);
  return half > 0 ? decimalsFor(half, digits) : decimalsFor(low, digits + 2);
}

/** Rounding noise of 10⁻⁹ of a step does not push a limit to the next step. */
function onGrid(x: number, decimals: number, rule: (x: number) => number): number {
  if (Math.abs(decimals) > 300) return x;
  const size = Number(`1e${Math.abs(decimals)}`);
  const steps = decimals >= 0 ? x * size : x / size;
  const near = Math.round(steps);
  const whole = Math.abs(steps - near) < 1e-9 * Math.max(1, Math.abs(steps) * 1e-3) ? near : rule(steps);
  return decimals >= 0 ? whole / size : whole * size;
}

/** x at `digits` significant digits, trailing zeros dropped: `270`, `4.7`, `1.38×10⁻²³`. From 16 digits on, all there are. */
export function significantText(x: number, digits: number, notation: Notation = "text"): string {
  if (x === 0) return "0";
  const written = digits > 15 ? x.toExponential() : x.toExponential(digits - 1);
  return exponentialText(written, notation);
}

/** `-1.500e+3` as a number for print. */
export function exponentialText(written: string, notation: Notation): string {
  const [mantissa, ten] = written.split("e") as [string, string];
  const exponent = Number(ten);
  const [sign, digits] = signed(mantissa.includes(".") ? mantissa.replace(/\.?0+$/, "") : mantissa, notation);
  if (exponent >= -3 && exponent < 6) return sign + shifted(digits, exponent);
  return sign + timesTen(digits, exponent, notation);
}

/** x at a number of decimals, zeros kept: `3.30`. Negative decimals round before the point. */
export function fixedText(x: number, decimals: number, notation: Notation = "text"): string {
  const rounded = roundTo(x, decimals);
  const size = Math.abs(rounded);
  if (size !== 0 && (size < 1e-3 || size >= 1e6)) {
    const digits = Math.max(1, decimals + 1 + Number(size.toExponential().split("e")[1]));
    const [mantissa, ten] = rounded.toExponential(Math.min(digits - 1, 20)).split("e") as [string, string];
    const [sign, text] = signed(mantissa, notation);
    return sign + timesTen(text, Number(ten), notation);
  }
  const [sign, text] = signed(rounded.toFixed(Math.max(0, decimals)), notation);
  return /[1-9]/.test(text) ? sign + text : text;
}

/** The minus sign of print, U+2212: read aloud as minus, as a hyphen is not. */
function signed(text: string, notation: Notation): [sign: string, digits: string] {
  if (!text.startsWith("-")) return ["", text];
  return [notation === "latex" ? "-" : "−", text.slice(1)];
}

/** Moves the point: `4.7`, 3 is `4700`. */
function shifted(digits: string, exponent: number): string {
  const [whole, fraction = ""] = digits.split(".") as [string, string?];
  const all = whole + fraction;
  const point = 1 + exponent;
  if (point <= 0) return `0.${"0".repeat(-point)}${all}`;
  return all.length <= point ? all.padEnd(point, "0") : `${all.slice(0, point)}.${all.slice(point)}`;
}

function timesTen(digits: string, exponent: number, notation: Notation): string {
  if (exponent === 0) return digits;
  if (notation === "latex") return `${digits}\\times10^{${exponent}}`;
  return `${digits}×10${toSuperscript(exponent)}`;
}

/** x with an exponent that is a multiple of three: `4.7×10³`. */
export function engineeringText(x: number, digits: number, notation: Notation = "text"): string {
  if (x === 0) return "0";
  const [mantissa, ten] = x.toExponential(Math.min(digits, 17) - 1).split("e") as [string, string];
  const exponent = Number(ten);
  const three = 3 * Math.floor(exponent / 3);
  const [sign, text] = signed(mantissa.includes(".") ? mantissa.replace(/\.?0+$/, "") : mantissa, notation);
  return sign + timesTen(shifted(text, exponent - three), three, notation);
}
