/** The worksheet API through its public door: what calls give, show, remember and refuse. */
import { inspect } from "node:util";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { readDesign } from "../../lib/design/read";
import { formula } from "../../lib/formula/formula";
import type { GraphNode } from "../../lib/graph/node";
import { WorkingsError } from "../../lib/quantity/error";
import type { Quantity, Unit } from "../../lib/quantity/quantity";
import type { BlockOf, Display } from "../../lib/sheet/block";
import { type Assessment, assessDecision } from "../../lib/sheet/decision";
import { E24 } from "../../lib/sheet/series";
import { Session } from "../../lib/sheet/session";
import { storedDisplay } from "../../lib/sheet/stored";
import { Worksheet } from "../../lib/sheet/worksheet";
import { kohm, mA, mW, ohm, volt } from "../../lib/units";

const designText = `
product: { name: Lamp, revision: "1" }
sources: { own: { type: document, title: Made up for this test } }
requirements:
  cool: { statement: Stays cool., limit: "<= 20 mW", judged: worst case, source: own }
  bright: { statement: Is bright., limit: ">= 1.7 mA", judged: 95 %, source: own }
decisions:
  lamp: { rail: { chosen: high, reason: it is there, reconsider: never } }
givens:
  low: { value: 3.0 V ±2 %, meaning: the low rail, source: own }
  high: { value: 5.0 V ±2 %, meaning: the high rail, source: own }
  room: { value: 2 V in 1 V to 3 V, meaning: a condition of use, source: own }
  forward: { value: 2.85 V ±0.12 V, meaning: forward voltage, source: own }
  current: { value: 2 mA, meaning: current wanted, source: own }
  part: { value: ±1 %, meaning: tolerance of a part, source: own }
  iv:
    meaning: current against voltage
    source: own
    table: { columns: [voltage in V, current in mA], interpolation: linear, rows: [[2, 0], [3, 2], [4, 6]] }
`;

const sinkKey = Symbol.for("workings.display");
const cellKey = Symbol.for("workings.cell");
const shared = globalThis as Record<symbol, unknown>;

let shown: { readonly data: Readonly<Record<string, unknown>> }[] = [];
let sheet: Worksheet;

beforeEach(() => {
  shown = [];
  shared[sinkKey] = (message: (typeof shown)[number]) => shown.push(message);
  sheet = new Worksheet(new Session("lamp", readDesign(designText, "design.yaml")));
});
afterEach(() => {
  delete shared[sinkKey];
  delete shared[cellKey];
});

const displays = () => shown.map((output) => storedDisplay(JSON.parse(JSON.stringify(output)), "lamp", 1)?.display as Display);
const last = () => displays().at(-1) as Display;
const plain = () => String(shown.at(-1)?.data["text/plain"]);
const loose = <T>(value: unknown) => value as T;
const node = <K extends GraphNode["kind"]>(id: string, kind: K) => {
  const found = sheet.session.node(id);
  expect(found.kind).toBe(kind);
  return found as Extract<GraphNode, { kind: K }>;
};
const givens = () => sheet.given({ V_s: ["high", volt], V_f: ["forward", volt], I: ["current", mA] });
const resistor = () => sheet.derive("R = (V_s - V_f)/I", givens(), ohm, "series resistor");
const analysis = (quantity: Quantity<any>) => sheet.session.evaluation.analysis(sheet.session.enter(quantity));

