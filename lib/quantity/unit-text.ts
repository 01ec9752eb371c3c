/**
 * Reads the text of a unit in one scan. Grammar:
 *
 *     unit     = name | quotient
 *     quotient = product [ "/" ( factor | "(" product ")" ) ]
 *     product  = factor { ("·" | "*" | " ") factor }
 *     factor   = "1" | "√" name | "sqrt(" name ")" | name [ exponent ]
 *     exponent = "²" | "^2" | "2" | "^-1" | "⁻¹" | "^0.5" | "^(1/2)"
 *
 * A name is looked up whole first (dB SPL, dBµV/m, rev/min, N·m). In a compound unit °C is a difference. Nothing is guessed:
 * two solidi and a product behind a solidus without brackets (SI Brochure 9th ed. 5.4.6) are errors, and so is a space where it may stand
 * for something else than a product (5.4.5): `m A`, `A min`, `% V`, `mm mm`.
 */
import { excerpt, sameCharacters } from "./characters";
import { compound, type Factor, factorText } from "./compound";
import { type Dimension, multiply } from "./dimension";
import type { Unit } from "./quantity";
import { fromSuperscript } from "./superscript";
import { nearestNames, unitNamed } from "./unit-names";

/** Why a text is not a unit. */
export interface UnitProblem {
  /** Offset in the text of the unit, from 0. */
  readonly at: number;
  readonly reason: string;
  readonly candidates: readonly string[];
}

/** Texts with more than one reading, or with a habitual wrong one. */
const ambiguous: ReadonlyMap<string, readonly string[]> = new Map([
  ["kb", ["kbit", "kB"]],
  ["Kb", ["kbit", "kB"]],
  ["KB", ["kB", "KiB"]],
  ["b", ["bit", "byte"]],
  ["B", ["byte", "dB"]],
  ["Mb", ["Mbit", "MB"]],
  ["mb", ["mbar", "Mbit", "MB"]],
  ["Gb", ["Gbit", "GB"]],
  ["k", ["kΩ", "kHz"]],
  ["M", ["MΩ", "MHz"]],
  ["n", ["nF", "ns"]],
  ["p", ["pF", "ps"]],
  ["µ", ["µF", "µm", "µs"]],
  ["u", ["µF", "µm", "µs"]],
  ["R", ["Ω"]],
  ["gal", ["US gal", "UK gal"]],
  ["gallon", ["US gal", "UK gal"]],
  ["ton", ["t", "lb"]],
  ["cc", ["cm³", "mL"]],
  ["mo", ["month"]],
  ["a", ["A", "year"]],
]);
const seen = new Map<string, Unit<any>>();
/** What was refused lately: texts that are not units have no end. */
const refused = new Map<string, UnitProblem>();
const refusedKept = 2000;

/** The unit, or what is wrong with the text. Cached by text. */
export function readUnit(text: string, asked?: Dimension): Unit<any> | UnitProblem {
  const key = asked?.kind === undefined ? text : `${text}\n${asked.key}`;
  const known = seen.get(key) ?? refused.get(key);
  if (known !== undefined) return known;
  const same = sameCharacters(text).trimEnd();
  const read = readNew(same.trimStart(), asked);
  if (!("reason" in read)) {
    seen.set(key, read);
    return read;
  }
  const problem = { ...read, at: read.at + same.length - same.trimStart().length };
  if (refused.size >= refusedKept) refused.clear();
  if (key.length <= 80) refused.set(key, problem);
  return problem;
}

/** The reason with the candidates behind it. */
export function problemText({ reason, candidates }: UnitProblem): string {
  return candidates.length === 0 ? reason : `${reason}; did you mean ${listed(candidates)}?`;
}

