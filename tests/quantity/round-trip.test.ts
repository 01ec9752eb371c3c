/** parse(format(q)) = q over every unit of the tables, every prefix that it takes, and every form of spread. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { levelTable } from "../../lib/quantity/decibel";
import { type FormatOptions, format } from "../../lib/quantity/format";
import { ownLimits } from "../../lib/quantity/limits";
import { namedDimensions } from "../../lib/quantity/named-dimensions";
import { quantity } from "../../lib/quantity/parse";
import type { Quantity } from "../../lib/quantity/quantity";
import type { Discrete, Spread } from "../../lib/quantity/spread";
import { unitOf } from "../../lib/quantity/unit";
import { affineTable, unitTable } from "../../lib/quantity/unit-table";
import { inFull } from "../full";

const seed = 20_260_301;
const numRuns = inFull(60_000, 2_000);

const linear = unitTable.flatMap(({ symbol, prefixes = "" }) => [
  symbol,
  ...prefixes
    .split(" ")
    .filter(Boolean)
    .map((prefix) => prefix + symbol),
]);
const compound = [
  "nV/√Hz",
  "W/(m·K)",
  "ppm/°C",
  "°C/W",
  "mm²",
  "µm³",
  "1/s",
  "1/mm²",
  "m⁻²",
  "oz/ft²",
  "V·s^(-1/2)",
  "kg·m²·s⁻³·A⁻¹",
  "dyn·cm",
  "%/K",
  "g/cm³",
  "rad/s",
];
const points = affineTable.map((row) => row.symbol);
const levels = levelTable.map((row) => row.symbol);
const all = [...new Set([...linear, ...compound, ...namedDimensions.map((row) => row.unit), ...points, ...levels])];

/** Texts of every form of spread about a whole number of hundredths, `w` as wide. `#` is the unit, `~` that of a difference. */
const forms = [
  "X #",
  "-X #",
  "X # ±W ~",
  "X # ±W ~ (3σ)",
  "X # ±W ~ (2.5σ)",
  "X # ±W ~ (triangular)",
  "X # +W/-V ^",
  "X # (L # to H #)",
  "X # (L # to H #, rectangular)",
  "X # (L # to H #, triangular)",
  "L # to H #",
  "X # in L # to H #",
  "X # σ W ~",
  "min L #, typ X #, max H #",
  "±W ~",
  "±W ~ (2σ)",
  "(X ± W) #",
  "X # +0/-W ^",
  "X # ±W ~ ν 9",
  "X # ±W ~ (2σ) ν 4.5",
  "X # σ W ~ ν 18",
  "X # (L # to H #, rectangular) ν 3",
  "one of X #, L #, H #",
  "one of L, X, H #",
  "H #, one of L # (25 %), H # (75 %)",
];
const shares = [
  "X # ±5 %",
  "X # ±0.1 %",
  "X # ±20 ppm",
  "X # ±100 %",
  "X # +10/-20 %",
  "X # ±1.5 % (3σ)",
  "-X # ±5 %",
  "X # ×/÷ 3",
  "X # ×/÷ 1.5 (2σ)",
  "X # ×/÷ 1.25 (triangular)",
];

