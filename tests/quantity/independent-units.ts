/**
 * A second reader of units, written against the grammar and not against the code: of the library it takes the rows of the
 * unit tables as data, and nothing else. It is exhaustive where the other is one scan: it never asks for speed.
 */
import { levelTable } from "../../lib/quantity/decibel";
import { affineTable, unitTable } from "../../lib/quantity/unit-table";

/** kg m s A K mol cd. */
export type Exponents = readonly number[];

export interface ReadUnit {
  readonly form: "linear" | "point" | "level" | "gauge";
  readonly exponents: Exponents;
  /** "" where there is none. */
  readonly kind: string;
  /** SI value of a difference of one unit; 1 for levels and gauges. */
  readonly factor: number;
  readonly offset?: number;
  readonly decibels?: { readonly factor: number; readonly reference: number };
  readonly share?: boolean;
  readonly plainDecibel?: boolean;
}

const tens: Readonly<Record<string, number>> = {
  q: -30,
  r: -27,
  y: -24,
  z: -21,
  a: -18,
  f: -15,
  p: -12,
  n: -9,
  µ: -6,
  u: -6,
  m: -3,
  c: -2,
  d: -1,
  da: 1,
  h: 2,
  k: 3,
  M: 6,
  G: 9,
  T: 12,
  P: 15,
  E: 18,
  Z: 21,
  Y: 24,
  R: 27,
  Q: 30,
};
const base = ["kg", "m", "s", "A", "K", "mol", "cd"];
const raised = "⁰¹²³⁴⁵⁶⁷⁸⁹";

/** `kg·m²·s^(-5/2)|kind` as numbers. */
export function exponentsOf(key: string): { exponents: Exponents; kind: string } {
  const [si = "", kind = ""] = key.split("|");
  const exponents = base.map(() => 0);
  for (const part of si === "1" ? [] : si.split("·")) {
    const name = base.filter((symbol) => part.startsWith(symbol)).sort((a, b) => b.length - a.length)[0] as string;
    exponents[base.indexOf(name)] = exponentOf(part.slice(name.length));
  }
  return { exponents, kind };
}

/** "" is 1, NaN what is no exponent. */
function exponentOf(text: string): number {
  if (text === "") return 1;
  const half = /^\^\(([+-]?\d+)\/([12])\)$/.exec(text);
  if (half !== null) return Number(half[1]) / Number(half[2]);
  const caret = /^\^(?:([+-]?\d+(?:\.[05])?)|\(([+-]?\d+)\))$/.exec(text);
  if (caret !== null) return Number(caret[1] ?? caret[2]);
  if (text === "^½") return 0.5;
  const digits = [...text].map((c) => (c === "⁻" ? "-" : raised.includes(c) ? String(raised.indexOf(c)) : "x")).join("");
  return /^-?\d+$/.test(digits) ? Number(digits) : Number.NaN;
}

const shares = new Set(["%", "‰", "ppm", "ppb"]);

/** Every name with what it means; exact names win over prefix and name, and the first row over later ones. */
const dictionary = new Map<string, ReadUnit>();
function enter(names: readonly string[], unit: ReadUnit): void {
  for (const name of names) if (!dictionary.has(name)) dictionary.set(name, unit);
}
for (const row of affineTable) {
  const factor = row.numerator / row.denominator;
  enter([row.symbol, ...row.aliases], { form: "point", ...exponentsOf(row.dimension), factor, offset: row.offset });
}
for (const row of levelTable) {
  const plainDecibel = row.symbol === "dB" || row.symbol === "dB (power)";
  enter([row.symbol, ...(row.aliases ?? [])], { form: "level", ...exponentsOf(row.dimension), factor: 1, decibels: row.log, plainDecibel });
}
for (const row of unitTable) {
  enter([row.symbol, ...(row.aliases ?? [])], {
    form: "linear",
    ...exponentsOf(row.dimension),
    factor: row.factor,
    share: shares.has(row.symbol),
  });
}
for (const row of unitTable) {
  for (const prefix of (row.prefixes ?? "").split(" ").filter((p) => p !== "")) {
    const unit: ReadUnit = { form: "linear", ...exponentsOf(row.dimension), factor: row.factor * 10 ** (tens[prefix] as number) };
    for (const name of [row.symbol, ...(row.aliases ?? []).filter((alias) => alias.length < 4)]) {
      enter(prefix === "µ" ? [`µ${name}`, `u${name}`] : [prefix + name], unit);
    }
  }
}
enter(["AWG"], { form: "gauge", ...exponentsOf("m"), factor: 1 });

/** Every name that a unit can have. */
export const unitNames: readonly string[] = [...dictionary.keys()].filter((name) => name !== "");
const symbolsOfDifferences: Readonly<Record<string, string>> = {
  "°C": "Δ°C",
  "℃": "Δ°C",
  degC: "Δ°C",
  "deg C": "Δ°C",
  "°F": "Δ°F",
  "℉": "Δ°F",
  degF: "Δ°F",
  "deg F": "Δ°F",
};