describe("given", () => {
  it("gives quantities in the unit asked for and shows path, value and source", () => {
    const { I } = givens();
    expect(I.in(mA)).toBeCloseTo(2, 12);
    expect(last().block).toEqual({
      type: "givens",
      rows: [
        { symbol: "V_s", node: "givens.high" },
        { symbol: "V_f", node: "givens.forward" },
        { symbol: "I", node: "givens.current" },
      ],
    });
    expect(plain()).toContain("V_s = 5.0 V ±2 %  the high rail [own]");
  });

  it("stores no place, so that a line added to the design file changes no output", () => {
    givens();
    expect(JSON.stringify(last())).not.toContain("design.yaml");
  });

  it("gives a table as a curve", () => {
    const { iv } = sheet.given({ iv: ["iv", volt, mA] });
    expect(iv.at(volt(2.5)).in(mA)).toBeCloseTo(1, 12);
    expect(iv.crossing(mA(4)).in(volt)).toBeCloseTo(3.5, 12);
    expect(iv.maximum().in(mA)).toBeCloseTo(6, 12);
    expect(iv.integral().in(mW)).toBeCloseTo(5, 12);
  });

  it("refuses a table for a quantity and the reverse, naming line and column", () => {
    expect(() => sheet.given({ iv: ["iv", volt] })).toThrow(/^lamp: design\.yaml:\d+:\d+: iv is a table; give the units of both columns/);
    expect(() => sheet.given({ V: ["high", volt, mA] })).toThrow(/^lamp: design\.yaml:\d+:\d+: high is a single quantity/);
  });
});

describe("derive", () => {
  it("shows the law, the law with numbers, and the result with its spread", () => {
    const R = resistor();
    expect(R.in(ohm)).toBeCloseTo(1075, 9);
    const { block, nodes } = last();
    expect(block).toMatchObject({ type: "result", node: "lamp.R", law: String.raw`\frac{V_{\mathrm{s}} - V_{\mathrm{f}}}{I}` });
    expect(nodes.map(({ id }) => id)).toEqual(["lamp.R"]);
    expect(sheet.session.evaluation.analysis("lamp.R").worst?.low).toBeCloseTo(965, 9);
    expect(plain()).toMatch(/series resistor\nR = \(V_s - V_f\)\/I\n {4}= 1\.07\d*\u00a0kΩ, worst case/);
    expect(shown.at(-1)?.data["text/latex"]).toContain(String.raw`\frac{5\,\mathrm{V} - 2.85\,\mathrm{V}}{2\,\mathrm{mA}}`);
  });

  it("asks for a name and refuses what is no law", () => {
    expect(() => sheet.derive("V_s/I" as string, givens(), ohm, "resistance")).toThrow(
      '"V_s/I": the result has no name; begin with one, as in R = V_s/I',
    );
    expect(() => sheet.derive("R = V_s + I" as string as "R = V_s/I", givens(), ohm, "nonsense")).toThrow(
      "cannot add V_s (voltage) and I (current)",
    );
  });
});

