/** Every name under which a unit can be read, made once from the tables; and the names nearest to one that is not there. */
import { levelTable } from "./decibel";
import { dimension } from "./dimension";
import { prefixOf } from "./prefix";
import type { Unit } from "./quantity";
import { affine, gauge, level, linear, type Stem } from "./unit-forms";
import { affineTable, type UnitRow, unitTable } from "./unit-table";

/** Readings of one name: the first unless the dimension asked for chooses another (dB, °C). */
type Readings = readonly Unit<any>[];

const names: ReadonlyMap<string, Readings> = allNames();

/** The unit of exactly this name, prefix included; of several readings the one of dimension `asked`, else the first. */
export function unitNamed(name: string, asked?: string): Unit<any> | undefined {
  const readings = names.get(name);
  return readings?.find((unit) => unit.dimension.key === asked) ?? readings?.[0];
}

/** Names of units that an author may have meant, nearest first. */
export function nearestNames(name: string, count = 3): readonly string[] {
  const lower = name.toLowerCase();
  const limit = Math.floor(name.length / 2);
  const near: { name: string; symbol: string; distance: number }[] = [];
  for (const [other, readings] of names) {
    if (other === "" || Math.abs(other.length - name.length) > limit) continue;
    const apart = distance(lower, other.toLowerCase());
    if (apart <= limit) near.push({ name: other, symbol: (readings[0] as Unit<any>).symbol, distance: apart });
  }
  near.sort((a, b) => a.distance - b.distance || Math.abs(a.name.length - name.length) - Math.abs(b.name.length - name.length));
  const symbols = new Set<string>();
  const best = near[0]?.distance === 0 ? 0 : limit;
  return near
    .filter((row) => row.distance <= best && !symbols.has(row.symbol) && symbols.add(row.symbol))
    .slice(0, count)
    .map((row) => row.name);
}

function allNames(): Map<string, Readings> {
  const map = new Map<string, Unit<any>[]>();
  const add = (name: string, unit: Unit<any>) => {
    const there = map.get(name);
    if (there === undefined) map.set(name, [unit]);
    else there.push(unit);
  };
  for (const row of affineTable) {
    const unit = affine(namesOf(row), row.offset, row.numerator, row.denominator);
    for (const name of [row.symbol, ...row.aliases]) add(name, unit);
  }
  for (const row of levelTable) {
    const unit = level(namesOf(row), row.log);
    for (const name of [row.symbol, ...(row.aliases ?? [])]) add(name, unit);
  }
  for (const row of unitTable) addBare(row, add);
  for (const row of unitTable) addPrefixed(row, add, (name) => map.has(name));
  const wire = gauge({ symbol: "AWG", dimension: dimension("m"), ucum: "" });
  add("AWG", wire);
  return map;
}

function namesOf(row: { readonly symbol: string; readonly dimension: string; readonly ucum: string }) {
  return { symbol: row.symbol, dimension: dimension(row.dimension), ucum: row.ucum };
}

type Add = (name: string, unit: Unit<any>) => void;

function addBare(row: UnitRow, add: Add): void {
  const shown = shownPrefixes(row);
  const stem = shown.length > 1 ? { stem: { prefix: "", rest: row.symbol, shown } } : {};
  const unit = linear({ ...namesOf(row), ...stem }, row.factor);
  for (const name of [row.symbol, ...(row.aliases ?? [])]) add(name, unit);
}

/** Exact names come before prefix + name (`min` is a minute), so a name already there is left alone. */
function addPrefixed(row: UnitRow, add: Add, has: (name: string) => boolean): void {
  const shown = shownPrefixes(row);
  const prefixable = [row.symbol, ...(row.aliases ?? []).filter(isShort)];
  for (const symbol of (row.prefixes ?? "").split(" ").filter(Boolean)) {
    const prefix = prefixOf(symbol);
    if (prefix === undefined) throw new RangeError(`the unit ${row.symbol} names an unknown prefix ${symbol}`);
    const stem: Stem = { prefix: symbol, rest: row.symbol, shown };
    const ucum = row.ucum === "" ? "" : (symbol === "µ" ? "u" : symbol) + row.ucum;
    const unit = linear(
      { symbol: symbol + row.symbol, dimension: dimension(row.dimension), ucum, stem },
      scaled(row.factor, prefix.exponent),
    );
    for (const before of [symbol, ...(prefix.aliases ?? [])]) {
      for (const name of prefixable) if (!has(before + name)) add(before + name, unit);
    }
  }
}

/** `kohm` is read, `kmetre` is not. */
function isShort(alias: string): boolean {
  return alias.length <= 3;
}

/** factor · 10^exponent, rounded once. */
function scaled(factor: number, exponent: number): number {
  return exponent < 0 ? factor / Number(`1e${-exponent}`) : factor * Number(`1e${exponent}`);
}

function shownPrefixes(row: UnitRow): readonly string[] {
  const listed = row.shown ?? `${row.prefixes ?? ""} -`;
  const symbols = listed
    .split(" ")
    .filter(Boolean)
    .map((symbol) => (symbol === "-" ? "" : symbol));
  const size = (symbol: string) => prefixOf(symbol)?.exponent ?? 0;
  return [...new Set(symbols)].sort((a, b) => size(a) - size(b));
}

/** Edits that turn a into b: insertions, deletions, changes, neighbours swapped (optimal string alignment). */
function distance(a: string, b: string): number {
  const rows: number[][] = [Array.from({ length: b.length + 1 }, (_, i) => i)];
  const cell = (i: number, j: number) => (rows[i] as number[])[j] as number;
  for (let i = 1; i <= a.length; i++) {
    rows.push([i]);
    for (let j = 1; j <= b.length; j++) {
      const change = cell(i - 1, j - 1) + (a[i - 1] === b[j - 1] ? 0 : 1);
      const swapped = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1] ? cell(i - 2, j - 2) + 1 : Infinity;
      (rows[i] as number[]).push(Math.min(cell(i - 1, j) + 1, cell(i, j - 1) + 1, change, swapped));
    }
  }
  return cell(a.length, b.length);
}
