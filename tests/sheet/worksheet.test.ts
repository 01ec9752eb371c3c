/** The worksheet API through its public door: what calls give, show, remember and refuse. */
import { inspect } from "node:util";
import { describe, expect, it } from "vitest";
import { WorkingsError } from "../../lib/quantity/error";
import { E24 } from "../../lib/sheet/series";
import { kohm, mA, mW, ohm, volt } from "../../lib/units";
import { analysis, anewForEachTest, displays, givens, last, node, plain, resistor, sheet, shown } from "./lamp-sheet";

anewForEachTest();

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
