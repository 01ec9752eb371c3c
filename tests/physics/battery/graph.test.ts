/** The models of cells as nodes of a graph: block evaluation, and the analysis of a spread, are what worksheets see. */
import { describe, expect, it } from "vitest";
import { Evaluation } from "../../../lib/analysis/evaluation";
import { Graph } from "../../../lib/graph/graph";
import type { GivenNode, GraphNode, TableNode } from "../../../lib/graph/node";
import { Program } from "../../../lib/graph/program";
import { battery } from "../../../lib/physics";

const provenance = { source: "test" };
const voltage = "kg·m²·s⁻³·A⁻¹";

function given(id: string, nominal: number, unit: string, dimension: string, share = 0): GivenNode {
  const spread =
    share === 0
      ? ({ kind: "exact" } as const)
      : ({ kind: "rectangular", low: nominal * (1 - share), high: nominal * (1 + share) } as const);
  return { kind: "given", id, path: id, text: `${nominal} ${unit}`, nominal, spread, unit, dimension, provenance };
}

const ocv: TableNode = {
  kind: "table",
  id: "ocv",
  path: "ocv",
  xName: "state of charge",
  yName: "open-circuit voltage",
  xDimension: "1",
  xUnit: "1",
  dimension: voltage,
  unit: "V",
  x: [0, 0.1, 0.5, 1],
  y: [3, 3.6, 3.8, 4.2],
  interpolation: "linear",
  provenance,
};
const inputs = { P: "P", Q: "Q", R: "R", V_c: "V_c", s_0: "s_0", ocv: "ocv" };
const nodes: GraphNode[] = [
  given("P", 0.1, "W", "kg·m²·s⁻³", 0.1),
  given("Q", 1440, "C", "s·A", 0.05),
  given("R", 0.5, "Ω", "kg·m²·s⁻³·A⁻²", 0.2),
  given("V_c", 3.2, "V", voltage),
  given("s_0", 1, "1", "1"),
  ocv,
  { kind: "model", id: "t", model: battery.runtimeAtPower.name, output: "t", arguments: inputs, dimension: "s", unit: "h" },
];
const graph = Graph.from(nodes);
const table = { ...ocv, x: Float64Array.from(ocv.x), y: Float64Array.from(ocv.y), at: Number };
const direct = (P: number, Q: number, R: number): number => battery.runtimeAtPower.evaluate({ P, Q, R, V_c: 3.2, s_0: 1, ocv: table }).t;

describe("battery.runtimeAtPower in a graph", () => {
  const program = Program.compile(graph, ["t"]);

  it("gives the nominal runtime", () => {
    expect(program.value("t")).toBe(direct(0.1, 1440, 0.5));
  });

  it("gives every row of a block its runtime, 0 for a load that cannot run and NaN for none", () => {
    const loads = Float64Array.of(0.05, 0.1, 0.5, 20, 0);
    const [times] = program.block(5, new Map([["P", loads]]), ["t"]);
    expect([times?.[0], times?.[1], times?.[2]]).toEqual([0.05, 0.1, 0.5].map((P) => direct(P, 1440, 0.5)));
    expect([times?.[3], times?.[4]]).toEqual([0, Number.NaN]);
  });

  it("has its worst case at the corner of most load, least charge and most resistance", () => {
    const { worst } = new Evaluation(graph).analysis("t");
    expect(worst?.low).toBeCloseTo(direct(0.11, 1440 * 0.95, 0.6), 6);
    expect(worst?.high).toBeCloseTo(direct(0.09, 1440 * 1.05, 0.4), 6);
  });
});
