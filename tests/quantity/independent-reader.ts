/**
 * A second reader of quantities: it tries every way to cut a text into the forms of the grammar and gives all complete
 * readings. A text that the library accepts must have exactly one meaning here, and the same. Shares no code with it.
 */
import { type Exponents, type ReadUnit, readUnitText } from "./independent-units";

export interface Reading {
  readonly si: number;
  readonly exponents: Exponents;
  readonly kind: string;
  readonly spread: string;
  /** In SI, or in decibels where the unit is a level. For normal: nominal ± σ. */
  readonly low: number;
  readonly high: number;
  readonly coverage?: number;
}

/** A piece read, and where the text goes on. */
type Ways<T> = readonly (readonly [T, number])[];

interface Num {
  readonly value: number;
  readonly signed: boolean;
  /** Standard uncertainty of `9.1(2)e3`. */
  readonly brackets?: number;
}
interface Val {
  readonly x: Num;
  readonly unit?: ReadUnit;
  /** A letter code with a power of ten: a bare number beside it has two readings. */
  readonly coded?: boolean;
}
interface Amount {
  readonly x: Num;
  /** As a width, °C being a difference. */
  readonly width?: ReadUnit;
  /** As the unit of a value that has none. */
  readonly own?: ReadUnit;
}

const alike: Readonly<Record<string, string>> = {
  "\u03bc": "µ",
  "\u2126": "Ω",
  "\u212a": "K",
  "\u212b": "Å",
  "\u00ba": "°",
  "\u2212": "-",
  "\u2010": "-",
  "\u2011": "-",
  "\u22c5": "·",
  "\u2219": "·",
  "\u2022": "·",
  "\u2215": "/",
  "\u2044": "/",
  "\u00a0": " ",
  "\u2009": " ",
  "\u202f": " ",
  "\u2007": " ",
  "\t": " ",
  "\n": " ",
  "\r": " ",
};
const none: ReadUnit = { form: "linear", exponents: [0, 0, 0, 0, 0, 0, 0], kind: "", factor: 1 };

/** The text with one character for each meaning, without outer spaces. */
export function sameLooks(text: string): string {
  return [...text]
    .map((c) => alike[c] ?? c)
    .join("")
    .trim();
}

/** Every meaning of a text, without repetitions. */
export function readings(text: string): readonly Reading[] {
  const s = sameLooks(text);
  const all = forms(s).filter((reading): reading is Reading => reading !== undefined && isFiniteReading(reading));
  return all.filter((reading, i) => all.findIndex((other) => sameReading(reading, other)) === i);
}

function isFiniteReading({ si, low, high }: Reading): boolean {
  return [si, low, high].every(Number.isFinite);
}

/** Equal to rounding: numbers to 10⁻¹¹ of the larger of value and limits. */
export function sameReading(a: Reading, b: Reading): boolean {
  const size = Math.max(
    ...[a, b].flatMap(({ low, high, spread, si }) => (spread === "exact" ? [Math.abs(si)] : [Math.abs(low), Math.abs(high)])),
  );
  const near = (x: number, y: number) => x === y || Math.abs(x - y) <= 1e-11 * Math.max(size, Math.abs(x));
  return (
    a.kind === b.kind &&
    a.spread === b.spread &&
    a.coverage === b.coverage &&
    a.exponents.every((e, i) => e === b.exponents[i]) &&
    (a.si === b.si || Math.abs(a.si - b.si) <= 1e-11 * Math.max(Math.abs(a.si), a.spread === "exact" ? 0 : size)) &&
    near(a.low, b.low) &&
    near(a.high, b.high)
  );
}

// --- pieces

function skip(s: string, i: number): number {
  let at = i;
  while (s[at] === " ") at++;
  return at;
}

function word(s: string, i: number, pattern: RegExp): number {
  const at = skip(s, i);
  const match = new RegExp(`^(?:${pattern.source})`, pattern.flags).exec(s.slice(at));
  return match === null ? -1 : at + match[0].length;
}

