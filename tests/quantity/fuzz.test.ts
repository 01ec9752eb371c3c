/**
 * Texts by the tens of thousands: what is not a quantity is an error of ours that names a column, what is accepted has
 * exactly one meaning for a second reader, and the same. The seed is printed; a full run reads a hundred thousand.
 */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { assignable, dimension } from "../../lib/quantity/dimension";
import { WorkingsError } from "../../lib/quantity/error";
import { ownLimits, scaleOf } from "../../lib/quantity/limits";
import { keyOf, namedDimensions } from "../../lib/quantity/named-dimensions";
import { parseQuantity, quantity } from "../../lib/quantity/parse";
import type { Quantity } from "../../lib/quantity/quantity";
import { unitOf } from "../../lib/quantity/unit";
import { inFull } from "../full";
import { anyText, factor, joint, mutated, unit } from "./fuzz-texts";
import { sameLooks } from "./independent-pieces";
import { type Reading, readings, sameReading } from "./independent-reader";
import { exponentsOf, type ReadUnit, readUnitText } from "./independent-units";

const seed = 20_261_125;
const numRuns = inFull(100_000, 3_000);

/** The quantity, or undefined for an error of ours with its place. */
function read(s: string, reader: (s: string) => Quantity<any> = quantity): Quantity<any> | undefined {
  try {
    return reader(s);
  } catch (error) {
    if (!(error instanceof WorkingsError)) throw error;
    if (error.code === "dimension" && reader !== quantity) return undefined;
    expect(error.code).toBe("quantity-text");
    const column = error.details.column as number;
    expect(Number.isInteger(column) && column >= 1 && column <= s.length + 1, `column ${column} of ${s.length}: ${error.message}`).toBe(
      true,
    );
    return undefined;
  }
}

function asReading(q: Quantity<any>): Reading {
  const { spread } = q;
  const normal = spread.kind === "normal";
  const level = q.unit.log !== undefined && spread.kind === "exact";
  const [low, high] = normal ? ownLimits({ ...spread, coverage: 1 }, q.si) : ownLimits(spread, q.si);
  const at = level ? q.in(q.unit) : 0;
  const coverage = normal ? { coverage: spread.coverage } : {};
  if (spread.kind === "discrete") {
    const bins = spread.values.map((value, i): [number, number] => [value, spread.shares?.[i] ?? 1 / spread.values.length]);
    return { si: q.si, ...exponentsOf(q.dimension.key), spread: spread.kind, low, high, bins };
  }
  const freedom = "freedom" in spread && spread.freedom !== undefined ? { freedom: spread.freedom } : {};
  const factor = scaleOf(spread) !== undefined && q.unit.log === undefined ? { factor: true as const } : {};
  return {
    ...freedom,
    ...factor,
    si: q.si,
    ...exponentsOf(q.dimension.key),
    spread: spread.kind,
    low: level ? at : low,
    high: level ? at : high,
    ...coverage,
  };
}

