import { describe, expect, it } from "vitest";
import { readDesign } from "../../lib/design/read";
import type { GivenNode, TableNode } from "../../lib/graph/node";
import { failure, sound, spoil } from "./fixture";

const design = readDesign(sound, "d.yaml");

describe("readDesign", () => {
  it("gives a value in SI with its text, spread, meaning and provenance", () => {
    const node = design.given("rails.high") as GivenNode;
    expect(node).toMatchObject({
      kind: "given",
      id: "givens.rails.high",
      path: "rails.high",
      text: "4.5 V ±2 %",
      nominal: 4.5,
      unit: "V",
      dimension: "kg·m²·s⁻³·A⁻¹",
      symbol: "V_h",
      meaning: "the high rail",
      provenance: { source: "own", fromMemory: true, place: "d.yaml:22:14" },
    });
    expect(node.spread.kind).toBe("rectangular");
    expect(node.spread).toMatchObject({ low: expect.closeTo(4.41, 12), high: expect.closeTo(4.59, 12) });
  });

  it("gives a table in SI with names and units of both columns", () => {
    expect(design.given("lamp.iv") as TableNode).toMatchObject({
      kind: "table",
      xName: "voltage",
      xUnit: "V",
      yName: "current",
      unit: "mA",
      dimension: "A",
      interpolation: "log-y",
      x: [1.8, 1.9, 2],
      y: [expect.closeTo(1e-4, 15), 1e-3, expect.closeTo(5.5e-3, 15)],
      provenance: { source: "own", place: "d.yaml:33:9" },
    });
  });

  it("keeps HTML in notes as plain text", () => {
    expect(design.given("rails.high").provenance.note).toBe("<b>bold</b> & plain");
  });

  it("gives name, revision, decisions, readings and sources", () => {
    expect([design.name, design.revision]).toEqual(["Test", "1"]);
    expect(design.decision("decisions.lamp.rail")).toEqual({
      path: "decisions.lamp.rail",
      chosen: "high",
      reason: "it is higher",
      reconsider: "never",
      place: "d.yaml:16:15",
    });
    expect(design.readings).toEqual([
      {
        id: "first",
        result: "lamp.I",
        text: "2.1 mA",
        nominal: expect.closeTo(2.1e-3, 15),
        spread: { kind: "exact" },
        unit: "mA",
        dimension: "A",
        specimen: "prototype 3",
        source: "own",
        place: "d.yaml:42:12",
      },
    ]);
    expect(design.sources.get("own")).toEqual({ id: "own", type: "document", title: "Made up for this test" });
  });

  it("lists paths in the order of the file", () => {
    expect(design.paths()).toEqual(["rails.high", "lamp.iv"]);
  });

  it("tells the text at a path word for word, and where it stands", () => {
    expect(design.text("rails.high")).toMatch(/^value: 4\.5 V ±2 %\n[\s\S]*memory: true$/);
    expect(design.text("decisions.lamp.rail")).toBe("high");
    expect(design.place("decisions.lamp.rail")).toBe("d.yaml:16:15");
    expect(design.place("rails.hihg")).toBeUndefined();
  });

  it("answers an unknown path with the nearest ones and the file", () => {
    expect(() => design.given("rails.hihg")).toThrow("d.yaml has no given 'rails.hihg'; did you mean 'rails.high'?");
    expect(() => design.given("zzz")).toThrow("d.yaml has no given 'zzz'; add it to the file, or use one of its 2 paths");
    expect(() => design.requirement("ledd")).toThrow("d.yaml has no requirement 'ledd'; did you mean 'led'?");
    expect(() => design.decision("decisions.lamp.rial")).toThrow("did you mean 'decisions.lamp.rail'?");
  });

  it("takes a bare number as dimensionless and keeps its digits", () => {
    const read = readDesign(spoil("value: 4.5 V ±2 %", "value: 0.50"), "d.yaml");
    expect(read.given("rails.high")).toMatchObject({ text: "0.50", nominal: 0.5, dimension: "1" });
  });

  it("reads files with Windows line ends the same", () => {
    expect(readDesign(sound.replaceAll("\n", "\r\n"), "d.yaml").given("rails.high")).toEqual(design.given("rails.high"));
  });

  it("lists all errors of a file at once, in its order", () => {
    const text = spoil("value: 4.5 V ±2 %", "value: 4.5 Vv").replace("judged: 95 %", "judged: often").replace("symbol:", "symbl:");
    const lines = failure(text).split("\n");
    expect(lines[0]).toBe("d.yaml has 3 errors");
    expect(lines.slice(1).map((line) => /^d\.yaml:\d+:\d+/.exec(line)?.[0])).toEqual(["d.yaml:12:13", "d.yaml:22:18", "d.yaml:24:7"]);
  });

  it("throws one error of code design that knows the first place", () => {
    expect(() => readDesign("product: 1", "d.yaml")).toThrow(
      expect.objectContaining({ code: "design", details: { place: "d.yaml:1:10" } }),
    );
  });
});