/** The unit of a text, or undefined. Beside ±, °C is a difference. */
export function readUnitText(text: string, difference = false): ReadUnit | undefined {
  const name = text.replace(/ +/g, " ");
  if (difference && (name === "°C" || name === "°F")) return dictionary.get(symbolsOfDifferences[name] as string);
  return dictionary.get(name) ?? quotient(text);
}

function quotient(text: string): ReadUnit | undefined {
  const solidi = [...text].map((c, i) => (c === "/" && !insideExponent(text, i) ? i : -1)).filter((i) => i >= 0);
  if (solidi.length === 0) return product(text, 1);
  if (solidi.length > 1) return undefined;
  const above = product(text.slice(0, solidi[0]), 1);
  const rest = text.slice((solidi[0] as number) + 1).trim();
  const bracket = /^\((.*)\)$/.exec(rest);
  const below = bracket === null ? single(rest, -1) : product(bracket[1] as string, -1);
  return above && below && times(above, below);
}

/** The solidus of `^(1/2)`. */
function insideExponent(text: string, at: number): boolean {
  return /\^\([+-]?\d+$/.test(text.slice(0, at));
}

function product(text: string, sign: number): ReadUnit | undefined {
  const parts = text.split(/[·*]/).flatMap((part) => spaced(part.trim()) ?? [part.trim()]);
  const factors = parts.map((part) => single(part, sign, parts.length === 1));
  if (factors.length > 16) return undefined;
  return factors.reduce((all, factor) => all && factor && times(all, factor));
}

/** Names of units whose symbol is not of letters alone: angles, N·m. */
const notAlone = new Set(unitTable.filter((row) => !/^\p{L}+$/u.test(row.symbol)).flatMap((row) => [row.symbol, ...(row.aliases ?? [])]));

/** The factors of `N m s⁻¹`; undefined where a space is no product, or may be a slip before or behind a prefix (m A). */
function spaced(text: string): readonly string[] | undefined {
  const parts = text.split(/ +/);
  if (parts.length === 1) return undefined;
  const names = parts.map((part) => /^(?:√|sqrt\()?(\p{L}+)/u.exec(part)?.[1] ?? "");
  const units = names.map((name) => dictionary.get(name));
  if (
    units.some(
      (unit, i) =>
        unit?.form !== "linear" ||
        unit.share === true ||
        unit === dictionary.get("min") ||
        unit === dictionary.get("in") ||
        notAlone.has(names[i] as string),
    )
  )
    return undefined;
  if (units.some((unit, i) => i > 0 && unit === units[i - 1])) return undefined;
  const joined = dictionary.get(parts.join(""));
  const [a, b] = units as [ReadUnit, ReadUnit];
  const isSlip =
    parts.length === 2 &&
    joined !== undefined &&
    joined.exponents.some((e, i) => e !== (a.exponents[i] as number) + (b.exponents[i] as number));
  return isSlip ? undefined : parts;
}

function times(a: ReadUnit, b: ReadUnit): ReadUnit | undefined {
  if (a.form === "level" || a.form === "gauge" || b.form === "level" || b.form === "gauge") return undefined;
  return { form: "linear", exponents: a.exponents.map((e, i) => e + (b.exponents[i] as number)), kind: "", factor: a.factor * b.factor };
}

function single(text: string, sign: number, alone = false): ReadUnit | undefined {
  if (text === "1") return { form: "linear", exponents: base.map(() => 0), kind: "", factor: 1 };
  const root = /^(?:√(.+)|sqrt\((.+)\))$/.exec(text);
  const name = root?.[1] ?? root?.[2] ?? /^[^\s·*/()^√⁰¹²³⁴⁵⁶⁷⁸⁹⁻\d+-]+/.exec(text)?.[0] ?? "";
  if (!/^[^\s·*/()^√⁰¹²³⁴⁵⁶⁷⁸⁹⁻\d+-]+$/.test(name)) return undefined;
  const unit = dictionary.get(name);
  if (unit === undefined) return undefined;
  const power = root === null ? writtenPower(text.slice(name.length), unit) : 0.5;
  if (power === 1 && sign === 1 && alone) return unit;
  if (unit.form === "level" || unit.form === "gauge" || !Number.isInteger(2 * power) || power === 0 || Math.abs(power) > 12)
    return undefined;
  const exponents = unit.exponents.map((e) => e * power * sign);
  return { form: "linear", exponents, kind: "", factor: unit.factor ** (power * sign) };
}

/** A bare 2 or 3 is an exponent behind lengths and times. */
function writtenPower(text: string, { exponents, kind }: ReadUnit): number {
  const key = exponents.join();
  if (/^[23]$/.test(text)) return kind === "" && (key === "0,1,0,0,0,0,0" || key === "0,0,1,0,0,0,0") ? Number(text) : Number.NaN;
  return exponentOf(text);
}
