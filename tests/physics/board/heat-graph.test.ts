/** Models of boards, heat and hearing as nodes of a graph: block evaluation, spreads and limits of validity are what worksheets see. */
import { describe, expect, it } from "vitest";
import { Evaluation } from "../../../lib/analysis/evaluation";
import { Graph } from "../../../lib/graph/graph";
import type { AnyModel } from "../../../lib/graph/model";
import { curveArgument } from "../../../lib/graph/model";
import type { GivenNode, GraphNode } from "../../../lib/graph/node";
import { Program } from "../../../lib/graph/program";
import { board, hearing, thermal } from "../../../lib/physics";
import type { Unit } from "../../../lib/units";
import { reference, si } from "../check-rows";

const provenance = { source: "test" };
const limits = reference("emission-limits").table("fcc-b-3m");

/** A given of a model's input, in its unit's dimension, SI. */
function given(model: { readonly inputs: object }, id: string, nominal: number, share = 0): GivenNode {
  const { dimension, symbol } = (model.inputs as Record<string, Unit<any>>)[id] as Unit<any>;
  const spread =
    share === 0
      ? ({ kind: "exact" } as const)
      : ({ kind: "rectangular", low: nominal * (1 - share), high: nominal * (1 + share) } as const);
  const unit = dimension.key === "K|temperature" ? "K" : symbol;
  return { kind: "given", id, path: id, text: `${nominal} ${unit}`, nominal, spread, unit: symbol, dimension: dimension.key, provenance };
}

type Named = Pick<AnyModel, "name" | "inputs" | "outputs">;

/** A graph of one model: givens by nominal, spreads as shares of them. */
function graphOf(
  model: Named,
  values: Readonly<Record<string, number>>,
  shares: Readonly<Record<string, number>>,
  output: string,
  table?: GraphNode,
) {
  const givens = Object.entries(values).map(([id, nominal]) => given(model, id, nominal, shares[id] ?? 0));
  const { dimension, symbol } = model.outputs[output] as Unit<any>;
  const names = [...Object.keys(values), ...(table === undefined ? [] : [table.id])];
  const node: GraphNode = {
    kind: "model",
    id: "result",
    model: model.name,
    output,
    arguments: Object.fromEntries(names.map((name) => [name, name])),
    dimension: dimension.key,
    unit: symbol,
  };
  return Graph.from([...givens, ...(table === undefined ? [] : [table]), node]);
}

describe("thermal.boxSurface in a graph", () => {
  const model = thermal.boxSurface as unknown as Named;
  const values = { a: 0.036, b: 0.014, H: 0.058, r: 0.003, k: 0.65, h_c: 0, P: 0.75, T_a: si("30 °C"), epsilon: 0.9 };
  const direct = (more: Partial<typeof values>): number => thermal.boxSurface.evaluate({ ...values, ...more }).T_s;
  const graph = graphOf(model, values, { P: 0.1, epsilon: 0.05, k: 0.1 }, "T_s");

  it("gives the nominal temperature, and every row of a block its own", () => {
    const program = Program.compile(graph, ["result"]);
    expect(program.value("result")).toBe(direct({}));
    const [column] = program.block(3, new Map([["P", Float64Array.of(0, 0.4, 1.5)]]), ["result"]);
    expect(Array.from(column as Float64Array)).toEqual([0, 0.4, 1.5].map((P) => direct({ P })));
  });

  it("has its worst case at most heat, least emissivity and least free surface", () => {
    const { worst, interval } = new Evaluation(graph, { samples: 500 }).analysis("result");
    expect(worst?.high).toBeCloseTo(direct({ P: 0.825, epsilon: 0.855, k: 0.585 }), 6);
    expect(worst?.low).toBeCloseTo(direct({ P: 0.675, epsilon: 0.945, k: 0.715 }), 6);
    expect(interval?.high).toBeLessThan(worst?.high ?? 0);
  });

  it("warns of an emissivity that no surface has", () => {
    const { warnings } = new Evaluation(graphOf(model, { ...values, epsilon: 1.2 }, {}, "T_s")).analysis("result");
    expect(warnings.join("\n")).toMatch(/epsilon/);
  });
});

describe("board.leadEmission in a graph", () => {
  const model = board.leadEmission as unknown as Named;
  const values = { f_1: 30e6, f_2: 1e9, V: 9, f_0: 1.5e6, D: 0.5, t_r: 5e-9, C: 0.05e-12, L: 1.2, d: 3, k: 2 };
  const limit = curveArgument({ x: Float64Array.from(limits.x), y: Float64Array.from(limits.y) });
  const direct = (more: Partial<typeof values>): number => board.leadEmission.evaluate({ ...values, ...more, limit }).M;
  const graph = graphOf(model, values, { C: 0.6, t_r: 0.2 }, "M", { ...limits, id: "limit", path: "limit" });

  it("gives the nominal margin, its worst case at most capacitance and the fastest edge", () => {
    expect(Program.compile(graph, ["result"]).value("result")).toBeCloseTo(direct({}), 12);
    const { worst } = new Evaluation(graph, { samples: 500 }).analysis("result");
    expect(worst?.low).toBeCloseTo(direct({ C: 0.08e-12, t_r: 4e-9 }), 6);
    expect(worst?.high).toBeCloseTo(direct({ C: 0.02e-12, t_r: 6e-9 }), 6);
  });
});

describe("board.planeCoupling and board.microstrip in a graph", () => {
  it("give the nominal values and spreads of R_sq and of the laminate", () => {
    const plane = {
      R_sq: 5e-4,
      a: 0.054,
      b: 0.03,
      r: 5e-4,
      x_1: 0.005,
      y_1: 0.005,
      x_2: 0.05,
      y_2: 0.02,
      x_3: 0.01,
      y_3: 0.02,
      x_4: 0.03,
      y_4: 0.02,
    };
    const coupled = new Evaluation(graphOf(board.planeCoupling as unknown as Named, plane, { R_sq: 0.1 }, "R_c")).analysis("result");
    const { R_c } = board.planeCoupling.evaluate(plane);
    expect(coupled.worst?.high).toBeCloseTo(1.1 * R_c, 9);
    const strip = { w: 3e-4, h: 2e-4, t: 35e-6, eps_r: 4.3 };
    const { worst } = new Evaluation(graphOf(board.microstrip as unknown as Named, strip, { w: 0.1, h: 0.1, eps_r: 0.05 }, "Z")).analysis(
      "result",
    );
    expect(worst?.low).toBeCloseTo(board.microstrip.evaluate({ ...strip, w: 3.3e-4, h: 1.8e-4, eps_r: 4.515 }).Z, 6);
  });
});

describe("hearing.listeningTimes in a graph", () => {
  it("gives the nominal time and the worst at the loudest", () => {
    const stated = reference("hearing");
    const values = {
      p: si("82 dBA"),
      p_d: stated.value("niosh-level"),
      t_d: stated.value("niosh-time"),
      q: stated.value("niosh-exchange"),
      E_w: stated.value("week-adults"),
      E_s: stated.value("week-sensitive"),
    };
    const graph = graphOf(hearing.listeningTimes as unknown as Named, values, { p: 0.2 }, "t_week");
    const { worst } = new Evaluation(graph, { samples: 500 }).analysis("result");
    expect(worst?.low).toBeCloseTo(hearing.listeningTimes.evaluate({ ...values, p: values.p * 1.2 }).t_week, 6);
  });
});