describe("a call whose mistake the compiler cannot see", () => {
  // Quantities of unknown dimension pass the compiler, so these are refused at run time, in the compiler's words.
  const unseen = (): Record<"V_s" | "V_f" | "I", Quantity<any>> => givens();
  const resistorLaw = formula("R = (V_s - V_f)/I", { V_s: volt, V_f: volt, I: mA }, ohm, { meaning: "series resistor", source: "Ohm" });
  const curve = () => sheet.given({ iv: ["iv", volt, mA] }).iv;
  const rail = () =>
    sheet.alternatives("rail", { low: { label: "low" }, high: { label: "high" } }, (_, name) => ({
      V: sheet.given({ V: [name, volt] }).V,
    }));

  it.each<[string, () => unknown, string]>([
    [
      "an argument of a formula",
      () => sheet.derive(resistorLaw, { ...unseen(), V_s: unseen().I }, ohm),
      "V_s must be voltage, got current",
    ],
    [
      "a number",
      () => sheet.derive(resistorLaw, { ...unseen(), V_s: loose<Quantity<any>>(5) }, ohm),
      "V_s must be voltage, got no quantity",
    ],
    [
      "an argument left out",
      () => sheet.derive(resistorLaw, loose<ReturnType<typeof unseen>>({ V_s: unseen().V_s }), ohm),
      "V_f is missing: voltage",
    ],
    [
      "no arguments",
      () => sheet.derive(resistorLaw, loose<ReturnType<typeof unseen>>(undefined), ohm),
      "derive takes the quantities of the law by symbol",
    ],
    ["a unit", () => sheet.derive(resistorLaw, unseen(), loose<Unit<any>>(volt)), "the law gives resistance, not voltage"],
    ["no law", () => sheet.derive(loose<string>(5), unseen(), ohm, "nonsense"), "derive takes the text of a law, a formula or a model"],
    [
      "a given without a unit",
      () => sheet.given({ V: loose<[string, Unit<any>]>(["high"]) }),
      "V must be [path, unit], or [path, unit, unit] for a table",
    ],
    ["the end of a sweep", () => sheet.sweep(resistor(), unseen().V_s, { from: unseen().I }), "from must be voltage, got current"],
    ["an abscissa", () => curve().at(unseen().I), "the abscissa must be voltage, got current"],
    ["an ordinate", () => curve().crossing(unseen().V_s), "the ordinate must be current, got voltage"],
    [
      "a criterion",
      () =>
        sheet.decide(
          rail(),
          loose<Parameters<typeof sheet.decide>[1]>({ question: "which", criteria: { X: { label: "x", better: "lower" } } }),
        ),
      "the alternatives give no quantity 'X'",
    ],
    [
      "an axis",
      () =>
        sheet.plot({
          name: "p",
          caption: "c",
          x: { label: "U", unit: mA },
          y: { label: "I", unit: mA },
          series: [{ label: "lamp", curve: curve() }],
        }),
      'plot "p": lamp must be current on the x axis, got voltage',
    ],
    [
      "a bar",
      () => sheet.plot({ name: "p", caption: "c", x: { label: "U", unit: mA }, spreads: { high: unseen().V_s } }),
      'plot "p": high must be current on the x axis, got voltage',
    ],
    [
      "a symbol of a text that stands for no quantity",
      () => sheet.derive("X = V*2", { V: 5 as unknown as Quantity<any> }, volt, "nonsense"),
      '"X = V*2": ✗ V is no quantity',
    ],
    [
      "a quantity for all arguments",
      () => sheet.derive("X = V*2" as string, unseen().V_s as any, volt, "nonsense"),
      "lamp: derive takes the quantities of the law by symbol, as in { V: V, I: I }",
    ],
    [
      "a member whose results are not returned",
      () => sheet.each("led", { red: 1 }, (): any => undefined),
      "lamp: led[red]: return the results by name, as in { R: R }",
    ],
    [
      "a member with a curve among its results",
      () => sheet.each("led", { red: 1 }, (): any => ({ V: unseen().V_s, iv: curve() })),
      "lamp: led[red]: iv must be a quantity, or quantities by name",
    ],
    [
      "an alternative without a label",
      () => sheet.alternatives("rail", { a: { label: "A" }, b: {} as any }, () => ({ V: unseen().V_s })),
      "lamp: rail[b]: an alternative needs a label",
    ],
    ["a result taken without its unit", () => sheet.take({ R: ["other.R"] as any }), "lamp: R must be [sheet.name, unit]"],
  ])("is refused for %s", (_, call, sentence) => {
    expect(call).toThrow(sentence);
  });
});

describe("arithmetic outside a formula", () => {
  it("keeps the lineage, so that x − x is exactly zero", () => {
    const R = resistor();
    expect(analysis(R.minus(R)).worst ?? { low: 0, high: 0 }).toMatchObject({ low: 0, high: 0 });
    expect(analysis(R.mul(2)).worst?.low).toBeCloseTo(1930, 9);
    expect(analysis(R.mul(2)).worst?.high).toBeCloseTo(2370, 9);
  });

  it("gives equal work equal names, whatever the order of cells", () => {
    const R = resistor();
    expect(sheet.session.enter(R.mul(2))).toBe(sheet.session.enter(R.mul(2)));
  });
});

describe("a number read out of the graph", () => {
  it("leaves a quantity made from a bare number before it alone", () => {
    const made = kohm(1);
    const sum = resistor().plus(made);
    expect(analysis(sum).frozen).toBe(false);
    expect(node(sheet.session.enter(made), "constant").value).toBe(1000);
  });

  it("is not one that the last line of a cell has merely shown", () => {
    expect(inspect(resistor())).toContain("kΩ");
    expect(node(sheet.session.enter(kohm(1)), "constant").value).toBe(1000);
  });

  it("freezes what is made from a bare number afterwards, and says so", () => {
    const R = resistor();
    const copy = ohm(R.in(ohm));
    const twice = sheet.derive("T = R + C", { R, C: copy }, ohm, "twice the resistor, half of it frozen");
    expect(node(sheet.session.enter(copy), "frozen").reads).toContain("lamp.R");
    expect(analysis(twice)).toMatchObject({ frozen: true, worst: { low: 2040, high: 2260 } });
    expect(plain()).toContain("frozen: follows a number that was read out");
  });
});