function formsOf(unit: string): readonly string[] {
  if (/^(%|‰|ppm|ppb)$/.test(unit)) return forms.filter((form) => !/^X # [±σ]/.test(form)); // two readings
  return unit === "1" || points.includes(unit) || levels.includes(unit) ? forms : [...forms, ...shares];
}

interface Case {
  readonly text: string;
  readonly q: Quantity<any>;
}

/** x of up to four digits, widths of up to two, all on one grid, so that nothing is lost at honest digits. */
function make(unit: string, form: string, x: number, w: number, v: number, ten: number): Case {
  const number = (n: number) => (ten === 0 ? String(n) : ten < 0 ? (n / 10 ** -ten).toFixed(-ten) : String(n * 10 ** ten));
  const letters: Readonly<Record<string, string>> = {
    X: number(x),
    W: number(w),
    V: number(v),
    L: number(x - v),
    H: number(x + w),
    "#": unit === "1" ? "" : unit,
    "~": levels.includes(unit) ? "dB" : unit === "1" ? "" : unit,
    "^": levels.includes(unit) ? "dB" : /^(1|%|‰|ppm|ppb)$/.test(unit) ? "" : unit, // a share of a share would have two readings
  };
  const text = form.replace(/[XWVLH#~^]/g, (letter) => letters[letter] as string);
  return { text, q: quantity(text) };
}

const isAffine = (unit: string) => affineTable.some(({ symbol }) => symbol === unit);

const anyCase = fc
  .constantFrom(...all)
  .chain((unit) =>
    fc.tuple(
      fc.constant(unit),
      fc.constantFrom(...formsOf(unit)),
      fc.integer({ min: 100, max: 999 }),
      fc.integer({ min: 1, max: 99 }),
      fc.integer({ min: 1, max: 99 }),
      fc.integer({ min: -2, max: 0 }),
    ),
  )
  // No temperature lies below absolute zero.
  .map(([unit, form, x, ...rest]) => make(unit, form, isAffine(unit) && form.startsWith("-") ? 100 + (x % 100) : x, ...rest));

/** Re-read to 10⁻⁹ of its size: kind, limits, coverage, dimension with its kind. */
function expectSame(text: string, printed: string, q: Quantity<any>, r: Quantity<any>, relative = 1e-9): void {
  const where = `${text} printed as ${printed}`;
  expect([r.dimension.key, ...factsOf(r.spread)], where).toEqual([q.dimension.key, ...factsOf(q.spread)]);
  if (q.spread.kind === "discrete") expectSameBins(where, q.spread, r.spread as Discrete, relative);
  const [low, high] = ownLimits(q.spread, q.si);
  const [low2, high2] = ownLimits(r.spread, r.si);
  const slack = relative * Math.max(Math.abs(q.si), Math.abs(low), Math.abs(high));
  for (const [a, b] of [
    [q.si, r.si],
    [low, low2],
    [high, high2],
  ] as const)
    expect(Math.abs(a - b), `${where}: ${a} is ${b}`).toBeLessThanOrEqual(slack);
}

function factsOf(spread: Spread): unknown[] {
  const coverage = spread.kind === "normal" ? spread.coverage : undefined;
  const freedom = "freedom" in spread ? spread.freedom : undefined;
  return [spread.kind, coverage, freedom, "scale" in spread ? spread.scale : undefined];
}

function expectSameBins(where: string, a: Discrete, b: Discrete, relative: number): void {
  expect([b.values.length, b.shares === undefined], where).toEqual([a.values.length, a.shares === undefined]);
  const size = Math.max(...a.values.map(Math.abs));
  for (const [i, value] of a.values.entries())
    expect(Math.abs((b.values[i] as number) - value), where).toBeLessThanOrEqual(relative * size);
  for (const [i, share] of (a.shares ?? []).entries()) expect(b.shares?.[i], where).toBeCloseTo(share, 10);
}

describe("parse(format(q)) is q", () => {
  it.each(all)("in %s with every form of spread", (unit) => {
    for (const form of formsOf(unit)) {
      const { text, q } = make(unit, form, 250, 12, 34, -1);
      const printed = format(q);
      expectSame(text, printed, q, quantity(printed));
    }
  });

  it("covers every row of the tables and at least 420 symbols", () => {
    expect(all.length).toBeGreaterThanOrEqual(420);
    for (const { symbol } of [...unitTable, ...affineTable, ...levelTable]) expect(all).toContain(symbol);
  });

  it(`whatever the numbers (${numRuns} cases, seed ${seed})`, () => {
    fc.assert(
      fc.property(anyCase, ({ text, q }) => expectSame(text, format(q), q, quantity(format(q)))),
      { seed, numRuns },
    );
  }, 600_000);

  it("with twelve digits asked for, whatever the numbers", () => {
    const options: FormatOptions = { digits: 12 };
    const long = fc
      .tuple(
        fc.constantFrom(...all),
        fc.nat(),
        fc.integer({ min: 1_000_000, max: 9_999_999 }),
        fc.integer({ min: 1, max: 999_999 }),
        fc.integer({ min: 1, max: 999_999 }),
      )
      .map(([unit, n, x, w, v]) => make(unit, formsOf(unit)[n % formsOf(unit).length] as string, x, w, v, -5));
    fc.assert(
      fc.property(long, ({ text, q }) => expectSame(text, format(q, options), q, quantity(format(q, options)), 1e-10)),
      { seed, numRuns },
    );
  }, 600_000);
});

describe("formatting changes a value by no more than its rounding", () => {
  const unit = fc.constantFrom(...linear, ...compound, ...points);
  const mantissa = fc.integer({ min: -9_999_999, max: 9_999_999 });
  const valued = fc
    .tuple(unit, mantissa, fc.integer({ min: -18, max: 9 }))
    .map(([symbol, m, e]) => unitOf(symbol)(Number(`${points.includes(symbol) ? Math.abs(m) : m}e${e}`)));

  it.each(["tolerance", "plain", "engineering", "concise"] as const)(
    "of an exact value in the style %s",
    (style) => {
      fc.assert(
        fc.property(valued, fc.integer({ min: 1, max: 12 }), fc.boolean(), (q, digits, prefix) => {
          const printed = format(q, { style, digits, prefix });
          const r = quantity(printed);
          expect(r.dimension.key).toBe(q.dimension.key);
          const x = Math.abs(q.in(r.unit));
          expect(Math.abs(q.in(r.unit) - r.in(r.unit)), printed).toBeLessThanOrEqual(
            0.5001 * 10 ** (1 - digits) * x + 1e-11 * (x + (q.unit.affine ? 460 : 0)),
          );
        }),
        { seed, numRuns: numRuns / 4 },
      );
    },
    600_000,
  );

  it("of a value with a spread: a half of the second digit of the spread", () => {
    const spread = fc.tuple(
      fc.constantFrom("V", "kΩ", "µF", "mil", "°C", "dB", "dBm", "Hz", "psi"),
      mantissa.filter((m) => m !== 0),
      fc.integer({ min: 1, max: 999_999 }),
    );
    fc.assert(
      fc.property(spread, fc.constantFrom("plain", "concise"), ([symbol, m, w], style) => {
        const q = quantity(`${m / 1e5} ${symbol} (${m / 1e5 - w / 1e5} to ${m / 1e5 + (2 * w) / 1e5} ${symbol}, rectangular)`);
        const printed = format(q, { style: style as "plain" });
        const r = quantity(printed);
        const [half, x, y] = [(1.5 * w) / 1e5, q.in(q.unit), r.in(q.unit)];
        expect(Math.abs(x - y), printed).toBeLessThanOrEqual(0.0501 * half + 1e-11 * Math.abs(x) + 1e-10);
      }),
      { seed, numRuns: numRuns / 4 },
    );
  }, 600_000);

  it("of limits: outward, and by no more than a step of their second digit", () => {
    const limits = fc.tuple(
      fc.constantFrom("V", "kΩ", "mil", "Hz", "g"),
      mantissa,
      fc.integer({ min: 1, max: 9_999_999 }),
      fc.integer({ min: 45, max: 55 }),
    );
    fc.assert(
      fc.property(limits, ([symbol, m, w, share]) => {
        const x =
          share === 50
            ? `${m / 1e5} ${symbol} ±${w / 1e5} ${symbol}`
            : `${(m + (w * share) / 100) / 1e5} ${symbol} (${m / 1e5} to ${(m + w) / 1e5} ${symbol})`;
        const q = quantity(x);
        const [low, high] = ownLimits(q.spread, q.si);
        const [low2, high2] = ownLimits(quantity(format(q)).spread, q.si);
        const slack = 1e-8 * Math.max(Math.abs(low), Math.abs(high));
        expect(low2, format(q)).toBeLessThanOrEqual(low + slack);
        expect(high2, format(q)).toBeGreaterThanOrEqual(high - slack);
        expect(high2 - low2, format(q)).toBeLessThanOrEqual((high - low) * 1.16 + slack);
      }),
      { seed, numRuns: numRuns / 4 },
    );
  }, 600_000);
});
