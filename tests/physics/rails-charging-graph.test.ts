/** A bank of capacitors and a charge as nodes of a graph: block evaluation, and the analysis of a spread, are what worksheets see. */
import { describe, expect, it } from "vitest";
import { Evaluation } from "../../lib/analysis/evaluation";
import { Graph } from "../../lib/graph/graph";
import { curveArgument } from "../../lib/graph/model";
import type { GivenNode, GraphNode, TableNode } from "../../lib/graph/node";
import { Program } from "../../lib/graph/program";
import { charging, rails } from "../../lib/physics";

const provenance = { source: "test" };
const [ohm, henry, farad] = ["kg·m²·s⁻³·A⁻²", "kg·m²·s⁻²·A⁻²", "kg⁻¹·m⁻²·s⁴·A²"];
const [volt, ampere, watt, hertz] = ["kg·m²·s⁻³·A⁻¹", "A", "kg·m²·s⁻³", "s⁻¹|frequency"];

function given(id: string, nominal: number, unit: string, dimension: string, share = 0): GivenNode {
  const spread =
    share === 0
      ? ({ kind: "exact" } as const)
      : ({ kind: "rectangular", low: nominal * (1 - share), high: nominal * (1 + share) } as const);
  return { kind: "given", id, path: id, text: `${nominal} ${unit}`, nominal, spread, unit, dimension, provenance };
}

function model(name: string, output: string, dimension: string, unit: string, inputs: readonly string[]): GraphNode {
  return { kind: "model", id: output, model: name, output, arguments: Object.fromEntries(inputs.map((id) => [id, id])), dimension, unit };
}

const ocv: TableNode = {
  kind: "table",
  id: "ocv",
  path: "ocv",
  xName: "state of charge",
  yName: "open-circuit voltage",
  xDimension: "1",
  xUnit: "1",
  dimension: volt,
  unit: "V",
  x: [0, 0.1, 0.5, 1],
  y: [3, 3.6, 3.8, 4.2],
  interpolation: "linear",
  provenance,
};

describe("charging.linearCharge in a graph", () => {
  const nodes: GraphNode[] = [
    given("I", 0.28, "A", ampere, 0.1),
    given("V_cv", 4.2, "V", volt, 0.005),
    given("I_end", 0.02, "A", ampere),
    given("I_pre", 0.04, "A", ampere),
    given("V_pre", 3, "V", volt),
    given("V_in", 4.75, "V", volt),
    given("I_in", 0.5, "A", ampere),
    given("R_on", 0.5, "Ω", ohm),
    given("P_max", 2, "W", watt),
    given("Q", 1440, "C", "s·A", 0.05),
    given("R", 0.4, "Ω", ohm),
    given("R_d", 0.5, "Ω", ohm, 0.2),
    given("tau", 300, "s", "s"),
    given("s_0", 0, "1", "1"),
    ocv,
  ];
  const inputs = nodes.map(({ id }) => id);
  const graph = Graph.from([...nodes, model("charging.linearCharge", "t", "s", "h", inputs)]);
  const exact = { I_end: 0.02, I_pre: 0.04, V_pre: 3, V_in: 4.75, I_in: 0.5, R_on: 0.5, P_max: 2, R: 0.4, tau: 300, s_0: 0 };
  const table = curveArgument({ x: Float64Array.from(ocv.x), y: Float64Array.from(ocv.y) });
  const direct = (I: number, V_cv: number, Q: number, R_d: number): number =>
    charging.linearCharge.evaluate({ ...exact, I, V_cv, Q, R_d, ocv: table }).t;

  it("gives the nominal time, every row of a block its own, and NaN for what cannot be charged", () => {
    const program = Program.compile(graph, ["t"]);
    expect(program.value("t")).toBe(direct(0.28, 4.2, 1440, 0.5));
    const [times] = program.block(3, new Map([["I", Float64Array.of(0.2, 0.28, 0)]]), ["t"]);
    expect([times?.[0], times?.[1], times?.[2]]).toEqual([direct(0.2, 4.2, 1440, 0.5), direct(0.28, 4.2, 1440, 0.5), Number.NaN]);
  });

  it("is longest with the least current, the largest cell and the most diffusion", () => {
    const { worst } = new Evaluation(graph, { samples: 200 }).analysis("t");
    const corners = [4.179, 4.221].map((V_cv) => direct(0.252, V_cv, 1512, 0.6));
    expect(worst?.high).toBeGreaterThanOrEqual(Math.max(...corners) * (1 - 1e-9));
    expect(worst?.high).toBeLessThan(Math.max(...corners) * 1.001);
    expect(worst?.low).toBeLessThan(direct(0.28, 4.2, 1440, 0.5));
  });
});

describe("rails.bankAntiResonance in a graph", () => {
  const kinds = [
    [10e-6, 5e-3, 1e-9, 1],
    [100e-9, 20e-3, 0.5e-9, 1],
    [0, 0, 0, 0],
    [0, 0, 0, 0],
  ] as const;
  const nodes: GraphNode[] = [
    given("f_1", 1e5, "Hz", hertz),
    given("f_2", 1e9, "Hz", hertz),
    ...kinds.flatMap(([C, ESR, ESL, n], k) => [
      given(`C_${k + 1}`, C, "F", farad, C === 10e-6 ? 0.2 : 0),
      given(`ESR_${k + 1}`, ESR, "Ω", ohm, ESR > 0 ? 0.3 : 0),
      given(`ESL_${k + 1}`, ESL, "H", henry),
      given(`n_${k + 1}`, n, "1", "1"),
    ]),
  ];
  const inputs = nodes.map(({ id }) => id);
  const graph = Graph.from([...nodes, model("rails.bankAntiResonance", "Z", ohm, "Ω", inputs)]);

  it("is highest with the least resistance, and its nominal value is the model's", () => {
    const { nominal, worst } = new Evaluation(graph, { samples: 500 }).analysis("Z");
    const at = (ESR_1: number, ESR_2: number): number => {
      const plain = Object.fromEntries(nodes.map((node) => [node.id, (node as GivenNode).nominal]));
      return rails.bankAntiResonance.evaluate({ ...plain, ESR_1, ESR_2 } as Parameters<typeof rails.bankAntiResonance.evaluate>[0]).Z;
    };
    expect(nominal).toBeCloseTo(at(5e-3, 20e-3), 12);
    expect(worst?.high).toBeGreaterThanOrEqual(at(3.5e-3, 14e-3) * (1 - 1e-9));
    expect(worst?.low).toBeLessThanOrEqual(at(6.5e-3, 26e-3));
  });
});
