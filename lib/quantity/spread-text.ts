/** A value with its spread as text, in forms that `parse.ts` reads back. */

import { fromLevel } from "./level";
import { factorScale, limitsOf, ownLimits, scaleOf } from "./limits";
import { decimalsExact, decimalsFor, fixedText, type Notation, numberToTwelve, roundTo, significantText } from "./number-text";
import type { Discrete, LogScale, Spread } from "./spread";
import { unitLatex } from "./unit-latex";

interface Shown {
  readonly symbol: string;
  fromSI(si: number): number;
  readonly log?: LogScale;
}

type Limits = readonly [low: number, high: number];

/** `3.3 V ±5 %`, `2.85 V ±0.12 V (3σ)`, `10 nA ×/÷ 3 (2σ)`, `one of 1 kΩ, 2 kΩ`, `2.8 mA (2.4 mA to 3.3 mA)`, `3.0 V to 4.2 V`. */
export function spreadText(si: number, spread: Spread, unit: Shown, notation: Notation, digits?: number): string {
  const x = numberToTwelve(unit.fromSI(si));
  const limits = limitsOf(spread, si).map((limit) => numberToTwelve(unit.fromSI(limit))) as unknown as Limits;
  const printer = new Printer(unit, notation, digits);
  if (spread.kind === "range") return printer.range(x, limits);
  if (spread.kind === "discrete") return printer.bins(x, spread);
  const name = spread.kind === "normal" ? `${spread.coverage}σ` : spread.kind === "triangular" ? "triangular" : "";
  const behind = freedomText(spread, notation);
  const scale = scaleOf(spread);
  if (
    spread.kind !== "split" &&
    unit.log === undefined &&
    scale?.factor === factorScale.factor &&
    scale.reference === factorScale.reference
  )
    return printer.factor(x, ownLimits(spread, si), name) + behind;
  if (spread.kind !== "split" && isSymmetric(x, limits)) return printer.symmetric(x, limits, name) + behind;
  return printer.asymmetric(x, limits, spread.kind === "rectangular" ? "rectangular" : name) + behind;
}

function freedomText(spread: Spread, notation: Notation): string {
  if (!("freedom" in spread) || spread.freedom === undefined) return "";
  return notation === "latex" ? `\\;\\nu\\,${spread.freedom}` : ` ν\u00a0${spread.freedom}`;
}

function isSymmetric(x: number, [low, high]: Limits): boolean {
  return Math.abs(high - x - (x - low)) <= 1e-9 * Math.max(high - low, Math.abs(x));
}

class Printer {
  private readonly decimalsGiven: ((width: number) => number) | undefined;
  private readonly space: string;

  constructor(
    private readonly unit: Shown,
    private readonly notation: Notation,
    private readonly digits: number | undefined,
  ) {
    this.space = notation === "latex" ? "\\," : "\u00a0";
    this.decimalsGiven = digits === undefined ? undefined : (width) => decimalsFor(width, digits);
  }

  symmetric(x: number, [low, high]: Limits, name: string): string {
    const half = numberToTwelve((high - low) / 2);
    const share = this.niceShare(x, half);
    if (share !== undefined) return this.named(`${this.value(x, half)} ±${share}`, name);
    const decimals = this.decimalsGiven?.(x === 0 ? half : x) ?? decimalsExact([half, x], half);
    const amount = fixedText(this.decimalsGiven === undefined ? containing(x, half, decimals) : half, decimals, this.notation);
    if (x === 0 && this.unit.log === undefined && !isPoint(this.unit.symbol)) return this.named(`±${this.join(amount)}`, name);
    if (isPercentLike(this.unit.symbol)) return this.named(this.join(`(${this.text(x, decimals)} ± ${amount})`), name);
    return this.named(`${this.join(this.text(x, decimals))} ±${this.join(amount, this.unit.log === undefined ? undefined : "dB")}`, name);
  }

  asymmetric(x: number, limits: Limits, name: string): string {
    const decimals = this.decimals(limits, [x]);
    const within = `${this.between(limits, decimals)}${name === "" ? "" : this.words(`, ${name}`)}`;
    return `${this.join(this.text(x, decimals))} (${within})`;
  }

  /** `10 nA ×/÷ 3 (2σ)`; the levels of both limits. */
  factor(x: number, [low, high]: Limits, name: string): string {
    const ratio = numberToTwelve(fromLevel((high - low) / 2, factorScale));
    const sign = this.notation === "latex" ? "\\times/\\div " : "×/÷";
    return this.named(`${this.value(x, 0)} ${sign}${this.space}${significantText(ratio, this.digits ?? 12, this.notation)}`, name);
  }

