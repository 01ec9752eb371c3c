/** Formulas as long and as deep as they may be pass every reader; longer ones are refused in words. */
import { describe, expect, it } from "vitest";
import { Evaluation } from "../../lib/analysis/evaluation";
import { mathml } from "../../lib/document/text/math";
import { dimensionOf } from "../../lib/formula/dimensions";
import { evaluate } from "../../lib/formula/evaluate";
import { formula } from "../../lib/formula/formula";
import { parseFormula } from "../../lib/formula/parse";
import { plainText } from "../../lib/formula/plain-text";
import { symbolsOf } from "../../lib/formula/symbols";
import { typeset } from "../../lib/formula/typeset";
import { Graph } from "../../lib/graph/graph";
import { canonicalText } from "../../lib/graph/serialise";
import { formatNotebook, parseNotebook } from "../../lib/kernel/notebook";
import { dimensionless } from "../../lib/quantity/dimension";
import { one } from "../../lib/units";
import { given, formula as node } from "../graph/nodes";
import { notebookOf } from "../kernel/fixture";

const most = 400;
const chain = (operator: string, count: number) => Array.from({ length: count + 1 }, () => "a").join(operator);
const shapes: Readonly<Record<string, (count: number) => string>> = {
  sum: (count) => chain(" + ", count),
  quotient: (count) => chain("/", count),
  power: (count) => chain("^", count),
  sign: (count) => `${"-".repeat(count)}a`,
  roots: (count) => `${"sqrt(".repeat(count / 2)}a${" + a)".repeat(count / 2)}`,
  brackets: (count) => `${"(a*".repeat(count / 2)}a${")+a".repeat(count / 2)}`,
};

describe.each(Object.entries(shapes))("a %s of as many operators as may be", (_, text) => {
  it("passes every reader", () => {
    const { expression } = parseFormula(text(most));
    expect(symbolsOf(expression)).toEqual(["a"]);
    expect(dimensionOf(expression, { a: dimensionless })).toBe(dimensionless);
    expect(parseFormula(plainText(expression)).expression).toEqual(expression);
    expect(mathml(typeset(expression), true).text).toMatch(/^<math/);
    expect(canonicalText(expression).length).toBeGreaterThan(most);
    const value = evaluate(expression, { a: 1 });
    expect(new Evaluation(Graph.from([given("a", 1), node("y", text(most))])).analysis("y").nominal).toBe(value);
    const notebook = notebookOf("1");
    const stored = { ...notebook, metadata: { ...notebook.metadata, deep: expression as never } };
    expect(parseNotebook(formatNotebook(stored), "deep.ipynb").metadata.deep).toEqual(expression);
  });

  it("is refused with one more, and with ten thousand", () => {
    for (const count of [most + 2, 10_000])
      expect(() => parseFormula(text(count))).toThrow(
        /more than 400; make results of its parts|brackets are nested deeper than 200 levels/,
      );
  });
});

it("a law that is too long is refused where it is first used", () => {
  const text = `y = ${chain(" + ", 2_000)}` as string;
  const law = formula(text as never, { a: one } as never, one, { meaning: "a long sum", source: "made up", holds: "always" } as never);
  expect(() => law.expression).toThrow("the formula has 2000 operators, more than 400");
});
