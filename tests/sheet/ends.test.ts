import { describe, expect, it } from "vitest";
import { Evaluation } from "../../lib/analysis/evaluation";
import { showText } from "../../lib/document/text/show";
import { Graph } from "../../lib/graph/graph";
import { unitOf } from "../../lib/quantity/unit";
import { endNames, endOf, endText } from "../../lib/sheet/ends";
import { smallMargin, smallMarginText, verdictLine } from "../../lib/sheet/words";
import { formula, given, within } from "../graph/nodes";

const evaluation = new Evaluation(
  Graph.from([
    given("p", 0, within(-1, 1)),
    { ...given("k", 10, within(8, 12)), knowledge: true as const },
    formula("y", "p + k"),
    formula("w", "2*k"),
  ]),
);
const unit = unitOf("1");

describe("one end of a spread by its name", () => {
  it("is the end that the whole is shown with", () => {
    const { worst, interval, doubt } = evaluation.analysis("y");
    expect(endNames.map((end) => endOf(end, "y", evaluation))).toEqual([
      worst?.low,
      worst?.high,
      interval?.low,
      interval?.high,
      doubt?.low,
      doubt?.high,
    ]);
    for (const [whole, low, high] of [
      ["worst", "worst-low", "worst-high"],
      ["interval", "units-low", "units-high"],
      ["doubt", "doubt-low", "doubt-high"],
    ] as const)
      expect(showText({ node: "y", show: whole, unit: "1" }, evaluation)).toBe(
        `${endText(low, "y", unit, evaluation)} to ${endText(high, "y", unit, evaluation)}`,
      );
    expect(showText({ node: "y", show: "worst-low", unit: "1" }, evaluation)).toBe("7.0");
  });
});

describe("a result of which only the truth is not known", () => {
  it("does not show an interval of one value, but says that units do not differ, and the doubt", () => {
    expect(showText({ node: "w", show: "interval", unit: "1" }, evaluation)).toMatch(/^units do not differ; doubt 16\.\d to 23\.\d+$/);
    expect(showText({ node: "y", show: "interval", unit: "1" }, evaluation)).toMatch(/^9\.0\d to 10\.9\d$/);
  });
});

describe("a margin far below the digits of what it is measured at", () => {
  it.each([
    [-1.31e-4, 10, 0.01, "less than 0.01\u00a0h short"],
    [0.004, 12.3, 0.01, "less than 0.01\u00a0h inside"],
    [-5e-4, 0.95, undefined, undefined],
  ])("of %s at %s is told by the last digit", (margin, deciding, digit, text) => {
    const found = smallMargin(margin, deciding);
    if (text === undefined) expect(found).toBe(digit);
    else expect([found, smallMarginText(found as number, margin, "h")]).toEqual([digit, text]);
  });

  it("stands so in a verdict", () => {
    const verdict = { verdict: "does not hold", judged: "95 %", deciding: 35_999.5, margin: -0.5 } as const;
    expect(verdictLine(verdict, unitOf("h"))).toContain("margin less than 0.01\u00a0h short");
    expect(verdictLine({ ...verdict, margin: -3600 }, unitOf("h"))).toContain("margin −1\u00a0h");
  });
});