  /** `one of 1 kΩ, 2 kΩ`; the values are exact, so every digit is shown. */
  bins(x: number, { values, shares }: Discrete): string {
    const texts = values.map((value) => this.exact(numberToTwelve(this.unit.fromSI(value))));
    const list = texts.map((text, i) => (shares === undefined ? text : `${text} (${this.percent(shares[i] as number)})`)).join(", ");
    const nominal = this.exact(x);
    return `${texts[0] === nominal ? "" : `${nominal}${this.words(", ")}`}${this.words("one of ")}${list}`;
  }

  private exact(x: number): string {
    return this.join(significantText(x, this.digits ?? 12, this.notation));
  }

  private percent(share: number): string {
    return this.join(significantText(numberToTwelve(100 * share), 12, this.notation), "%");
  }

  range(x: number, limits: Limits): string {
    const decimals = this.decimals(limits, []);
    const between = this.between(limits, decimals);
    if (isSymmetric(x, limits)) return between;
    return `${this.value(x, numberToTwelve((limits[1] - limits[0]) / 2))}${this.words(" in ")}${between}`;
  }

  private between([low, high]: Limits, decimals: number): string {
    const [down, up] = [roundTo(low, decimals), roundTo(high, decimals)];
    const step = Number(`1e${-decimals}`);
    const [a, b] = this.decimalsGiven === undefined ? outward([low, high], [down, up], step) : [down, up];
    return [a, b].map((limit) => this.join(this.text(limit, decimals))).join(this.words(" to "));
  }

  private decimals([low, high]: Limits, others: readonly number[]): number {
    const half = numberToTwelve((high - low) / 2);
    return this.decimalsGiven?.(Math.max(Math.abs(low), Math.abs(high))) ?? decimalsExact([low, high, ...others], half === 0 ? low : half);
  }

  /** The half width as a share of the value, in % or ppm, where that is a short number; of a number without a unit it would have two readings. */
  private niceShare(x: number, half: number): string | undefined {
    const { symbol: unit, log } = this.unit;
    if (x === 0 || log !== undefined || unit === "1" || isPercentLike(unit) || isPoint(unit)) return undefined;
    const share = numberToTwelve(half / Math.abs(x));
    const [symbol, size] = share < 1e-3 ? ["ppm", 1e6] : ["%", 100];
    const amount = numberToTwelve(share * size);
    const short = Number(amount.toPrecision(3));
    if (amount < 0.1 || share >= 1 || Math.abs(short - amount) > 1e-9 * amount) return undefined;
    return this.join(significantText(short, 3, this.notation), symbol);
  }

  /** Four digits, or as many as two digits of the spread reach: 32.768 kHz ±20 ppm. */
  private value(x: number, half: number): string {
    const reach = x === 0 || half === 0 ? 0 : decimalsFor(half, 2) - decimalsFor(x, 1) + 1;
    return this.join(significantText(x, this.digits ?? Math.min(15, Math.max(4, reach)), this.notation));
  }

  private text(x: number, decimals: number): string {
    return fixedText(x, decimals, this.notation);
  }

  private join(number: string, symbol: string = this.unit.symbol): string {
    if (symbol === "1") return number;
    return `${number}${this.space}${this.notation === "latex" ? unitLatex(symbol) : symbol}`;
  }

  private words(words: string): string {
    return this.notation === "latex" ? `\\text{${words}}` : words;
  }

  private named(text: string, name: string): string {
    if (name === "") return this.notation === "latex" ? text.replace("±", "\\pm ") : text;
    const sigma = this.notation === "latex" ? name.replace("σ", "\\sigma").replace("triangular", "\\text{triangular}") : name;
    const out = `${text} (${sigma})`;
    return this.notation === "latex" ? out.replace("±", "\\pm ") : out;
  }
}

/** The half width that still holds both limits when value and width are rounded. */
function containing(x: number, half: number, decimals: number): number {
  const needed = half + Math.abs(roundTo(x, decimals) - x);
  const step = Number(`1e${-decimals}`);
  const rounded = roundTo(needed, decimals);
  return rounded < needed - 1e-6 * step ? rounded + step : rounded;
}

/** Limits that are not exact at these decimals are rounded away from each other. */
function outward(limits: Limits, rounded: Limits, step: number): Limits {
  const slack = 1e-9 * step;
  const down = rounded[0] > limits[0] + slack * 1e3 ? rounded[0] - step : rounded[0];
  const up = rounded[1] < limits[1] - slack * 1e3 ? rounded[1] + step : rounded[1];
  return [down, up];
}

/** A % beside a percentage would have two readings. */
function isPercentLike(symbol: string): boolean {
  return symbol === "%" || symbol === "‰" || symbol === "ppm" || symbol === "ppb";
}

/** Temperatures: a share of one has no meaning, and ± alone would be a difference. */
function isPoint(symbol: string): boolean {
  return symbol === "°C" || symbol === "°F";
}
