import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { Evaluation } from "../../lib/analysis/evaluation";
import { moments, quantile } from "../../lib/analysis/quantile";
import type { Analysis } from "../../lib/analysis/result";
import { Graph } from "../../lib/graph/graph";
import type { GraphNode } from "../../lib/graph/node";
import type { Spread } from "../../lib/quantity/spread";
import { exact, formula, given, normal, range, tolerant, within } from "../graph/nodes";
import { correlated } from "./correlated";

interface Row {
  readonly id: string;
  readonly expected: Record<string, string>;
  readonly tolerance_abs?: Record<string, string>;
  readonly tolerance_rel?: number;
  readonly inputs: Record<string, string>;
  readonly source: string;
}

const rows: Row[] = JSON.parse(readFileSync(new URL("../checks/uncertainty.json", import.meta.url), "utf8"));

const checked = new Set<string>();

/** Compares in the units of the row, and prints what was compared. */
function check(id: string, found: Record<string, number>): void {
  const row = rows.find((other) => other.id === id);
  if (row === undefined) throw new Error(`no row ${id}`);
  for (const [name, value] of Object.entries(found)) {
    const expected = Number.parseFloat(row.expected[name] as string);
    const tolerance =
      row.tolerance_abs?.[name] === undefined
        ? (row.tolerance_rel ?? 0) * Math.abs(expected)
        : Number.parseFloat(row.tolerance_abs[name] as string);
    checked.add(id);
    console.log(`${id} ${name}: expected ${row.expected[name]}, got ${value}, tolerance ${tolerance} (${row.source})`);
    expect(Math.abs(value - expected), `${id} ${name}: ${value} against ${expected}`).toBeLessThanOrEqual(tolerance);
  }
}

/** `5.007, 4.994 V` in its own unit. */
const numbers = (text: string | undefined): number[] => (text ?? "").split(",").map((part) => Number.parseFloat(part));

const evaluate = (nodes: GraphNode[], samples: number): Evaluation => new Evaluation(Graph.from(nodes), { samples });
const four = (spread: Spread): GraphNode[] => ["x1", "x2", "x3", "x4"].map((id) => given(id, 0, spread));

