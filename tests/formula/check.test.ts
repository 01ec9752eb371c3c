import { describe, expect, test } from "vitest";
import { checkedFormula, checkFormula } from "../../lib/formula/check";
import { WorkingsError } from "../../lib/quantity/error";
import { badLevels, goodLevels } from "./level-verdicts";
import { badFormulas, type FormulaVerdict, formulaVerdicts, goodFormulas, statedOf } from "./verdicts";

function verdict({ text, symbols, asked }: FormulaVerdict): string {
  const stated = Object.fromEntries(Object.entries(symbols).map(([symbol, name]) => [symbol, statedOf(name)]));
  const checked = checkFormula(text, stated, asked === undefined ? undefined : statedOf(asked));
  return "error" in checked ? checked.error : checked.dimension.key;
}

describe("checkFormula gives the dimension or the sentence for", () => {
  test.each([...formulaVerdicts, ...goodLevels, ...badLevels].map((row) => [row.text, row] as const))("%s", (_, row) => {
    expect(verdict(row)).toBe(row.expected);
  });
});

test("the list of verdicts has no formula twice and at least 40 of each sort", () => {
  expect(new Set(formulaVerdicts.map(({ text, asked, symbols }) => JSON.stringify([text, asked, symbols]))).size).toBe(
    formulaVerdicts.length,
  );
  expect(Math.min(goodFormulas.length, badFormulas.length)).toBeGreaterThanOrEqual(40);
});

const ohmic = { V: statedOf("Voltage"), I: statedOf("Current") };

test.each([
  ["V + I", 0],
  ["2*(V + V*I)", 2],
  ["V*exp(V)", 6],
  ["V + nothing", 4],
  ["V * / I", 4],
  ["V +", 3],
  ["V I", 2],
  ["I/(V", 4],
  ["x = V + I", 4],
  ["if(V, I, I)", 3],
])("a refusal of %s says where it is: offset %i", (text, at) => {
  expect(checkFormula(text, ohmic)).toMatchObject({ at });
});

test("checkedFormula throws an error that names text, column and sentence", () => {
  const attempt = () => checkedFormula("P = V + I", ohmic);
  expect(attempt).toThrow(WorkingsError);
  expect(attempt).toThrow('in the formula "P = V + I", column 5: cannot add V (voltage) and I (current)');
});

test("the name before = is the result's symbol", () => {
  expect(checkFormula("P_max = V*I", ohmic)).toMatchObject({ name: "P_max" });
  expect(checkFormula("V*I", ohmic)).not.toHaveProperty("name");
});

test("a hundred levels of brackets are read, a thousand are refused without overflowing", () => {
  const nested = (depth: number) => `${"(".repeat(depth)}V${")".repeat(depth)}`;
  expect(checkFormula(nested(100), ohmic)).toMatchObject({ dimension: ohmic.V.dimension });
  expect(checkFormula(nested(1000), ohmic)).toEqual({ error: "✗ brackets are nested deeper than 200 levels", at: 200 });
});
