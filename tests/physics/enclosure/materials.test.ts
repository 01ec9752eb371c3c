import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { readReferences } from "../../../lib/design/reference";
import type { GivenNode } from "../../../lib/graph/node";

const file = "data/reference/materials.yaml";
const read = readReferences({ [file]: readFileSync(new URL(`../../../${file}`, import.meta.url), "utf8") });
const row = (name: string): GivenNode => read.nodes.get(`reference.materials.${name}`) as GivenNode;

// Density g/cm³, modulus GPa, Poisson's ratio, yield or strength MPa; handbook values from memory.
const materials: readonly [string, number, number, number, number][] = [
  ["abs", 1.05, 2.2, 0.37, 43],
  ["pc", 1.2, 2.35, 0.37, 62],
  ["pc-abs", 1.14, 2.4, 0.38, 55],
  ["pc-gf20", 1.35, 5.5, 0.36, 90],
  ["pa-gf30", 1.37, 6.5, 0.36, 115],
  ["pbt-gf30", 1.53, 9, 0.36, 130],
  ["aluminium", 2.7, 69, 0.33, 276],
  ["magnesium", 1.8, 45, 0.35, 150],
  ["steel", 8, 193, 0.29, 215],
];

describe("the table of materials", () => {
  it.each(materials)("gives %s with %f g/cm³, %f GPa, %f and %f MPa", (name, density, modulus, poisson, strength) => {
    expect(row(`${name}-density`).nominal).toBeCloseTo(density * 1e3, 9);
    expect(row(`${name}-modulus`).nominal / 1e9).toBeCloseTo(modulus, 9);
    expect(row(`${name}-poisson`).nominal).toBe(poisson);
    expect(row(`${name}-yield`).nominal / 1e6).toBeCloseTo(strength, 9);
  });

  it("holds these rows and no others, in the dimensions of the laws", () => {
    const names = materials.flatMap(([name]) =>
      ["density", "modulus", "poisson", "yield"].map((kind) => `reference.materials.${name}-${kind}`),
    );
    expect([...read.nodes.keys()]).toEqual(names);
    const dimensions = ["kg·m⁻³", "kg·m⁻¹·s⁻²", "1", "kg·m⁻¹·s⁻²"];
    expect(names.map((name) => (read.nodes.get(name) as GivenNode).dimension)).toEqual(materials.flatMap(() => dimensions));
  });

  it("states a tolerance, source, year and that it is from memory, in every row", () => {
    for (const node of read.nodes.values()) {
      expect((node as GivenNode).spread.kind).toBe("rectangular");
      expect(node.provenance).toMatchObject({ source: "reference.materials.handbook", fromMemory: true });
      expect(node.provenance.note).toMatch(/^2020/);
      expect(node.provenance.place).toMatch(/^data\/reference\/materials\.yaml:\d+:\d+$/);
    }
  });
});
