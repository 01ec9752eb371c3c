/** Pieces of a quantity's text for the second reader: every way to read a number, a unit, a code or an amount at a place. */
import { type ReadUnit, readUnitText } from "./independent-units";

/** A piece read, and where the text goes on. */
export type Ways<T> = readonly (readonly [T, number])[];

export interface Num {
  readonly value: number;
  readonly signed: boolean;
  /** Standard uncertainty of `9.1(2)e3`. */
  readonly brackets?: number;
}
export interface Val {
  readonly x: Num;
  readonly unit?: ReadUnit;
  /** A letter code with a power of ten: a bare number beside it has two readings. */
  readonly coded?: boolean;
}
export interface Amount {
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
export const none: ReadUnit = { form: "linear", exponents: [0, 0, 0, 0, 0, 0, 0], kind: "", factor: 1 };

/** The text with one character for each meaning, without outer spaces. */
export function sameLooks(text: string): string {
  return [...text]
    .map((c) => alike[c] ?? c)
    .join("")
    .trim();
}

export function skip(s: string, i: number): number {
  let at = i;
  while (s[at] === " ") at++;
  return at;
}

export function word(s: string, i: number, pattern: RegExp): number {
  const at = skip(s, i);
  const match = new RegExp(`^(?:${pattern.source})`, pattern.flags).exec(s.slice(at));
  return match === null ? -1 : at + match[0].length;
}

export function number(s: string, i: number): Ways<Num> {
  const at = skip(s, i);
  const grouped = /^([+-]?) ?([1-9]\d{0,2}(?: \d{3})+(?:\.\d{3}(?: \d{3})*|\.\d{1,2})?|\d{1,3}\.\d{3}(?: \d{3})+)(?![\d.])/.exec(
    s.slice(at),
  );
  const head = grouped ?? /^([+-]?) ?(\d+\.\d+|\d+|\.\d+)/.exec(s.slice(at));
  if (head === null) return [];
  let end = at + head[0].length;
  const brackets = /^\((\d+)\)/.exec(s.slice(end));
  end += brackets?.[0].length ?? 0;
  const power = /^(?:[eE]([+-]?\d+)| ?[×x·*] ?10(?:\^([+-]?\d+)|\^\(([+-]?\d+)\)|([⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+)))/.exec(s.slice(end));
  const ten = power === null ? 0 : Number(power[1] ?? power[2] ?? power[3] ?? plainDigits(power[4] as string));
  end += power?.[0].length ?? 0;
  const digits = (head[2] as string).replaceAll(" ", "");
  const value = Number(`${head[1]}${digits}e${ten}`);
  const decimals = (digits.split(".")[1] ?? "").length;
  const uncertainty = brackets === null ? {} : { brackets: Number(`${brackets[1]}e${ten - decimals}`) };
  return Number.isFinite(value) ? [[{ value, signed: head[1] !== "", ...uncertainty }, end]] : [];
}

function plainDigits(text: string): string {
  return [...text].map((c) => (c === "⁻" ? "-" : String("⁰¹²³⁴⁵⁶⁷⁸⁹".indexOf(c)))).join("");
}

/** Every unit that begins here, and none at all. */
export function units(s: string, i: number): Ways<string> {
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

export function value(s: string, i: number): Ways<Val> {
  const plain = number(s, i).flatMap(([x, end]) =>
    units(s, end).map(([text, after]): [Val, number] => [text === "" ? { x } : { x, unit: readUnitText(text) as ReadUnit }, after]),
  );
  return [...plain, ...code(s, i)];
}

export function amount(s: string, i: number): Ways<Amount> {
  return number(s, i).flatMap(([x, end]) =>
    units(s, end).map(([text, after]): [Amount, number] => {
      if (text === "") return [{ x }, after];
      return [{ x, width: readUnitText(text, true) as ReadUnit, own: readUnitText(text) as ReadUnit }, after];
    }),
  );
}
