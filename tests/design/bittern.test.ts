import { describe, expect, it } from "vitest";
import { readDesign } from "../../lib/design/read";
import type { GivenNode, TableNode } from "../../lib/graph/node";
import { bittern, file, references } from "./fixture";

const design = bittern();
const second = readDesign(file("tests/designs/second.yaml"), "tests/designs/second.yaml", references(), (name) =>
  file(`tests/designs/${name}`),
);

describe("the demo's design file", () => {
  it("states every requirement of the brief and how each is judged", () => {
    const rows = design.requirements();
    expect(rows.length).toBe(48);
    expect(rows.filter(({ judged }) => judged === "typical").map(({ id }) => id)).toEqual(["cost"]);
    expect(design.requirement("led")).toMatchObject({ limit: { high: 1.3 }, judged: "95 %", unit: "1" });
    expect(rows.every(({ source }) => source === "brief")).toBe(true);
  });

  it.each(["green", "red", "amber"])(
    "gives the %s LED an I–V table through its forward voltage and a relative intensity of 1 at the test current",
    (colour) => {
      const iv = design.given(`indicators.${colour}.iv`) as TableNode;
      const relative = design.given(`indicators.${colour}.relative`) as TableNode;
      const forward = design.given(`indicators.${colour}.forward`) as GivenNode;
      const current = (design.given("indicators.test-current") as GivenNode).nominal;
      expect(iv.x[iv.y.findIndex((I) => Math.abs(I - current) < 1e-12)]).toBeCloseTo(forward.nominal, 12);
      expect(relative.y[relative.x.findIndex((I) => Math.abs(I - current) < 1e-12)]).toBe(1);
      expect(iv.x.length).toBeGreaterThanOrEqual(8);
      expect(iv.y.every((I, i) => i === 0 || I > (iv.y[i - 1] ?? 0))).toBe(true);
      expect(forward.spread).toMatchObject({ kind: "normal", coverage: 3 });
    },
  );

  it("has a condition of use only where every unit meets it", () => {
    const ranges = design.paths().filter((path) => {
      const node = design.given(path);
      return node.kind === "given" && node.spread.kind === "range";
    });
    expect(ranges).toEqual([
      "charging.source.voltage",
      "ambient.field",
      "board.temperature",
      "enclosure.cell.life",
      "enclosure.drop.temperature",
      "emission.cell",
      "filter.phone.distance",
      "discharge.pressure",
    ]);
  });

  it("has a second file with the same paths and other numbers beside it", () => {
    expect(second.paths()).toEqual(design.paths());
    const same = design.paths().filter((path) => second.text(path) === design.text(path));
    expect(same).toEqual([]);
    for (const path of design.paths()) expect(second.given(path).dimension).toBe(design.given(path).dimension);
    expect(second.decision("decisions.indicators.rail").chosen).toBe("auxiliary");
  });
});