describe("select", () => {
  it("takes the preferred value with the tolerance of its own part", () => {
    const R = sheet.select(resistor(), E24, "part");
    expect(R.in(kohm)).toBeCloseTo(1.1, 12);
    expect(node("lamp.R.E24", "select").deviation).toBe("givens.part#lamp.R.E24");
    expect(analysis(R).worst).toMatchObject({ low: 1089, high: 1111 });
  });

  it("takes two preferred values in series, each with a tolerance of its own", () => {
    const { larger, smaller, together } = sheet.selectPair(resistor(), E24, "series", "part");
    expect([larger, smaller].map((R) => R.in(ohm))).toEqual([1000, 75].map((value) => expect.closeTo(value, 9)));
    expect(together.in(ohm)).toBeCloseTo(1075, 9);
    expect(plain().replace(/\u00a0/g, " ")).toBe("R_E24 = 1.075 kΩ, made by 1 kΩ and 75 Ω in series, for 1.075 kΩ");
    expect(node("lamp.R.E24.smaller", "select").deviation).toBe("givens.part#lamp.R.E24.smaller");
    expect(analysis(together).worst).toMatchObject({ low: expect.closeTo(1075 * 0.99, 9), high: expect.closeTo(1075 * 1.01, 9) });
    expect(analysis(together).standardUncertainty).toBeCloseTo(Math.hypot(1000, 75) * (0.01 / Math.sqrt(3)), 6);
  });

  it("takes two preferred values in parallel that are not below what is wanted", () => {
    const { larger, smaller, together } = sheet.selectPair(resistor(), E24, "parallel", "part", { rule: "not below" });
    expect(together.in(ohm)).toBeGreaterThanOrEqual(1075);
    expect(1 / together.in(ohm)).toBeCloseTo(1 / larger.in(ohm) + 1 / smaller.in(ohm), 12);
  });

  it("refuses a given that is no tolerance", () => {
    expect(() => sheet.select(resistor(), E24, "high")).toThrow(/high should be the tolerance of a part, as in "±1 %"/);
  });
});

describe("setOnce", () => {
  /** Against a threshold that stands in the code, the rail of each unit as it is. */
  const margin = () => {
    const { V_s, V_f, I } = givens();
    const threshold = sheet.setOnce(sheet.derive("V_t = V_s/2", { V_s }, volt, "threshold"));
    return { V_s, V_f, I, threshold, left: sheet.derive("U = V_s - V_t", { V_s, V_t: threshold }, volt, "above the threshold") };
  };

  it("is the same in every unit: exact in the worst case, no part of what is not set", () => {
    const { threshold, left } = margin();
    expect(analysis(threshold)).toMatchObject({ nominal: 2.5, worst: null, interval: null });
    expect(analysis(left).worst).toMatchObject({ low: expect.closeTo(4.9 - 2.5, 12), high: expect.closeTo(5.1 - 2.5, 12) });
    // Of a threshold that followed its unit it would be half of that.
    expect(analysis(left).contributions).toMatchObject([{ given: "givens.high", share: 1, sensitivity: expect.closeTo(1, 9) }]);
    expect(analysis(left).interval?.high).toBeGreaterThan(2.59);
  });

  it("says so in its line, and in the words of its meaning", () => {
    margin();
    expect(displays().map(({ block }) => block.type)).toContain("select");
    expect(shown.map(({ data }) => String(data["text/plain"]).replace(/\u00a0/g, " "))).toContain(
      "V_t_set = 2.5 V, set once, the same in every unit, from 2.5 V",
    );
    expect(node("lamp.V_t.set", "set-once")).toMatchObject({ of: "lamp.V_t", meaning: "threshold, set once" });
  });

  it("follows nominal inputs, and along a sweep of them", () => {
    const { V_s, threshold } = margin();
    const changed = sheet.session.evaluation.withChanges({ givens: { high: { text: "6 V", nominal: 6, spread: { kind: "exact" } } } });
    expect(changed.nominal(sheet.session.enter(threshold))).toBe(3);
    expect([...sheet.session.evaluation.curve(sheet.sweep(threshold, V_s, { points: 3 }).id).y]).toEqual([2.45, 2.5, 2.55]);
  });

  it("stays along a sweep of a condition of use, and when a sensitivity moves one", () => {
    const { T } = sheet.given({ T: ["room", volt] });
    const { V_s } = givens();
    const threshold = sheet.setOnce(sheet.derive("V_t = V_s - T", { V_s, T }, volt, "threshold"));
    const left = sheet.derive("W = V_s - T - V_t", { V_s, T, V_t: threshold }, volt, "above the threshold");
    expect([...sheet.session.evaluation.curve(sheet.sweep(left, T, { points: 3 }).id).y]).toEqual(
      [1, 0, -1].map((y) => expect.closeTo(y, 12)),
    );
    const [swing] = sheet.session.evaluation.swings(sheet.session.enter(left)).filter(({ path }) => path === "room");
    expect([swing?.low.result, swing?.high.result]).toEqual([1, -1].map((y) => expect.closeTo(y, 12)));
    expect(analysis(left).worst).toMatchObject({ low: expect.closeTo(-1.1, 12), high: expect.closeTo(1.1, 12) });
  });
});

