/** The forms of a spread behind a value. The grammar is in `parse.ts`. */
import { dimension } from "./dimension";
import { letterCode } from "./letter-code";
import { fromLevel, type Scale } from "./scale";
import { type NumberToken, type Scanner, siOf } from "./scanner";
import type { Spread } from "./spread";
import { scaleOf } from "./unit-text";

/** A number with the unit behind it, if it has one of its own. */
export interface Value {
  readonly number: NumberToken;
  readonly scale: Scale | undefined;
}

/** What a text says, in coherent SI. */
export interface Stated {
  readonly nominal: number;
  readonly scale: Scale;
  readonly spread: Spread;
}

const plusMinus = /^(?:±|\+\/-|\+-)/;
const toWord = /^(?:to\b|…|\.{2,3}|–)/;
const one = scaleOf("1");
const temperatureDifference = dimension("K|difference");

/** A whole text. Does not look at what is left over. */
export function readStated(scanner: Scanner): Stated {
  if (scanner.take(plusMinus)) return alone(scanner);
  if (scanner.take(/^\((?=[^)]*\))/)) return bracketed(scanner);
  if (/^(?:min|typ|max)\b/.test(scanner.rest().trimStart())) return minTypMax(scanner);
  return behind(scanner, readValue(scanner));
}

function readValue(scanner: Scanner): Value {
  const code = letterCode(scanner);
  if (code !== undefined) return code;
  const number = scanner.number();
  return { number, scale: scanner.unit() };
}

