import { describe, expect, it } from "vitest";
import type { BlockOf } from "../../lib/sheet/block";
import { type Assessment, assessDecision } from "../../lib/sheet/decision";
import { E24 } from "../../lib/sheet/series";
import { kohm, mA, mW, ohm, volt } from "../../lib/units";
import { anewForEachTest, displays, givens, last, loose, node, plain, sheet } from "./lamp-sheet";

anewForEachTest();

describe("alternatives and decide", () => {
  const rails = () => sheet.given({ low: ["low", volt], high: ["high", volt] });
  const decided = () => {
    const { low, high } = rails();
    const { V_f, I } = givens();
    const rail = sheet.alternatives("rail", { low: { label: "low rail", V: low }, high: { label: "high rail", V: high } }, ({ V }) => ({
      P: sheet.derive("P = V*I", { V, I }, mW, "power"),
      room: sheet.derive("U = V - V_f", { V, V_f }, volt, "room for the resistor"),
    }));
    return sheet.decide(rail, { question: "Which rail?", criteria: { P: { label: "power", better: "lower", requirement: "cool" } } });
  };

  it("evaluates the same names in each alternative and follows the choice of the design file", () => {
    const chosen = decided();
    expect(chosen.P.in(mW)).toBeCloseTo(10, 9);
    expect(node("lamp.rail.P", "switch").cases).toEqual({ low: "lamp.rail[low].P", high: "lamp.rail[high].P" });
    expect(last().block).toMatchObject({ type: "decision", choice: "decisions.lamp.rail", reason: "it is there", reconsider: "never" });
    expect(plain()).toMatch(/→ high rail: power/);
  });

  it("shows nothing from within an alternative but brings its nodes with the decision", () => {
    decided();
    const blocks = displays().map(({ block }) => block.type);
    expect(blocks).toEqual(["givens", "givens", "decision"]);
    expect(last().nodes.map(({ id }) => id)).toContain("lamp.rail[low].U");
  });

  /** Two rails by one criterion each time: 3 V ±2 % and 5 V ±2 %, and both less the forward voltage, which alone spreads by 0.12 V. */
  const judged = (criterion: object) => {
    const { low, high } = rails();
    const rail = sheet.alternatives("rail", { low: { label: "low rail", V: low }, high: { label: "high rail", V: high } }, ({ V }) => ({
      U: sheet.derive("U = V", { V }, volt, "voltage"),
    }));
    sheet.decide(
      rail,
      loose<Parameters<typeof sheet.decide>[1]>({ question: "Which?", criteria: { U: { label: "voltage", ...criterion } } }),
    );
    return assessDecision(last().block as BlockOf<"decision">, sheet.session.evaluation);
  };
  const dominated = ({ rows }: Assessment) => rows.filter(({ dominatedBy }) => dominatedBy !== undefined).map(({ name }) => name);

  it("compares by the distance to a target, and flags a choice that is farther", () => {
    const far = judged({ nearest: volt(3.4) });
    expect(far.rows.map(({ cells }) => cells[0]?.remark?.replace(/\u00a0/g, " "))).toEqual(["0.4 V from 3.4 V", "1.6 V from 3.4 V"]);
    expect(dominated(far)).toEqual(["high"]);
    expect(far.flags).toEqual(["The chosen alternative “high rail” is dominated by “low rail”: nowhere better, somewhere worse."]);
    expect(plain().replace(/\u00a0/g, " ")).toContain("→ high rail: voltage 5 V, 1.6 V from 3.4 V; dominated by “low rail”");
  });

  it("takes a target from the book, which then moves the comparison", () => {
    const { low } = rails();
    const block = judged({ nearest: low });
    expect(dominated(block)).toEqual(["high"]);
    const moved = sheet.session.evaluation.withChanges({ givens: { low: { text: "5 V", nominal: 5, spread: { kind: "exact" } } } });
    expect(assessDecision(last().block as BlockOf<"decision">, moved).flags).toEqual([]);
  });

  it("compares by the spread of units, or by the worst case where the limit is judged by it", () => {
    const spread = judged({ better: "smallest spread" });
    expect(spread.rows.map(({ cells }) => cells[0]?.remark)).toEqual(
      [/^95 % 2\.94\d* V to 3\.0\d+ V$/, /^95 % 4\.90\d* V to 5\.\d+ V$/].map((x) =>
        expect.stringMatching(new RegExp(x.source.replaceAll(" ", "\\s"))),
      ),
    );
    expect(dominated(spread)).toEqual(["high"]);
  });

  it("refuses a criterion that says nothing of what is best, or twice, or a target of another dimension", () => {
    expect(() => judged({})).toThrow("U: say what is best: better, or nearest");
    expect(() => judged({ better: "lower", nearest: volt(1) })).toThrow("U: say better or nearest, not both");
    expect(() => judged({ nearest: mA(1) })).toThrow("U: nearest must be voltage, got current");
    expect(() => judged({ nearest: 3 })).toThrow("U: nearest must be voltage, got no quantity");
  });

  it("quotes the label of an alternative, which may be any word", () => {
    const { low, high } = rails();
    const options = { low: { label: "none", V: low }, high: { label: "high", V: high } };
    const rail = sheet.alternatives("rail", options, ({ V }) => ({ U: sheet.derive("U = V", { V }, volt, "voltage") }));
    sheet.decide(rail, { question: "Which rail?", criteria: { U: { label: "voltage", better: "lower" } } });
    expect(plain()).toMatch(/high: voltage 5\sV; dominated by “none”$/m);
    expect(plain()).toContain("The chosen alternative “high” is dominated by “none”: nowhere better, somewhere worse.");
  });

  it("shows an alternative that cannot be built as such, beside the others", () => {
    const { low, high } = rails();
    const { V_f, I } = givens();
    const rail = sheet.alternatives(
      "rail",
      { low: { label: "low rail", V: V_f.minus(low) }, high: { label: "high rail", V: high } },
      ({ V }) => ({
        R: sheet.select(sheet.derive("R = V/I", { V, I }, ohm, "resistor"), E24, "part"),
      }),
    );
    const chosen = sheet.decide(rail, { question: "Which rail?", criteria: { R: { label: "resistor", better: "higher" } } });
    expect(chosen.R.in(kohm)).toBeCloseTo(2.4, 12);
    expect(plain()).toMatch(/low rail: resistor cannot be computed \(.*positive number/);
  });

  it("refuses a decision without alternatives, and a choice that is none of them", () => {
    const { low } = rails();
    expect(() => sheet.alternatives("rail", { low: { label: "low", V: low } }, ({ V }) => ({ V }))).toThrow(
      "rail has 1 alternative; a decision needs two or more",
    );
    const two = sheet.alternatives("rail", { a: { label: "a" }, b: { label: "b" } }, () => ({ V: low }));
    expect(() => sheet.decide(two, { question: "Which?", criteria: {} })).toThrow(
      /design\.yaml:\d+:\d+: decisions\.lamp\.rail chooses "high"; the alternatives are "a", "b"/,
    );
  });
});
