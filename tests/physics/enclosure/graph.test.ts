import { describe, expect, it } from "vitest";
import { Graph } from "../../../lib/graph/graph";
import type { GivenNode, GraphNode } from "../../../lib/graph/node";
import { Program } from "../../../lib/graph/program";
import { enclosure } from "../../../lib/physics";

function given(id: string, nominal: number, unit: string, dimension: string): GivenNode {
  return {
    kind: "given",
    id,
    path: id,
    text: `${nominal} ${unit}`,
    nominal,
    spread: { kind: "exact" },
    unit,
    dimension,
    provenance: { source: "test" },
  };
}

const plate = { a: 0.032, b: 0.054, u: 0.0104, v: 0.0104 };
const nodes: GraphNode[] = [
  given("F", 40, "N", "kg·m·s⁻²"),
  given("D", 1.87, "N·m", "kg·m²·s⁻²"),
  ...Object.entries(plate).map(([id, nominal]) => given(id, nominal, "m", "m")),
  ...(["supportedPatchDeflection", "clampedPatchDeflection"] as const).map(
    (name): GraphNode => ({
      kind: "model",
      id: name,
      model: `enclosure.${name}`,
      output: "w",
      arguments: { F: "F", a: "a", b: "b", u: "u", v: "v", D: "D" },
      dimension: "m",
      unit: "mm",
    }),
  ),
];

describe("plate models in a graph", () => {
  it.each(["supportedPatchDeflection", "clampedPatchDeflection"] as const)(
    "%s gives every row its deflection, and NaN for a patch too large",
    (name) => {
      const program = Program.compile(Graph.from(nodes), [name]);
      const args = { F: 40, D: 1.87, ...plate };
      expect(program.value(name)).toBe(enclosure[name].evaluate(args).w);
      const patches = Float64Array.of(0.005, 0.0104, 0.02, 0.04);
      const [w] = program.block(4, new Map([["u", patches]]), [name]);
      for (let i = 0; i < 3; i++) expect(w?.[i]).toBe(enclosure[name].evaluate({ ...args, u: patches[i] ?? Number.NaN }).w);
      expect(w?.[3]).toBeNaN();
    },
  );
});