describe("published uncertainty evaluations", () => {
  it("JCGM 100 H.1: end gauge, to first order (mm, nm)", () => {
    const nodes = [
      given("l_S", 50.000623, normal(25e-6)),
      given("d", 215e-6),
      given("d1", 0, normal(5.8e-6)),
      given("d2", 0, normal(3.9e-6)),
      given("d3", 0, normal(6.7e-6)),
      given("alpha_S", 11.5e-6, within(9.5e-6, 13.5e-6)),
      given("theta", -0.1, normal(0.41)),
      given("d_alpha", 0, within(-1e-6, 1e-6)),
      given("d_theta", 0, within(-0.05, 0.05)),
      formula("l", "l_S + d + d1 + d2 + d3 - l_S*(d_alpha*theta + alpha_S*d_theta)"),
    ];
    const { nominal, standardUncertainty, contributions, warnings } = evaluate(nodes, 10_000).analysis("l");
    check("uncertainty-01", { l: nominal, u_c: standardUncertainty * 1e6 });
    expect(contributions.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 12);
    expect(contributions[0]?.given).toBe("l_S");
    expect(warnings).toEqual([]);
  });

  it("JCGM 100 H.1: its effective degrees of freedom and expanded uncertainty", () => {
    const nodes = [
      given("l_S", 50.000623, { ...normal(25e-6), freedom: 18 }),
      given("d", 215e-6, { ...normal(5.8e-6), freedom: 24 }),
      given("d1", 0, { ...normal(3.9e-6), freedom: 5 }),
      given("d2", 0, { ...normal(6.7e-6), freedom: 8 }),
      given("alpha_S", 11.5e-6, within(9.5e-6, 13.5e-6)),
      given("theta", -0.1, normal(0.41)),
      given("d_alpha", 0, { kind: "rectangular", low: -1e-6, high: 1e-6, freedom: 50 }),
      given("d_theta", 0, { kind: "rectangular", low: -0.05, high: 0.05, freedom: 2 }),
      formula("l", "l_S + d + d1 + d2 - l_S*(d_alpha*theta + alpha_S*d_theta)"),
    ];
    const evaluation = evaluate(nodes, 100_000);
    const { uncertainty, coverage, freedom } = evaluation.expanded("l", 0.99);
    // Published: ν_eff = 16.7, t_99(16) = 2.92, U_99 = 93 nm (from the rounded u_c of 32 nm).
    expect(freedom).toBeCloseTo(16.7, 0);
    expect(coverage).toBeCloseTo(2.92, 2);
    expect(Math.abs(uncertainty * 1e6 - 93)).toBeLessThan(1);
    const { expanded, warnings } = evaluation.analysis("l");
    expect(expanded).toEqual(evaluation.expanded("l"));
    expect(warnings).toEqual([]);
  });

  it("JCGM 100 H.2: resistance and reactance of an impedance from correlated means of five readings", () => {
    const { inputs } = rows.find(({ id }) => id === "uncertainty-03") as Row;
    const readings = [numbers(inputs.V), numbers(inputs.I).map((mA) => mA / 1000), numbers(inputs.phi)];
    const means = readings.map((values) => values.reduce((sum, x) => sum + x, 0) / values.length);
    const covariance = readings.map((a, i) =>
      readings.map((b, j) => {
        const [x, y] = [means[i] as number, means[j] as number];
        return a.reduce((sum, value, k) => sum + (value - x) * ((b[k] as number) - y), 0) / 20;
      }),
    );
    const u = covariance.map((row, i) => Math.sqrt(row[i] as number));
    const matrix = covariance.map((row, i) => row.map((s, j) => (i === j ? 1 : s / ((u[i] as number) * (u[j] as number)))));
    // Published correlations of the means, H.2 table H.2.
    expect([matrix[0]?.[1], matrix[0]?.[2], matrix[1]?.[2]].map((r) => Math.round((r as number) * 100))).toEqual([-36, 86, -65]);
    const inputsOf = (freedom: object) =>
      ["V", "I", "phi"].map((id, i) => given(id, means[i] as number, { ...normal(u[i] as number), ...freedom }));
    const laws = [formula("R", "V/I*cos(phi)"), formula("X", "V/I*sin(phi)"), formula("Z", "V/I")];
    const evaluation = evaluate([...correlated(inputsOf({}), matrix), ...laws], 100_000);
    const [R, X, Z] = ["R", "X", "Z"].map((id) => evaluation.analysis(id)) as [Analysis, Analysis, Analysis];
    check("uncertainty-03", {
      R: R.nominal,
      X: X.nominal,
      Z: Z.nominal,
      u_R: R.standardUncertainty,
      u_X: X.standardUncertainty,
      u_Z: Z.standardUncertainty,
    });
    for (const { node, standardUncertainty, contributions } of [R, X, Z]) {
      expect(moments(evaluation.column(node)).deviation / standardUncertainty).toBeCloseTo(1, 2);
      expect(contributions.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 10);
    }
    // Correlated readings of one sitting count as one input: ν_eff is their own.
    const readingsWith = evaluate([...correlated(inputsOf({ freedom: 4 }), matrix), ...laws], 1000);
    expect(readingsWith.expanded("R").freedom).toBeCloseTo(4, 9);
  });

  it("JCGM 101 9.2.2: sum of four normals", () => {
    const evaluation = evaluate([...four(normal(1)), formula("y", "x1 + x2 + x3 + x4")], 1_000_000);
    const { mean, deviation } = moments(evaluation.column("y"));
    const interval = evaluation.intervalAt("y", {});
    check("uncertainty-05", { y: mean, u: deviation, low: interval.low, high: interval.high });
    expect(evaluation.analysis("y").standardUncertainty).toBeCloseTo(2, 12);
  });

  it("JCGM 101 9.2.3: sum of four rectangular quantities", () => {
    const evaluation = evaluate([...four(within(-Math.sqrt(3), Math.sqrt(3))), formula("y", "x1 + x2 + x3 + x4")], 1_000_000);
    const interval = evaluation.intervalAt("y", {});
    check("uncertainty-06", { u: moments(evaluation.column("y")).deviation, low: interval.low, high: interval.high });
  });

  it("JCGM 101 9.3: mass calibration, where first order misses a product and says so", () => {
    const nodes = [
      given("m_Rc", 100_000, normal(0.05)),
      given("dm_Rc", 1.234, normal(0.02)),
      given("rho_a", 1.2, within(1.1, 1.3)),
      given("rho_W", 8000, within(7000, 9000)),
      given("rho_R", 8000, within(7950, 8050)),
      given("m_nom", 100_000),
      formula("dm", "(m_Rc + dm_Rc)*(1 + (rho_a - 1.2)*(1/rho_W - 1/rho_R)) - m_nom"),
    ];
    const evaluation = evaluate(nodes, 200_000);
    const { nominal, standardUncertainty, warnings } = evaluation.analysis("dm");
    const { mean, deviation } = moments(evaluation.column("dm"));
    check("uncertainty-08", { y_first_order: nominal, u_first_order: standardUncertainty, y_mc: mean, u_mc: deviation });
    expect(warnings).toHaveLength(1);
    expect(warnings[0]).toContain("29 % smaller than by sampling");
  });

  it("JCGM 101 9.4: comparison loss at and near its stationary point", () => {
    const loss = (x1: number): GraphNode[] => [given("x1", x1, normal(0.005)), given("x2", 0, normal(0.005)), formula("y", "x1^2 + x2^2")];
    const stationary = evaluate(loss(0), 1_000_000);
    const { mean, deviation } = moments(stationary.column("y"));
    const shortest = stationary.shortestInterval("y");
    check("uncertainty-10", {
      y_true: mean,
      u_true: deviation,
      u_first_order: stationary.analysis("y").standardUncertainty,
      low: shortest.low,
      high: shortest.high,
    });
    const near = evaluate(loss(0.01), 1_000_000);
    const moved = moments(near.column("y"));
    check("uncertainty-11", {
      y_true: moved.mean,
      u_true: moved.deviation,
      y_first_order: near.nominal("y"),
      u_first_order: near.analysis("y").standardUncertainty,
    });
    expect(stationary.analysis("y").warnings[0]).toContain("100 % smaller");
  });

  it("the product of two rectangular quantities", () => {
    const evaluation = evaluate([given("a", 0.5, within(0, 1)), given("b", 0.5, within(0, 1)), formula("y", "a*b")], 1_000_000);
    const { mean, deviation } = moments(evaluation.column("y"));
    check("uncertainty-13", { mean, u: deviation, median: quantile(evaluation.column("y"), 0.5) });
  });

  it("the worst case of x·(1 − x), whose maximum lies inside", () => {
    const { worst } = evaluate([given("x", 0.5, range(0.2, 0.9)), formula("y", "x*(1 - x)")], 100).analysis("y");
    const corners = [0.2, 0.9].map((x) => x * (1 - x));
    check("uncertainty-15", {
      corner_min: Math.min(...corners),
      corner_max: Math.max(...corners),
      true_min: worst?.low as number,
      true_max: worst?.high as number,
    });
    expect(worst?.highAt.x).toBeCloseTo(0.5, 5);
  });

  it("JCGM 100 4.3.7: a divider of two 1 % resistors", () => {
    const { nominal, worst, standardUncertainty } = evaluate(
      [given("V", 5, exact), tolerant("R1", 1e4, 0.01), tolerant("R2", 1e4, 0.01), formula("y", "V*R2/(R1 + R2)")],
      100,
    ).analysis("y");
    check("uncertainty-17", { V_nom: nominal, V_min: worst?.low as number, V_max: worst?.high as number, u: standardUncertainty });
  });

  it("JCGM 100 5.2.2: ten resistors with one common calibration add linearly, with ten of their own in quadrature", () => {
    const sum = Array.from({ length: 10 }, (_, k) => `R${k}`).join(" + ");
    const parts = (standard: (k: number) => string): GraphNode[] =>
      Array.from({ length: 10 }, (_, k) => formula(`R${k}`, "1000 + s", { s: standard(k) }));
    const common = evaluate([given("s", 0, normal(0.1)), ...parts(() => "s"), formula("y", sum)], 100).analysis("y");
    const own = evaluate(
      [...Array.from({ length: 10 }, (_, k) => given(`s#${k}`, 0, normal(0.1))), ...parts((k) => `s#${k}`), formula("y", sum)],
      100,
    ).analysis("y");
    check("uncertainty-18", {
      R_total: common.nominal,
      u_correlated: common.standardUncertainty,
      u_if_independent: own.standardUncertainty,
    });
    const parts10 = Array.from({ length: 10 }, (_, k) => given(`R${k}`, 1000, normal(0.1)));
    const matrix = parts10.map(() => parts10.map(() => 1));
    const stated = evaluate([...correlated(parts10, matrix), formula("y", sum)], 1000);
    check("uncertainty-18", { R_total: stated.nominal("y"), u_correlated: stated.analysis("y").standardUncertainty });
  });

  it("are all rows of the table", () => {
    expect([...checked].sort()).toEqual(rows.map(({ id }) => id).sort());
  });
});
