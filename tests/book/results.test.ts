import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import Ajv from "ajv";
import { describe, expect, it } from "vitest";
import { displaysOf } from "../../lib/book/displays";
import { bookResults, formatResults } from "../../lib/book/results";
import type { Json } from "../../lib/kernel/python-json";
import { displayType } from "../../lib/sheet/block";
import { analyses, display, nodes, publishBlock, requirementDisplay, shown } from "./display-fixture";

const book = { title: "T", revision: "A" };
const results = () =>
  bookResults(book, [
    { name: "light", notebook: shown(display("light", publishBlock), requirementDisplay("light", "holds")) },
    { name: "empty", notebook: shown() },
  ]);

describe("bookResults", () => {
  it("gives published results in their units, with worst case and interval", () => {
    expect(results().sheets).toEqual({
      light: {
        V_s: {
          value: 4.5,
          unit: "V",
          ucum: "V",
          spread: "rectangular",
          standardUncertainty: 0.0519615242271,
          worst: { low: 4.41, high: 4.59 },
          interval: { low: 4.4145, high: 4.5855, samples: 10000 },
        },
        T_a: { value: 25, unit: "°C", ucum: "Cel", spread: "exact", standardUncertainty: 2, worst: null, interval: null },
      },
      empty: {},
    });
  });

  it("gives the verdict of each requirement that a sheet computes", () => {
    expect(results().requirements).toEqual({
      supply: { verdict: "holds", judged: "worst case", sheet: "light", value: 4.5, deciding: 4.41, margin: 0.01, unit: "V", ucum: "V" },
    });
  });

  it("gives the reason of a verdict that is not sure, and of a worst case that may fall short, as the schema has it", () => {
    const doubted = analyses.map((own) => (own.worst === null ? own : { ...own, worst: { ...own.worst, highDoubt: "one peak of many" } }));
    const unsure = bookResults(book, [
      { name: "light", notebook: shown({ ...display("light", publishBlock), analyses: doubted }, requirementDisplay("light", "not sure")) },
    ]);
    expect(unsure.requirements.supply).toMatchObject({ verdict: "not sure", doubt: "a peak may have been missed" });
    const schema: unknown = JSON.parse(readFileSync(resolve("data/results.schema.json"), "utf8"));
    expect(new Ajv().compile(schema as object)(JSON.parse(formatResults(unsure)))).toBe(true);
  });

  it("evaluates what no cell has analysed", () => {
    const bare = { ...display("light", publishBlock), analyses: [] };
    const { V_s } = bookResults(book, [{ name: "light", notebook: shown(bare) }]).sheets.light ?? {};
    expect(V_s?.worst).toEqual({ low: 4.41, high: 4.59 });
    expect(V_s?.standardUncertainty).toBeCloseTo(analyses[0]?.standardUncertainty ?? 0, 12);
  });

  it("says which sheet's output is stale when a node is missing", () => {
    const stale = { ...display("light", { type: "publish", names: { x: "gone" } } as const), nodes };
    expect(() => bookResults(book, [{ name: "light", notebook: shown(stale) }])).toThrow("no output of the book holds gone");
  });

  it("has the documented shape", () => {
    const schema = JSON.parse(readFileSync(resolve(__dirname, "../../data/results.schema.json"), "utf8")) as object;
    const validate = new Ajv({ allErrors: true }).compile(schema);
    const valid = validate(JSON.parse(formatResults(results())));
    expect(validate.errors).toBeNull();
    expect(valid).toBe(true);
    expect(validate({ ...results(), version: 2 })).toBe(false);
  });
});

describe("displaysOf", () => {
  it("passes over outputs of other programs and versions", () => {
    const notebook = shown(display("light", publishBlock), { ...display("light", publishBlock), version: 2 as 1 });
    const [cell] = notebook.cells;
    if (cell?.cell_type === "code")
      cell.outputs.push({ output_type: "display_data", metadata: {}, data: { [displayType]: "text" as Json } });
    expect(displaysOf(notebook)).toHaveLength(1);
  });
});