/** `a`, `a or b`, `a, b or c`. */
function listed(words: readonly string[]): string {
  return words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} or ${words.at(-1)}`;
}

function readNew(text: string, asked: Dimension | undefined): Unit<any> | UnitProblem {
  const candidates = ambiguous.get(text);
  if (candidates !== undefined) return { at: 0, reason: `"${text}" is not one unit`, candidates };
  const named = unitNamed(text.replace(/ +/g, " "), asked?.key);
  if (named !== undefined) return named;
  const read = new UnitReader(text).read();
  // N m is N·m, a torque.
  return (!("reason" in read) && unitNamed(text.replace(/ +/g, "·"), asked?.key)) || read;
}

const exponentPattern = /^(?:\^\(([+-]?\d+)(?:\/([12]))?\)|\^([+-]?\d+(?:\.[05])?)(?![.\d])|\^½|(⁻?[⁰¹²³⁴⁵⁶⁷⁸⁹]+)|([23])(?!\d))/u;
/** Doubled. Beyond it a factor leaves the numbers of the machine. */
const largestExponent = 24;
const exponentExpected = { reason: "an exponent is a whole or half number up to 12, and not 0: ^2, ^-1, ^0.5 or ^(1/2)", candidates: [] };

function doubledExponent([, numerator, denominator, decimal, superscript, digit]: RegExpExecArray): number {
  if (numerator !== undefined) return (2 * Number(numerator)) / Number(denominator ?? 1);
  if (superscript !== undefined) return 2 * Number(fromSuperscript(superscript));
  return decimal === undefined && digit === undefined ? 1 : 2 * Number(decimal ?? digit);
}

/** More than any law needs; a product of thousands is no unit. */
const mostFactors = 16;

class UnitReader {
  private at = 0;
  /** `explains` false: only whether the text is a unit matters, not how it could be mended. */
  constructor(
    private readonly text: string,
    private readonly explains = true,
  ) {}

  read(): Unit<any> | UnitProblem {
    try {
      return this.quotient();
    } catch (problem) {
      if (problem instanceof Unreadable) return problem.problem;
      throw problem;
    }
  }

  private quotient(): Unit<any> {
    const above = this.product();
    this.space();
    if (this.done()) return this.compound(above, []);
    if (this.peek() !== "/") throw this.trouble(this.afterFactor());
    this.at++;
    this.space();
    const below = this.peek() === "(" ? this.bracket() : this.factor();
    this.space();
    if (this.done()) return this.compound(above, below);
    throw this.trouble(this.afterSolidus(above, below));
  }

  private compound(above: readonly Factor[], below: readonly Factor[]): Unit<any> {
    const factors = [...above, ...below];
    const odd = factors.find(({ unit }) => unit.factor === undefined);
    if (odd !== undefined && (factors.length > 1 || odd.exponent !== 2))
      throw new Unreadable({ at: 0, reason: `${odd.unit.symbol} is not linear and cannot be part of a compound unit`, candidates: [] });
    const unit = compound(above, below);
    if (unit.factor === undefined || (Number.isFinite(unit.factor) && unit.factor > 1e-300)) return unit;
    throw new Unreadable({ at: 0, reason: "the unit is too large or too small for any number", candidates: [] });
  }

  private bracket(): Factor[] {
    this.at++;
    const factors = this.product();
    this.space();
    if (this.peek() !== ")") throw this.trouble({ reason: "a closing bracket is missing", candidates: [] });
    this.at++;
    return factors;
  }

  private product(): Factor[] {
    const factors = [...this.factor()];
    for (let joint = this.joint(factors); joint !== undefined; joint = this.joint(factors)) {
      if (factors.length >= mostFactors)
        throw this.trouble({ reason: `a unit has at most ${mostFactors} factors on either side of the solidus`, candidates: [] });
      this.at += joint.length;
      factors.push(...this.factor());
    }
    return factors;
  }

  /** What joins the next factor: a dot, a star, or nothing more than the space before it. */
  private joint(before: readonly Factor[]): string | undefined {
    // After a root nobody knows whether it reaches beyond the space.
    const spaced = this.peek() === " " && !/√|sqrt/.test(this.text.slice(0, this.text.length - this.rest().length));
    this.space();
    if (this.peek() === "·" || this.peek() === "*") return this.peek();
    const next = /^(?:√|sqrt\()?([^\s·*/()^√⁰¹²³⁴⁵⁶⁷⁸⁹⁻\d+-]+)(.*)$/u.exec(this.rest());
    const scale = unitNamed(next?.[1] ?? "");
    if (!spaced || scale === undefined || ambiguous.has(next?.[1] ?? "")) return undefined;
    const { unit: last } = before.at(-1) as Factor;
    if (last === scale || !standsBesideSpace(last) || !standsBesideSpace(scale)) return undefined;
    return before.length === 1 && next?.[2] === "" && this.mayBePrefixed(last, scale) ? undefined : "";
  }

  /** `m A` may be mA: two names, nothing else, and together the name of something else than their product. */
  private mayBePrefixed(first: Unit<any>, second: Unit<any>): boolean {
    const joined = unitNamed(this.text.replaceAll(" ", ""));
    return joined !== undefined && joined.dimension.si !== multiply(first.dimension, second.dimension).si;
  }

  /** More than one for a unit that is a product itself: Nm² is N²·m². */
  private factor(): readonly Factor[] {
    this.space();
    if (this.accept("√")) return this.root(false);
    if (this.accept("sqrt(")) return this.root(true);
    if (this.peek() === "1" && !/^1\d/.test(this.rest())) {
      this.at++;
      return [{ unit: unitCalled("1"), exponent: 2, text: "1" }];
    }
    const unit = this.name();
    return factorsOf(unit, this.exponent(unit.dimension.key === "m" || unit.dimension.key === "s"));
  }

  private root(closed: boolean): readonly Factor[] {
    const unit = this.name();
    if (closed && !this.accept(")")) throw this.trouble({ reason: "a closing bracket is missing", candidates: [] });
    return factorsOf(unit, 1);
  }

  private name(): Unit<any> {
    const start = this.at;
    const name = /^[^\s·*/()^√⁰¹²³⁴⁵⁶⁷⁸⁹⁻\d+-]+/u.exec(this.rest())?.[0] ?? "";
    if (name === "") throw this.trouble({ reason: "a unit is missing", candidates: [] });
    this.at += name.length;
    const unit = unitNamed(name);
    if (unit === undefined || ambiguous.has(name)) throw this.unknown(name, start);
    return unit;
  }

  private unknown(name: string, at: number): Unreadable {
    const candidates = ambiguous.get(name);
    if (candidates !== undefined) return new Unreadable({ at, reason: `"${name}" is not one unit`, candidates });
    return new Unreadable({ at, reason: `unknown unit "${excerpt(name)}"`, candidates: this.explains ? nearestNames(name) : [] });
  }

  /** Doubled exponent. A bare digit is one behind lengths and times only: mm2, m/s2. */
  private exponent(plainDigit: boolean): number {
    const match = exponentPattern.exec(this.rest());
    if (match === null ? this.peek() !== "^" : match[5] !== undefined && !plainDigit) return 2;
    const doubled = match === null ? Number.NaN : doubledExponent(match);
    if (!(Math.abs(doubled) <= largestExponent) || doubled === 0) throw this.trouble(exponentExpected);
    this.at += match?.[0].length ?? 0;
    return doubled;
  }

  private afterFactor(): Omit<UnitProblem, "at"> {
    if (this.explains && isUnit(this.rest())) {
      const left = this.text.slice(0, this.at).trim();
      const candidates = [`${left}·${this.rest()}`, left + this.rest()].filter(isUnit);
      return { reason: "two units stand side by side", candidates };
    }
    return { reason: `"${excerpt(this.rest())}" does not belong to a unit`, candidates: [] };
  }

  private afterSolidus(above: readonly Factor[], below: readonly Factor[]): Omit<UnitProblem, "at"> {
    const rest = excerpt(
      this.rest()
        .replace(/^[·*/]/, "")
        .trim(),
    );
    const up = above.map((f) => f.text).join("·");
    const down = below.map((f) => f.text).join("·");
    const within = `${up}/(${down}·${rest})`;
    if (this.peek() === "/") return { reason: "two solidi", candidates: [within] };
    if (!this.explains || !isUnit(this.rest().replace(/^[·*] */, "")))
      return { reason: `"${excerpt(this.rest())}" does not belong to a unit`, candidates: [] };
    return { reason: "a product behind a solidus has two readings", candidates: [within, `${up}·${rest}/${down}`] };
  }

  private accept(word: string): boolean {
    if (!this.rest().startsWith(word)) return false;
    this.at += word.length;
    return true;
  }

  private rest(): string {
    return this.text.slice(this.at);
  }
  private peek(): string | undefined {
    return this.text[this.at];
  }
  private done(): boolean {
    return this.at >= this.text.length;
  }
  private space(): void {
    while (this.peek() === " ") this.at++;
  }
  private trouble(what: Omit<UnitProblem, "at">): Unreadable {
    return new Unreadable({ at: this.at, ...what });
  }
}

/** Whether a unit is a factor beside a space: no share, angle, level or temperature, and no word that means something else there. */
function standsBesideSpace({ symbol, factor }: Unit<any>): boolean {
  return factor !== undefined && /^\p{L}+$/u.test(symbol) && !["min", "in", "ppm", "ppb"].includes(symbol);
}

function factorsOf(unit: Unit<any>, exponent: number): readonly Factor[] {
  const parts = unit.symbol.includes("·") ? unit.symbol.split("·").map(unitCalled) : [unit];
  return parts.map((part) => ({ unit: part, exponent, text: factorText(part.symbol, exponent) }));
}

/** Whether a text can stand in a product. */
function isUnit(text: string): boolean {
  return seen.has(text) || unitNamed(text) !== undefined || !("reason" in new UnitReader(text, false).read());
}

/** Carries a problem out of the reader; never leaves this file. */
class Unreadable extends Error {
  constructor(readonly problem: UnitProblem) {
    super(problem.reason);
  }
}

function unitCalled(name: string): Unit<any> {
  return unitNamed(name) as Unit<any>;
}