it("part: draws parts of one kind independently, where one given would cancel", () => {
  const [a, b] = [sheet.part("a", "high", volt), sheet.part("b", "high", volt)];
  expect(analysis(a.minus(b)).worst?.high).toBeCloseTo(0.2, 12);
  const { high } = sheet.given({ high: ["high", volt] });
  expect(analysis(high.minus(high)).worst?.high ?? 0).toBe(0);
});

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

describe("require", () => {
  it("holds a result against the limit and shows the verdict", () => {
    const { V_s, I } = givens();
    sheet.require(sheet.derive("P = V_s*I", { V_s, I }, mW, "power"), "cool");
    expect(last()).toMatchObject({ block: { type: "requirement", requirement: "cool" } });
    expect(plain()).toMatch(/^cool: Stays cool\.: holds \(judged by worst case: /);
    sheet.require(sheet.derive("I_R = (V_s - V_f)/R", { ...givens(), R: kohm(1.1) }, mA, "current"), "bright");
    expect(plain()).toMatch(/^bright: Is bright\.: holds for 95 % \(judged by 95 %: /);
  });

  it("refuses a result of another dimension, naming the limit's place", () => {
    expect(() => sheet.require(givens().V_s, "cool")).toThrow(
      /design\.yaml:\d+:\d+: requirement cool limits power \(in mW\); the result is voltage/,
    );
  });
});

describe("sweep", () => {
  it("runs over the given's own limits, choosing preferred values again at each point", () => {
    const { V_s, V_f, I } = givens();
    const R = sheet.select(sheet.derive("R = (V_s - V_f)/I", { V_s, V_f, I }, ohm, "resistor"), E24, "part");
    const curve = sheet.session.evaluation.curve(sheet.sweep(R, V_f, { points: 3 }).id);
    expect([...curve.x]).toEqual([2.73, 2.85, 2.97]);
    expect([...curve.y]).toEqual([1100, 1100, 1000]);
  });

  it("refuses to run over a result or over an exact given", () => {
    const { V_s, I } = givens();
    const P = sheet.derive("P = V_s*I", { V_s, I }, mW, "power");
    expect(() => sheet.sweep(P, P)).toThrow("a sweep runs over a given; P is a result");
    expect(() => sheet.sweep(P, I)).toThrow("current has no limits to sweep between");
  });
});

it("errors of a worksheet: are of one class, with the sheet in their details", () => {
  try {
    sheet.given({ V: ["hihg", volt] });
    expect.unreachable();
  } catch (error) {
    expect(error).toBeInstanceOf(WorkingsError);
    expect((error as Error).message).toContain("high");
  }
});
