import Ajv2020 from "ajv/dist/2020";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { designSchema } from "../../lib/design/schema";
import { file, sound, spoil } from "./fixture";

const validate = new Ajv2020({ strict: true, strictRequired: false, unicodeRegExp: true }).compile(designSchema());

describe("designSchema", () => {
  it("is what data/design.schema.json holds", () => {
    expect(file("data/design.schema.json")).toBe(`${JSON.stringify(designSchema(), null, 2)}\n`);
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
