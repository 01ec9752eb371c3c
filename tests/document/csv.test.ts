import { describe, expect, it } from "vitest";
import type { Results } from "../../lib/book/results";
import { csvFiles } from "../../lib/document/export/csv";
import { design, lampSheet } from "./fixture";

const results: Results = {
  version: 1,
  title: "The lamp",
  revision: "3",
  sheets: {
    lamp: {
      current: {
        meaning: 'current, "as measured"',
        value: 2.05,
        unit: "mA",
        ucum: "mA",
        standardUncertainty: 0.1,
        worst: { low: 1.8, high: 2.3 },
        interval: null,
      },
    },
  },
  requirements: {
    bright: {
      verdict: "holds",
      judged: "worst case",
      sheet: "lamp",
      value: 2.05,
      deciding: 1.8,
      margin: 0.4,
      unit: "mA",
      ucum: "mA",
    },
  },
};
const files = csvFiles({ sheets: [lampSheet], design, results });

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
    expect(supply.slice(3, 11)).toEqual(["4.5 V ±2 %", "4.5", "4.41", "4.59", "V", "V", "own", "no"]);
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
    ]);
    expect(rows(files.requirements as string)[1]).toEqual(["bright", "holds", "worst case", "lamp", "2.05", "1.8", "0.4", "mA", "mA", ""]);
  });

  it("list parts as the document does, with value, series and tolerance", () => {
    const [head, ...body] = rows(files.parts as string);
    expect(head).toEqual(["part", "for", "value", "unit", "ucum", "series", "tolerance"]);
    for (const [, , value, unit, , series, tolerance] of body) {
      expect(Number(value)).toBeGreaterThan(0);
      expect([unit, series, tolerance]).toEqual(["Ω", "E24", "±1 %"]);
    }
  });

  it("give a spreadsheet no text that it would compute, and leave numbers as they are", () => {
    const meanings = ["=1+1", "+1+1", "-1+1", "@SUM(1)", "\t=1", "\r=1", " =1", "＝1", '=HYPERLINK("x")'];
    const current = results.sheets.lamp?.current;
    const hostile = Object.fromEntries(meanings.map((meaning, index) => [`r${index}`, { ...current, meaning, value: -2.5e-3 }]));
    const tables = csvFiles({ sheets: [lampSheet], design, results: { ...results, sheets: { "=lamp": hostile } } as Results });
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
