/** The forms of a spread behind a value. The grammar is in `parse.ts`. */
import {
  amount,
  amountUnit,
  clean,
  type Frame,
  framed,
  frameScale,
  isRelative,
  type NumberWithUnit,
  named,
  one,
  refuseBare,
  type Stated,
  sameLevel,
  shifted,
  unsigned,
  widthOf,
} from "./amount";
import { comparable } from "./dimension";
import { log10 } from "./elementary";
import { fromLevel, toLevel } from "./level";
import { factorScale } from "./limits";
import { bins } from "./parse-bins";
import type { Unit } from "./quantity";
import { readValue } from "./read-value";
import { type NumberToken, numberText, type Scanner, siOf, smallestNumber } from "./scanner";
import type { Spread } from "./spread";
import { unitNamed } from "./unit-names";

const plusMinus = /^(?:±|\+\/-|\+-)/;
const oneOf = /^one of\b/;
const toWord = /^(?:to\b|…|\.{2,3}(?!\.)|–)/;

/** A whole text. Does not look at what is left over. */
export function readStated(scanner: Scanner): Stated {
  const result = readForm(scanner);
  const { codeRead, unitless } = scanner;
  if (!codeRead || unitless === undefined) return result;
  const { symbol, stem } = result.scale;
  const text = numberText(unitless);
  throw scanner.trouble(unitless.at, `${text} beside a code has two readings; write its unit`, [
    `${text} ${symbol}`,
    `${text} ${stem?.rest ?? symbol}`,
  ]);
}

function readForm(scanner: Scanner): Stated {
  if (scanner.take(plusMinus)) return alone(scanner);
  if (scanner.take(/^\((?=[^)]*\))/)) return bracketed(scanner);
  if (/^(?:min|typ|max)\b/.test(scanner.rest().trimStart())) return minTypMax(scanner);
  if (scanner.take(oneOf)) return bins(scanner);
  const value = readValue(scanner, true);
  if (value.number.uncertainty === undefined) return behind(scanner, value);
  const stated = uncertain(scanner, value);
  if (scanner.done()) return stated;
  throw scanner.trouble(scanner.at, "an uncertainty in brackets is the whole spread; nothing can stand behind the unit");
}