describe("quantity, attacked", () => {
  it(`refuses with a column, or reads what a second reader reads (${numRuns} texts, seed ${seed})`, () => {
    let accepted = 0;
    const kinds = new Map<string, number>();
    fc.assert(
      fc.property(anyText, (s) => {
        const q = read(s);
        if (q === undefined) return;
        accepted++;
        kinds.set(q.spread.kind, (kinds.get(q.spread.kind) ?? 0) + 1);
        const ours = asReading(q);
        const theirs = readings(s);
        if (theirs.length === 1 && sameReading(ours, theirs[0] as Reading)) return;
        throw new Error(`${JSON.stringify(s)} is read as ${JSON.stringify(ours)}; the second reader has ${JSON.stringify(theirs)}`);
      }),
      { seed, numRuns },
    );
    console.log(`seed ${seed}: ${accepted} of ${numRuns} texts accepted: ${[...kinds].map(([kind, n]) => `${kind} ${n}`).join(", ")}`);
    expect(accepted).toBeGreaterThan(numRuns / 10);
    expect([...kinds.keys()].sort()).toEqual(["discrete", "exact", "normal", "range", "rectangular", "split", "triangular"]);
  }, 600_000);

  it(`gives the dimension asked for, or refuses (${numRuns / 4} texts)`, () => {
    const asked = fc.constantFrom(...namedDimensions.map((row) => dimension(keyOf(row))));
    const one = (s: string, wanted: ReturnType<typeof dimension>) => {
      const q = read(s, (text) => parseQuantity(text, { dimension: wanted }));
      if (q !== undefined) expect(assignable(q.dimension, wanted)).toBe(true);
    };
    fc.assert(fc.property(anyText, asked, one), { seed, numRuns: numRuns / 4 });
  }, 600_000);

  it(`reads a unit as the second reader does, and its symbol again (${numRuns / 4} texts)`, () => {
    let accepted = 0;
    const part = fc.oneof(factor, fc.constant("1"));
    const long = fc
      .tuple(part, joint, part, joint, part)
      .map((parts) => parts.join("") + (parts[1] === "/(" || parts[3] === "/(" ? ")" : ""));
    fc.assert(
      fc.property(fc.oneof(unit, long, mutated), (s) => {
        let ours: ReturnType<typeof unitOf>;
        try {
          ours = unitOf(s);
        } catch (error) {
          if (!(error instanceof WorkingsError)) throw error;
          expect([error.code, (error.details.column as number) <= s.length + 1]).toEqual(["unit-text", true]);
          return;
        }
        accepted++;
        const theirs = readUnitText(sameLooks(s)) as ReadUnit;
        const again = unitOf(ours.symbol);
        const { exponents, kind } = exponentsOf(ours.dimension.key);
        expect([theirs.kind, ...theirs.exponents.map((e) => e + 0)], s).toEqual([kind, ...exponents]);
        expect([again.symbol, again.dimension.key, again.toSI(1)], s).toEqual([ours.symbol, ours.dimension.key, ours.toSI(1)]);
        if (theirs.form === "linear") expect(Math.abs(ours.toSI(1) / theirs.factor - 1), s).toBeLessThan(1e-12);
      }),
      { seed, numRuns: numRuns / 4 },
    );
    expect(accepted).toBeGreaterThan(numRuns / 16);
  }, 600_000);

  // A reader that is not linear in the length does not come to an end here.
  it.each([
    "1",
    "1.",
    ".",
    "-",
    "- ",
    "+",
    "±",
    "(",
    ")",
    "((",
    "()",
    " ",
    "e",
    "e1",
    "E+",
    "m ",
    "m·",
    "m/",
    "m*",
    "m²",
    "²",
    "√",
    "√m",
    "sqrt(",
    "^",
    "^(",
    "^(1/2)",
    "V ",
    "dB ",
    "kΩ",
    "Ω",
    "4k7 ",
    "k",
    "R",
    "1R",
    " to ",
    "to",
    "…",
    "..",
    "–",
    "1 to ",
    "1 V to ",
    "in ",
    " in 1",
    "1 in ",
    "min ",
    "min 1 ",
    "min 1, ",
    "typ",
    "σ",
    "1σ",
    " σ ",
    "(3σ)",
    "±1 ",
    "±1 V ",
    "+1/-1 ",
    "+-",
    "/",
    "/-",
    "+/-",
    "·",
    "×10",
    "×10^",
    "⁰",
    "⁻",
    ",",
    "1,",
    "\u00a0",
    "\n",
    "😀",
    "a",
    "aa aa",
    "1 V (",
    "(1 to 2) ",
    "1(1)",
    "µ",
    "°C",
    "mm mm/",
    "/m m",
  ])("reads a hundred thousand characters of %j to the end", (piece) => {
    const long = piece.repeat(Math.ceil(100_000 / piece.length)).slice(0, 100_000);
    for (const s of [
      long,
      `1${long}`,
      `3 V${long}`,
      `3 ${long}`,
      `3 V ±${long}`,
      `3 V (1 to ${long}`,
      `3 V/(m·${long}`,
      `(${long})`,
      `min 1 V, typ ${long}`,
      `${long} V`,
    ]) {
      const q = read(s);
      if (q !== undefined) expect(Number.isFinite(q.si)).toBe(true);
    }
  });

  it("keeps the message short however long the text", () => {
    for (const s of [
      "m ".repeat(50_000),
      `3 ${"V".repeat(50_000)}`,
      `3 V ${"x ".repeat(50_000)}`,
      `3 m/s/${"m/".repeat(50_000)}`,
      `${"1".repeat(50_000)}k7 kΩ`,
    ]) {
      expect(() => quantity(s)).toThrow(expect.objectContaining({ code: "quantity-text", message: expect.stringMatching(/^.{1,500}$/su) }));
    }
  });
});
