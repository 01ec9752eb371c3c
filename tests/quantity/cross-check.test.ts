/**
 * Conversions held against three independent libraries, over every unit that both have. What each has and we have not is
 * listed by name, so that a unit added on either side is compared or seen; the numbers compared are printed and bounded.
 */
import { createRequire } from "node:module";
import convert from "convert-units";
import { Unit as MathUnit, unit as mathUnit } from "mathjs";
import { describe, expect, it } from "vitest";
import type { Dimension } from "../../lib/quantity/dimension";
import type { Unit } from "../../lib/quantity/quantity";
import { unitOf } from "../../lib/quantity/unit";
import { unitTable } from "../../lib/quantity/unit-table";
import {
  convertAbsent,
  convertLoose,
  convertWords,
  jsAbsent,
  jsLoose,
  jsWords,
  mathAbsent,
  mathLoose,
  mathWords,
  type Words,
} from "./cross-check-names";

interface Qty {
  to(unit: string): { readonly scalar: number };
}
/** It has no types of its own. */
const Qty = createRequire(import.meta.url)("js-quantities") as ((x: number, unit: string) => Qty) & {
  getUnits(): readonly string[];
  getAliases(unit: string): readonly string[];
};
const relative = (a: number, b: number): number => Math.abs(a - b) / Math.abs(b);
const x = 7.25;

/** Factors of a dimension, `kg^1`, `s^-2`; names of base units by library. */
function factors({ exponents, key }: Dimension, kelvin: string): readonly (readonly [name: string, exponent: number])[] {
  if (key === "1|angle") return [["rad", 1]];
  if (key === "1|solid angle") return [["sr", 1]];
  const names = ["kg", "m", "s", "A", kelvin, "mol", "cd"];
  const all = exponents.flatMap((e, i): [string, number][] => (e === 0 ? [] : [[names[i] as string, e / 2]]));
  return /flux|illuminance/.test(key) ? [...all, ["sr", 1]] : all;
}

const readable = (text: string) => {
  try {
    return unitOf(text);
  } catch {
    return undefined;
  }
};

/** Sorts their names: ours by the words or by the same spelling, or absent. */
function shared(names: readonly string[], words: Words, absent: readonly string[]) {
  const ours = new Map<string, string>();
  const missing: string[] = [];
  for (const name of names) {
    const symbol = words[name] ?? name;
    if (!absent.includes(name) && readable(symbol) !== undefined) ours.set(name, symbol);
    else missing.push(name);
  }
  return { ours, missing };
}

function mathSI(name: string, { dimension }: Unit<any>): number {
  const text = factors(dimension, "K")
    .map(([base, e]) => `${base}^${e}`)
    .join(" ");
  return mathUnit(x, name).toNumber(text === "" ? "bits" : text);
}

function jsSI(name: string, unit: Unit<any>): number {
  const { dimension, symbol } = unit;
  if (symbol === "bit" || symbol === "byte") return Qty(x, name).to("bit").scalar;
  if (symbol === "rpm") return Qty(x, name).to("rad/s").scalar / (2 * Math.PI);
  const parts = factors(dimension, dimension.key === "K|temperature" ? "tempK" : name === "temp-K" ? "tempK" : "degK");
  const side = (sign: number) =>
    parts
      .filter(([, e]) => e * sign > 0)
      .map(([base, e]) => `${base}^${Math.abs(e)}`)
      .join("*");
  const [above, below] = [side(1), side(-1)];
  return Qty(x, name).to(below === "" ? above : `${above === "" ? "1" : above}/${below}`).scalar;
}

interface Outcome {
  readonly units: Set<string>;
  readonly wrong: string[];
  /** Rows of the table. */
  readonly rows: Set<string>;
}

/** Every shared name, and every prefix that our row has and that library reads before one of its names. */
function compare(
  ours: ReadonlyMap<string, string>,
  loose: Words,
  aliases: (name: string) => readonly string[],
  theirs: (name: string, unit: Unit<any>) => number,
): Outcome {
  const out: Outcome = { units: new Set(), wrong: [], rows: new Set() };
  const check = (name: string, unit: Unit<any>, row: string) => {
    const apart = relative(unit(x).si, theirs(name, unit));
    if (!(apart <= Number(loose[row] ?? 1e-9))) out.wrong.push(`${name} there, ${unit.symbol} here: ${apart}`);
    out.units.add(unit.symbol);
    out.rows.add(row);
  };
  for (const [name, text] of ours) {
    const unit = unitOf(text);
    const row = unitTable.find((one) => one.symbol === unit.symbol);
    check(name, unit, unit.symbol);
    for (const prefix of (row?.prefixes ?? "").split(" ").filter(Boolean)) {
      for (const alias of aliases(name)) {
        const prefixed = (prefix === "µ" ? "u" : prefix) + alias;
        if (!ours.has(prefixed) && isRead(() => theirs(prefixed, unitOf(prefix + unit.symbol))))
          check(prefixed, unitOf(prefix + unit.symbol), unit.symbol);
      }
    }
  }
  return out;
}

