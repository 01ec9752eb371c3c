/** Models of amplifiers as nodes of a graph: block evaluation, and the analysis of a spread, are what worksheets see. */
import { describe, expect, it } from "vitest";
import { Evaluation } from "../../../lib/analysis/evaluation";
import { Graph } from "../../../lib/graph/graph";
import type { GivenNode, GraphNode } from "../../../lib/graph/node";
import { Program } from "../../../lib/graph/program";
import { audio } from "../../../lib/physics";

const provenance = { source: "test" };
const [ohm, farad, volt, ampere, watt] = ["kg·m²·s⁻³·A⁻²", "kg⁻¹·m⁻²·s⁴·A²", "kg·m²·s⁻³·A⁻¹", "A", "kg·m²·s⁻³"];
const [hertz, density, currentDensity, kelvin] = ["s⁻¹|frequency", "kg·m²·s^(-5/2)·A⁻¹", "s^(1/2)·A", "K|temperature"];

function given(id: string, nominal: number, unit: string, dimension: string, share = 0): GivenNode {
  const spread =
    share === 0
      ? ({ kind: "exact" } as const)
      : ({ kind: "rectangular", low: nominal * (1 - share), high: nominal * (1 + share) } as const);
  return { kind: "given", id, path: id, text: `${nominal} ${unit}`, nominal, spread, unit, dimension, provenance };
}

function model(name: string, output: string, dimension: string, unit: string, inputs: readonly GraphNode[]): GraphNode {
  const args = Object.fromEntries(inputs.map(({ id }) => [id, id]));
  return { kind: "model", id: output, model: name, output, arguments: args, dimension, unit };
}

const nominalOf = (nodes: readonly GivenNode[]) => Object.fromEntries(nodes.map(({ id, nominal }) => [id, nominal]));

describe("audio.outputNoiseA in a graph", () => {
  const nodes = [
    given("f_1", 20, "Hz", hertz),
    given("f_2", 20e3, "Hz", hertz),
    given("e_n", 2.7e-9, "V/√Hz", density, 0.15),
    given("f_e", 80, "Hz", hertz, 0.5),
    given("i_n", 2e-15, "A/√Hz", currentDensity),
    given("f_i", 0, "Hz", hertz),
    given("R_1", 250, "Ω", ohm, 0.01),
    given("C", 1e-6, "F", farad, 0.05),
    given("R_b", 47e3, "Ω", ohm, 0.01),
    given("R_f", 1200, "Ω", ohm, 0.005),
    given("R_g", 300, "Ω", ohm, 0.005),
    given("T", 298.15, "K", kelvin),
    given("f_b", 60e3, "Hz", hertz, 0.1),
  ];
  const graph = Graph.from([...nodes, model("audio.outputNoiseA", "V_n", volt, "V", nodes)]);
  type Given = Parameters<typeof audio.outputNoiseA.evaluate>[0];
  const direct = (more: object): number => audio.outputNoiseA.evaluate({ ...nominalOf(nodes), ...more } as Given).V_n;

  it("gives the nominal noise, and every row of a block its own", () => {
    const program = Program.compile(graph, ["V_n"]);
    expect(program.value("V_n")).toBe(direct({}));
    const [block] = program.block(2, new Map([["e_n", Float64Array.of(2e-9, 4e-9)]]), ["V_n"]);
    expect([block?.[0], block?.[1]]).toEqual([direct({ e_n: 2e-9 }), direct({ e_n: 4e-9 })]);
  });

  it("has its worst case at the most of every source and of the gain, and the voltage noise contributes most", () => {
    const { worst, contributions } = new Evaluation(graph).analysis("V_n");
    const most = { e_n: 2.7e-9 * 1.15, f_e: 120, R_1: 252.5, C: 0.95e-6, R_b: 47e3 * 0.99, R_f: 1206, R_g: 298.5, f_b: 66e3 };
    const other = { ...most, R_b: 47e3 * 1.01 };
    expect(worst?.high).toBeCloseTo(Math.max(direct(most), direct(other)), 12);
    expect(contributions?.[0]?.given).toBe("e_n");
  });
});

describe("audio.outputLimits in a graph", () => {
  const nodes = (R_L: number) => [
    given("V_s", 4.41, "V", volt, 0.02),
    given("V_h", 0.9, "V", volt, 0.1),
    given("R_s", 5.2, "Ω", ohm, 0.05),
    given("R_L", R_L, "Ω", ohm),
    given("I_max", 0.15, "A", ampere),
    given("I_q", 3e-3, "A", ampere),
    given("P_max", 0.5, "W", watt),
  ];
  const analysed = (R_L: number) => {
    const all = nodes(R_L);
    return new Evaluation(Graph.from([...all, model("audio.outputLimits", "P", watt, "W", all)]), { samples: 500 }).analysis("P");
  };

  it("has its least power at the least rail, the most headroom and the most resistance", () => {
    const { worst, warnings } = analysed(38);
    type Given = Parameters<typeof audio.outputLimits.evaluate>[0];
    const least = { ...nominalOf(nodes(38)), V_s: 4.41 * 0.98, V_h: 0.99, R_s: 5.46 } as Given;
    expect(worst?.low).toBeCloseTo(audio.outputLimits.evaluate(least).P, 12);
    expect(warnings).toEqual([]);
  });

  it("warns outside 8 Ω to 600 Ω", () => {
    expect(analysed(4).warnings.join()).toMatch(/^R_L is 4.Ω here; the law holds from 8.Ω to 600.Ω/);
  });
});

describe("audio.phaseDeviation in a graph", () => {
  const names = ["f_h1", "f_h2", "f_h3", "f_l1", "f_l2", "f_l3", "f_h0", "f_l0", "f_p", "f_z"];
  const values: Readonly<Record<string, number>> = { f_h1: 3.376, f_h2: 0.5, f_l1: 100e3 };
  const nodes = [
    given("f_1", 40, "Hz", hertz),
    given("f_2", 16e3, "Hz", hertz),
    ...names.map((name) => given(name, values[name] ?? 0, "Hz", hertz, { f_h1: 0.05, f_h2: 0.2 }[name] ?? 0)),
    given("Q_h", 1, "1", "1"),
    given("Q_l", 1, "1", "1"),
  ];

  it("has its worst case where both corners are highest: six degrees, on the limit of the brief", () => {
    const graph = Graph.from([...nodes, model("audio.phaseDeviation", "delta", "1|angle", "rad", nodes)]);
    const { worst } = new Evaluation(graph, { samples: 500 }).analysis("delta");
    type Given = Parameters<typeof audio.phaseDeviation.evaluate>[0];
    const most = { ...nominalOf(nodes), f_h1: 3.376 * 1.05, f_h2: 0.6 } as Given;
    expect(worst?.high).toBeCloseTo(audio.phaseDeviation.evaluate(most).delta, 9);
    expect(((worst?.high ?? 0) * 180) / Math.PI).toBeCloseTo(5.9, 1);
  });
});
