/** Amounts behind ± and σ: how wide a spread is, in the numbers in which it is stated. */
import { dimension, sum } from "./dimension";
import type { Unit } from "./quantity";
import { type NumberToken, numberText, type Scanner, siOf, smallestNumber } from "./scanner";
import type { Spread } from "./spread";
import { unitOf } from "./unit";

/** A number with the unit behind it, if it has one of its own. */
export interface NumberWithUnit {
  readonly number: NumberToken;
  readonly scale: Unit<any> | undefined;
}

export const one: Unit<any> = unitOf("1");
const temperatureDifference = dimension("K|difference");

/** Where a spread is stated: SI, or levels where the unit is one. */
export interface Frame {
  readonly scale: Unit<any>;
  readonly nominal: number;
  /** The nominal in the numbers of the spread. */
  readonly center: number;
}

/** What a text says, in coherent SI. */
export interface Stated {
  readonly nominal: number;
  readonly scale: Unit<any>;
  readonly spread: Spread;
}

/** Levels of one kind can be told apart by their numbers. */
export function sameLevel({ log: a }: Unit<any>, { log: b }: Unit<any>): boolean {
  return a?.reference === b?.reference && a?.factor === b?.factor;
}

export function framed(scanner: Scanner, stated: NumberToken, scale: Unit<any>): Frame {
  const number = scale.symbol === "AWG" ? gauge(scanner, stated) : stated;
  const nominal = siOf(number, scale);
  if (!Number.isFinite(nominal)) throw scanner.trouble(number.at, "the number is too large");
  if (Math.abs(nominal) < smallestNumber && (number.value !== 0 || nominal !== 0) && !scale.affine)
    throw scanner.trouble(number.at, "the number is too small");
  return { scale, nominal, center: scale.log === undefined ? nominal : number.value };
}

/** Gauges beyond 0 are counted by zeros: 00 is −1, 0000 is −3. ASTM B258. */
function gauge(scanner: Scanner, number: NumberToken): NumberToken {
  const { digits, value } = number;
  if (/^0{2,4}$/.test(digits)) return { ...number, value: 1 - digits.length };
  if (/^[+-]?0\d/.test(digits) || value < -3) throw scanner.trouble(number.at, "wire gauges go from 0000 (4/0) over 0 upwards");
  return number;
}

/** Reads an amount without sign and says how wide it is in the numbers of the spread. */
export function amount(scanner: Scanner, value: NumberWithUnit): { frame: Frame; width: number } {
  const number = unsigned(scanner);
  const unit = amountUnit(scanner);
  if (unit === undefined) {
    scanner.unitless = number;
    refuseBare(scanner, value, number);
  }
  const frame = framed(scanner, value.number, frameScale(scanner, value, number, unit));
  return { frame, width: widthOf(scanner, frame, number, unit?.width) };
}

/** `14 mA ±10`: % or the value's unit may be meant. Beside a level, a share or a temperature % has no meaning; without any unit it is a number. */
export function refuseBare(scanner: Scanner, { scale }: NumberWithUnit, number: NumberToken): void {
  if (scale?.factor === undefined || scale.affine || isRelative(scale) || scanner.codeRead) return;
  const text = numberText(number);
  throw scanner.trouble(number.at, `${text} behind ${scale.symbol} has two readings; write its unit`, [
    `${text} %`,
    `${text} ${scale.symbol}`,
  ]);
}

export function unsigned(scanner: Scanner): NumberToken {
  const number = scanner.number();
  if (/^[+-]/.test(number.digits)) throw scanner.trouble(number.at, "a tolerance has no sign of its own");
  return number;
}

/** A unit behind an amount: what it says of the amount, and of a value without a unit of its own. */
export interface AmountUnit {
  readonly width: Unit<any>;
  readonly own: Unit<any>;
}

/** °C beside ± is a difference; the value before it, in `5 ±1 °C`, is a temperature. */
export function amountUnit(scanner: Scanner): AmountUnit | undefined {
  scanner.space();
  const start = scanner.at;
  const width = scanner.unit(temperatureDifference);
  return width && { width, own: unitOf(scanner.text.slice(start, scanner.at), scanner.asked) };
}