function number(s: string, i: number): Ways<Num> {
  const at = skip(s, i);
  const head = /^([+-]?) ?(\d+\.\d+|\d+|\.\d+)/.exec(s.slice(at));
  if (head === null) return [];
  let end = at + head[0].length;
  const brackets = /^\((\d+)\)/.exec(s.slice(end));
  end += brackets?.[0].length ?? 0;
  const power = /^(?:[eE]([+-]?\d+)| ?[×x·*] ?10(?:\^([+-]?\d+)|\^\(([+-]?\d+)\)|([⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+)))/.exec(s.slice(end));
  const ten = power === null ? 0 : Number(power[1] ?? power[2] ?? power[3] ?? plainDigits(power[4] as string));
  end += power?.[0].length ?? 0;
  const digits = head[2] as string;
  const value = Number(`${head[1]}${digits}e${ten}`);
  const decimals = (digits.split(".")[1] ?? "").length;
  const uncertainty = brackets === null ? {} : { brackets: Number(`${brackets[1]}e${ten - decimals}`) };
  return Number.isFinite(value) ? [[{ value, signed: head[1] !== "", ...uncertainty }, end]] : [];
}

function plainDigits(text: string): string {
  return [...text].map((c) => (c === "⁻" ? "-" : String("⁰¹²³⁴⁵⁶⁷⁸⁹".indexOf(c)))).join("");
}

/** Every unit that begins here, and none at all. */
function units(s: string, i: number): Ways<string> {
  const at = skip(s, i);
  const out: [string, number][] = [["", i]];
  for (let end = at + 1; end <= Math.min(s.length, at + 60); end++) {
    const text = s.slice(at, end);
    if (text.at(-1) !== " " && readUnitText(text) !== undefined) out.push([text, end]);
  }
  return out;
}

const codeTens: Readonly<Record<string, readonly [unit: string, ten: number]>> = {
  R: ["Ω", 0],
  k: ["Ω", 3],
  K: ["Ω", 3],
  M: ["Ω", 6],
  G: ["Ω", 9],
  T: ["Ω", 12],
  p: ["F", -12],
  n: ["F", -9],
  µ: ["F", -6],
  u: ["F", -6],
  V: ["V", 0],
};
const codedUnits = ["Ω", "F", "H", "V", "A"];

function code(s: string, i: number): Ways<Val> {
  const at = skip(s, i);
  const within = /^(\d*)([RkKMGTpnµuV])(\d+)(?![\d.])/.exec(s.slice(at)) ?? /^(\d+)([RkMpnµu])()/.exec(s.slice(at));
  if (within === null) return [];
  const [whole, before, letter, after] = within;
  const [unit, ten] = codeTens[letter as string] as readonly [string, number];
  const x: Num = { value: Number(`${before === "" ? "0" : before}.${after === "" ? "0" : after}e${ten}`), signed: false };
  const out: [Val, number][] = [];
  for (const [text, end] of units(s, at + whole.length)) {
    const stated = text === "" ? unit : codedUnits.find((symbol) => readUnitText(symbol) === readUnitText(text));
    if (stated === undefined || ((letter === "R" || letter === "V") && stated !== unit)) continue;
    out.push([{ x, unit: readUnitText(stated) as ReadUnit, coded: ten !== 0 }, end]);
  }
  return out;
}

function value(s: string, i: number): Ways<Val> {
  const plain = number(s, i).flatMap(([x, end]) =>
    units(s, end).map(([text, after]): [Val, number] => [text === "" ? { x } : { x, unit: readUnitText(text) as ReadUnit }, after]),
  );
  return [...plain, ...code(s, i)];
}

function amount(s: string, i: number): Ways<Amount> {
  return number(s, i).flatMap(([x, end]) =>
    units(s, end).map(([text, after]): [Amount, number] => {
      if (text === "") return [{ x }, after];
      return [{ x, width: readUnitText(text, true) as ReadUnit, own: readUnitText(text) as ReadUnit }, after];
    }),
  );
}

// --- forms

const plusMinus = /±|\+\/-|\+-/;
const to = /to(?!\w)|…|\.\.\.?(?!\.)|–/;

function forms(s: string): (Reading | undefined)[] {
  const ends = <T>(ways: Ways<T>) => ways.filter(([, end]) => skip(s, end) === s.length).map(([piece]) => piece);
  const out: (Reading | undefined)[] = [...alone(s), ...bracketed(s), ...minTypMax(s)];
  out.push(...ends(value(s, 0)).map(plain));
  for (const [v, end] of value(s, 0)) {
    if (v.x.brackets !== undefined) continue;
    for (const [a, after] of follow(s, end, plusMinus, amount)) out.push(...tails(s, after).map((tail) => tolerance(v, a, tail)));
    for (const [a, after] of follow(s, end, /σ|sigma(?!\w)/, amount))
      if (skip(s, after) === s.length) out.push(tolerance(v, a, { spread: "normal", sigmas: 1, coverage: 3 }));
    for (const [a, after] of amount(s, end)) {
      for (const b of ends(follow(s, after, /\//, amount))) if (/^[+-]/.test(s.slice(skip(s, end)))) out.push(unequal(v, a, b));
    }
    for (const w of ends(follow(s, end, to, value))) out.push(between(undefined, v, w, "range"));
    for (const [a, after] of follow(s, end, /in /, value))
      for (const b of ends(follow(s, after, to, value))) out.push(between(v, a, b, "range"));
    for (const [a, after] of follow(s, end, /\(/, value)) {
      for (const [b, last] of follow(s, after, to, value)) out.push(...inBrackets(s, v, a, b, last));
    }
  }
  return out;
}

function follow<T>(s: string, i: number, before: RegExp, read: (s: string, i: number) => Ways<T>): Ways<T> {
  const at = word(s, i, before);
  return at < 0 ? [] : read(s, at);
}

interface Tail {
  readonly spread: string;
  readonly sigmas: number;
  readonly coverage?: number;
}

/** How what follows the amount says it is distributed, to the end of the text. */
function tails(s: string, i: number): Tail[] {
  const rest = s.slice(skip(s, i)).trim();
  const sigma = /^\( ?±? ?(\d+(?:\.\d+)?) ?(?:σ|sigma) ?\)$/.exec(rest);
  if (sigma !== null) return Number(sigma[1]) > 0 ? [{ spread: "normal", sigmas: Number(sigma[1]), coverage: Number(sigma[1]) }] : [];
  if (/^\( ?triangular ?\)$/.test(rest)) return [{ spread: "triangular", sigmas: 1 }];
  return rest === "" || /^\( ?rectangular ?\)$/.test(rest) ? [{ spread: "rectangular", sigmas: 1 }] : [];
}

function inBrackets(s: string, v: Val, a: Val, b: Val, i: number): (Reading | undefined)[] {
  const match = /^(?:, ?(triangular|rectangular))? *\)(.*)$/s.exec(s.slice(skip(s, i)));
  if (match === null) return [];
  const spread = match[1] ?? "split";
  const behind = (match[2] as string).trim();
  if (behind === "") return [between(v, a, b, spread)];
  const unit = readUnitText(behind);
  if (unit === undefined || unit.form !== "linear" || v.unit !== undefined || a.unit !== undefined || b.unit !== undefined) return [];
  return [between({ ...v, unit }, { ...a, unit }, { ...b, unit }, spread)];
}

// --- meanings

function si(x: number, unit: ReadUnit): number {
  if (unit.form === "gauge") return 0.127e-3 * 92 ** ((36 - x) / 39);
  if (unit.decibels !== undefined) return unit.decibels.reference * 10 ** (x / unit.decibels.factor);
  return (x + (unit.offset ?? 0)) * unit.factor;
}

/** In decibels for a level, else in SI. */
function own(x: number, unit: ReadUnit): number {
  return unit.decibels === undefined ? si(x, unit) : x;
}

function reading(x: number, unit: ReadUnit, spread: string, low: number, high: number, coverage?: number): Reading | undefined {
  const { exponents, kind } = unit;
  return { si: si(x, unit), exponents, kind, spread, low, high, ...(coverage === undefined ? {} : { coverage }) };
}

function plain({ x, unit = none }: Val): Reading | undefined {
  const centre = own(x.value, unit);
  if (x.brackets === undefined) return reading(x.value, unit, "exact", centre, centre);
  if (unit.form === "gauge" || x.brackets === 0) return undefined;
  const sigma = x.brackets * (unit.form === "level" ? 1 : unit.factor);
  return reading(x.value, unit, "normal", centre - sigma, centre + sigma, 3);
}

/** The unit of a value and the half width of an amount, in the numbers of its spread. */
function framed({ x, unit }: Val, amount: Amount, among: readonly Amount[] = [amount]): { unit: ReadUnit; width: number } | undefined {
  const lent = among.find((a) => a.own !== undefined);
  const whole = unit ?? (lent?.own?.share ? (x.value === 0 ? lent.own : undefined) : lent?.own) ?? (lent === undefined ? none : undefined);
  const behind = amount.width ?? lent?.width;
  if (whole === undefined || whole.form === "gauge" || amount.x.brackets !== undefined || x.brackets !== undefined) return undefined;
  if (whole.form === "level") {
    const decibels = behind === undefined || behind.plainDecibel || behind === whole;
    return decibels ? { unit: whole, width: amount.x.value } : undefined;
  }
  if (behind === undefined) return { unit: whole, width: amount.x.value * whole.factor };
  if (behind.form === "level" || behind.form === "gauge") return undefined;
  if (behind.share && whole.share) return x.value === 0 ? { unit: whole, width: amount.x.value * behind.factor } : undefined;
  if (behind.share)
    return whole.form === "point" ? undefined : { unit: whole, width: Math.abs(si(x.value, whole)) * (amount.x.value * behind.factor) };
  const fits = behind.exponents.every((e, i) => e === whole.exponents[i]) && kindsAdd(whole.kind, behind.kind);
  return fits ? { unit: whole, width: amount.x.value * behind.factor } : undefined;
}

function kindsAdd(a: string, b: string): boolean {
  if (a === "temperature") return b !== "temperature";
  return a === b || a === "" || b === "";
}

function tolerance(v: Val, amount: Amount, { spread, sigmas, coverage }: Tail): Reading | undefined {
  const frame = framed(v, amount);
  if (frame === undefined || amount.x.signed || (v.coded && amount.width === undefined)) return undefined;
  const centre = own(v.x.value, frame.unit);
  const half = frame.width / sigmas;
  if (half === 0 && spread === "normal") return undefined;
  const exact = half === 0 && spread === "rectangular";
  return reading(v.x.value, frame.unit, exact ? "exact" : spread, centre - half, centre + half, coverage);
}

function unequal(v: Val, a: Amount, b: Amount): Reading | undefined {
  const [first, second] = [framed(v, a, [a, b]), framed(v, b, [b, a])];
  if (first === undefined || second === undefined || !a.x.signed || !b.x.signed || Object.is(Math.sign(a.x.value), Math.sign(b.x.value)))
    return undefined;
  if (v.coded && a.width === undefined && b.width === undefined) return undefined;
  const centre = own(v.x.value, first.unit);
  const ends = [centre + first.width, centre + second.width];
  const shares = [a, b].map((one) => (one.width ?? a.width ?? b.width)?.share === true && !first.unit.share);
  if (shares[0] !== shares[1]) return undefined;
  const mirrored = shares[0] && centre < 0 ? ends.map((end) => 2 * centre - end) : ends;
  return reading(v.x.value, first.unit, "split", Math.min(...mirrored), Math.max(...mirrored));
}

function between(v: Val | undefined, a: Val, b: Val, spread: string): Reading | undefined {
  if ([v, a, b].some((one) => one?.x.brackets !== undefined)) return undefined;
  const all = [v ?? a, a, b];
  if (all.some((one) => one.coded) && all.some((one) => one.unit === undefined)) return undefined;
  const unit = a.unit ?? b.unit ?? v?.unit ?? none;
  const other = b.unit ?? unit;
  const whole = v?.unit ?? unit;
  const alike = (one: ReadUnit) =>
    one.exponents.every((e, i) => e === unit.exponents[i]) &&
    one.decibels?.factor === unit.decibels?.factor &&
    one.decibels?.reference === unit.decibels?.reference &&
    (one.kind === unit.kind || one.kind === "" || unit.kind === "");
  if (!alike(other) || !alike(whole)) return undefined;
  const [low, high] = [own(a.x.value, unit), own(b.x.value, other)];
  if (low > high) return undefined;
  if (v !== undefined) {
    const centre = own(v.x.value, whole);
    const slack = 1e-11 * Math.max(Math.abs(low), Math.abs(high));
    return centre < low - slack || centre > high + slack ? undefined : reading(v.x.value, whole, spread, low, high);
  }
  const centre = (low + high) / 2;
  const { exponents, kind } = unit;
  return { si: unit.decibels === undefined ? centre : si(centre, unit), exponents, kind, spread, low, high };
}

/** ±1 %: about zero, or about 0 dB. */
function alone(s: string): (Reading | undefined)[] {
  return follow(s, 0, plusMinus, amount).flatMap(([a, end]) => {
    const unit = a.width ?? none;
    const zero: Val = { x: { value: 0, signed: false }, unit };
    return tails(s, end).map((tail) => tolerance(zero, { x: a.x }, tail));
  });
}

function bracketed(s: string): (Reading | undefined)[] {
  const out: (Reading | undefined)[] = [];
  for (const [first, end] of follow(s, 0, /\(/, number)) {
    for (const pattern of [plusMinus, to]) {
      for (const [second, after] of follow(s, end, pattern, number)) {
        const closed = word(s, after, /\)/);
        if (closed < 0) continue;
        for (const [text, last] of units(s, closed)) {
          const unit = text === "" ? none : (readUnitText(text) as ReadUnit);
          if (pattern === plusMinus) out.push(...tails(s, last).map((tail) => tolerance({ x: first, unit }, { x: second }, tail)));
          else if (skip(s, last) === s.length) out.push(between(undefined, { x: first, unit }, { x: second, unit }, "range"));
        }
      }
    }
  }
  return out;
}

function minTypMax(s: string): (Reading | undefined)[] {
  let ways: [Record<string, Val>, number][] = [[{}, 0]];
  for (let turn = 0; turn < 3; turn++) {
    ways = ways.flatMap(([found, end]) => {
      const match = /^(?:[,;] *)?(min|typ|max)(?!\w)\.?/.exec(s.slice(skip(s, end)));
      if (match === null || (turn === 0 && /^[,;]/.test(match[0])) || (match[1] as string) in found) return [];
      return value(s, skip(s, end) + match[0].length).map(([v, after]): [Record<string, Val>, number] => [
        { ...found, [match[1] as string]: v },
        after,
      ]);
    });
  }
  return ways
    .filter(([, end]) => skip(s, end) === s.length)
    .map(([{ min, typ, max }]) => {
      const lent = [typ, max, min].find((one) => one?.unit !== undefined)?.unit ?? none;
      const [low, nominal, high] = [min, typ, max] as [Val, Val, Val];
      const unit = low.unit ?? high.unit ?? lent;
      const all = [low, nominal, high];
      if (all.some((one) => one.coded) && all.some((one) => one.unit === undefined)) return undefined;
      return between({ ...nominal, unit: nominal.unit ?? lent }, { ...low, unit }, { ...high, unit: high.unit ?? unit }, "split");
    });
}
