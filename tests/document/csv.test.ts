import { describe, expect, it } from "vitest";
import type { Results } from "../../lib/book/results";
import { csvFiles } from "../../lib/document/export/csv";
import { madeBook } from "../book/made";
import { design, lampSheet } from "./fixture";

const answer = { sheet: "lamp", verdict: "does not hold", value: 2.05, deciding: 1.8, margin: 0.4, unit: "mA", ucum: "mA" } as const;

const results: Results = {
  version: 1,
  title: "The lamp",
  revision: "3",
  stale: {},
  sheets: {
    lamp: {
      current: {
        meaning: 'current, "as measured"',
        value: 2.05,
        unit: "mA",
        ucum: "mA",
        standardUncertainty: 0.1,
        worst: { low: 1.8, high: 2.3, proof: { low: "proved", high: "proved" } },
        interval: null,
        sensitivity: [{ given: "supply.high", by: "10 %", unit: "V", low: { at: 4.05, value: null }, high: { at: 4.95, value: 2.3 } }],
      },
    },
  },
  requirements: {
    bright: {
      judged: "worst case",
      ...answer,
      answers: [{ ...answer, sheet: "meter", verdict: "holds for 95 %" }, answer],
    },
  },
};
const files = csvFiles(madeBook([lampSheet], design), results);

/** Rows of a text after RFC 4180, character by character. */
function rows(text: string): string[][] {
  const all: string[][] = [];
  let row: string[] = [];
  let cell = "";
  let quoted = false;
  for (let i = 0; i < text.length; i++) {
    const letter = text[i] as string;
    if (letter === '"' && quoted && text[i + 1] === '"') cell += text[i++];
    else if (letter === '"') quoted = !quoted;
    else if (quoted || (letter !== "," && letter !== "\r")) cell += letter;
    else {
      row.push(cell);
      cell = "";
      if (letter === ",") continue;
      all.push(row);
      row = [];
      i++;
    }
  }
  return all;
}

describe("the tables for other programs", () => {
  it("hold every given once, with its value and limits in its unit, its source and its place", () => {
    const [head, ...body] = rows(files.givens as string);
    expect(head?.slice(0, 5)).toEqual(["path", "symbol", "meaning", "text", "value"]);
    expect(body.map(([path]) => path)).toEqual(body.map(([path]) => path).toSorted());
    const supply = body.find(([path]) => path === "supply.high") ?? [];
    expect(supply.slice(3, 14)).toEqual(["4.5 V ±2 %", "4.5", "4.41", "4.59", "V", "V", "production", "", "", "own", "no"]);
    expect(supply.at(-1)).toMatch(/^data\/lamp\/design\.yaml:\d+:\d+$/);
    expect(body.find(([path]) => path === "lamp.curve")?.slice(3, 5)).toEqual(["table of 4 rows", ""]);
  });

  it("hold results with commas and quotation marks as they are, and nothing where there is no spread", () => {
    expect(rows(files.results as string)[1]).toEqual([
      "lamp.current",
      'current, "as measured"',
      "2.05",
      "mA",
      "mA",
      "0.1",
      "1.8",
      "2.3",
      "",
      "",
      "",
      "",
    ]);
    const figures = ["2.05", "1.8", "0.4", "mA", "mA", "", "", "", "", "", ""];
    expect(rows(files.requirements as string).slice(1)).toEqual([
      ["bright", "does not hold", "worst case", "meter", "holds for 95 %", ...figures],
      ["bright", "does not hold", "worst case", "lamp", "does not hold", ...figures],
    ]);
  });

  it("tell what a result is worth at both ends of each given's step, and nothing where there is no value", () => {
    const told = rows(files.sensitivity as string)[1];
    expect(told).toEqual(["lamp.current", "supply.high", "10 %", "4.05", "4.95", "V", "2.05", "", "2.3", "mA"]);
    // Of the book itself they are asked for, and every row is whole.
    const own = rows(csvFiles(madeBook([lampSheet], design)).sensitivity as string);
    expect(own.length).toBeGreaterThan(1);
    expect(own.slice(1).every((row) => row.length === own[0]?.length)).toBe(true);
  });

  it("list parts as the document does, with value, series and tolerance", () => {
    const [head, ...body] = rows(files.parts as string);
    expect(head).toEqual(["part", "for", "value", "unit", "ucum", "series", "tolerance"]);
    for (const [, , value, unit, , series, tolerance] of body) {
      expect(Number(value)).toBeGreaterThan(0);
      expect([unit, series, tolerance]).toEqual(["Ω", "E24", "±1 %"]);
    }
  });

  it("say in every row that the book is stale, and why", () => {
    const stale = new Map([["lamp", ["its cells have changed"]]]);
    for (const text of Object.values(csvFiles(madeBook([lampSheet], design, stale), results))) {
      const [head, ...body] = rows(text);
      expect(head?.at(-1)).toBe("stale");
      expect(new Set(body.map((row) => row.at(-1)))).toEqual(new Set(["stale: lamp (its cells have changed)"]));
    }
  });

  it("give a spreadsheet no text that it would compute, and leave numbers as they are", () => {
    const meanings = ["=1+1", "+1+1", "-1+1", "@SUM(1)", "\t=1", "\r=1", " =1", "＝1", '=HYPERLINK("x")'];
    const current = results.sheets.lamp?.current;
    const hostile = Object.fromEntries(meanings.map((meaning, index) => [`r${index}`, { ...current, meaning, value: -2.5e-3 }]));
    const tables = csvFiles(madeBook([lampSheet], design), { ...results, sheets: { "=lamp": hostile } } as Results);
    const body = rows(tables.results as string).slice(1);
    expect(body.map(([, meaning]) => meaning)).toEqual(meanings.map((meaning) => `'${meaning}`));
    expect(body.map(([name, , value]) => [name, value])).toEqual(meanings.map((_, index) => [`'=lamp.r${index}`, "-0.0025"]));
    const drift = rows(tables.givens as string).find(([path]) => path === "lamp.drift") ?? [];
    expect(drift.slice(3, 7)).toEqual(["'-2 mV/K ±10 %", "-2", "-2.2", "-1.8"]);
  });

  it("have one width, head and rows", () => {
    for (const text of Object.values(files)) expect(new Set(rows(text).map((row) => row.length)).size).toBe(1);
  });
});