function isRead(read: () => number): boolean {
  try {
    return Number.isFinite(read());
  } catch {
    return false;
  }
}

const mathNames = Object.keys((MathUnit as unknown as { readonly UNITS: object }).UNITS);
const mathShared = shared(mathNames, mathWords, mathAbsent);
const mathOutcome = compare(mathShared.ours, mathLoose, (name) => [name], mathSI);
const jsShared = shared(Qty.getUnits(), jsWords, jsAbsent);
const jsOutcome = compare(jsShared.ours, jsLoose, (name) => Qty.getAliases(name), jsSI);

const measures = [
  ...new Set(
    convert()
      .list()
      .map((unit) => unit.measure),
  ),
];
const convertOutcome: Outcome = { units: new Set(), wrong: [], rows: new Set() };
const convertMissing: string[] = [];
let convertPairs = 0;
for (const measure of measures) {
  const names = convert()
    .list()
    .flatMap((unit) => (unit.measure === measure ? [unit.abbr as string] : []));
  const { ours, missing } = shared(
    names,
    convertWords[measure] ?? {},
    names.filter((name) => convertAbsent.has(`${measure}:${name}`)),
  );
  convertMissing.push(...missing.map((name) => `${measure}:${name}`));
  for (const [from, a] of ours) {
    convertOutcome.units.add(a);
    convertOutcome.rows.add(a);
    for (const [to, b] of ours) {
      if (from === to) continue;
      convertPairs++;
      const apart = relative(
        unitOf(a)(x).in(unitOf(b)),
        convert(x)
          .from(from as convert.Unit)
          .to(to as convert.Unit),
      );
      if (!(apart <= (convertLoose[measure] ?? 1e-12))) convertOutcome.wrong.push(`${measure}: ${from} to ${to}: ${apart}`);
    }
  }
}

describe("every unit shared with mathjs", () => {
  it("is known or listed as absent, by name", () => expect(mathShared.missing.sort()).toEqual(mathAbsent.toSorted()));
  it("has its factor there", () => expect(mathOutcome.wrong).toEqual([]));
});

describe("every unit shared with js-quantities", () => {
  it("is known or listed as absent, by name", () => expect(jsShared.missing.toSorted()).toEqual(jsAbsent.toSorted()));
  it("has its factor there", () => expect(jsOutcome.wrong).toEqual([]));
});

describe("every unit shared with convert-units", () => {
  it("is known or listed as absent, by name", () => expect(convertMissing.sort()).toEqual([...convertAbsent].sort()));
  it("has its factor there, converted to every other of its measure", () => expect(convertOutcome.wrong).toEqual([]));
});

/** Rows that none of the three has, each from units that they have. */
const byDefinition: readonly (readonly [symbol: string, si: number])[] = [
  ["1", 1],
  ["‰", unitOf("%")(0.1).si],
  ["cycle", 1],
  ["kB", unitOf("byte")(1000).si],
  ["MB", unitOf("byte")(1e6).si],
  ["GB", unitOf("byte")(1e9).si],
  ["KiB", unitOf("byte")(1024).si],
  ["MiB", unitOf("byte")(1024 ** 2).si],
  ["cmil", (Math.PI / 4) * unitOf("mil")(1).si ** 2],
  ["gf", unitOf("g_n")(1e-3).si],
  ["ozf", unitOf("lbf")(1 / 16).si],
  ["rayl", unitOf("Pa·s/m")(1).si],
  ["ft·lbf", unitOf("ft")(1).si * unitOf("lbf")(1).si],
  ["N·m", 1],
  ["ΔK", 1],
  ["nit", unitOf("cd/m²")(1).si],
];

it.each(byDefinition)("%s, in none of the three, follows from its definition", (symbol, si) => {
  expect(relative(unitOf(symbol)(1).si, si)).toBeLessThan(1e-15);
});

it("compares at least 240 units with mathjs, 300 with js-quantities, 130 with convert-units", () => {
  const counts = { mathjs: mathOutcome.units.size, "js-quantities": jsOutcome.units.size, "convert-units": convertOutcome.units.size };
  const all = new Set([...mathOutcome.units, ...jsOutcome.units, ...convertOutcome.units]);
  const rows = new Set([...mathOutcome.rows, ...jsOutcome.rows, ...convertOutcome.rows]);
  const alone = unitTable.map((row) => row.symbol).filter((symbol) => !rows.has(symbol));
  expect(alone.toSorted()).toEqual(byDefinition.map(([symbol]) => symbol).toSorted());
  console.log(
    `compared: ${JSON.stringify(counts)}, ${all.size} different ones; ${convertPairs} pairs in convert-units; rows in none of them: ${alone.join(" ")}`,
  );
  expect(counts.mathjs).toBeGreaterThanOrEqual(240);
  expect(counts["js-quantities"]).toBeGreaterThanOrEqual(300);
  expect(counts["convert-units"]).toBeGreaterThanOrEqual(130);
});