/** What follows a value. */
function behind(scanner: Scanner, value: NumberWithUnit): Stated {
  if (scanner.take(plusMinus)) return tolerance(scanner, value);
  if (/^[+-] ?[\d.]/.test(peek(scanner))) return unequal(scanner, value);
  if (scanner.take(toWord)) return range(scanner, value, readValue(scanner));
  if (scanner.take(/^in /)) return rangeAround(scanner, value);
  if (scanner.take(/^\(/)) return limitsInBrackets(scanner, value);
  if (scanner.take(/^(?:σ|sigma\b)/)) return normal(scanner, value);
  if (scanner.take(/^×\/÷/)) return factor(scanner, value);
  if (scanner.take(/^, ?one of\b/)) return bins(scanner, value);
  return stated(framed(scanner, value.number, value.scale ?? one), { kind: "exact" });
}

function peek(scanner: Scanner): string {
  scanner.space();
  return scanner.rest();
}

/** `9.109(28)e-31 kg`, `14.00(17) dB`. */
function uncertain(scanner: Scanner, { number, scale = one }: NumberWithUnit): Stated {
  const frame = framed(scanner, number, scale);
  if (scale.factor === undefined && scale.log === undefined)
    throw scanner.trouble(number.at, `an uncertainty in brackets cannot stand before ${scale.symbol}`);
  const sigma = clean((number.uncertainty as number) * (scale.log === undefined ? (scale.factor as number) : 1));
  if (!(sigma >= smallestNumber)) throw scanner.trouble(number.at, "the uncertainty in brackets is above zero");
  return stated(frame, { kind: "normal", sigma, coverage: 3, ...freedom(scanner) });
}

/** `ν 18`: the degrees of freedom of the uncertainty before it. */
function freedom(scanner: Scanner): { readonly freedom?: number } {
  const match = scanner.take(/^(?:ν|dof\b) ?(\d+(?:\.\d+)?)/);
  if (match === undefined) return {};
  const freedom = Number(match[1]);
  if (freedom >= 1 && Number.isFinite(freedom)) return { freedom };
  throw scanner.trouble(scanner.at - 1, "degrees of freedom are a number from 1; for n readings they are n − 1");
}

function stated({ nominal, scale }: Frame, spread: Spread): Stated {
  if (spread.kind === "exact" || spread.kind === "discrete" || scale.log === undefined) return { nominal, scale, spread };
  return { nominal, scale, spread: { ...spread, scale: scale.log } };
}

/** Behind ±: an amount, its unit, perhaps how it is distributed. */
function tolerance(scanner: Scanner, value: NumberWithUnit): Stated {
  const { frame, width } = amount(scanner, value);
  return stated(frame, distributed(scanner, frame.center, width));
}

function distributed(scanner: Scanner, center: number, width: number): Spread {
  const low = shifted(scanner, center, -width);
  const high = shifted(scanner, center, width);
  const sigma = scanner.take(/^\( ?±? ?(\d+(?:\.\d+)?) ?(?:σ|sigma) ?\)/);
  if (sigma !== undefined) {
    const coverage = Number(sigma[1]);
    if (coverage === 0 || width === 0) throw scanner.trouble(scanner.at - 1, "σ is above zero");
    return { kind: "normal", sigma: clean(width / coverage), coverage, ...freedom(scanner) };
  }
  if (scanner.take(/^\( ?triangular ?\)/)) return { kind: "triangular", low, high };
  scanner.take(/^\( ?rectangular ?\)/);
  return width === 0 ? { kind: "exact" } : { kind: "rectangular", low, high, ...freedom(scanner) };
}

/** `10 nA ×/÷ 3 (2σ)`: ± on the logarithm. */
function factor(scanner: Scanner, { number, scale = one }: NumberWithUnit): Stated {
  const { nominal } = framed(scanner, number, scale);
  const ratio = unsigned(scanner);
  if (scale.factor === undefined || scale.affine || scale.log !== undefined)
    throw scanner.trouble(ratio.at, `a factor has no meaning beside ${scale.symbol}; write ±`);
  if (!(nominal > 0)) throw scanner.trouble(number.at, "a factor stands behind a value above zero");
  if (!(ratio.value > 1)) throw scanner.trouble(ratio.at, "the factor is above 1");
  const spread = distributed(scanner, clean(toLevel(nominal, factorScale)), clean(factorScale.factor * log10(ratio.value)));
  return { nominal, scale, spread: { ...spread, scale: factorScale } as Spread };
}

/** `+0.2/-0.1`, in either order. */
function unequal(scanner: Scanner, value: NumberWithUnit): Stated {
  const first = scanner.number();
  const firstUnit = amountUnit(scanner);
  if (!scanner.take(/^\//)) throw scanner.trouble(scanner.at, "the other limit is missing; write both with the unit behind, +0.2/-0.1 mm");
  const second = scanner.number();
  const secondUnit = amountUnit(scanner);
  if (firstUnit === undefined && secondUnit === undefined) {
    scanner.unitless = first;
    refuseBare(scanner, value, first);
  }
  if (first.digits[0] === second.digits[0] || !/^[+-]/.test(second.digits))
    throw scanner.trouble(second.at, "one limit has +, the other -");
  const unit = firstUnit ?? secondUnit;
  const frame = framed(scanner, value.number, frameScale(scanner, value, first, unit));
  const other = (secondUnit ?? unit)?.width;
  const widths = [widthOf(scanner, frame, first, unit?.width), widthOf(scanner, frame, second, other)];
  const parts = widths.map((width) => shifted(scanner, frame.center, width));
  const shares = [unit?.width, other].map((scale) => scale !== undefined && isRelative(scale) && !isRelative(frame.scale));
  if (shares[0] !== shares[1]) throw scanner.trouble(second.at, "one limit is a share of the value, the other is not; write both alike");
  const relative = shares[0] && frame.nominal < 0;
  const [low, high] = [Math.min(...parts), Math.max(...parts)];
  return stated(
    frame,
    relative ? { kind: "split", low: clean(2 * frame.center - high), high: clean(2 * frame.center - low) } : { kind: "split", low, high },
  );
}

interface Limits {
  readonly scale: Unit<any>;
  readonly low: number;
  readonly high: number;
}

/** Two limits in the numbers of the spread; a unit left out is that of the other, or `outer`. */
function limits(scanner: Scanner, first: NumberWithUnit, second: NumberWithUnit, outer?: Unit<any>): Limits {
  const scale = first.scale ?? second.scale ?? outer ?? one;
  const other = second.scale ?? scale;
  if (!comparable(scale.dimension, other.dimension) || !sameLevel(scale, other)) {
    throw scanner.trouble(second.number.at, `the limits are ${named(scale)} and ${named(other)}`);
  }
  const low = framed(scanner, first.number, scale).center;
  const high = framed(scanner, second.number, other).center;
  if (low < high) return { scale, low, high };
  const [from, to] = [numberText(first.number), numberText(second.number)];
  const reason =
    low > high ? `the limits are the wrong way round: ${from} is above ${to}` : `the limits are equal, ${from}; write the value alone`;
  throw scanner.trouble(second.number.at, reason, wider(first, second));
}

/** `20 to 20 kHz` may mean 20 Hz to 20 kHz. */
function wider({ number, scale: own }: NumberWithUnit, { number: upper, scale }: NumberWithUnit): readonly string[] {
  if (own !== undefined || scale?.stem === undefined) return [];
  const bare = unitNamed(scale.stem.rest);
  if (bare === undefined || !(siOf(number, bare) < siOf(upper, scale))) return [];
  return [`${numberText(number)} ${bare.symbol} to ${numberText(upper)} ${scale.symbol}`];
}

function range(scanner: Scanner, first: NumberWithUnit, second: NumberWithUnit, outer?: Unit<any>): Stated {
  const { scale, low, high } = limits(scanner, first, second, outer);
  const center = clean((low + high) / 2);
  const nominal = scale.log === undefined ? center : fromLevel(center, scale.log);
  return stated({ scale, center, nominal }, { kind: "range", low, high });
}

function twoLimits(scanner: Scanner, outer?: Unit<any>): Limits {
  const first = readValue(scanner);
  if (!scanner.take(toWord)) throw scanner.trouble(scanner.at, '"to" and the other limit are missing');
  return limits(scanner, first, readValue(scanner), outer);
}

function rangeAround(scanner: Scanner, value: NumberWithUnit): Stated {
  const { scale, low, high } = twoLimits(scanner, value.scale);
  return within(scanner, value, scale, { kind: "range", low, high });
}

function limitsInBrackets(scanner: Scanner, value: NumberWithUnit): Stated {
  const { scale, low, high } = twoLimits(scanner, value.scale);
  const word = scanner.take(/^, ?(triangular|rectangular)/)?.[1];
  closing(scanner);
  const outer = value.scale === undefined && scale === one ? (scanner.unit() ?? one) : scale;
  const shape = shapeOf(scanner, word);
  if (outer === scale) return within(scanner, value, scale, { ...shape, low, high });
  if (outer.factor === undefined || outer.affine) throw scanner.trouble(value.number.at, `write ${outer.symbol} behind each number`);
  return within(scanner, value, outer, { ...shape, low: clean(low * outer.factor), high: clean(high * outer.factor) });
}

function shapeOf(scanner: Scanner, word: string | undefined) {
  if (word === "rectangular") return { kind: word, ...freedom(scanner) } as const;
  return { kind: word === "triangular" ? word : "split" } as const;
}

/** A stated nominal between limits. */
function within(scanner: Scanner, value: NumberWithUnit, scale: Unit<any>, spread: Spread & { low: number; high: number }): Stated {
  const own = value.scale ?? scale;
  if (!comparable(own.dimension, scale.dimension) || !sameLevel(own, scale)) {
    throw scanner.trouble(value.number.at, `the value is ${named(own)}, its limits ${named(scale)}`);
  }
  const frame = framed(scanner, value.number, own);
  if (frame.center < spread.low || frame.center > spread.high)
    throw scanner.trouble(value.number.at, `${numberText(value.number)} lies outside its limits`);
  return stated(frame, spread);
}

function closing(scanner: Scanner): void {
  if (!scanner.take(/^\)/)) throw scanner.trouble(scanner.at, "a closing bracket is missing");
}

/** `400 mAh σ 6.7 mAh`. */
function normal(scanner: Scanner, value: NumberWithUnit): Stated {
  const { frame, width } = amount(scanner, value);
  if (width === 0) throw scanner.trouble(scanner.at - 1, "σ is above zero");
  return stated(frame, { kind: "normal", sigma: width, coverage: 3, ...freedom(scanner) });
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
  const frame = framed(scanner, first, scale);
  return stated(frame, distributed(scanner, frame.center, widthOf(scanner, frame, second, undefined)));
}

/** `±1 %`: a deviation about zero, or about 0 dB. */
function alone(scanner: Scanner): Stated {
  const number = unsigned(scanner);
  const scale = amountUnit(scanner)?.width ?? one;
  const zero: NumberToken = { at: number.at, digits: "0", exponent: 0, value: 0 };
  const frame = framed(scanner, zero, scale);
  return stated(frame, distributed(scanner, frame.center, widthOf(scanner, frame, number, undefined)));
}

/** `min 2.4, typ 2.8, max 3.3 mA`, in any order. */
function minTypMax(scanner: Scanner): Stated {
  const found = new Map<string, NumberWithUnit>();
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
