/** A filter and a discharge as nodes of a graph: block evaluation, and the analysis of a spread, are what worksheets see. */
import { describe, expect, it } from "vitest";
import { Evaluation } from "../../lib/analysis/evaluation";
import { Graph } from "../../lib/graph/graph";
import type { GivenNode, GraphNode } from "../../lib/graph/node";
import { Program } from "../../lib/graph/program";
import { esd, rf } from "../../lib/physics";

/** Units drawn: the worst case is searched without them. */
const samples = 500;
const provenance = { source: "test" };
const [ohm, henry, farad] = ["kg·m²·s⁻³·A⁻²", "kg·m²·s⁻²·A⁻²", "kg⁻¹·m⁻²·s⁴·A²"];
const [volt, ampere, hertz] = ["kg·m²·s⁻³·A⁻¹", "A", "s⁻¹|frequency"];

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

describe("rf.leastInsertionLoss in a graph", () => {
  const exact: readonly (readonly [string, number, string, string])[] = [
    ["f_1", 0.9e9, "Hz", hertz],
    ["f_2", 2.48e9, "Hz", hertz],
    ["R_s", 50, "Ω", ohm],
    ["L_s", 0, "H", henry],
    ["R_L", 50, "Ω", ohm],
    ["C_L", 0, "F", farad],
    ["C_1", 0, "F", farad],
    ["ESR_1", 0, "Ω", ohm],
    ["ESL_1", 0, "H", henry],
    ["L", 0.9e-6, "H", henry],
    ["R_dc", 0.35, "Ω", ohm],
    ["R_p", 1100, "Ω", ohm],
    ["ESR_2", 0.1, "Ω", ohm],
    ["C_3", 0, "F", farad],
    ["ESR_3", 0, "Ω", ohm],
    ["ESL_3", 0, "H", henry],
  ];
  const spread = [
    given("C_p", 0.15e-12, "F", farad, 1 / 3),
    given("C_2", 220e-12, "F", farad, 0.05),
    given("ESL_2", 0.55e-9, "H", henry, 3 / 11),
  ];
  const nodes: GraphNode[] = [...exact.map((row) => given(...row)), ...spread];
  const graph = Graph.from([
    ...nodes,
    model(
      "rf.leastInsertionLoss",
      "IL",
      "1|field gain",
      "dB",
      nodes.map(({ id }) => id),
    ),
  ]);
  const nominal = Object.fromEntries([
    ...exact.map(([id, value]) => [id, value] as const),
    ...spread.map((g) => [g.id, g.nominal] as const),
  ]);
  type Given = Parameters<typeof rf.leastInsertionLoss.evaluate>[0];
  const direct = (more: object): number => rf.leastInsertionLoss.evaluate({ ...nominal, ...more } as Given).IL;

  it("gives the nominal loss, and every row of a block its own", () => {
    const program = Program.compile(graph, ["IL"]);
    expect(program.value("IL")).toBe(direct({}));
    const ESL = Float64Array.of(0.4e-9, 0.7e-9);
    expect(Array.from((program.block(2, new Map([["ESL_2", ESL]]), ["IL"])[0] as Float64Array) ?? [])).toEqual([
      direct({ ESL_2: 0.4e-9 }),
      direct({ ESL_2: 0.7e-9 }),
    ]);
  });

  it("agrees with the least of the curve of losses over the same band", () => {
    const inputs = nodes.map(({ id }) => id);
    const curve = model("rf.insertionLossCurve", "IL", "1|field gain", "dB", inputs);
    const least: GraphNode = {
      kind: "curve-operation",
      id: "least",
      operation: "minimum",
      of: "IL",
      dimension: "1|field gain",
      unit: "dB",
    };
    const { worst } = new Evaluation(Graph.from([...nodes, curve, least]), { samples }).analysis("least");
    expect(Program.compile(Graph.from([...nodes, curve, least]), ["least"]).value("least")).toBeCloseTo(direct({}), 9);
    expect(worst?.low).toBeCloseTo(direct({ C_p: 0.2e-12, ESL_2: 0.7e-9, C_2: 231e-12 }), 6);
  });

  it("has its worst case at the most capacitance in both and the longest way to ground: above its resonance the shunt is its inductance", () => {
    const { worst } = new Evaluation(graph, { samples }).analysis("IL");
    expect(worst?.low).toBeCloseTo(direct({ C_p: 0.2e-12, ESL_2: 0.7e-9, C_2: 231e-12 }), 6);
    expect(20 * Math.log10(worst?.low ?? 1)).toBeLessThan(30);
  });
});

describe("esd.contactDischarge in a graph", () => {
  const exact: readonly (readonly [string, number, string, string])[] = [
    ["U", 8000, "V", volt],
    ["C_cl", 15e-12, "F", farad],
    ["L", 0.9e-6, "H", henry],
    ["L_sat", 100e-9, "H", henry],
    ["I_sat", 0.3, "A", ampere],
    ["R_dc", 0.35, "Ω", ohm],
    ["R_p", 1100, "Ω", ohm],
    ["C_pin", 5e-12, "F", farad],
    ["V_rail", 0, "V", volt],
    ["V_f", 0.6, "V", volt],
    ["R_pin", 0.3, "Ω", ohm],
    ["V_br", 5.5, "V", volt],
    ["L_st", 0.4e-9, "H", henry],
  ];
  const spread = [given("R_dyn", 0.12, "Ω", ohm, 0.25), given("R", 4.7, "Ω", ohm, 0.01)];
  const nodes: GraphNode[] = [...exact.map((row) => given(...row)), ...spread];
  const graph = Graph.from([
    ...nodes,
    model(
      "esd.contactDischarge",
      "I_pin",
      "A",
      "A",
      nodes.map(({ id }) => id),
    ),
  ]);
  const nominal = Object.fromEntries(exact.map(([id, value]) => [id, value] as const));
  type Given = Parameters<typeof esd.contactDischarge.evaluate>[0];
  const direct = (R_dyn: number, R: number): number => esd.contactDischarge.evaluate({ ...nominal, R_dyn, R } as Given).I_pin;

  it("gives the nominal current and its worst case at the softest clamp and the least resistor", () => {
    expect(Program.compile(graph, ["I_pin"]).value("I_pin")).toBe(direct(0.12, 4.7));
    const { worst, interval } = new Evaluation(graph, { samples }).analysis("I_pin");
    expect(worst?.high).toBeCloseTo(direct(0.15, 4.653), 6);
    expect(worst?.low).toBeCloseTo(direct(0.09, 4.747), 6);
    expect(interval).toBeDefined();
  });
});
