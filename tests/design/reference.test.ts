import { describe, expect, it } from "vitest";
import { readDesign } from "../../lib/design/read";
import { readReferences } from "../../lib/design/reference";
import type { GivenNode, TableNode } from "../../lib/graph/node";
import { preferredNumbers } from "../../lib/graph/preferred";
import { references, spoil } from "./fixture";

const read = references();
const constant = (name: string) => read.nodes.get(`reference.constants.${name}`) as GivenNode;

describe("the luminosity function", () => {
  const table = read.nodes.get("reference.luminosity") as TableNode;
  const at = (nm: number) => table.y[table.x.findIndex((x) => Math.abs(x - nm * 1e-9) < 1e-12)];

  // CIE 1924 V(λ), CIE S 010 / ISO 23539, 2° observer; seen in stored public tables.
  it.each([
    [470, 0.09098],
    [525, 0.7932],
    [555, 1],
    [620, 0.381],
    [380, 3.9e-5],
    [700, 0.004102],
    [780, 1.499e-5],
  ])("is right at %d nm", (nm, V) => {
    expect(at(nm)).toBe(V);
  });

  it("covers 380 nm to 780 nm in steps of 5 nm, rising to 555 nm and falling after", () => {
    expect([table.x.length, table.xUnit, table.dimension]).toEqual([81, "nm", "1"]);
    expect(table.x.every((x, i) => Math.abs(x - (380 + 5 * i) * 1e-9) < 1e-15)).toBe(true);
    expect(table.y.every((y, i) => i === 0 || (table.x[i] ?? 0) < 555.1e-9 === y > (table.y[i - 1] ?? 0))).toBe(true);
  });

  it("integrates to 106.857 nm, the sum that the CIE prints for 5 nm steps (21.371)", () => {
    expect(table.y.reduce((sum, y) => sum + y, 0)).toBeCloseTo(21.3713, 3);
  });

  it("brings its source, year and place", () => {
    expect(table.provenance).toMatchObject({
      source: "reference.luminosity.cie-s010",
      fromMemory: false,
      place: expect.stringMatching(/^data\/reference\/luminosity\.yaml:\d+:\d+$/),
    });
    expect(read.sources.get("reference.luminosity.cie-s010")?.type).toBe("standard");
    expect(table.provenance.note).toMatch(/^1924/);
  });
});

describe("the constants", () => {
  // SI Brochure, 9th ed. 2019; CODATA 2022.
  it.each([
    ["k", 1.380649e-23],
    ["q", 1.602176634e-19],
    ["h", 6.62607015e-34],
    ["c", 299792458],
    ["N_A", 6.02214076e23],
    ["K_m", 683],
    ["T_0", 273.15],
    ["g_n", 9.80665],
    ["atm", 101325],
    ["R", 8.31446261815324],
    ["sigma", 5.670374419e-8],
    ["mu_0", 1.25663706127e-6],
    ["epsilon_0", 8.8541878188e-12],
  ])("%s is right in SI", (name, value) => {
    expect(Math.abs(constant(name).nominal / value - 1)).toBeLessThan(1e-14);
  });

  it("are exact or carry their uncertainty", () => {
    expect(constant("k").spread).toEqual({ kind: "exact" });
    expect(constant("mu_0").spread.kind).toBe("rectangular");
  });
});

describe("the preferred numbers", () => {
  const values = (series: string) => read.lists.get(`reference.preferred-numbers.${series}`)?.values ?? [];

  it.each([3, 6, 12, 24, 48, 96, 192])("E%d has as many values as its name says, increasing", (count) => {
    expect(values(`E${count}`)).toHaveLength(count);
    expect(values(`E${count}`)).toEqual([...values(`E${count}`)].sort((a, b) => a - b));
  });

  it("are the ones from which the graph selects", () => {
    for (const [series, numbers] of Object.entries(preferredNumbers)) {
      const digits = numbers.map((x) => Number((x / (numbers[0] ?? 1)).toFixed(6)));
      expect(digits).toEqual(values(series).map((x) => Number((x / (values(series)[0] ?? 1)).toFixed(6))));
    }
  });

  it("keep the hand-made E24 and 920 of E192", () => {
    expect(values("E24")).toEqual(expect.arrayContaining([27, 30, 33, 36, 39, 43, 47, 82]));
    expect(values("E192")).toContain(920);
    expect(values("E192")).not.toContain(919);
  });

  it.each([
    [3, 6],
    [6, 12],
    [12, 24],
    [48, 96],
    [96, 192],
  ])("E%d is part of E%d", (few, many) => {
    expect(values(`E${many}`)).toEqual(expect.arrayContaining([...values(`E${few}`)]));
  });
});

describe("a design and its reference tables", () => {
  it("finds a reference by its path, or under a path of its own", () => {
    const design = readDesign(
      spoil("value: 4.5 V ±2 %", "reference: constants.k").replace(
        "      source: own\n      note: <b>bold</b> & plain\n      memory: true\n",
        "",
      ),
      "d.yaml",
      read,
    );
    expect(design.given("reference.constants.k")).toBe(constant("k"));
    expect(design.given("rails.high")).toMatchObject({
      id: "givens.rails.high",
      path: "rails.high",
      nominal: 1.380649e-23,
      symbol: "V_h",
      meaning: "the high rail",
      provenance: constant("k").provenance,
    });
    expect(design.text("rails.high")).toContain("1.380649e-23 J/K");
    expect(design.text("reference.constants.k")).toMatch(/^value: 1\.380649e-23 J\/K\n/);
    expect(design.sources.has("reference.constants.si")).toBe(true);
  });

  it("names the nearest reference", () => {
    expect(() => readDesign(spoil("value: 4.5 V ±2 %", "reference: luminosty"), "d.yaml", read)).toThrow(
      "d.yaml:22:18: unknown reference 'luminosty' of given 'rails.high'; expected the path of a reference table or row; did you mean 'luminosity'?",
    );
  });

  it("finds line and column of what is wrong in a reference file", () => {
    const text =
      "name: mine\nsources:\n  own: { type: document, title: Mine }\nentries:\n  a:\n    value: 1 V\n    meaning: one\n    source: own\n";
    expect(() => readReferences({ "r.yaml": text })).toThrow(
      /^r\.yaml has 2 errors\nr\.yaml:6:5: entry 'a' has no year; .*\nr\.yaml:6:5: entry 'a' has no memory; .*$/,
    );
    expect(() => readReferences({ "r.yaml": "name: mine\n" })).toThrow("r.yaml:1:1: the reference file has no entries");
  });
});
