import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import Ajv from "ajv";
import { describe, expect, it } from "vitest";
import type { SheetInput } from "../../lib/book/outputs";
import { bookResults, formatResults } from "../../lib/book/results";
import type { RequirementRow } from "../../lib/design/types";
import type { GivenNode, GraphNode } from "../../lib/graph/node";
import type { Block } from "../../lib/sheet/block";
import { display, doubtedDisplay, nodes, publishBlock, requirementDisplay, shown } from "./display-fixture";
import { madeBook } from "./made";

const row: RequirementRow = {
  id: "supply",
  statement: "The supply is at least 4.4 V.",
  limit: { low: 4.4 },
  text: ">= 4.4 V",
  unit: "V",
  dimension: "kg·m²·s⁻³·A⁻¹",
  judged: "worst case",
  place: "data/design.yaml:1:1",
};
const bookOf = (sheets: readonly SheetInput[], ...rows: readonly RequirementRow[]) => madeBook(sheets, { requirements: () => rows });
const light = { name: "light", notebook: shown(display("light", publishBlock), requirementDisplay("light")) };
const results = () => bookResults(bookOf([light, { name: "empty", notebook: shown() }], row));

describe("bookResults", () => {
  it("gives published results in their units, evaluated from the graph: what a cell has stored beside it is not believed", () => {
    expect(results().sheets).toEqual({
      light: {
        V_s: {
          value: 4.5,
          unit: "V",
          ucum: "V",
          spread: "rectangular",
          standardUncertainty: expect.closeTo(0.09 / Math.sqrt(3), 9),
          worst: { low: 4.41, high: 4.59, proof: { low: "proved", high: "proved" } },
          interval: { low: expect.closeTo(4.4145, 2), high: expect.closeTo(4.5855, 2), samples: 10000 },
        },
        T_a: { value: 25, unit: "°C", ucum: "Cel", spread: "exact", standardUncertainty: 0, worst: null, interval: null },
      },
      empty: {},
    });
  });

  it("gives the verdict of each requirement that a sheet computes, by the limit of the design file", () => {
    const answer = {
      proof: { low: "proved", high: "proved" },
      verdict: "holds",
      sheet: "light",
      value: 4.5,
      deciding: 4.41,
      margin: 0.01,
      unit: "V",
      ucum: "V",
    };
    expect(results().requirements).toEqual({ supply: { ...answer, judged: "worst case", answers: [answer] } });
  });

  it("gives the reason of a verdict that is not sure, as the schema has it", () => {
    const book = bookOf([{ name: "light", notebook: shown(doubtedDisplay("light")) }], row);
    const { supply } = bookResults(book).requirements;
    expect(supply).toMatchObject({ verdict: "not sure", deciding: 4.5, doubt: expect.stringContaining("the law has no value at") });
    const schema = JSON.parse(readFileSync(resolve(__dirname, "../../data/results.schema.json"), "utf8")) as object;
    const validate = new Ajv({ allErrors: true }).compile(schema);
    validate(JSON.parse(formatResults(bookResults(book))));
    expect(validate.errors).toBeNull();
  });

  it("tells what a result is worth at both ends of each step where it is asked for, as the schema has it", () => {
    // The supply of 4.5 V by 10 %; the ambient of 25 °C, a point of temperature, by 10 K.
    const asked = bookResults(bookOf([light], row), { sensitivity: true });
    const end = (x: number) => ({ at: expect.closeTo(x, 9), value: expect.closeTo(x, 9) });
    expect(asked.sheets.light?.V_s?.sensitivity).toEqual([
      { given: "logic.supply", by: "10 %", unit: "V", low: end(4.05), high: end(4.95) },
    ]);
    expect(asked.sheets.light?.T_a?.sensitivity).toEqual([{ given: "ambient", by: "10 K", unit: "°C", low: end(15), high: end(35) }]);
    const schema = JSON.parse(readFileSync(resolve(__dirname, "../../data/results.schema.json"), "utf8")) as object;
    const validate = new Ajv({ allErrors: true }).compile(schema);
    validate(JSON.parse(formatResults(asked)));
    expect(validate.errors).toBeNull();
    expect(results().sheets.light?.V_s).not.toHaveProperty("sensitivity");
  });

  it("lets the worst of several answers decide, and lists all", () => {
    const low: GraphNode = {
      ...(nodes[0] as GivenNode),
      id: "givens.low",
      path: "low",
      nominal: 4,
      spread: { kind: "exact" },
      text: "4 V",
    };
    const other = { ...display("dark", { type: "requirement", requirement: "supply", node: "givens.low" }), nodes: [low] };
    const book = bookOf([light, { name: "dark", notebook: shown(other) }], row);
    const { supply } = bookResults(book).requirements;
    expect(supply).toMatchObject({ verdict: "does not hold", sheet: "dark", value: 4 });
    expect(supply?.answers.map(({ sheet, verdict }) => [sheet, verdict])).toEqual([
      ["light", "holds"],
      ["dark", "does not hold"],
    ]);
  });

  it("knows requirements and results by any name", () => {
    const names = ["toString", "constructor", "hasOwnProperty", "none"];
    const rows = names.map((id) => ({ ...row, id }));
    expect(bookResults(bookOf([light], ...rows)).requirements).toEqual({});
    const publish = { type: "publish", names: { toString: "logic.supply", constructor: "ambient" } } as unknown as Block;
    expect(Object.keys(bookResults(bookOf([{ name: "light", notebook: shown(display("light", publish)) }])).sheets.light ?? {})).toEqual([
      "toString",
      "constructor",
    ]);
  });

  it("has the documented shape, of a stale book too", () => {
    const schema = JSON.parse(readFileSync(resolve(__dirname, "../../data/results.schema.json"), "utf8")) as object;
    const validate = new Ajv({ allErrors: true }).compile(schema);
    const stale = bookResults(madeBook([light], { requirements: () => [row] }, new Map([["empty", ["its cells have changed"]]])));
    for (const one of [results(), stale]) {
      validate(JSON.parse(formatResults(one)));
      expect(validate.errors).toBeNull();
    }
    expect(stale.stale).toEqual({ empty: ["its cells have changed"] });
    expect(validate({ ...results(), version: 2 })).toBe(false);
  });
});
