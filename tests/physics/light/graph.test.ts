import { describe, expect, it } from "vitest";
import { Graph } from "../../../lib/graph/graph";
import type { GivenNode, GraphNode, TableNode } from "../../../lib/graph/node";
import { Program } from "../../../lib/graph/program";
import { light } from "../../../lib/physics";

const provenance = { source: "test" };

function given(id: string, nominal: number, unit: string, dimension: string): GivenNode {
  return { kind: "given", id, path: id, text: `${nominal} ${unit}`, nominal, spread: { kind: "exact" }, unit, dimension, provenance };
}

const diode: TableNode = {
  kind: "table",
  id: "diode",
  path: "diode",
  xName: "forward voltage",
  yName: "forward current",
  xDimension: "kg·m²·s⁻³·A⁻¹",
  xUnit: "V",
  dimension: "A",
  unit: "A",
  x: [2.618, 2.754, 2.85, 2.938, 3.196],
  y: [5e-5, 5e-4, 2e-3, 5e-3, 2e-2],
  interpolation: "log-y",
  provenance,
};
const voltage = "kg·m²·s⁻³·A⁻¹";
const nodes: GraphNode[] = [
  given("V_s", 3, "V", voltage),
  given("R", 75, "Ω", "kg·m²·s⁻³·A⁻²"),
  given("dV", 0, "V", voltage),
  diode,
  {
    kind: "model",
    id: "I",
    model: light.operatingPoint.name,
    output: "I",
    arguments: { V_s: "V_s", R: "R", dV: "dV", diode: "diode" },
    dimension: "A",
    unit: "mA",
  },
];

describe("light.operatingPoint in a graph", () => {
  const program = Program.compile(Graph.from(nodes), ["I"]);
  const row = { V_s: 3, R: 75, dV: 0, diode: { ...diode, x: Float64Array.from(diode.x), y: Float64Array.from(diode.y), at: Number } };

  it("gives the nominal current", () => {
    expect(program.value("I")).toBe(light.operatingPoint.evaluate(row).I);
  });

  it("gives every row of a block its current, and NaN above the table", () => {
    const supplies = Float64Array.of(2.5, 2.94, 3.0, 3.06, 24);
    const [currents] = program.block(5, new Map([["V_s", supplies]]), ["I"]);
    for (let i = 0; i < 4; i++) {
      expect(currents?.[i]).toBe(light.operatingPoint.evaluate({ ...row, V_s: supplies[i] ?? Number.NaN }).I);
    }
    expect(currents?.[4]).toBeNaN();
  });
});