/** What follows a value. */
function behind(scanner: Scanner, value: Value): Stated {
  if (scanner.take(plusMinus)) return tolerance(scanner, value);
  if (/^[+-] ?[\d.]/.test(peek(scanner))) return unequal(scanner, value);
  if (scanner.take(toWord)) return range(scanner, value, readValue(scanner));
  if (scanner.take(/^in /)) return rangeAround(scanner, value);
  if (scanner.take(/^\(/)) return limitsInBrackets(scanner, value);
  if (scanner.take(/^(?:σ|sigma\b)/)) return normal(scanner, value);
  return single(scanner, value);
}

function peek(scanner: Scanner): string {
  scanner.space();
  return scanner.rest();
}

function single(scanner: Scanner, value: Value): Stated {
  const frame = framed(value.number, value.scale ?? one);
  const { uncertainty } = value.number;
  if (uncertainty === undefined) return stated(frame, { kind: "exact" });
  if (frame.scale.factor === undefined)
    throw scanner.trouble(value.number.at, `an uncertainty in brackets cannot stand before ${frame.scale.symbol}`);
  return stated(frame, { kind: "normal", sigma: clean(uncertainty * frame.scale.factor), coverage: 3 });
}

/** Where a spread is stated: SI, or levels where the unit is one. */
interface Frame {
  readonly scale: Scale;
  readonly nominal: number;
  /** The nominal in the numbers of the spread. */
  readonly center: number;
}

function framed(number: NumberToken, scale: Scale): Frame {
  const nominal = siOf(number, scale);
  return { scale, nominal, center: scale.log === undefined ? nominal : number.value };
}

function stated({ nominal, scale }: Frame, spread: Spread): Stated {
  if (spread.kind === "exact" || scale.log === undefined) return { nominal, scale, spread };
  return { nominal, scale, spread: { ...spread, scale: scale.log } };
}

/** Behind ±: an amount, its unit, perhaps how it is distributed. */
function tolerance(scanner: Scanner, value: Value): Stated {
  const { frame, width } = amount(scanner, value);
  return stated(frame, distributed(scanner, frame.center, width));
}

function distributed(scanner: Scanner, center: number, width: number): Spread {
  const low = clean(center - width);
  const high = clean(center + width);
  const sigma = scanner.take(/^\( ?±? ?(\d+(?:\.\d+)?) ?(?:σ|sigma) ?\)/);
  if (sigma !== undefined) {
    const coverage = Number(sigma[1]);
    if (coverage === 0 || width === 0) throw scanner.trouble(scanner.at - 1, "σ is above zero");
    return { kind: "normal", sigma: clean(width / coverage), coverage };
  }
  if (scanner.take(/^\( ?triangular ?\)/)) return { kind: "triangular", low, high };
  scanner.take(/^\( ?rectangular ?\)/);
  return width === 0 ? { kind: "exact" } : { kind: "rectangular", low, high };
}

/** Reads an amount without sign and says how wide it is in the numbers of the spread. */
function amount(scanner: Scanner, value: Value): { frame: Frame; width: number } {
  const number = unsigned(scanner);
  const unit = amountUnit(scanner);
  const frame = framed(value.number, frameScale(scanner, value, number, unit));
  return { frame, width: widthOf(scanner, frame, number, unit) };
}

function unsigned(scanner: Scanner): NumberToken {
  const number = scanner.number();
  if (/^[+-]/.test(number.digits)) throw scanner.trouble(number.at, "a tolerance has no sign of its own");
  return number;
}

/** °C beside ± is a difference. */
function amountUnit(scanner: Scanner): Scale | undefined {
  return scanner.unit(temperatureDifference);
}

/** The unit of the value: its own, else that of the amount. */
function frameScale(scanner: Scanner, { number, scale }: Value, tolerance: NumberToken, unit: Scale | undefined): Scale {
  if (unit === undefined || (number.value === 0 && scale === undefined)) return scale ?? unit ?? one;
  if (!isRelative(unit)) return scale ?? (unit.symbol.startsWith("Δ°") ? scaleOf(unit.symbol.slice(1)) : unit);
  if ((scale !== undefined && !isRelative(scale)) || number.value === 0) return scale ?? unit;
  const points = `(${number.digits} ± ${tolerance.digits}) ${unit.symbol}`;
  const part = clean(number.value * tolerance.value * (unit.factor as number));
  const relative = scale === undefined ? `${number.digits} ± ${part}` : `(${number.digits} ± ${part}) ${scale.symbol}`;
  throw scanner.trouble(tolerance.at, `±${tolerance.digits} ${unit.symbol} has two readings`, [points, relative]);
}

function widthOf(scanner: Scanner, frame: Frame, number: NumberToken, unit: Scale | undefined): number {
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
  if (unit.dimension.si !== scale.dimension.si)
    throw scanner.trouble(number.at, `the tolerance is ${named(unit)}, the value ${named(scale)}`);
  return scaledBy(number, unit);
}

/** The amount in SI, as a difference. */
function scaledBy(number: NumberToken, scale: Scale): number {
  if (scale.factor === undefined) return number.value;
  return scale.decimal === undefined ? number.value * scale.factor : Number(`${number.digits}e${number.exponent + scale.decimal}`);
}

function levelWidth(scanner: Scanner, scale: Scale, number: NumberToken, unit: Scale | undefined): number {
  if (unit === undefined || unit.symbol === "dB" || unit.symbol === "dB (power)" || unit === scale) return number.value;
  throw scanner.trouble(number.at, `a tolerance beside ${scale.symbol} is in dB, not ${unit.symbol}`);
}

function isRelative(scale: Scale): boolean {
  return scale.symbol === "%" || scale.symbol === "‰" || scale.symbol === "ppm" || scale.symbol === "ppb";
}

function named(scale: Scale): string {
  return `${scale.symbol} (${scale.dimension.label})`;
}

/** `+0.2/-0.1`, in either order. */
function unequal(scanner: Scanner, value: Value): Stated {
  const first = scanner.number();
  const firstUnit = amountUnit(scanner);
  if (!scanner.take(/^\//)) throw scanner.trouble(scanner.at, "the other limit is missing; write +0.2/-0.1");
  const second = scanner.number();
  const secondUnit = amountUnit(scanner);
  if (first.digits[0] === second.digits[0] || !/^[+-]/.test(second.digits))
    throw scanner.trouble(second.at, "one limit has +, the other -");
  const unit = firstUnit ?? secondUnit;
  const frame = framed(value.number, frameScale(scanner, value, first, unit));
  const parts = [widthOf(scanner, frame, first, unit), widthOf(scanner, frame, second, secondUnit ?? unit)].map((w) =>
    clean(frame.center + w),
  );
  const relative = unit !== undefined && isRelative(unit) && frame.nominal < 0;
  const [low, high] = [Math.min(...parts), Math.max(...parts)];
  return stated(
    frame,
    relative ? { kind: "split", low: clean(2 * frame.center - high), high: clean(2 * frame.center - low) } : { kind: "split", low, high },
  );
}

interface Limits {
  readonly scale: Scale;
  readonly low: number;
  readonly high: number;
}

/** Two limits in the numbers of the spread; a unit left out is that of the other, or `outer`. */
function limits(scanner: Scanner, first: Value, second: Value, outer?: Scale): Limits {
  const scale = first.scale ?? second.scale ?? outer ?? one;
  const other = second.scale ?? scale;
  if (scale.dimension.si !== other.dimension.si || scale.log?.reference !== other.log?.reference) {
    throw scanner.trouble(second.number.at, `the limits are ${named(scale)} and ${named(other)}`);
  }
  const low = framed(first.number, scale).center;
  const high = framed(second.number, other).center;
  if (low > high)
    throw scanner.trouble(second.number.at, `the limits are the wrong way round: ${first.number.digits} is above ${second.number.digits}`);
  return { scale, low, high };
}

function range(scanner: Scanner, first: Value, second: Value, outer?: Scale): Stated {
  const { scale, low, high } = limits(scanner, first, second, outer);
  const center = clean((low + high) / 2);
  const nominal = scale.log === undefined ? center : fromLevel(center, scale.log);
  return stated({ scale, center, nominal }, { kind: "range", low, high });
}

function twoLimits(scanner: Scanner, outer?: Scale): Limits {
  const first = readValue(scanner);
  if (!scanner.take(toWord)) throw scanner.trouble(scanner.at, '"to" and the other limit are missing');
  return limits(scanner, first, readValue(scanner), outer);
}

function rangeAround(scanner: Scanner, value: Value): Stated {
  const { scale, low, high } = twoLimits(scanner, value.scale);
  return within(scanner, value, scale, { kind: "range", low, high });
}

function limitsInBrackets(scanner: Scanner, value: Value): Stated {
  const { scale, low, high } = twoLimits(scanner, value.scale);
  const word = scanner.take(/^, ?(triangular|rectangular)/)?.[1];
  closing(scanner);
  const outer = value.scale === undefined && scale === one ? (scanner.unit() ?? one) : scale;
  const kind = word === "triangular" || word === "rectangular" ? word : "split";
  if (outer === scale) return within(scanner, value, scale, { kind, low, high });
  if (outer.factor === undefined || outer.affine) throw scanner.trouble(value.number.at, `write ${outer.symbol} behind each number`);
  return within(scanner, value, outer, { kind, low: clean(low * outer.factor), high: clean(high * outer.factor) });
}

/** A stated nominal between limits. */
function within(scanner: Scanner, value: Value, scale: Scale, spread: Spread & { low: number; high: number }): Stated {
  const own = value.scale ?? scale;
  if (own.dimension.si !== scale.dimension.si || own.log?.reference !== scale.log?.reference) {
    throw scanner.trouble(value.number.at, `the value is ${named(own)}, its limits ${named(scale)}`);
  }
  const frame = framed(value.number, own);
  if (frame.center < spread.low || frame.center > spread.high)
    throw scanner.trouble(value.number.at, `${value.number.digits} lies outside its limits`);
  return stated(frame, spread);
}

function closing(scanner: Scanner): void {
  if (!scanner.take(/^\)/)) throw scanner.trouble(scanner.at, "a closing bracket is missing");
}

/** `400 mAh σ 6.7 mAh`. */
function normal(scanner: Scanner, value: Value): Stated {
  const { frame, width } = amount(scanner, value);
  if (width === 0) throw scanner.trouble(scanner.at - 1, "σ is above zero");
  return stated(frame, { kind: "normal", sigma: width, coverage: 3 });
}

/** `(2.85 ± 0.12) V` and `(3.0 to 4.2) V`: the unit belongs to both numbers. */
function bracketed(scanner: Scanner): Stated {
  const first = scanner.number();
  const joined = scanner.take(plusMinus) ?? scanner.take(toWord);
  if (joined === undefined) throw scanner.trouble(scanner.at, "± or to is expected within the brackets");
  const second = toWord.test(joined[0]) ? scanner.number() : unsigned(scanner);
  closing(scanner);
  const scale = scanner.unit() ?? one;
  if (toWord.test(joined[0])) return range(scanner, { number: first, scale }, { number: second, scale });
  const frame = framed(first, scale);
  return stated(frame, distributed(scanner, frame.center, widthOf(scanner, frame, second, undefined)));
}

/** `±1 %`: a deviation about zero, or about 0 dB. */
function alone(scanner: Scanner): Stated {
  const number = unsigned(scanner);
  const scale = amountUnit(scanner) ?? one;
  const zero: NumberToken = { at: number.at, digits: "0", exponent: 0, value: 0 };
  const frame = framed(zero, scale);
  return stated(frame, distributed(scanner, frame.center, widthOf(scanner, frame, number, undefined)));
}

/** `min 2.4, typ 2.8, max 3.3 mA`, in any order. */
function minTypMax(scanner: Scanner): Stated {
  const found = new Map<string, Value>();
  const start = scanner.at;
  for (let word = scanner.take(/^(min|typ|max)\b\.?/); word !== undefined; word = scanner.take(/^[,;]? *(min|typ|max)\b\.?/)) {
    if (found.has(word[1] as string)) throw scanner.trouble(scanner.at, `${word[1]} stands twice`);
    found.set(word[1] as string, readValue(scanner));
  }
  const [min, typ, max] = ["min", "typ", "max"].map((word) => found.get(word));
  if (min === undefined || typ === undefined || max === undefined) {
    const missing = ["min", "typ", "max"].filter((word) => !found.has(word)).join(" and ");
    throw scanner.trouble(
      start,
      `${missing} is missing; without it nothing is known of that side. Write the value with a tolerance instead`,
    );
  }
  const outer = [typ, max, min].find((value) => value.scale !== undefined)?.scale;
  const { scale, low, high } = limits(scanner, min, max, outer);
  return within(scanner, { number: typ.number, scale: typ.scale ?? outer }, scale, { kind: "split", low, high });
}

/** Without the rounding noise of a sum: 15 significant digits. */
function clean(x: number): number {
  return Number.isFinite(x) ? Number(x.toPrecision(15)) : x;
}