/** The unit of the value: its own, else that of the amount. */
export function frameScale(
  scanner: Scanner,
  { number, scale }: NumberWithUnit,
  tolerance: NumberToken,
  amounts: AmountUnit | undefined,
): Unit<any> {
  if (amounts === undefined) return scale ?? one;
  const unit = amounts.own;
  if (!isRelative(unit)) return scale ?? unit;
  if ((scale !== undefined && !isRelative(scale)) || number.value === 0) return scale ?? unit;
  if (/^[+-]/.test(tolerance.digits))
    throw scanner.trouble(tolerance.at, `${numberText(tolerance)} ${unit.symbol} has two readings; write the limits, as in 5 % (4 to 7 %)`);
  const points = `(${numberText(number)} ± ${numberText(tolerance)}) ${unit.symbol}`;
  const part = clean(number.value * tolerance.value * (unit.factor as number));
  const relative = scale === undefined ? `${numberText(number)} ± ${part}` : `(${numberText(number)} ± ${part}) ${scale.symbol}`;
  throw scanner.trouble(tolerance.at, `±${numberText(tolerance)} ${unit.symbol} has two readings`, [points, relative]);
}

export function widthOf(scanner: Scanner, frame: Frame, number: NumberToken, unit: Unit<any> | undefined): number {
  const { scale, nominal } = frame;
  if (scale.log !== undefined) return levelWidth(scanner, scale, number, unit);
  if (scale.factor === undefined) throw scanner.trouble(number.at, `${scale.symbol} takes no tolerance; write the length in mm`);
  if (unit === undefined) return scaledBy(number, scale);
  if (isRelative(unit) && !isRelative(scale)) {
    if (scale.affine)
      throw scanner.trouble(number.at, `a share of a temperature in ${scale.symbol} has no meaning; write the tolerance in K`);
    return clean(Math.abs(nominal) * scaledBy(number, unit));
  }
  if (unit.log !== undefined)
    throw scanner.trouble(number.at, `a tolerance in ${unit.symbol} belongs beside a level; write the value in dB too`);
  if (unit.factor === undefined) throw scanner.trouble(number.at, `${unit.symbol} is no measure of a tolerance; write the length in mm`);
  if (sum(scale.dimension, unit.dimension) === undefined)
    throw scanner.trouble(number.at, `the tolerance is ${named(unit)}, the value ${named(scale)}`);
  return scaledBy(number, unit);
}

/** The amount in SI, as a difference. */
function scaledBy(number: NumberToken, scale: Unit<any>): number {
  if (scale.factor === undefined) return number.value;
  return scale.decimal === undefined ? number.value * scale.factor : Number(`${number.digits}e${number.exponent + scale.decimal}`);
}

function levelWidth(scanner: Scanner, scale: Unit<any>, number: NumberToken, unit: Unit<any> | undefined): number {
  if (unit === undefined || unit.symbol === "dB" || unit.symbol === "dB (power)" || unit === scale) return number.value;
  throw scanner.trouble(number.at, `a tolerance beside ${scale.symbol} is in dB, not ${unit.symbol}`);
}

export function isRelative(scale: Unit<any>): boolean {
  return scale.symbol === "%" || scale.symbol === "‰" || scale.symbol === "ppm" || scale.symbol === "ppb";
}

export function named(scale: Unit<any>): string {
  return `${scale.symbol} (${scale.dimension.label})`;
}

/** An end of a spread, in 15 digits, as all are kept. */
export function shifted(scanner: Scanner, center: number, width: number): number {
  const end = clean(center + width);
  if (width === 0 || (width < 0 ? end < center : end > center)) return end;
  throw scanner.trouble(scanner.at - 1, "the spread is lost in the rounding of the value; 15 digits are kept");
}

/** Without the rounding noise of a sum: 15 significant digits. */
export function clean(x: number): number {
  return Number.isFinite(x) ? Number(x.toPrecision(15)) : x;
}
