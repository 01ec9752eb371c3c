/**
 * The worst case of every law with up to six givens, of the library and of the demo's worksheet, against brute force: a
 * grid over the limits of its givens, evaluated by the scalar evaluator that shares no code with the analysis.
 */
import { join, resolve } from "node:path";
import { describe, expect, it } from "vitest";
import { Evaluation } from "../../lib/analysis/evaluation";
import { evaluate } from "../../lib/formula/evaluate";
import type { Expression } from "../../lib/formula/expression";
import type { AnyFormula } from "../../lib/formula/formula";
import { symbolsOf } from "../../lib/formula/symbols";
import { Graph } from "../../lib/graph/graph";
import type { FormulaNode, GivenNode, GraphNode } from "../../lib/graph/node";
import { readNotebook } from "../../lib/kernel/notebook";
import * as physics from "../../lib/physics";
import { storedDisplays } from "../../lib/sheet/stored";
import { inFull } from "../full";

interface Law {
  readonly name: string;
  readonly expression: Expression;
  readonly dimension: string;
  readonly unit: string;
  /** Nominal value, dimension and unit of each symbol. */
  readonly arguments: Readonly<Record<string, { readonly nominal: number; readonly dimension: string; readonly unit: string }>>;
}

const most = 6;

/** Values in the stated units where the usual ones are none that the law is for: contacts further apart than they are wide, an exchange rate clear of 0 dB, times apart. */
const chosen: Readonly<Record<string, Readonly<Record<string, number>>>> = {
  "board.spreadingResistance": { s: 10, r: 0.5 },
  "board.spreadingInductance": { s: 10, r: 0.5 },
  "board.viaPairInductance": { s: 2, d: 0.3 },
  "enclosure.creepModulusBetween": { E_1: 2, E_2: 1.5, t: 100, t_1: 1, t_2: 1000 },
  "hearing.permittedTime": { p: 88, p_c: 85, q: 5 },
};

/** Laws of the physics modules at values in the middle of their range of validity, or near one in the stated unit. */
const library: Law[] = Object.entries(physics).flatMap(([subject, laws]) =>
  Object.entries(laws as Readonly<Record<string, unknown>>).flatMap(([name, law]): Law[] => {
    if (typeof law !== "object" || law === null || !("expression" in law)) return [];
    const formula = law as AnyFormula;
    if (formula.numerical !== undefined || Object.keys(formula.arguments).length > most) return [];
    const values = Object.entries(formula.arguments).map(([symbol, unit], index) => {
      const limit = formula.valid.find((valid) => valid.symbol === symbol);
      const bounded = limit !== undefined && Number.isFinite(limit.low) && Number.isFinite(limit.high);
      const own = chosen[`${subject}.${name}`]?.[symbol];
      const nominal = own !== undefined ? unit.toSI(own) : bounded ? (limit.low + limit.high) / 2 : unit.toSI(1 + 0.37 * index);
      return [symbol, { nominal, dimension: unit.dimension.key, unit: unit.symbol }] as const;
    });
    return [
      {
        name: `${subject}.${name}`,
        expression: formula.expression,
        dimension: formula.result.dimension.key,
        unit: formula.result.symbol,
        arguments: Object.fromEntries(values),
      },
    ];
  }),
);

/** The formulas that the demo's worksheet uses, at the values it uses them with. */
function worksheetLaws(): Law[] {
  const displays = storedDisplays(readNotebook(join(resolve(__dirname, "../.."), "notebooks/03-indicators.ipynb")), "indicators").map(
    ({ display }) => display,
  );
  const graph = Graph.from(displays.flatMap(({ nodes }) => nodes));
  const evaluation = new Evaluation(graph);
  const formulas = graph
    .nodes()
    .filter((node): node is FormulaNode => node.kind === "formula" && Object.keys(node.arguments).length <= most);
  return formulas.map(({ id, expression, dimension, unit, arguments: args }) => ({
    name: id,
    expression,
    dimension,
    unit,
    arguments: Object.fromEntries(
      Object.entries(args).map(([symbol, node]) => {
        const source = graph.get(node);
        return [symbol, { nominal: evaluation.nominal(node), dimension: source.dimension, unit: source.unit }];
      }),
    ),
  }));
}

const share = 0.3;
const limits = (nominal: number) =>
  nominal === 0 ? ([-1, 1] as const) : ([nominal - share * Math.abs(nominal), nominal + share * Math.abs(nominal)] as const);

function given(symbol: string, nominal: number, dimension: string, unit: string): GivenNode {
  const [low, high] = limits(nominal);
  return {
    kind: "given",
    id: symbol,
    path: symbol,
    dimension,
    unit,
    text: "",
    nominal,
    spread: { kind: "rectangular", low, high },
    provenance: { source: "test" },
  };
}

/** Extremes over a grid that holds the corners and the middle. */
function bruteForce(law: Law): readonly [number, number] {
  const symbols = symbolsOf(law.expression);
  const steps = symbols.length <= 3 ? inFull(21, 11) : symbols.length <= 4 ? inFull(11, 5) : inFull(5, 3);
  const axes = symbols.map((symbol) => {
    const [low, high] = limits(law.arguments[symbol]?.nominal ?? Number.NaN);
    return Array.from({ length: steps }, (_, i) => low + ((high - low) * i) / (steps - 1));
  });
  let [least, largest] = [Infinity, -Infinity];
  for (let index = 0; index < steps ** symbols.length; index++) {
    const values: Record<string, number> = {};
    for (let axis = 0, rest = index; axis < symbols.length; axis++, rest = Math.floor(rest / steps))
      values[symbols[axis] ?? ""] = axes[axis]?.[rest % steps] ?? Number.NaN;
    const value = evaluate(law.expression, values);
    least = Math.min(least, value);
    largest = Math.max(largest, value);
  }
  return [least, largest];
}

describe("the worst case", () => {
  const laws = [...library, ...worksheetLaws()];

  it("is tried on the laws of the library and of the worksheet", () => {
    expect(library.length).toBeGreaterThanOrEqual(12);
    expect(laws.length).toBeGreaterThanOrEqual(40);
  });

  it.each(laws)("of $name is no narrower than a grid, and no wider than the law allows", (law) => {
    const nodes: GraphNode[] = Object.entries(law.arguments).map(([symbol, { nominal, dimension, unit }]) =>
      given(symbol, nominal, dimension, unit),
    );
    const result: FormulaNode = {
      kind: "formula",
      id: "result",
      dimension: law.dimension,
      unit: law.unit,
      text: "",
      expression: law.expression,
      arguments: Object.fromEntries(symbolsOf(law.expression).map((symbol) => [symbol, symbol])),
    };
    const { worst } = new Evaluation(Graph.from([...nodes, result]), { samples: 100 }).analysis("result");
    const [least, largest] = bruteForce(law);
    const slack = 1e-9 * (largest - least);
    expect(worst?.low).toBeLessThanOrEqual(least + slack);
    expect(worst?.high).toBeGreaterThanOrEqual(largest - slack);
    // Each extreme is reached: the law evaluated where the worst case says it lies gives it.
    const reached = (at: Readonly<Record<string, number>> = {}) =>
      evaluate(
        law.expression,
        Object.fromEntries(Object.entries(law.arguments).map(([symbol, { nominal }]) => [symbol, at[symbol] ?? nominal])),
      );
    expect(reached(worst?.lowAt)).toBeCloseTo(worst?.low ?? Number.NaN, 9);
    expect(reached(worst?.highAt)).toBeCloseTo(worst?.high ?? Number.NaN, 9);
  });
});
