import { describe, expect, it } from "vitest";
import { Finder } from "../../lib/document/model/finder";
import { madeBook } from "../book/made";
import { graph, lampSheet } from "./fixture";

const { blocks } = madeBook([lampSheet]);
const answers = Object.values(blocks).flatMap((block) => (block.type === "requirement" ? [block] : []));
const requirements = answers.map(({ requirement, node }) => ({
  id: requirement,
  statement: requirement,
  limit: {},
  unit: "A",
  dimension: "A",
  judged: "typical" as const,
  answers: [{ node, sheet: "lamp" }],
}));
const finder = new Finder({ blocks, requirements }, graph);
const ids = (query: string) => finder.find(query, 20).map(({ node }) => node.id);

describe("finding a number", () => {
  it("by symbol puts the number of that symbol first", () => {
    expect(ids("V_f")[0]).toBe("givens.lamp.forward");
    expect(ids("v_f")[0]).toBe("givens.lamp.forward");
  });

  it("by words of its meaning finds each number that has them all, in any order", () => {
    expect(ids("forward voltage lamp")).toContain("givens.lamp.forward");
    expect(ids("voltage forward")).toContain("givens.lamp.forward");
    expect(ids("forward elephant")).toEqual([]);
  });

  it("by a value finds what shows it, and by that alone", () => {
    const found = finder.find("4.5 V", 20, ({ id }) => (id === "givens.supply.high" ? "4.5\u00a0V ±2\u00a0%" : "14.5\u00a0V"));
    expect(found.map(({ node }) => node.id)).toEqual(["givens.supply.high"]);
  });

  it("by the path in the design file finds that given", () => {
    expect(ids("supply.high")[0]).toBe("givens.supply.high");
    expect(ids("high")[0]).toBe("givens.supply.high");
  });

  it("says nothing to nothing, and no more than it is asked for", () => {
    expect(ids("  ")).toEqual([]);
    expect(finder.find("l", 3)).toHaveLength(3);
  });

  it("leads only to places that the document has", () => {
    for (const { target } of finder.places()) expect(target).toMatch(/^(node|register)-/);
  });
});

describe("what rests on a number", () => {
  it("is what is computed from it and shown next, and every requirement that it bears on", () => {
    const { places, requirements: borne } = finder.uses("givens.lamp.forward");
    expect(places.length).toBeGreaterThan(0);
    for (const { node } of places) expect(graph.ancestors([node.id])).toContain("givens.lamp.forward");
    const expected = answers
      .filter(({ node }) => graph.ancestors([node]).includes("givens.lamp.forward"))
      .map(({ requirement }) => requirement);
    expect(borne.toSorted()).toEqual(expected.toSorted());
    expect(borne.length).toBeGreaterThan(0);
  });

  it("is nothing where nothing is computed from it", () => {
    expect(finder.uses("lamp.nothing")).toEqual({ places: [], requirements: [] });
  });
});
