/** The schema by which editors complete a design file: what the reader accepts, it accepts, and it knows the same keys. */
import Ajv2020 from "ajv/dist/2020";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { blockKeys } from "../../lib/design/blocks";
import { commonKeys, correlationKeys } from "../../lib/design/correlation";
import { givenKeys } from "../../lib/design/given";
import { decisionKeys, designKeys, productKeys } from "../../lib/design/read";
import { statesKeys } from "../../lib/design/read-states";
import { batchKeys, readingKeys } from "../../lib/design/reading";
import { judgedWords, requirementKeys } from "../../lib/design/requirement";
import { cslFields, cslTypes } from "../../lib/design/source";
import { interpolations, tableKeys } from "../../lib/design/table";
import { file, sound, spoil } from "./fixture";

const schema = JSON.parse(file("data/design.schema.json"));
const definitions = schema.$defs;
const validate = new Ajv2020({ strict: true, strictRequired: false, unicodeRegExp: true }).compile(schema);

describe("data/design.schema.json", () => {
  it.each([
    ["the file", schema, designKeys],
    ["product", schema.properties.product, productKeys],
    ["requirement", definitions.requirement, requirementKeys],
    ["decision", definitions.decision, decisionKeys],
    ["reading", definitions.reading, readingKeys],
    ["batch", definitions.batch, batchKeys],
    ["correlation", definitions.correlation, correlationKeys],
    ["common cause", definitions.common, commonKeys],
    ["block", definitions.block, blockKeys],
    ["table of states", definitions.states, statesKeys],
    ["given", definitions.given, givenKeys],
    ["table", definitions.table, tableKeys],
    ["source", definitions.source, [...new Set([...cslFields, "type", "title"])]],
  ] as const)("has the keys of %s that the reader has", (_, { properties }, keys) => {
    expect(Object.keys(properties).toSorted()).toEqual([...keys].toSorted());
  });

  it("has the words that the reader has", () => {
    expect(definitions.source.properties.type.enum).toEqual([...cslTypes]);
    expect(definitions.requirement.properties.judged.enum).toEqual([...judgedWords]);
    expect(definitions.table.properties.interpolation.enum).toEqual([...interpolations]);
  });

  it("accepts correlations and a step, and refuses a coefficient beyond 1", () => {
    const rest = (coefficient: number) => `
product: { name: Test, revision: "1" }
sources: { own: { type: document, title: Made up for this test } }
givens:
  a: { value: 4.5 V σ 0.1 V, meaning: a, source: own, step: 1 V }
  b: { value: 3 A σ 0.1 A, meaning: b, source: own }
correlations:
  - { between: [b, a], coefficient: ${coefficient}, source: own, note: one reference }
common:
  reel: { paths: [a, b], share: 0.5, reason: one reel, source: own }
`;
    expect(validate(parse(rest(0.9))) || validate.errors).toBe(true);
    expect(validate(parse(rest(1.9)))).toBe(false);
  });

  it.each(["data/bittern/design.yaml", "tests/designs/second.yaml"])("accepts %s", (path) => {
    expect(validate(parse(file(path))) || validate.errors).toBe(true);
  });

  it("is named at the head of the demo's design file", () => {
    expect(file("data/bittern/design.yaml").split("\n")[0]).toBe("# yaml-language-server: $schema=../design.schema.json");
  });

  it("accepts what the reader accepts", () => {
    expect(validate(parse(sound)) || validate.errors).toBe(true);
  });

  it.each([
    ["an unknown key", "symbol: V_h", "symbl: V_h"],
    ["a missing meaning", "      meaning: the high rail\n", ""],
    ["a ragged row", "[1.9, 1]", "[1.9, 1, 2]"],
    ["an unknown way to judge", "95 %", "often"],
    ["a source of unknown type", "type: document", "type: documnt"],
    ["a name that cannot be part of a path", "    high:", "    a.b:"],
  ])("refuses %s", (_title, from, to) => {
    expect(validate(parse(spoil(from, to)))).toBe(false);
  });
});
