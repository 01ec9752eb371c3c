import { describe, expect, test } from "vitest";
import { dimension } from "../../lib/quantity/dimension";
import { WorkingsError } from "../../lib/quantity/error";
import { format } from "../../lib/quantity/format";
import { limitsOf } from "../../lib/quantity/limits";
import { parseQuantity, quantity } from "../../lib/quantity/parse";
import { dataSheetTexts } from "./data-sheet-texts";

const rows = dataSheetTexts.split("\n").filter((line) => line !== "" && !line.startsWith("# "));
const right = rows.filter((row) => row.includes(" → ")).map((row) => row.split(" → ") as [string, string]);
const wrong = rows.filter((row) => row.includes(" ✗ ")).map((row) => row.split(" ✗ ") as [string, string]);

function refusalOf(text: string): WorkingsError {
  try {
    quantity(text);
  } catch (error) {
    if (error instanceof WorkingsError) return error;
    throw error;
  }
  throw new Error(`"${text}" is read as ${quantity(text)}`);
}

/** Five digits are what the longest hand sums state. */
function expectNear(found: number, expected: number): void {
  expect(Math.abs(found - expected)).toBeLessThanOrEqual(1e-5 * Math.abs(expected) + 1e-15);
}

describe("a text of a data sheet", () => {
  test("the list has more than 300 and none twice", () => {
    expect(right.length + wrong.length).toBe(rows.length);
    expect(rows.length).toBeGreaterThan(300);
    expect(new Set(rows.map((row) => row.split(/ [→✗] /)[0])).size).toBe(rows.length);
  });

  test.each(right)("%s means %s", (text, meaning) => {
    const [nominal, low, high] = meaning.split(" ").map(Number) as [number, number?, number?];
    const q = quantity(text);
    expectNear(q.si, nominal);
    const [least, most] = limitsOf(q.spread, q.si);
    expectNear(least, low ?? nominal);
    expectNear(most, high ?? nominal);
  });

  test.each(right)("%s is read again from what is printed of it", (text) => {
    const q = quantity(text);
    const printed = format(q, { digits: 12 });
    const again = quantity(printed);
    expect(again.dimension.si).toBe(q.dimension.si);
    expectNear(again.si, q.si);
    limitsOf(again.spread, again.si).forEach((limit, i) => void expectNear(limit, limitsOf(q.spread, q.si)[i] as number));
  });

  test.each(wrong)("%s is refused: %s", (text, hint) => {
    const { message, details } = refusalOf(text);
    const candidates = (details as { candidates: readonly string[] }).candidates.join(" | ");
    expect([candidates, message]).toSatisfy(
      ([listed, sentence]: string[]) => listed === hint || (sentence as string).includes(hint),
      `${candidates} — ${message}`,
    );
  });

  test("every candidate that is offered for a whole value can be read in its place", () => {
    for (const [text] of wrong) {
      const { candidates } = refusalOf(text).details as { candidates: readonly string[] };
      for (const candidate of candidates.filter((one) => /\d .*(?:±| to )/.test(one)))
        expect(() => quantity(candidate), candidate).not.toThrow();
    }
  });
});

describe("digits in groups of three", () => {
  const spaces = { "thin space": "\u2009", "narrow no-break space": "\u202f", "no-break space": "\u00a0", space: " " };
  test.each(Object.entries(spaces))("are read with a %s", (_, space) => {
    expect(quantity(`10${space}000 Ω`).si).toBe(10_000);
    expect(quantity(`1${space}234${space}567.891${space}234 V`).si).toBe(1_234_567.891234);
  });

  test.each(Object.entries(spaces).slice(0, 3))("may end in a shorter group behind the point with a %s", (_, space) => {
    expect(quantity(`1${space}234.567${space}8 V`).si).toBe(1234.5678);
    expect(quantity(`0.000${space}01 F`).si).toBe(1e-5);
  });

  test("may not with a plain space, which can stand before another number", () => {
    expect(() => quantity("3.300 5 V")).toThrow("two numbers side by side");
  });
});

describe("asked for a dimension", () => {
  test("bits and bytes are no plain numbers, and numbers are no bits", () => {
    expect(() => parseQuantity("20 byte", { dimension: dimension("1") })).toThrow('"20 byte" is information; dimensionless is expected');
    expect(() => parseQuantity("160", { dimension: dimension("1|information") })).toThrow("is dimensionless; information is expected");
    expect(parseQuantity("20 byte", { dimension: dimension("1|information") }).si).toBe(160);
  });

  test("kelvins as a temperature do not lie below zero, as a difference they may", () => {
    expect(() => parseQuantity("-5 K", { dimension: dimension("K|temperature") })).toThrow("below absolute zero");
    expect(() => parseQuantity("5 K ±10 K", { dimension: dimension("K|temperature") })).toThrow("below absolute zero");
    expect(parseQuantity("-5 K", { dimension: dimension("K|difference") }).si).toBe(-5);
  });
});
